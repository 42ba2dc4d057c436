use super::arguments::Resolve;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::work::{picked, sound_garment, unwritable};
use fustian::emit::{document, to_text};

/// Writes the document. A garment with mistakes has none: nobody shall cut from it.
pub fn run(command: &Resolve) -> Result<Outcome, Trouble> {
    let compiled = match sound_garment(&command.file, command.folder.root.as_deref())? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    let sizes = picked(&compiled, &command.sizes)?;
    let document = document(&compiled.garment, sizes, &compiled.map, &compiled.diagnostics);
    let text = to_text(&document).map_err(unwritable)?;
    match &command.output {
        Some(path) => output::put_into(path, &text)?,
        None => output::put(&text)?,
    }
    Ok(Outcome::Good)
}
