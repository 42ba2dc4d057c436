//! A statement as words and what stands in its braces, for whoever compares two.

use super::entry::Entry;
use super::expression::Printer;
use super::spelling::{Plain, Spelling};
use crate::source::Span;
use crate::syntax::tree::Statement;

/// What one statement, or one fact in its braces, says.
#[derive(Clone, Debug)]
pub struct Said {
    /// Where it stands.
    pub span: Span,
    /// Its words before braces, spelt as they were written.
    pub words: String,
    /// The same whatever way numbers are spelt.
    pub means: String,
    /// Its text for people.
    pub note: Option<String>,
    /// What stands in its braces.
    pub inside: Vec<Said>,
}

/// What a statement says.
pub fn said(statement: &Statement, spelling: &dyn Spelling) -> Said {
    let written = Printer { spelling }.statement(statement);
    let meant = Printer { spelling: &Plain }.statement(statement);
    of(&written, &meant)
}

/// Both are printed from one tree, and so have the same entries.
fn of(written: &Entry, meant: &Entry) -> Said {
    let inside = written.block.iter().flatten().zip(meant.block.iter().flatten());
    Said {
        span: written.span,
        words: words(written),
        means: words(meant),
        note: written.tail.clone(),
        inside: inside.map(|(written, meant)| of(written, meant)).collect(),
    }
}

fn words(entry: &Entry) -> String {
    let cells: Vec<&str> = entry.cells.iter().map(|cell| cell.text.as_str()).collect();
    cells.join(" ")
}

impl Said {
    /// Whether both say the same, but for the spelling of numbers.
    pub fn says_the_same(&self, other: &Said) -> bool {
        self.means == other.means
            && self.note == other.note
            && self.inside.len() == other.inside.len()
            && self.inside.iter().zip(&other.inside).all(|(one, other)| one.says_the_same(other))
    }
}
