//! Straight lines and where they meet paths.

use super::outline::{self, Region};
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
        found.extend(roots_on(line, piece).iter().map(|&t| Position { segment: index, t }));
    }
    found
}

/// The parameters at which a segment meets the line, in order.
fn roots_on(line: &StraightLine, piece: &PathSeg) -> Few<f64> {
    let sides = segment::controls(piece).map(|p| line.side(p));
    // What lies clearly on one side is not met.
    if sides.iter().all(|side| *side > CLEAR) || sides.iter().all(|side| *side < -CLEAR) {
        return Few::new();
    }
    match piece {
        PathSeg::Line(_) => straight_roots(sides),
        _ if sides.iter().all(|side| side.abs() <= SAME_POINT) => Few::from_iter([0.0, 1.0]),
        _ => bernstein_roots(sides, SAME_POINT),
    }
}

/// Farther off a line than this, in millimetres, all of a segment lies on one side of it.
const CLEAR: f64 = 2.0 * SAME_POINT;

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

/// As [`meet_segment`] of an outline that is made ready, of which only that is asked for which lies between the two
/// places of the stretch that `matter`: where that clearly meets nothing, nothing is given.
pub fn meet_outline(from: Point, to: Point, matter: [Point; 2], outline: &Region) -> Vec<Hit> {
    match outline.may_meet(matter[0], matter[1]) {
        true => meet_segment(from, to, outline.ring()),
        false => Vec::new(),
    }
}

/// Where the endless line meets a path, the hit that is nearest to `to` of those so far along the line that it
/// `matters`; of equally near ones the first along the line.
pub fn meet_nearest(
    line: &StraightLine,
    path: &Path,
    to: Point,
    matters: impl Fn(f64) -> bool,
) -> Option<Hit> {
    let least = |piece: &PathSeg| segment::least_distance_squared(piece, to);
    let paths = std::slice::from_ref(path);
    let within = |reach: f64| {
        let may_matter = |piece: &PathSeg| least(piece).partial_cmp(&reach) != Some(Ordering::Greater);
        let hits = meet_where(line, paths, may_matter, &matters);
        hits.into_iter().min_by(|a, b| a.point.distance(to).total_cmp(&b.point.distance(to)))
    };
    // No hit on what lies farther away than one that was found is nearer than that.
    let nearest = path.segments().iter().map(least).fold(f64::INFINITY, f64::min);
    let reach = within(nearest).map_or(f64::INFINITY, |hit| (hit.point.distance(to) + AROUND).powi(2));
    within(reach)
}

/// A path of which is asked, of many lines, where they meet it.
pub(super) struct Met<'p> {
    path: &'p Path,
    /// By segments: the rectangle round their controls.
    hulls: Vec<Rect>,
}

impl<'p> Met<'p> {
    /// Makes a path ready.
    pub(super) fn of(path: &'p Path) -> Self {
        Met { path, hulls: path.segments().iter().map(segment::hull).collect() }
    }

    /// Where the endless line meets the path nearest to `to`, as [`meet_nearest`] tells. It is looked for on segment `first`
    /// first, where it may well be, and then on those alone that come as near as what is found there.
    pub(super) fn nearest(&self, line: &StraightLine, to: Point, first: usize) -> Option<(Position, Point)> {
        let least = || self.hulls.iter().map(|hull| segment::beyond(hull, to)).enumerate();
        let mut best: Option<(f64, f64, Position, Point)> = None;
        let mut look_at = |index: usize| {
            let Some(piece) = self.path.segments().get(index) else { return f64::INFINITY };
            for t in roots_on(line, piece).iter().copied() {
                let position = Position { segment: index, t };
                let point = self.path.point_at(position);
                let found = (point.distance(to), line.along(point));
                if best.is_none_or(|(off, along, ..)| found < (off, along)) {
                    best = Some((found.0, found.1, position, point));
                }
            }
            best.map_or(f64::INFINITY, |(off, ..)| (off + AROUND).powi(2))
        };
        let reach = look_at(first);
        for (index, _) in least().filter(|(index, least)| *index != first && *least <= reach) {
            look_at(index);
        }
        best.map(|(_, _, position, point)| (position, point))
    }
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

#[cfg(test)]
mod tests {
    use super::*;

    fn p(x: f64, y: f64) -> Point {
        Point::new(x, y)
    }

    /// A ring of a bowed top, a bulging side and two straight sides, about 100 by 100.
    fn ring() -> Vec<Path> {
        vec![
            Path::cubic(p(0.0, 0.0), p(30.0, -12.0), p(70.0, -12.0), p(100.0, 0.0)),
            Path::cubic(p(100.0, 0.0), p(125.0, 30.0), p(80.0, 60.0), p(100.0, 100.0)),
            Path::straight(p(100.0, 100.0), p(0.0, 90.0)),
            Path::straight(p(0.0, 90.0), p(0.0, 0.0)),
        ]
    }

    /// Places all over the ring, and at its corners.
    fn places() -> Vec<Point> {
        let all = (0..23).map(|step| p(f64::from(step * 37 % 131) - 12.0, f64::from(step * 53 % 127) - 13.0));
        all.chain(ring().iter().map(Path::start)).collect()
    }

    /// What is told to meet nothing meets nothing, whichever stretch is looked at; and most of what meets nothing is
    /// told so.
    #[test]
    fn what_clearly_meets_nothing_does_not_meet() {
        let ring = ring();
        let region = Region::of(&ring);
        let (mut none, mut told) = (0, 0);
        for from in places() {
            for to in places() {
                let met = !meet_segment(from, to, &ring).is_empty();
                assert!(!met || region.may_meet(from, to), "{from} {to}");
                none += usize::from(!met);
                told += usize::from(!met && !region.may_meet(from, to));
            }
        }
        assert!(told * 2 > none, "{told} of {none}");
    }

    /// A leg that begins in the corner of two edges and goes square into the piece leaves them at once.
    #[test]
    fn a_leg_from_a_corner_leaves_it() {
        let ring = ring();
        let region = Region::of(&ring);
        let (corner, end) = (p(0.0, 0.0), p(50.0, 50.0));
        assert!(region.may_meet(corner, end));
        assert!(!region.may_meet(corner.lerp(end, 1e-3), end));
    }

    /// A line that meets a path many times: the place told is the nearest of all that are found one by one.
    #[test]
    fn of_many_meetings_the_nearest_is_found() {
        let wave = |at: f64| {
            let high = if (at / 20.0) as i32 % 2 == 0 { 30.0 } else { -30.0 };
            Path::cubic(p(at, 0.0), p(at + 7.0, high), p(at + 13.0, high), p(at + 20.0, 0.0))
        };
        let path = (1..10).fold(wave(0.0), |so_far, nth| so_far.then(&wave(20.0 * f64::from(nth))));
        let met = Met::of(&path);
        for step in 0..60 {
            let to = p(f64::from(step * 29 % 200), f64::from(step * 17 % 50) - 25.0);
            let line = StraightLine::through(to, p(100.0 + f64::from(step), 3.0)).unwrap();
            let all = meet(&line, std::slice::from_ref(&path));
            let least = all.iter().map(|hit| hit.point.distance(to)).fold(f64::INFINITY, f64::min);
            let found = met
                .nearest(&line, to, step as usize % 12)
                .map_or(f64::INFINITY, |(_, point)| point.distance(to));
            assert!(found == least || (found - least).abs() < 1e-9, "{found} {least}");
        }
    }
}
