//! Text to a typed tree. Parsing always returns a tree plus its mistakes; a damaged statement
//! costs only itself. Nothing is looked up here: a name is still only a word.

mod alone;
mod build;
mod expected;
mod explain;
mod fitting;
mod forms;
mod grammar;
mod marks;
mod merge_marks;
#[cfg(feature = "editor")]
mod name_kinds;
mod parts;
mod recover;
mod scan;
mod shift;
mod slips;
pub mod tidy;
pub mod tree;
mod words;

pub use alone::read_length;
pub use build::Context;
pub use fitting::{Fitting, fitting};
pub use marks::{Mark, MarkKind, marks};
#[cfg(feature = "editor")]
pub(crate) use name_kinds::{NameKind, names_after};
pub(crate) use parts::KeptTexts;
pub use words::{FUNCTIONS, KEYWORDS};

use crate::report::Diagnostic;
use crate::source::{FileId, SourceMap, Span};
use grammar::{Grammar, Rule};
use pest::Parser;
use std::sync::Arc;

/// A file's tree and what is wrong with its text.
#[derive(Clone, Debug)]
pub struct Parsed {
    /// What the file says, as far as it could be read.
    pub file: tree::File,
    /// Every mistake of the text, in the order of the text.
    pub mistakes: Vec<Diagnostic>,
    /// Words inside damaged statements. A name among them may have been declared there, so that
    /// it is not to be reported as unknown.
    pub lost_words: Vec<Arc<str>>,
}

/// Reads one file of a source map. Never fails: what is damaged is left out and reported.
pub fn parse(map: &SourceMap, file: FileId) -> Parsed {
    let source = map.file(file);
    parse_text(&source.text, source.base, file)
}

/// Reads a text whose first byte has the global offset `base`.
pub fn parse_text(text: &str, base: u32, id: FileId) -> Parsed {
    if let Some(unresolved) = merge_marks::unresolved(text, base) {
        let file = tree::File { id, statements: Vec::new(), notes: Vec::new() };
        return Parsed { file, mistakes: vec![unresolved], lost_words: Vec::new() };
    }
    let scan = scan::scan(text);
    let read = parts::side_by_side(&scan, text, base).unwrap_or_else(|| read_whole(&scan, text, base));
    finished(base, id, &scan, read)
}

/// Reads a text in one go.
fn read_whole(scan: &scan::Scan, text: &str, base: u32) -> Read {
    let mut builder = build::Builder::new(&scan.text, base, &scan.notes);
    let mut read = Read::default();
    match Grammar::parse(Rule::file, &scan.text) {
        Ok(mut pairs) => {
            if let Some(file) = pairs.next() {
                read.statements = builder.statements(file);
            }
        }
        Err(error) => read.unreadable = Some(recover::unreadable(&error, base, text)),
    }
    read.damages = std::mem::take(&mut builder.damages);
    read.mistakes = std::mem::take(&mut builder.mistakes);
    read.long_names = builder.long_names.into_iter().collect();
    read
}

/// What the builder made of a text, before its damage is put into words.
#[derive(Default)]
struct Read {
    statements: Vec<Arc<tree::Statement>>,
    unreadable: Option<Diagnostic>,
    mistakes: Vec<Diagnostic>,
    damages: Vec<build::Damage>,
    long_names: Vec<Arc<str>>,
}

/// The tree of a text, and all that is wrong with it.
fn finished(base: u32, id: FileId, scan: &scan::Scan, read: Read) -> Parsed {
    let Read { statements, unreadable, mistakes: slips, damages, long_names } = read;
    let global = |lo: usize, hi: usize| Span::new(base + lo as u32, base + hi as u32);
    let (reported, mut lost_words) = recover::recover(scan, base, &damages, &slips);
    lost_words.extend(long_names);
    let mut mistakes: Vec<Diagnostic> = unreadable.into_iter().chain(slips).chain(reported).collect();
    mistakes.extend(scan.deep.iter().map(|&(from, _)| slips::too_deep(global(from, from + 1))));
    if let Some(&(at, character)) = scan.odd.first() {
        let span = global(at, at + character.len_utf8());
        mistakes.push(slips::odd_character(span, character, scan.odd.len()));
    }
    mistakes.sort_by_key(Diagnostic::span);
    let notes = scan.notes.iter().map(|&(from, to)| tree::Note { span: global(from, to) }).collect();
    Parsed { file: tree::File { id, statements, notes }, mistakes, lost_words }
}

/// The grammar's parse alone, without the tree: how many pairs there are. For benches.
pub fn bare_parse(text: &str) -> usize {
    Grammar::parse(Rule::file, text).map_or(0, |pairs| pairs.flatten().count())
}
