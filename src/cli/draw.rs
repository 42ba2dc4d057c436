use super::arguments::Draw;
use super::cut::cut_pieces;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::work::sound_garment;
use fustian::emit::{drawing, svg};

/// Draws the pieces of a garment without mistakes.
pub fn run(command: &Draw) -> Result<Outcome, Trouble> {
    let compiled = match sound_garment(&command.file, command.folder.root.as_deref())? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    let cuts = match cut_pieces(&compiled, &command.sizes, &command.pieces)? {
        Ok(cuts) => cuts,
        Err(outcome) => return Ok(outcome),
    };
    let sheet = drawing::sheet(&compiled.garment, &cuts);
    output::put_into(&command.output, svg(&sheet, &compiled.garment.title))?;
    Ok(Outcome::Good)
}
