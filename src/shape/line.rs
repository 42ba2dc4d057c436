//! Straight lines and where they meet paths.

use super::outline;
use super::root::bernstein_roots;
use super::segment;
use super::tolerance::SAME_POINT;
use crate::few::Few;
use crate::shape::path::{Path, Position};
use kurbo::{PathSeg, Point, Rect, Vec2};
use std::cmp::Ordering;

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
    meet_where(line, paths, |_| true, |_| true)
}

/// The same of those segments alone that may matter, and those hits that do. A hit lies in the hull of its segment.
fn meet_where(
    line: &StraightLine,
    paths: &[Path],
    may_matter: impl Fn(&PathSeg) -> bool,
    matters: impl Fn(f64) -> bool,
) -> Vec<Hit> {
    let mut hits: Vec<Hit> = Vec::new();
    for (edge, path) in paths.iter().enumerate() {
        if !path.is_finite() {
            continue;
        }
        let first = hits.len();
        for position in places_on(line, path, &may_matter) {
            let point = path.point_at(position);
            // The end of one segment is the start of the next.
            if hits
                .iter()
                .skip(first)
                .any(|hit| hit.point.distance(point) <= SAME_POINT && joins(hit.position, position))
            {
                continue;
            }
            hits.push(Hit { edge, position, at: 0.0, along: line.along(point), point });
        }
    }
    hits.retain(|hit| matters(hit.along));
    for hit in &mut hits {
        hit.at = paths.get(hit.edge).map_or(0.0, |path| path.length_to(hit.position));
    }
    hits.sort_by(|a, b| a.along.total_cmp(&b.along).then(a.edge.cmp(&b.edge)));
    hits
}

fn joins(a: Position, b: Position) -> bool {
    a.segment == b.segment || (a.segment + 1 == b.segment && a.t >= 1.0 && b.t <= 0.0)
}

/// The places where a path meets the line, in order along the path.
pub(super) fn places(line: &StraightLine, path: &Path) -> Vec<Position> {
    places_on(line, path, &|_| true)
}

/// The same on those segments that may matter.
fn places_on(line: &StraightLine, path: &Path, may_matter: &dyn Fn(&PathSeg) -> bool) -> Vec<Position> {
    let mut found = Vec::new();
    for (index, piece) in path.segments().iter().enumerate().filter(|(_, piece)| may_matter(piece)) {
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
    // What is nearer to the stretch than this may meet it.
    let near = Rect::from_points(from, to).inflate(AROUND, AROUND);
    let may_matter = |piece: &PathSeg| {
        let hull = segment::hull(piece);
        let is_apart = hull.x1 < near.x0 || hull.x0 > near.x1 || hull.y1 < near.y0 || hull.y0 > near.y1;
        !is_apart
    };
    meet_where(&line, paths, may_matter, |along| along >= -SAME_POINT && along <= length + SAME_POINT)
}

/// Where the endless line meets a path, the hit that is nearest to `to` of those so far along the line that it
/// `matters`; of equally near ones the first along the line.
pub fn meet_nearest(
    line: &StraightLine,
    path: &Path,
    to: Point,
    matters: impl Fn(f64) -> bool,
) -> Option<Hit> {
    let least = |piece: &PathSeg| segment::least_distance(piece, to);
    let paths = std::slice::from_ref(path);
    let within = |reach: f64| {
        let may_matter = |piece: &PathSeg| least(piece).partial_cmp(&reach) != Some(Ordering::Greater);
        let hits = meet_where(line, paths, may_matter, &matters);
        hits.into_iter().min_by(|a, b| a.point.distance(to).total_cmp(&b.point.distance(to)))
    };
    // No hit on what lies farther away than one that was found is nearer than that.
    let nearest = path.segments().iter().map(least).fold(f64::INFINITY, f64::min);
    let reach = within(nearest).map_or(f64::INFINITY, |hit| hit.point.distance(to) + AROUND);
    within(reach)
}

/// Farther apart than this, in millimetres, two places cannot be one, whatever rounding adds.
const AROUND: f64 = 10.0 * SAME_POINT;

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
