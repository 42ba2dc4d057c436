use super::arguments::Export;
use super::choices::Exchange;
use super::cut::cut_pieces;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::spared::spared;
use super::work::sound_garment;
use fustian::emit::dxf;

/// Writes the pieces of a garment without mistakes for other programs.
pub fn run(command: &Export) -> Result<Outcome, Trouble> {
    let compiled = match sound_garment(&command.file, command.folder.root.as_deref())? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    spared(&compiled.map, &[Some(&command.output)])?;
    let cuts = match cut_pieces(&compiled, &command.sizes, &command.pieces)? {
        Ok(cuts) => cuts,
        Err(outcome) => return Ok(outcome),
    };
    let written = match command.to {
        Exchange::Dxf => dxf(&compiled.garment, &cuts),
    };
    output::put_into(&command.output, written)?;
    Ok(Outcome::Good)
}
