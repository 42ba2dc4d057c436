//! Circular arcs.

use crate::shape::path::Path;
use kurbo::Point;
use thiserror::Error;

/// Which way round an arc goes, y being up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Turning {
    /// As the hands of a clock.
    Clockwise,
    /// Against the hands of a clock.
    Anticlockwise,
}

/// Why no arc could be drawn.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum ArcError {
    /// The ends are not equally far from the centre.
    #[error("the start is {from_radius} mm from the centre and the end {to_radius} mm")]
    RadiiDiffer {
        /// Distance from the centre to the start, mm.
        from_radius: f64,
        /// Distance from the centre to the end, mm.
        to_radius: f64,
    },
    /// Start and end are one point, so the arc would be nothing or a full circle.
    #[error("the arc starts and ends at the same point")]
    FullCircle {
        /// The radius, mm.
        radius: f64,
    },
    /// The centre is at an end.
    #[error("the centre is where the arc starts or ends")]
    NoRadius,
    /// A coordinate is not a finite number.
    #[error("a coordinate is not a finite number")]
    NotFinite,
}

/// The arc about `centre` from `from` to `to`.
pub fn arc_about(centre: Point, from: Point, to: Point, turning: Turning) -> Result<Path, ArcError> {
    let _ = (centre, from, to, turning);
    Err(ArcError::NotFinite)
}
