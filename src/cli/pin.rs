use super::arguments::Pin;
use super::outcome::{Outcome, Trouble};
use super::work::{PIPED, loader_of};
use super::{look, output};
use fustian::report::{Severity, render};
use fustian::source::{Loader, SourceMap, pin_of};
use fustian::syntax;
use fustian::syntax::tree::{NamedFile, StatementNode};
use std::path::Path;

/// Writes the pins, and changes nothing else of the text.
pub fn run(command: &Pin) -> Result<Outcome, Trouble> {
    let file = &command.file;
    let cannot = |what: &str, why: String| Trouble::Message(format!("{what} cannot be read: {why}"));
    let loader = loader_of(file, command.folder.root.as_deref())?;
    let loaded = loader.load(None, file).map_err(|error| cannot(file, error.to_string()))?;
    let text =
        String::from_utf8(loaded.bytes).map_err(|_| cannot(file, "it is not UTF-8 text".to_owned()))?;
    let mut map = SourceMap::default();
    let id = map.add(&*loaded.name, text.as_str());
    let parsed = syntax::parse(&map, id);
    if parsed.mistakes.iter().any(|one| one.severity() == Severity::Mistake) {
        output::show(&render(&map, &parsed.mistakes, look::of_messages()));
        output::say(&format!("{file}: left as it is, because it cannot be read without mistakes\n"));
        return Ok(Outcome::Mistakes);
    }
    let mut pinned = String::with_capacity(text.len() + 64);
    let mut shown = String::new();
    let mut copied = 0;
    let named_files = parsed.file.statements.iter().flat_map(|statement| match &statement.node {
        StatementNode::Variation(variation) => {
            std::iter::once(&variation.base).chain(&variation.with).collect::<Vec<_>>()
        }
        StatementNode::Fitting(fitting) => vec![&fitting.base],
        StatementNode::Use(one) => vec![one],
        _ => Vec::new(),
    });
    for NamedFile { path, pin } in named_files {
        let named = loader.load(Some(&loaded.key), &path.text);
        let named = named.map_err(|error| cannot(&format!("{} of {file}", path.text), error.to_string()))?;
        let content = String::from_utf8(named.bytes)
            .map_err(|_| cannot(&named.name, "it is not UTF-8 text".to_owned()))?;
        let digits = pin_of(&content);
        shown.push_str(&format!("{file}: \"{}\" as of {digits}\n", path.text));
        let (from, to, words) = match pin {
            Some(pin) => (pin.span.lo, pin.span.hi, digits),
            None => (path.span.hi, path.span.hi, format!(" as of {digits}")),
        };
        // The one file of the map begins at 0, so spans are offsets of its text.
        pinned.push_str(text.get(copied..from as usize).unwrap_or(""));
        pinned.push_str(&words);
        copied = to as usize;
    }
    pinned.push_str(text.get(copied..).unwrap_or(""));
    if shown.is_empty() {
        return Err(Trouble::Message(format!(
            "{file} names neither a base nor a library, so there is nothing to pin"
        )));
    }
    match file == PIPED {
        true => output::put(&pinned)?,
        false if pinned != text => output::put_into(Path::new(file), &pinned)?,
        false => {}
    }
    output::say(&shown);
    Ok(Outcome::Good)
}
