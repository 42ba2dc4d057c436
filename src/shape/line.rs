//! Straight lines and where they meet paths.

use super::outline;
use super::root::bernstein_roots;
use super::segment;
use super::tolerance::SAME_POINT;
use crate::few::Few;
use crate::shape::path::{Path, Position};
use kurbo::{PathSeg, Point, Vec2};

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

/// Where the endless line meets the paths, sorted along the line (at one place: by edge). Crossings and touches count;
/// a corner where two paths meet gives a hit on each; a segment that lies along the line gives its two ends.
/// Accuracy: the roots of the segments' distances from the line, to the last bits; within [`SAME_POINT`] of an end of
/// a segment it is the end.
pub fn meet(line: &StraightLine, paths: &[Path]) -> Vec<Hit> {
    let mut hits: Vec<Hit> = Vec::new();
    for (edge, path) in paths.iter().enumerate() {
        if !path.is_finite() {
            continue;
        }
        let first = hits.len();
        for position in places(line, path) {
            let point = path.point_at(position);
            // The end of one segment is the start of the next.
            if hits
                .iter()
                .skip(first)
                .any(|hit| hit.point.distance(point) <= SAME_POINT && joins(hit.position, position))
            {
                continue;
            }
            hits.push(Hit { edge, position, at: path.length_to(position), along: line.along(point), point });
        }
    }
    hits.sort_by(|a, b| a.along.total_cmp(&b.along).then(a.edge.cmp(&b.edge)));
    hits
}

fn joins(a: Position, b: Position) -> bool {
    a.segment == b.segment || (a.segment + 1 == b.segment && a.t >= 1.0 && b.t <= 0.0)
}

/// The places where a path meets the line, in order along the path.
pub(super) fn places(line: &StraightLine, path: &Path) -> Vec<Position> {
    let mut found = Vec::new();
    for (index, piece) in path.segments().iter().enumerate() {
        let sides = segment::controls(piece).map(|p| line.side(p));
        let roots = match piece {
            PathSeg::Line(_) => straight_roots(sides),
            _ if sides.iter().all(|side| side.abs() <= SAME_POINT) => Few::from_iter([0.0, 1.0]),
            _ => bernstein_roots(sides, SAME_POINT),
        };
        found.extend(roots.iter().map(|&t| Position { segment: index, t }));
    }
    found
}

fn straight_roots([start, _, _, end]: [f64; 4]) -> Few<f64> {
    match (start.abs() <= SAME_POINT, end.abs() <= SAME_POINT) {
        (true, true) => Few::from_iter([0.0, 1.0]),
        (true, false) => Few::one(0.0),
        (false, true) => Few::one(1.0),
        (false, false) if start * end < 0.0 => Few::one(start / (start - end)),
        (false, false) => Few::new(),
    }
}

/// Where the straight stretch from `from` to `to` (ends counted) meets the paths, sorted from `from`.
pub fn meet_segment(from: Point, to: Point, paths: &[Path]) -> Vec<Hit> {
    let Some(line) = StraightLine::through(from, to) else { return Vec::new() };
    let length = from.distance(to);
    let mut hits = meet(&line, paths);
    hits.retain(|hit| hit.along >= -SAME_POINT && hit.along <= length + SAME_POINT);
    hits
}

/// The runs of the endless line inside the closed outline `ring`, in order along the line. A stretch along an edge is
/// not inside; a corner that only touches the line from one side does not end a run. Where a run ends at a corner the
/// hit is on the later of the two edges, at its start.
pub fn runs_inside(line: &StraightLine, ring: &[Path]) -> Vec<Run> {
    let hits = meet(line, ring);
    let mut places: Vec<Hit> = Vec::new();
    for hit in hits {
        match places.last_mut() {
            Some(last) if hit.point.distance(last.point) <= 10.0 * SAME_POINT => {
                if is_start(&hit) && !is_start(last) {
                    *last = hit;
                }
            }
            _ => places.push(hit),
        }
    }
    let mut runs: Vec<Run> = Vec::new();
    for pair in places.windows(2) {
        let &[from, to] = pair else { continue };
        if !outline::contains_strictly(ring, from.point.midpoint(to.point)) {
            continue;
        }
        match runs.last_mut() {
            Some(run) if run.to == from => run.to = to,
            _ => runs.push(Run { from, to }),
        }
    }
    runs
}

fn is_start(hit: &Hit) -> bool {
    hit.position.segment == 0 && hit.position.t <= 0.0
}
