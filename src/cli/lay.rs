use super::arguments::Lay;
use super::choices::{EffortName, Fold, LayForm};
use super::cut::cut_sizes;
use super::length::length;
use super::outcome::{Outcome, Trouble};
use super::spared::spared;
use super::work::{sound_garment, unwritable};
use super::{output, progress, remedy};
use fustian::Compiled;
use fustian::cutting::{Spread, WorkedSize};
use fustian::emit::{drawing, lays_document, lays_text, svg};
use fustian::garment::FabricId;
use fustian::lay::{Allowance, Progress};
use fustian::materials::{Buying, Effort, GarmentLay, LayOrder, buying, cloths_of, lay_garment};
use fustian::report::{amount, nearest};
use rayon::prelude::*;
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Instant;

/// Lays the pieces of a garment without mistakes on their cloths.
pub fn run(command: &Lay) -> Result<Outcome, Trouble> {
    let compiled = match sound_garment(&command.file, command.folder.root.as_deref())? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    let sizes = match cut_sizes(&compiled, &command.sizes)? {
        Ok(sizes) => with_parts(&compiled, sizes),
        Err(outcome) => return Ok(outcome),
    };
    let wanted = match &command.fabric {
        Some(name) => Some(fabric_called(&compiled, &sizes, name)?),
        None => None,
    };
    spared(&compiled.map, &[command.svg.as_deref()])?;
    // Sizes that are named are cut together; else each is cut by itself.
    let groups: Vec<&[&WorkedSize]> = match command.sizes.is_empty() {
        true => sizes.chunks(1).collect(),
        false => vec![&sizes],
    };
    let mut asked: Vec<(&[&WorkedSize], FabricId)> = Vec::new();
    for group in groups {
        let cloths = cloths_of(&compiled.garment, group).into_iter();
        asked.extend(
            cloths.filter(|cloth| wanted.is_none_or(|wanted| wanted == *cloth)).map(|cloth| (group, cloth)),
        );
    }
    let lays = match command.seconds {
        Some(seconds) => for_seconds(&compiled, command, &asked, seconds),
        None => for_effort(&compiled, command, &asked),
    };
    // One way to fold need not do for every cloth of a garment.
    let of_several = command.fold.is_some() && asked.iter().any(|one| asked.iter().any(|two| one.1 != two.1));
    let lays = lays.map_err(|trouble| match trouble {
        Trouble::Message(words) if of_several => {
            Trouble::Message(format!("{words}; --fabric NAME lays each cloth its own way"))
        }
        other => other,
    })?;
    let garment = &compiled.garment;
    // The drawing first: when it cannot be written, nothing is said on standard output.
    if let Some(path) = &command.svg {
        let title = format!("{}: lay plans", garment.title);
        output::put_into(path, svg(&drawing::lays(garment, &lays), &title))?;
    }
    let text = match command.format {
        LayForm::Text => lays_text(garment, &lays),
        LayForm::Json => {
            serde_json::to_string_pretty(&lays_document(garment, &lays)).map_err(unwritable)? + "\n"
        }
    };
    output::put(&text)?;
    Ok(Outcome::Good)
}

/// Those of the sizes that something is cut for.
pub fn with_parts<'a>(compiled: &Compiled, mut sizes: Vec<&'a WorkedSize>) -> Vec<&'a WorkedSize> {
    sizes.retain(|size| !size.cut(&compiled.garment).parts.is_empty());
    sizes
}

fn fabric_called(compiled: &Compiled, sizes: &[&WorkedSize], name: &str) -> Result<FabricId, Trouble> {
    let garment = &compiled.garment;
    let cloths = cloths_of(garment, sizes);
    if let Some(&fabric) = cloths.iter().find(|&&cloth| *garment.fabric(cloth).name == *name) {
        return Ok(fabric);
    }
    let known: Vec<&str> = cloths.iter().map(|&cloth| &*garment.fabric(cloth).name).collect();
    let meant = nearest(name, known.iter().copied())
        .map_or_else(String::new, |meant| format!("; did you mean {meant}?"));
    Err(Trouble::Message(format!(
        "nothing is cut from a fabric {name:?} here, but from {}{meant}",
        known.join(", ")
    )))
}

fn order<'a>(compiled: &Compiled, command: &Lay, allowance: Allowance<'a>) -> Result<LayOrder<'a>, Trouble> {
    let space = match &command.space {
        Some(space) => length("--space", space, compiled.garment.unit)?,
        None => 0.0,
    };
    Ok(LayOrder { space, allowance, seed: command.seed, ..LayOrder::default() })
}

fn spread(compiled: &Compiled, command: &Lay, fabric: FabricId) -> Option<Spread> {
    Some(match command.fold? {
        Fold::Open => Spread::Open,
        Fold::Lengthwise if compiled.garment.fabric(fabric).tubular => Spread::Tube,
        Fold::Lengthwise => Spread::Lengthwise,
    })
}

