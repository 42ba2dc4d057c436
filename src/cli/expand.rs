use super::arguments::Expand;
use super::disk::Rewritten;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::pack::worked_out;
use super::spared::spared_unless;
use super::work::{loader_of, sound_in};
use fustian::{compile, expanded};

/// Writes out what a garment without mistakes says in one line, only when it then says the same.
pub fn run(command: &Expand) -> Result<Outcome, Trouble> {
    let loader = loader_of(&command.file, command.folder.root.as_deref())?;
    let compiled = match sound_in(&loader, &command.file)? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    spared_unless(command.force, &command.file, &compiled.map, command.output.as_deref())?;
    let text = expanded(&loader, &command.file);
    let again = compile(&Rewritten { disk: loader, text: text.clone() }, &command.file);
    if again.has_mistakes() || worked_out(&again)? != worked_out(&compiled)? {
        let words = "written out, the garment would come out otherwise, so nothing was written: this is a mistake of fustian";
        return Err(Trouble::Message(words.to_owned()));
    }
    match &command.output {
        Some(path) => output::put_into(path, &text)?,
        None => output::put(&text)?,
    }
    Ok(Outcome::Good)
}
