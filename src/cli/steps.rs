use super::arguments::StepsOfWork;
use super::disk::Rewritten;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::work::{PIPED, loader_of, sound_garment_with, unwritable};
use fustian::emit::{NotWritten, steps_document, steps_table, with_steps};
use fustian::{Compiled, compile};
use std::path::Path;

/// Shows the order of work of a garment without mistakes: what is said, and what is worked out; or writes it
/// into its file.
pub fn run(command: &StepsOfWork) -> Result<Outcome, Trouble> {
    let (root, bases) = (command.folder.root.as_deref(), command.bases.as_deref());
    if command.write && command.file == PIPED {
        let words = "there is no file to write the steps into: name one";
        return Err(Trouble::Message(words.to_owned()));
    }
    let compiled = match sound_garment_with(&command.file, root, bases)? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    let Some(size) = compiled.sizes.first() else { return Ok(Outcome::Good) };
    if !command.write {
        output::put(
            &steps_table(&compiled.garment, &compiled.sizes, command.format.into()).map_err(unwritable)?,
        )?;
        return Ok(Outcome::Good);
    }
    let cannot = |why: NotWritten| Trouble::Message(format!("{} is left as it is: {why}", command.file));
    let text = with_steps(&compiled.map, &compiled.garment, size).map_err(cannot)?;
    if compiled.map.files().first().is_some_and(|first| *first.text == *text) {
        return Ok(Outcome::Good);
    }
    let loader = Rewritten { disk: loader_of(&command.file, root)?.with_bases(bases), text: text.clone() };
    let again = compile(&loader, &command.file);
    if again.has_mistakes() || order(&again)? != order(&compiled)? {
        let words = "with the steps in it, the garment would come out otherwise, so nothing was written: this is a \
                     mistake of fustian";
        return Err(Trouble::Message(words.to_owned()));
    }
    output::put_into(Path::new(&command.file), &text)?;
    Ok(Outcome::Good)
}

/// What is done to what, in order.
fn order(compiled: &Compiled) -> Result<Vec<String>, Trouble> {
    let Some(size) = compiled.sizes.first() else { return Ok(Vec::new()) };
    let document = steps_document(&compiled.garment, size);
    Ok(document.steps.iter().map(|line| format!("{} {:?} {:?}", line.verb, line.to, line.layers)).collect())
}
