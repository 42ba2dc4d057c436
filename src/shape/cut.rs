//! Cutting an outline along a whole line.

use crate::shape::line::StraightLine;
use crate::shape::outline::RingError;
use crate::shape::path::Path;
use kurbo::{Point, Vec2};
use thiserror::Error;

/// Where an edge of a cut ring comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Origin {
    /// A part of an edge of the ring that was cut.
    Edge {
        /// Index of the edge.
        edge: usize,
        /// Length along that edge where the part begins, mm.
        from: f64,
        /// Length along that edge where the part ends, mm.
        to: f64,
        /// Whether this is the whole edge.
        whole: bool,
    },
    /// The new edge along the cut.
    Cut,
}

/// An edge of a cut ring.
#[derive(Debug, Clone, PartialEq)]
pub struct CutEdge {
    /// Its path.
    pub path: Path,
    /// Where it comes from.
    pub origin: Origin,
}

/// The two rings of a cut, both going round the same way as the ring that was cut. Each has exactly one [`Origin::Cut`].
#[derive(Debug, Clone, PartialEq)]
pub struct Halves {
    /// The ring on the near side of the line.
    pub before: Vec<CutEdge>,
    /// The ring beyond the line.
    pub beyond: Vec<CutEdge>,
    /// Ends of the cut, in order along the line.
    pub cut: (Point, Point),
}

/// Why an outline could not be cut.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum CutError {
    /// The line does not go through the outline.
    #[error("the line misses the outline")]
    Misses,
    /// The line goes through the outline more than once.
    #[error("the line crosses the outline {times} times")]
    CrossesOften {
        /// How many times.
        times: usize,
    },
    /// The vector that says which side is beyond lies along the line.
    #[error("which side is beyond the line cannot be told")]
    NoSide,
    /// The paths are no closed outline.
    #[error(transparent)]
    Ring(#[from] RingError),
}

/// Cut `ring` along `line`; `beyond` points to the side that is beyond.
pub fn cut(ring: &[Path], line: &StraightLine, beyond: Vec2) -> Result<Halves, CutError> {
    let _ = (ring, line, beyond);
    Err(CutError::Misses)
}
