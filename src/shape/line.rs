//! Straight lines and where they meet paths.

use crate::shape::path::{Path, Position};
use kurbo::{Point, Vec2};

/// A straight line without ends, with a direction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StraightLine {
    /// A point on it.
    pub point: Point,
    /// Its direction, a unit vector.
    pub direction: Vec2,
}

impl StraightLine {
    /// The line through `point` in `direction`; none when the direction has no length or something is not finite.
    pub fn at(point: Point, direction: Vec2) -> Option<StraightLine> {
        let direction = crate::shape::turn::unit(direction)?;
        point.is_finite().then_some(StraightLine { point, direction })
    }

    /// The line from `from` through `to`; none when they are the same point.
    pub fn through(from: Point, to: Point) -> Option<StraightLine> {
        StraightLine::at(from, to - from)
    }

    /// How far `point` lies to the left of the line, in mm (negative: to the right).
    pub fn side(&self, point: Point) -> f64 {
        self.direction.cross(point - self.point)
    }

    /// How far along the line `point` lies from the line's own point, in mm.
    pub fn along(&self, point: Point) -> f64 {
        self.direction.dot(point - self.point)
    }
}

/// A place where a line meets a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hit {
    /// Index of the path.
    pub edge: usize,
    /// The place on it.
    pub position: Position,
    /// The length along the path from its start, mm.
    pub at: f64,
    /// How far along the line, from the line's own point, mm.
    pub along: f64,
    /// The point.
    pub point: Point,
}

/// A run of a line inside a closed outline, between two hits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Run {
    /// Where the line goes in.
    pub from: Hit,
    /// Where it comes out.
    pub to: Hit,
}

/// Where the endless line meets the paths, sorted along the line.
pub fn meet(line: &StraightLine, paths: &[Path]) -> Vec<Hit> {
    let _ = (line, paths);
    Vec::new()
}

/// Where the straight segment from `from` to `to` meets the paths, sorted from `from`.
pub fn meet_segment(from: Point, to: Point, paths: &[Path]) -> Vec<Hit> {
    let _ = (from, to, paths);
    Vec::new()
}

/// The runs of the endless line inside the closed outline `ring`, in order along the line.
pub fn runs_inside(line: &StraightLine, ring: &[Path]) -> Vec<Run> {
    let _ = (line, ring);
    Vec::new()
}
