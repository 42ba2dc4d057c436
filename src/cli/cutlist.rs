use super::arguments::Table;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::work::{picked, sound_garment_with, unwritable};
use fustian::emit::cut_list;

/// Shows the table of a garment without mistakes.
pub fn run(command: &Table) -> Result<Outcome, Trouble> {
    let (root, bases) = (command.folder.root.as_deref(), command.bases.as_deref());
    let compiled = match sound_garment_with(&command.file, root, bases)? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    let sizes = picked(&compiled, &command.sizes)?;
    let text = cut_list(&compiled.garment, &sizes, command.format.into()).map_err(unwritable)?;
    output::put(&text)?;
    Ok(Outcome::Good)
}
