//! The chain of a variation and its bases made into one flat, ordered list of declarations.

use crate::report::Diagnostic;
use crate::source::{FileId, Span};
use crate::syntax::tree::{SizeName, Statement, Unit};
use indexmap::IndexMap;
use std::sync::Arc;

/// One declaration that stands after merging: never a `replace`, `set`, `drop`, `add` or `use`.
#[derive(Clone, Debug)]
pub struct Declaration {
    /// What it says. A piece, layer or steps block that a variation adds to has the additions in it.
    pub statement: Arc<Statement>,
    /// The declaration of the base whose place it took, for messages.
    pub replaced: Option<Span>,
    /// It stands in a library: it may stay unused.
    pub from_library: bool,
    /// Of a `let` that was `set`: the let as the base had it, whose dimension is kept.
    pub set_over: Option<Arc<Statement>>,
}

/// What a variation dropped: whoever still names it is told so.
#[derive(Clone, Debug)]
pub struct Dropped {
    /// The name, or the text, that is gone: a piece's, a seam's …
    pub name: Arc<str>,
    /// Where it was declared.
    pub declared: Span,
    /// Where it was dropped.
    pub dropped: Span,
}

/// The whole chain as one.
#[derive(Clone, Debug, Default)]
pub struct Merged {
    /// What the first file calls the garment.
    pub title: Arc<str>,
    /// Its heading.
    pub heading: Span,
    /// In order: libraries where they are used, the base, then each variation's own.
    pub declarations: Vec<Declaration>,
    /// What was dropped.
    pub dropped: Vec<Dropped>,
    /// The unit of bare literals, by file; centimetres where a file says none.
    pub units: IndexMap<FileId, Unit>,
    /// The sizes that lists in a file are bound to, by file: its own, else those of its base, else
    /// those of a library that it uses.
    pub sizes_in: IndexMap<FileId, Vec<SizeName>>,
    /// Every mistake of reading, parsing and merging.
    pub mistakes: Vec<Diagnostic>,
}
