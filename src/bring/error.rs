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
}

impl BringError {
    /// Of a file as a whole.
    pub fn new(file: &str, why: impl Into<String>) -> Self {
        BringError { file: file.to_owned(), line: None, why: why.into() }
    }

    /// At a line, counted from 1.
    pub fn at_line(self, line: usize) -> Self {
        BringError { line: Some(line), ..self }
    }
}

impl fmt::Display for BringError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.line {
            Some(line) => write!(out, "{}:{line}: {}", self.file, self.why),
            None => write!(out, "{}: {}", self.file, self.why),
        }
    }
}
