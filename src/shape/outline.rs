//! Closed outlines: slices of paths end to end, the last ending where the first begins.

use crate::shape::path::Path;
use kurbo::{Point, Rect};
use thiserror::Error;

/// Why a slice of paths is no closed outline.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum RingError {
    /// There is no edge.
    #[error("an outline needs at least one edge")]
    Empty,
    /// Edge `edge` holds a number that is not finite.
    #[error("edge {edge} holds a number that is not finite")]
    NotFinite {
        /// Its index.
        edge: usize,
    },
    /// Edge `edge` does not end where the next begins.
    #[error("edge {edge} ends {gap} mm from the start of the next")]
    Open {
        /// Its index.
        edge: usize,
        /// The distance, mm.
        gap: f64,
    },
}

/// A place where an outline crosses itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    /// Index of one edge.
    pub first: usize,
    /// Index of the other edge; equal to `first` when an edge crosses itself.
    pub second: usize,
    /// Where.
    pub point: Point,
}

/// How an outline has collapsed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Collapse {
    /// An edge has no length.
    EdgeWithoutLength {
        /// Its index.
        edge: usize,
    },
    /// The outline holds no area.
    NoArea {
        /// The area, mm².
        area: f64,
    },
}

/// Whether the paths are a closed outline.
pub fn check_ring(ring: &[Path]) -> Result<(), RingError> {
    let _ = ring;
    Ok(())
}
/// The area inside, mm²: positive when the outline goes anticlockwise.
pub fn signed_area(ring: &[Path]) -> f64 {
    let _ = ring;
    0.0
}
/// Whether the outline goes anticlockwise.
pub fn is_anticlockwise(ring: &[Path]) -> bool {
    signed_area(ring) > 0.0
}
/// The smallest upright rectangle round the paths; none when there are none.
pub fn extents(paths: &[Path]) -> Option<Rect> {
    let _ = paths;
    None
}
/// The first place where the outline crosses or touches itself, if any.
pub fn crossings(ring: &[Path]) -> Option<Crossing> {
    let _ = ring;
    None
}
/// Whether the outline has collapsed.
pub fn collapse(ring: &[Path]) -> Option<Collapse> {
    let _ = ring;
    None
}
/// Whether `after` goes round the other way than `before`.
pub fn turned_inside_out(before: &[Path], after: &[Path]) -> bool {
    signed_area(before) * signed_area(after) < 0.0
}
/// Whether the point is inside the outline (a point on it counts).
pub fn contains(ring: &[Path], point: Point) -> bool {
    let _ = (ring, point);
    false
}
