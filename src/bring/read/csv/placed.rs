//! Points of a table, understood.

use crate::bring::traced::TracedPoint;
use indexmap::IndexMap;
use kurbo::Point;

/// What a point is for.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) enum Kind {
    /// The outline.
    Outline,
    /// A line of that name.
    Line(String),
    /// A notch.
    Notch,
    /// A point inside.
    Mark,
    /// An end of the grain line.
    Grain,
    /// An end of the fold.
    Fold,
}

/// One row, understood.
#[derive(Debug, Clone)]
pub(super) struct Placed {
    /// In which line it stands.
    pub line: usize,
    /// What it is called, or its number.
    pub name: String,
    /// Where it lies, in millimetres.
    pub at: Point,
    /// What is said of it.
    pub said: TracedPoint,
}

/// A piece's points in each size, by what they are for.
pub(super) type Sizes = IndexMap<String, IndexMap<Kind, Vec<Placed>>>;
