//! What the commands share: compiling, telling, and picking sizes.

use super::disk::{DiskLoader, bounded};
use super::outcome::{Outcome, Trouble};
use super::{look, output};
use fustian::report::{Diagnostic, closing, draw, nearest};
use fustian::resolve::SizedGarment;
use fustian::source::{FileId, LoadError};
use fustian::{Compiled, compile};
use std::path::Path;

/// The word for what is piped in.
pub const PIPED: &str = "-";

/// Compiles a file, or what is piped in.
pub fn compile_file(file: &str, root: Option<&Path>) -> Result<Compiled, Trouble> {
    let loader = match file {
        PIPED => {
            let piped = match bounded(std::io::stdin().lock()) {
                Ok(piped) => piped,
                // The loader tells it as it does of files.
                Err(LoadError::TooLarge) => vec![0; fustian::limits::FILE_BYTES + 1],
                Err(error) => {
                    return Err(Trouble::Told(format!("what was piped in cannot be read: {error}")));
                }
            };
            DiskLoader::of_text(piped, root)
        }
        path => DiskLoader::of_file(path, root),
    };
    Ok(compile(&loader, file))
}

/// A garment without mistakes, its other messages told; or how the command ends.
pub fn sound_garment(file: &str, root: Option<&Path>) -> Result<Result<Compiled, Outcome>, Trouble> {
    let compiled = compile_file(file, root)?;
    tell(&compiled, &compiled.diagnostics);
    if let Some(words) = closing(&compiled.diagnostics) {
        output::say(&format!("{words}\n"));
    }
    Ok(match outcome_of(&compiled) {
        Outcome::Good => Ok(compiled),
        outcome => Err(outcome),
    })
}

/// Draws messages on standard error.
pub fn tell(compiled: &Compiled, diagnostics: &[Diagnostic]) {
    if !diagnostics.is_empty() {
        output::say(&draw(&compiled.map, diagnostics, look::of_messages()));
    }
}

/// How a command that only has to look at a garment ends.
pub fn outcome_of(compiled: &Compiled) -> Outcome {
    let is_of_first = |diagnostic: &Diagnostic| {
        diagnostic.slug.starts_with("file/") && compiled.map.file_of(diagnostic.span()) == FileId(0)
    };
    // A first file that could not be read stands in the map without a text.
    let unread = compiled
        .map
        .files()
        .first()
        .is_none_or(|first| first.text.is_empty() && compiled.diagnostics.iter().any(is_of_first));
    match (unread, compiled.has_mistakes()) {
        (true, _) => Outcome::Unread,
        (false, true) => Outcome::Mistakes,
        (false, false) => Outcome::Good,
    }
}

/// The sizes of those names in the garment's order, or all without names.
pub fn picked<'a>(compiled: &'a Compiled, names: &[String]) -> Result<Vec<&'a SizedGarment>, Trouble> {
    let known: Vec<&str> = compiled.garment.sizes.iter().map(|size| &*size.name).collect();
    for name in names {
        if !known.contains(&name.as_str()) {
            let meant = nearest(name, known.iter().copied())
                .map_or_else(String::new, |meant| format!("; did you mean {meant}?"));
            let words = format!("there is no size {name:?} here, but {}{meant}", known.join(", "));
            return Err(Trouble::Told(words));
        }
    }
    let is_wanted = |sized: &&SizedGarment| {
        names.is_empty() || known.get(sized.size).is_some_and(|known| names.iter().any(|name| name == known))
    };
    Ok(compiled.sizes.iter().filter(is_wanted).collect())
}

/// Trouble with a figure that cannot be written.
pub fn unwritable(error: serde_json::Error) -> Trouble {
    Trouble::Told(format!("the result could not be written: {error}"))
}
