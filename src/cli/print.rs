use super::arguments::Print;
use super::cut::{cut_pieces, named};
use super::outcome::{Outcome, Trouble};
use super::output;
use super::progress::Progress;
use super::remedy;
use super::spared::spared;
use super::work::sound_garment;
use fustian::emit::drawing::Look;
use fustian::emit::pdf;

/// Prints the pieces of a garment without mistakes.
pub fn run(command: &Print) -> Result<Outcome, Trouble> {
    let compiled = match sound_garment(&command.file, command.folder.root.as_deref())? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    spared(&compiled.map, &[Some(&command.output)])?;
    let cuts = match cut_pieces(&compiled, &command.sizes, &[])? {
        Ok(cuts) => cuts,
        Err(outcome) => return Ok(outcome),
    };
    let look = Look {
        lines: command.lines.map(Into::into),
        every_part: command.every_part,
        only: named(&compiled.garment, &command.pieces)?,
    };
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
