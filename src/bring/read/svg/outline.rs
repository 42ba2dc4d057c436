//! An outline of a drawing, and what asking it may cost.

use super::roles::Shape;
use super::sizes::Owner;
use crate::bring::traced::{TracedPath, TracedSize};
use kurbo::{BezPath, Point, Rect, Shape as _};
use std::cell::Cell;

/// An outline, ready to be asked what lies in it.
pub struct Outline {
    /// Which closed path of the drawing it is.
    pub number: usize,
    /// What it belongs to.
    pub owner: Owner,
    /// What its path is called, or nothing.
    pub name: String,
    /// Whether it is drawn in dashes.
    pub is_dashed: bool,
    /// The groups that it is in, the outermost first.
    pub groups: Vec<usize>,
    /// In which line of the file it begins.
    pub line: usize,
    /// The open paths that it is put together of, if it is.
    pub parts: Vec<Shape>,
    /// As it was drawn.
    pub path: TracedPath,
    /// The same, to be asked.
    pub whole: BezPath,
    /// What it covers.
    pub bounds: Rect,
    /// How much, in square millimetres.
    pub area: f64,
    /// All that is drawn of it.
    pub size: TracedSize,
}

/// How many comparisons of a point with a segment the putting together may cost: some seconds.
const MOST_WORK: u64 = 200_000_000;

/// Counts what comparing costs, so that no drawing keeps anybody waiting.
#[derive(Default)]
pub struct Work(Cell<u64>);

impl Work {
    /// Whether so much more may be done.
    pub fn may(&self, more: usize) -> bool {
        self.0.set(self.0.get().saturating_add(more as u64));
        self.0.get() <= MOST_WORK
    }

    /// Whether more was asked than may be.
    pub fn is_too_much(&self) -> bool {
        self.0.get() > MOST_WORK
    }
}

impl Outline {
    /// Whether a point lies in it.
    pub fn holds_point(&self, at: Point, work: &Work) -> bool {
        self.bounds.contains(at) && work.may(self.path.segments.len()) && self.whole.contains(at)
    }
}

/// How many groups two things are in together.
pub fn together(one: &[usize], other: &[usize]) -> usize {
    one.iter().zip(other).take_while(|(one, other)| one == other).count()
}

/// How much two outlines share of what both cover, by the rectangles round them.
pub fn shared(one: &Outline, other: &Outline) -> f64 {
    one.bounds.intersect(other.bounds).area() / one.bounds.union(other.bounds).area()
}

/// Two sizes of a piece that lie in one another share so much of what both cover.
pub const NESTED: f64 = 0.6;
