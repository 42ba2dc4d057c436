//! What the commands share: compiling, reporting, and picking sizes.

use super::disk::{DiskLoader, bounded};
use super::outcome::{Outcome, Trouble};
use super::remedy::worded;
use super::{look, output};
use fustian::cutting::WorkedSize;
use fustian::report::{Diagnostic, catalogue, nearest, render, summary};
use fustian::source::{FileId, LoadError, Loader};
use fustian::{Compiled, Kept, compile, compile_again};
use std::path::Path;

/// The word for what is piped in.
pub const PIPED: &str = "-";

/// Compiles a file, or what is piped in.
pub fn compile_file(file: &str, root: Option<&Path>) -> Result<Compiled, Trouble> {
    let loader = loader_of(file, root)?;
    Ok(worded(compile(&loader, file)))
}

/// Compiles a file of which something is remembered from before.
pub fn compile_file_again(file: &str, root: Option<&Path>, kept: &mut Kept) -> Result<Compiled, Trouble> {
    let loader = loader_of(file, root)?;
    Ok(worded(compile_again(&loader, file, kept)))
}

/// Where a file, or what is piped in, and all that it names is read from.
pub fn loader_of(file: &str, root: Option<&Path>) -> Result<DiskLoader, Trouble> {
    if file != PIPED {
        return Ok(DiskLoader::of_file(file, root));
    }
    let piped = match bounded(std::io::stdin().lock()) {
        Ok(piped) => piped,
        // The loader tells it as it does of files.
        Err(LoadError::TooLarge) => vec![0; fustian::limits::FILE_BYTES + 1],
        Err(error) => {
            return Err(Trouble::Message(format!("what was piped in cannot be read: {error}")));
        }
    };
    Ok(DiskLoader::of_text(piped, root))
}

/// The text of one file, or of what is piped in, and what it is called.
pub fn text_of(file: &str) -> Result<(String, String), Trouble> {
    let cannot = |why: &str| Trouble::Message(format!("{file} cannot be read: {why}"));
    let loaded = loader_of(file, None)?.load(None, file).map_err(|error| cannot(&error.to_string()))?;
    let text = String::from_utf8(loaded.bytes).map_err(|_| cannot("it is not UTF-8 text"))?;
    Ok((loaded.name.to_string(), text))
}

/// A garment without mistakes, its other messages reported; or how the command ends.
pub fn sound_garment(file: &str, root: Option<&Path>) -> Result<Result<Compiled, Outcome>, Trouble> {
    sound_garment_with(file, root, None)
}

/// The same with another folder in which bases and libraries are looked for.
pub fn sound_garment_with(
    file: &str,
    root: Option<&Path>,
    bases: Option<&Path>,
) -> Result<Result<Compiled, Outcome>, Trouble> {
    sound_in(&loader_of(file, root)?.with_bases(bases), file)
}

/// The same, read by that loader.
pub fn sound_in(loader: &DiskLoader, file: &str) -> Result<Result<Compiled, Outcome>, Trouble> {
    let compiled = worded(compile(loader, file));
    report(&compiled, &compiled.diagnostics);
    if let Some(words) = summary(&compiled.diagnostics) {
        output::say(&format!("{words}\n"));
    }
    Ok(match outcome_of(&compiled) {
        Outcome::Good => Ok(compiled),
        outcome => Err(outcome),
    })
}

/// Draws messages on standard error.
pub fn report(compiled: &Compiled, diagnostics: &[Diagnostic]) {
    if !diagnostics.is_empty() {
        output::show(&render(&compiled.map, diagnostics, look::of_messages()));
    }
}

/// How a command that only has to look at a garment ends.
pub fn outcome_of(compiled: &Compiled) -> Outcome {
    // A first file that could not be had stands in the map without a text; of one that is no text,
    // as much as could be read.
    let is_empty = compiled.map.files().first().is_none_or(|first| first.text.is_empty());
    let is_unread = |diagnostic: &Diagnostic| {
        let is_of_the_file = diagnostic.is(&catalogue::FILE_NOT_TEXT)
            || (!diagnostic.is(&catalogue::FILE_HEADING) && is_empty && diagnostic.kind.family() == "file");
        is_of_the_file && compiled.map.file_of(diagnostic.span()) == FileId(0)
    };
    let unread = compiled.map.files().is_empty() || compiled.diagnostics.iter().any(is_unread);
    match (unread, compiled.has_mistakes()) {
        (true, _) => Outcome::Unread,
        (false, true) => Outcome::Mistakes,
        (false, false) => Outcome::Good,
    }
}

/// The sizes of those names in the garment's order, or all without names.
pub fn picked<'a>(compiled: &'a Compiled, names: &[String]) -> Result<Vec<&'a WorkedSize>, Trouble> {
    let known: Vec<&str> = compiled.garment.sizes.iter().map(|size| &*size.name).collect();
    for name in names {
        if !known.contains(&name.as_str()) {
            let meant = nearest(name, known.iter().copied())
                .map_or_else(String::new, |meant| format!("; did you mean {meant}?"));
            let words = format!("there is no size {name:?} here, but {}{meant}", known.join(", "));
            return Err(Trouble::Message(words));
        }
    }
    let is_wanted = |sized: &&WorkedSize| {
        let known = &*compiled.garment.size(sized.id()).name;
        names.is_empty() || names.iter().any(|name| name == known)
    };
    Ok(compiled.sizes.iter().filter(is_wanted).collect())
}

/// Trouble with a figure that cannot be written.
pub fn unwritable(error: serde_json::Error) -> Trouble {
    Trouble::Message(format!("the result could not be written: {error}"))
}
