use super::arguments::Print;
use super::cut::{cut_pieces, named};
use super::outcome::{Outcome, Trouble};
use super::output;
use super::progress::Progress;
use super::remedy;
use super::spared::spared;
use super::work::{picked, sound_garment};
use fustian::emit::drawing::Look;
use fustian::emit::{Wide, pdf, pdf_wide};
use fustian::garment::SizeId;
use fustian::report::DisplayUnit;

/// Prints the pieces of a garment without mistakes.
pub fn run(command: &Print) -> Result<Outcome, Trouble> {
    let compiled = match sound_garment(&command.file, command.folder.root.as_deref())? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    spared(&compiled.map, &[Some(&command.output)])?;
    // Where sizes lie in the nest depends on all of it.
    let of_nest: Option<Vec<SizeId>> = match command.nest {
        true => Some(picked(&compiled, &command.sizes)?.iter().map(|size| size.id()).collect()),
        false => None,
    };
    let sizes: &[String] = if command.nest { &[] } else { &command.sizes };
    let cuts = match cut_pieces(&compiled, sizes, &[])? {
        Ok(cuts) => cuts,
        Err(outcome) => return Ok(outcome),
    };
    let look = Look {
        lines: command.lines.map(Into::into),
        every_part: command.every_part,
        of_nest,
        only: named(&compiled.garment, &command.pieces)?,
        ..Look::printing()
    };
    if let Some(width) = &command.wide {
        let page =
            Wide { width: wide(width, compiled.garment.unit)?, dark: command.dark, grid: command.grid };
        let printed = pdf_wide(&compiled.garment, &cuts, page, &look).map_err(|reason| {
            Trouble::Message(format!(
                "--wide {width}: {reason}; take a wider one, or print fewer pieces with --pieces"
            ))
        })?;
        output::put_into(&command.output, printed)?;
        return Ok(Outcome::Good);
    }
    let mut progress = Progress::begin();
    let printed = pdf(&compiled.garment, &cuts, command.paper.into(), &look, &mut |done, all| {
        progress.report(|| format!("{done} of {all} pages"))
    });
    drop(progress);
    let printed = printed.map_err(|reason| {
        let ways: Vec<String> = reason.remedies().iter().copied().map(remedy::words).collect();
        Trouble::Message(format!("{reason}; {}", ways.join(", or ")))
    })?;
    output::put_into(&command.output, printed)?;
    Ok(Outcome::Good)
}

/// The width of a page as it is said, in millimetres: from a hand's to that of the widest plotters.
fn wide(said: &str, unit: DisplayUnit) -> Result<f64, Trouble> {
    let width = super::length::length("--wide", said, unit)?;
    if (200.0..=5_000.0).contains(&width) {
        return Ok(width);
    }
    Err(Trouble::Message(format!("--wide {said}: a page is from 20cm to 5m wide")))
}
