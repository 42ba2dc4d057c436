//! Smooth curves through points.

use crate::shape::path::Path;
use kurbo::{Point, Vec2};
use thiserror::Error;

/// Why no smooth curve could be drawn.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum CurveError {
    /// Fewer than two points.
    #[error("a curve needs two points, and there are {count}")]
    TooFewPoints {
        /// How many there are.
        count: usize,
    },
    /// A coordinate or direction is not a finite number.
    #[error("a coordinate is not a finite number")]
    NotFinite,
    /// Points `index` and `index + 1` are the same point.
    #[error("points {index} and the next are the same")]
    SamePoint {
        /// Index of the first of the two.
        index: usize,
    },
    /// A given direction has no length.
    #[error("a direction has no length")]
    NoDirection,
}

/// Hobby's spline.
pub fn smooth_curve(
    points: &[Point],
    leaving: Option<Vec2>,
    arriving: Option<Vec2>,
) -> Result<Path, CurveError> {
    let _ = (points, leaving, arriving);
    Err(CurveError::NotFinite)
}
