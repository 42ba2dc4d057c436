//! Cutting in from one point of an outline to a hinge at another, and turning one half open.

use crate::shape::outline::RingError;
use crate::shape::path::Path;
use kurbo::{Affine, Point, Vec2};
use thiserror::Error;

/// Why a piece could not be flared.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum FlareError {
    /// The point where the cut begins is not on the outline.
    #[error("the cut begins {distance} mm off the outline")]
    OpeningOffOutline {
        /// How far off, mm.
        distance: f64,
    },
    /// The hinge is not on the outline.
    #[error("the hinge is {distance} mm off the outline")]
    HingeOffOutline {
        /// How far off, mm.
        distance: f64,
    },
    /// The cut is too short to open so far.
    #[error("a cut of {length} mm cannot open {amount} mm")]
    TooWide {
        /// Length of the cut, mm.
        length: f64,
        /// The opening asked for, mm.
        amount: f64,
    },
    /// The cut leaves the piece between its ends, or runs along an edge.
    #[error("the cut leaves the piece at edge {edge}")]
    LeavesPiece {
        /// Index of the edge it meets.
        edge: usize,
        /// Where.
        point: Point,
    },
    /// The vector that says which half turns lies along the cut.
    #[error("which half turns cannot be told")]
    NoSide,
    /// A number is not finite.
    #[error("a number is not finite")]
    NotFinite,
    /// The paths are no closed outline.
    #[error(transparent)]
    Ring(#[from] RingError),
}

/// A piece that was flared.
#[derive(Debug, Clone, PartialEq)]
pub struct Flare {
    /// The same edges in the same order.
    pub edges: Vec<Path>,
    /// The turn about the hinge that the half beyond made.
    pub turn: Affine,
    /// The angle turned, radians, anticlockwise positive.
    pub angle: f64,
    /// The half that turned, as it was, a closed ring.
    pub turned_half: Vec<Path>,
}

impl Flare {
    /// Whether a point of the piece as it was turns with the half beyond; a point on the cut does not.
    pub fn is_beyond(&self, point: Point) -> bool {
        let _ = point;
        false
    }

    /// Where a point of the piece as it was ends up.
    pub fn moved(&self, point: Point) -> Point {
        if self.is_beyond(point) { self.turn * point } else { point }
    }
}

/// Cut `ring` from `opening` to `hinge`, both on it, and turn the half on the side that `beyond` points to.
pub fn flare(
    ring: &[Path],
    opening: Point,
    hinge: Point,
    beyond: Vec2,
    amount: f64,
) -> Result<Flare, FlareError> {
    let _ = (ring, opening, hinge, beyond, amount);
    Err(FlareError::NotFinite)
}
