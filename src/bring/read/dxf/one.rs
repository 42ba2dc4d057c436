//! A piece in one size, on its way to one in all its sizes.

use super::outlines::Within;
use crate::bring::read::inside::Inside;
use crate::bring::traced::{TracedCut, TracedSize};
use kurbo::Rect;

/// One piece in one size, and what it is called.
pub(super) struct One {
    /// What is written on it, else its block's or its layer's name, else empty.
    pub name: String,
    /// Whether the name is written on it.
    pub is_written: bool,
    /// Its block's name, if it stands in one.
    pub block: Option<String>,
    /// Its size, where anything says it.
    pub size: Option<String>,
    /// Where it stands.
    pub origin: String,
    /// How many are cut.
    pub cut: Option<TracedCut>,
    /// From what.
    pub material: Option<String>,
    /// All that is drawn of it.
    pub sized: TracedSize,
    /// What it was matched to, of sizes that are layers: which piece of the layer that came first.
    pub matched: Option<usize>,
    /// Where its outline begins in the file, if it stands in no block.
    pub line: Option<usize>,
    /// Where its outline begins in the file, wherever it stands.
    pub begins: usize,
    /// The smallest upright rectangle round its outline.
    pub bounds: Rect,
    /// Closed lines in it that could be pieces by themselves.
    pub within: Vec<Within>,
    /// The outline, to be asked; only of what is drawn where it lies.
    pub inside: Option<Inside>,
}
