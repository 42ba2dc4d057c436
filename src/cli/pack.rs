use super::arguments::Pack;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::spared::spared_unless;
use super::work::{loader_of, sound_garment, unwritable};
use fustian::emit::{document, to_text};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile, packed};

/// What the packed text is called while it is looked over.
const ONE: &str = "one.fus";

/// Packs a garment without mistakes, and writes it only when it says the same.
pub fn run(command: &Pack) -> Result<Outcome, Trouble> {
    if command.file == super::work::PIPED {
        let words = "what is piped in cannot be packed, because it is read twice: name a file";
        return Err(Trouble::Message(words.to_owned()));
    }
    let root = command.folder.root.as_deref();
    let compiled = match sound_garment(&command.file, root)? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    spared_unless(command.force, &command.file, &compiled.map, command.output.as_deref())?;
    let text = packed(&loader_of(&command.file, root)?, &command.file);
    let again = compile(&MemoryLoader::new().with(ONE, text.as_str()), ONE);
    if again.has_mistakes() || worked_out(&again)? != worked_out(&compiled)? {
        let words = "packed, the garment would come out otherwise, so nothing was written: this is a mistake of fustian";
        return Err(Trouble::Message(words.to_owned()));
    }
    match &command.output {
        Some(path) => output::put_into(path, &text)?,
        None => output::put(&text)?,
    }
    Ok(Outcome::Good)
}

/// The document as text, to be compared.
pub fn worked_out(compiled: &Compiled) -> Result<String, Trouble> {
    let mut document = document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
    // Packed, a wearer is the one size that there is.
    document.fitting = None;
    to_text(&document).map_err(unwritable)
}
