use super::arguments::Print;
use super::cut::cut_sizes;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::work::sound_garment;
use fustian::emit::pdf;
use std::time::{Duration, Instant};

/// What takes longer is told of, and again as often.
const PATIENCE: Duration = Duration::from_secs(1);

/// Prints the pieces of a garment without mistakes.
pub fn run(command: &Print) -> Result<Outcome, Trouble> {
    let compiled = match sound_garment(&command.file, command.folder.root.as_deref())? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    let cuts = match cut_sizes(&compiled, &command.sizes, &command.pieces)? {
        Ok(cuts) => cuts,
        Err(outcome) => return Ok(outcome),
    };
    let mut told = Instant::now();
    let mut progress = |done: usize, all: usize| {
        if told.elapsed() >= PATIENCE {
            told = Instant::now();
            output::say(&format!("{done} of {all} pages\n"));
        }
    };
    let printed = pdf(&compiled.garment, &cuts, command.paper.into(), &mut progress)
        .map_err(|reason| Trouble::Told(reason.to_string()))?;
    output::put_into(&command.output, printed)?;
    Ok(Outcome::Good)
}