/// What a program that is interrupted ends with: 128 and the number of the signal (POSIX, `sh`).
const INTERRUPT: i32 = 130;

type Lays = Vec<(GarmentLay, Buying)>;

/// Bounded in work: cloths side by side, which changes nothing of what comes out.
fn for_effort(
    compiled: &Compiled,
    command: &Lay,
    asked: &[(&[&WorkedSize], FabricId)],
) -> Result<Lays, Trouble> {
    let effort = match command.effort {
        EffortName::Quick => Effort::Quick,
        EffortName::Normal => Effort::Normal,
        EffortName::Long => Effort::Long,
    };
    let order = order(compiled, command, Allowance::Work(effort))?;
    let talk = Talk::new(compiled);
    let lay = |&(group, fabric): &(&[&WorkedSize], FabricId)| {
        let order = LayOrder {
            spread: spread(compiled, command, fabric),
            threads: if asked.len() == 1 { 2 } else { 1 },
            ..order
        };
        finished(compiled, group, fabric, order, &mut |progress| talk.hear(group, fabric, progress))
    };
    let laid: Vec<Result<(GarmentLay, Buying), Trouble>> = asked.par_iter().map(lay).collect();
    laid.into_iter().collect()
}

/// Bounded in time, or until interrupted, a second time at once: one cloth after another, each with both processors and a
/// share of the time by its pieces.
fn for_seconds(
    compiled: &Compiled,
    command: &Lay,
    asked: &[(&[&WorkedSize], FabricId)],
    seconds: f64,
) -> Result<Lays, Trouble> {
    static INTERRUPTED: AtomicBool = AtomicBool::new(false);
    let interrupted = || {
        if INTERRUPTED.swap(true, Ordering::Relaxed) {
            std::process::exit(INTERRUPT);
        }
    };
    ctrlc::set_handler(interrupted)
        .map_err(|error| Trouble::Message(format!("an interrupt could not be prepared for: {error}")))?;
    let talk = Talk::new(compiled);
    let mut lays = Vec::new();
    let pieces = |&(group, fabric): &(&[&WorkedSize], FabricId)| -> usize {
        let cut = group.iter().flat_map(|size| &size.cut(&compiled.garment).parts);
        cut.filter(|part| part.fabric == Some(fabric)).count()
    };
    let all = asked.iter().map(pieces).sum::<usize>().max(1) as f64;
    let begun = Instant::now();
    let mut until = 0.0;
    for one @ &(group, fabric) in asked {
        // What a cloth leaves of its time the next ones have.
        let start = begun.elapsed().as_secs_f64();
        until += seconds * pieces(one) as f64 / all;
        let spent = move || match INTERRUPTED.load(Ordering::Relaxed) || until <= start {
            true => 1.0,
            false => (begun.elapsed().as_secs_f64() - start) / (until - start),
        };
        let order = LayOrder {
            spread: spread(compiled, command, fabric),
            threads: 2,
            ..order(compiled, command, Allowance::Until(&spent))?
        };
        lays.push(finished(compiled, group, fabric, order, &mut |progress| {
            talk.hear(group, fabric, progress)
        })?);
    }
    Ok(lays)
}

fn finished(
    compiled: &Compiled,
    group: &[&WorkedSize],
    fabric: FabricId,
    order: LayOrder,
    progress: &mut dyn FnMut(Progress),
) -> Result<(GarmentLay, Buying), Trouble> {
    let garment = &compiled.garment;
    let lay = lay_garment(garment, group, fabric, order, progress)
        .map_err(|trouble| Trouble::Message(trouble.worded(remedy::words).to_string()))?;
    let bought = buying(&lay.cloth, lay.length, lay.main_length, garment.unit);
    Ok((lay, bought))
}

/// How long the shortest lay is so far.
struct Talk<'a> {
    compiled: &'a Compiled,
    progress: Mutex<progress::Progress>,
}

impl<'a> Talk<'a> {
    fn new(compiled: &'a Compiled) -> Self {
        Talk { compiled, progress: Mutex::new(progress::Progress::begin()) }
    }

    fn hear(&self, group: &[&WorkedSize], fabric: FabricId, progress: Progress) {
        let Ok(mut line) = self.progress.lock() else { return };
        let garment = &self.compiled.garment;
        line.report(|| {
            let sizes = group.iter().map(|size| garment.size(size.id()));
            let sizes: Vec<&str> = sizes.map(|size| &*size.name).collect();
            format!(
                "{} {}: {}, usage {:.1} %",
                garment.fabric(fabric).name,
                sizes.join(", "),
                amount(progress.length, garment.unit),
                progress.usage * 100.0
            )
        });
    }
}
