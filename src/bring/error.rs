//! Why a drawing does not come in.

use std::fmt;
use thiserror::Error;

/// Why a drawing does not come in, in a maker's words: nothing is written then.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub struct BringError {
    /// Which file.
    pub file: String,
    /// In which of its lines, counted from 1, where that is known.
    pub line: Option<usize>,
    /// What is wrong and what can be done: a sentence without a full stop that does not name the file.
    pub why: String,
    /// What else is wrong, in this file or others.
    pub more: Vec<BringError>,
}

/// The most mistakes that are told at once.
const MISTAKES: usize = 20;

impl BringError {
    /// Of a file as a whole.
    pub fn new(file: &str, why: impl Into<String>) -> Self {
        BringError { file: file.to_owned(), line: None, why: why.into(), more: Vec::new() }
    }

    /// At a line, counted from 1.
    pub fn at_line(self, line: usize) -> Self {
        BringError { line: Some(line), ..self }
    }

    /// All in one, of which some twenty are told; none of nothing.
    pub fn together(all: Vec<BringError>) -> Option<Self> {
        let mut flat = all.into_iter().flat_map(|mut one| {
            let more = std::mem::take(&mut one.more);
            std::iter::once(one).chain(more)
        });
        let first = flat.next()?;
        Some(BringError { more: flat.collect(), ..first })
    }

    fn own(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.line {
            Some(line) => write!(out, "{}:{line}: {}", self.file, self.why),
            None => write!(out, "{}: {}", self.file, self.why),
        }
    }
}

impl fmt::Display for BringError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.own(out)?;
        for more in self.more.iter().take(MISTAKES - 1) {
            out.write_str("\n")?;
            more.own(out)?;
        }
        match self.more.len().checked_sub(MISTAKES - 1) {
            Some(rest) if rest > 0 => write!(out, "\nand {rest} more"),
            _ => Ok(()),
        }
    }
}
