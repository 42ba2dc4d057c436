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
mod recover;
mod scan;
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
    let global = |lo: usize, hi: usize| Span::new(base + lo as u32, base + hi as u32);
    let mut builder = build::Builder::new(&scan.text, base, &scan.notes);
    let mut statements = Vec::new();
    let mut mistakes = Vec::new();
    match Grammar::parse(Rule::file, &scan.text) {
        Ok(mut pairs) => {
            if let Some(file) = pairs.next() {
                statements = builder.statements(file);
            }
        }
        Err(error) => mistakes.push(recover::unreadable(&error, base, text)),
    }
    let damages = std::mem::take(&mut builder.damages);
    let slips = std::mem::take(&mut builder.mistakes);
    let (reported, mut lost_words) = recover::recover(&scan, base, &damages, &slips);
    lost_words.extend(builder.long_names);
    mistakes.extend(slips);
    mistakes.extend(reported);
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
