//! Rigid motions that lay one edge on another, and corners moved with what hangs on them.

use crate::shape::outline::RingError;
use crate::shape::path::Path;
use kurbo::{Affine, Vec2};
use thiserror::Error;

/// Why two pieces could not be laid together.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum PlaceError {
    /// The edge's ends are one point, so it has no direction.
    #[error("the ends of an edge are one point")]
    NoDirection,
    /// There is no such edge.
    #[error("there is no such edge")]
    NoSuchEdge,
    /// The paths are no closed outline.
    #[error(transparent)]
    Ring(#[from] RingError),
}

/// How one piece is laid against another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Joining {
    /// The motion of the piece that moves.
    pub motion: Affine,
    /// Whether it was turned over.
    pub flipped: bool,
    /// The largest distance between the two edges after it, mm.
    pub gap: f64,
    /// How much longer the moved edge is than the other, mm.
    pub longer_by: f64,
}

/// Which ends of two edges are to meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meeting {
    /// The start of one with the start of the other.
    StartWithStart,
    /// The start of one with the end of the other.
    StartWithEnd,
}

/// Lay edge `moving_edge` of `moving` on edge `fixed_edge` of `fixed`, with the pieces on opposite sides of it.
pub fn lay_against(
    moving: &[Path],
    moving_edge: usize,
    fixed: &[Path],
    fixed_edge: usize,
    meeting: Meeting,
) -> Result<Joining, PlaceError> {
    let _ = (moving, moving_edge, fixed, fixed_edge, meeting);
    Err(PlaceError::NoSuchEdge)
}

/// The path with its start moved by `start_shift` and its end by `end_shift`.
pub fn move_ends(path: &Path, start_shift: Vec2, end_shift: Vec2) -> Path {
    let _ = (start_shift, end_shift);
    path.clone()
}
