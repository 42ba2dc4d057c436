//! Cutting an outline along a whole line.

use crate::shape::crossing::paths_meet;
use crate::shape::curve::smooth_curve;
use crate::shape::line::{StraightLine, runs_inside};
use crate::shape::outline::{RingError, check_ring, contains_strictly, is_anticlockwise};
use crate::shape::path::{Path, Position};
use crate::shape::pivot::{Between, Gap, parts};
use crate::shape::place::move_ends;
use crate::shape::tolerance::SAME_POINT;
use crate::shape::walk::{Stretch, stretch};
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
    #[error("it is not clear which side is beyond the line")]
    NoSide,
    /// The paths are no closed outline.
    #[error(transparent)]
    Ring(#[from] RingError),
}

/// Cut `ring` along the whole `line`; `beyond` points to the side that is beyond (any vector not along the line).
///
/// Both rings go round the same way as the one that was cut: first the parts of its edges in order, then the new edge.
/// A line through a corner cuts there and leaves both edges whole.
///
/// # Errors
/// When the line misses the outline (or only touches it), goes through it more than once, or nothing is finite.
pub fn cut(ring: &[Path], line: &StraightLine, beyond: Vec2) -> Result<Halves, CutError> {
    check_ring(ring)?;
    let left_is_beyond = line.direction.cross(beyond);
    if !left_is_beyond.is_finite() || left_is_beyond == 0.0 {
        return Err(CutError::NoSide);
    }
    let runs = runs_inside(line, ring);
    let run = match runs.as_slice() {
        [] => return Err(CutError::Misses),
        [run] => *run,
        several => return Err(CutError::CrossesOften { times: several.len() * 2 }),
    };
    let (from, to) = ((run.from.edge, run.from.position), (run.to.edge, run.to.position));
    let half = |start, end| {
        let mut edges: Vec<CutEdge> = stretch(ring, start, end).into_iter().map(CutEdge::from).collect();
        if let (Some(first), Some(last)) = (edges.first(), edges.last()) {
            let path = Path::straight(last.path.end(), first.path.start());
            edges.push(CutEdge { path, origin: Origin::Cut });
        }
        edges
    };
    // Walked anticlockwise, what lies to the left of the line comes after its end.
    let (right, left) = (half(from, to), half(to, from));
    let (right, left) = if is_anticlockwise(ring) { (right, left) } else { (left, right) };
    let (before, beyond) = if left_is_beyond > 0.0 { (right, left) } else { (left, right) };
    Ok(Halves { before, beyond, cut: (run.from.point, run.to.point) })
}

/// Cut `ring` along `way`, drawn on straight at both of its ends; `beyond` points to the side of its chord that is beyond.
/// As [`cut`], with the part of the way inside as the new edge.
///
/// # Errors
/// As [`cut`].
pub fn cut_along(ring: &[Path], way: &Path, beyond: Vec2) -> Result<Halves, CutError> {
    check_ring(ring)?;
    let chord = way.end() - way.start();
    let left_is_beyond = chord.cross(beyond);
    let (Some(leaves), Some(arrives), true) =
        (way.tangent_at_start(), way.tangent_at_end(), left_is_beyond.is_finite() && left_is_beyond != 0.0)
    else {
        return Err(CutError::NoSide);
    };
    let corners = ring.iter().map(Path::start);
    let far = way.length() + corners.map(|corner| corner.distance(way.start())).fold(0.0, f64::max);
    let (from, to) = (way.start() - leaves * far, way.end() + arrives * far);
    let way = Path::straight(from, way.start()).then(way).then(&Path::straight(way.end(), to));
    // Each place where it meets the outline: how far along the way, and on which edge where.
    let mut hits: Vec<(f64, (usize, Position))> = Vec::new();
    for (edge, path) in ring.iter().enumerate() {
        hits.extend(paths_meet(&way, path).into_iter().map(|(on, at, _)| (way.length_to(on), (edge, at))));
    }
    hits.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.0.cmp(&b.1.0)));
    hits.dedup_by(|later, first| later.0 - first.0 <= CLOSE);
    let inside = |pair: &[(f64, (usize, Position))]| match pair {
        [(low, _), (high, _)] => contains_strictly(ring, way.point_at_length(f64::midpoint(*low, *high))),
        _ => false,
    };
    let runs: Vec<&[(f64, (usize, Position))]> = hits.windows(2).filter(|pair| inside(pair)).collect();
    let (low, high) = match runs.as_slice() {
        [] => return Err(CutError::Misses),
        [[low, high]] => (*low, *high),
        several => return Err(CutError::CrossesOften { times: several.len() * 2 }),
    };
    let new = way.part(low.0, high.0);
    let half = |start, end, new: Path| {
        let mut edges: Vec<CutEdge> = stretch(ring, start, end).into_iter().map(CutEdge::from).collect();
        if let (Some(first), Some(last)) = (edges.first(), edges.last()) {
            // Its ends are those of the edges beside it, to the last bit.
            let new = move_ends(&new, last.path.end() - new.start(), first.path.start() - new.end());
            edges.push(CutEdge { path: new, origin: Origin::Cut });
        }
        edges
    };
    let (right, left) = (half(low.1, high.1, new.reversed()), half(high.1, low.1, new.clone()));
    let (right, left) = if is_anticlockwise(ring) { (right, left) } else { (left, right) };
    let (before, beyond) = if left_is_beyond > 0.0 { (right, left) } else { (left, right) };
    Ok(Halves { before, beyond, cut: (new.start(), new.end()) })
}

/// Places on a way nearer than this to one another, in millimetres, are one: a corner of the outline is on two edges.
const CLOSE: f64 = 1e-5;

impl From<Stretch> for CutEdge {
    fn from(part: Stretch) -> CutEdge {
        let Stretch { edge, path, from, to, whole, .. } = part;
        CutEdge { path, origin: Origin::Edge { edge, from, to, whole } }
    }
}

/// Cut `ring` along a way of its own, from one gap of its outline to another: what lies between the sides of a gap is
/// left out. `after` leads from the second side of the first gap to the first side of the second, `before` from the
/// first side of the first gap to the second side of the second. Gives what lies after the first gap, as the ring runs,
/// then what lies before it; each as [`cut`] does, with its new edge last.
pub fn cut_between(ring: &[Path], first: Gap, second: Gap, after: &Path, before: &Path) -> [Vec<CutEdge>; 2] {
    let [one, other] = parts(ring, first, second);
    let half = |part: Vec<Between>, way: Path| {
        let whole = |edge: usize, path: &Path| {
            ring.get(edge).is_some_and(|old| (old.length() - path.length()).abs() <= SAME_POINT)
        };
        let kept = part.into_iter().map(|Between { edge, path }| {
            let whole = whole(edge, &path);
            // Where along its edge it lies, nobody asks of a cut of this kind but whether it is all of it.
            let origin = Origin::Edge { edge, from: 0.0, to: path.length(), whole };
            CutEdge { path, origin }
        });
        kept.chain([CutEdge { path: way, origin: Origin::Cut }]).collect()
    };
    [half(one, after.reversed()), half(other, before.clone())]
}

/// A way from corner to corner whose inner corners are taken off: `by` mm before each it leaves it for a smooth curve
/// that arrives `by` behind it.
///
/// # Errors
/// Where there is not so much between two corners, or between a corner and an end: the most there is, mm.
pub fn rounded(corners: &[Point], by: f64) -> Result<Path, f64> {
    let last = corners.len().saturating_sub(1);
    let mut made: Option<Path> = None;
    let mut here = corners.first().copied().unwrap_or_default();
    for (at, leg) in corners.windows(2).enumerate() {
        let &[from, to] = leg else { continue };
        let long = from.distance(to);
        let ends = usize::from(at > 0) + usize::from(at + 1 < last);
        if by > 0.0 && by * ends as f64 > long - SAME_POINT {
            return Err(long / ends.max(1) as f64);
        }
        let stop = if by > 0.0 && at + 1 < last { to.lerp(from, by / long) } else { to };
        let straight = Path::straight(here, stop);
        made = Some(made.map_or_else(|| straight.clone(), |before| before.then(&straight)));
        here = stop;
        if let Some(next) = corners.get(at + 2).filter(|_| by > 0.0) {
            let on = to.lerp(*next, by / to.distance(*next).max(by));
            if let Ok(curve) = smooth_curve(&[stop, on], Some(to - from), Some(*next - to)) {
                made = made.map(|before| before.then(&curve));
            }
            here = on;
        }
    }
    made.ok_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::outline::signed_area;

    fn polygon(corners: &[(f64, f64)]) -> Vec<Path> {
        let points: Vec<Point> = corners.iter().map(|&c| c.into()).collect();
        let ends = points.iter().cycle().skip(1);
        points.iter().zip(ends).map(|(a, b)| Path::straight(*a, *b)).collect()
    }

    fn area(half: &[CutEdge]) -> f64 {
        signed_area(&half.iter().map(|edge| edge.path.clone()).collect::<Vec<_>>())
    }

    /// A rectangle 100 by 60 cut level at 20: areas 2000 and 4000, by hand.
    #[test]
    fn a_rectangle_cut_level() {
        let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]);
        let line = StraightLine::at(Point::new(-7.0, 20.0), Vec2::new(1.0, 0.0)).unwrap();
        for (ring, sign) in [(ring.clone(), 1.0), (ring.iter().rev().map(Path::reversed).collect(), -1.0)] {
            let halves = cut(&ring, &line, Vec2::new(0.3, 1.0)).unwrap();
            assert!((area(&halves.before) - sign * 2000.0).abs() < 1e-9);
            assert!((area(&halves.beyond) - sign * 4000.0).abs() < 1e-9);
            assert_eq!(halves.beyond.len(), 4);
            let turned = cut(&ring, &line, Vec2::new(0.0, -1.0)).unwrap();
            assert!((area(&turned.before) - sign * 4000.0).abs() < 1e-9);
        }
        let halves = cut(&ring, &line, Vec2::new(0.0, 1.0)).unwrap();
        let origins: Vec<Origin> = halves.beyond.iter().map(|edge| edge.origin).collect();
        assert!(
            origins.contains(&Origin::Edge { edge: 1, from: 20.0, to: 60.0, whole: false }),
            "{origins:?}"
        );
        assert!(
            origins.contains(&Origin::Edge { edge: 2, from: 0.0, to: 100.0, whole: true }),
            "{origins:?}"
        );
        assert_eq!(origins.last(), Some(&Origin::Cut));
    }

    /// Through two corners of a square: two triangles of half the area, each with two whole edges.
    #[test]
    fn through_corners() {
        let ring = polygon(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]);
        let line = StraightLine::through(Point::ZERO, Point::new(10.0, 10.0)).unwrap();
        let halves = cut(&ring, &line, Vec2::new(0.0, 1.0)).unwrap();
        assert!((area(&halves.before) - 50.0).abs() < 1e-9 && (area(&halves.beyond) - 50.0).abs() < 1e-9);
        assert_eq!((halves.before.len(), halves.beyond.len()), (3, 3));
        assert!(
            halves.before.iter().all(|e| matches!(e.origin, Origin::Cut | Origin::Edge { whole: true, .. }))
        );
    }

    /// Both ends of the cut on one edge: a half disc of radius 100 cut level at 60. The cap by the formula for a
    /// circular segment, r²·acos(d/r) − d·√(r² − d²); the cut is 160 long.
    #[test]
    fn one_edge_cut_twice() {
        use crate::shape::arc::{Turning, arc_about};
        let (right, left) = (Point::new(100.0, 0.0), Point::new(-100.0, 0.0));
        let ring = [
            arc_about(Point::ZERO, right, left, Turning::Anticlockwise).unwrap(),
            Path::straight(left, right),
        ];
        let line = StraightLine::at(Point::new(0.0, 60.0), Vec2::new(1.0, 0.0)).unwrap();
        let halves = cut(&ring, &line, Vec2::new(0.0, 1.0)).unwrap();
        let cap = 1e4 * libm::acos(0.6) - 60.0 * 80.0;
        assert!((area(&halves.beyond) - cap).abs() < 0.05, "{} {cap}", area(&halves.beyond));
        assert!((area(&halves.before) - (std::f64::consts::PI * 5000.0 - cap)).abs() < 0.05);
        assert_eq!((halves.beyond.len(), halves.before.len()), (2, 4));
        assert!((halves.cut.0.distance(halves.cut.1) - 160.0).abs() < 1e-3);
    }

    #[test]
    fn mistakes_are_values() {
        let u = polygon(&[
            (0.0, 0.0),
            (30.0, 0.0),
            (30.0, 30.0),
            (20.0, 30.0),
            (20.0, 10.0),
            (10.0, 10.0),
            (10.0, 30.0),
            (0.0, 30.0),
        ]);
        let level = |y: f64| StraightLine::at(Point::new(0.0, y), Vec2::new(1.0, 0.0)).unwrap();
        let up = Vec2::new(0.0, 1.0);
        assert_eq!(cut(&u, &level(20.0), up), Err(CutError::CrossesOften { times: 4 }));
        assert_eq!(cut(&u, &level(40.0), up), Err(CutError::Misses));
        assert_eq!(cut(&u, &level(30.0), up), Err(CutError::Misses), "only touches");
        assert_eq!(cut(&u, &level(5.0), Vec2::new(1.0, 0.0)), Err(CutError::NoSide));
        // Along the bottom of the notch it also runs along an edge.
        assert!(matches!(cut(&u, &level(10.0), up), Err(CutError::CrossesOften { .. })));
        assert!(matches!(cut(&u[1..], &level(5.0), up), Err(CutError::Ring(RingError::Open { .. }))));
    }

    /// A square of 100 cut from a mouth of 10 in its bottom by its middle to a mouth of 20 in its top: on the left
    /// 45 of the bottom and 40 of the top are left, and both new edges are √(5² + 50²) + √(10² + 50²).
    #[test]
    fn from_mouth_to_mouth() {
        let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]);
        let p = |x: f64, y: f64| Point::new(x, y);
        let (bottom, top) = (Gap { edge: 0, from: 45.0, to: 55.0 }, Gap { edge: 2, from: 40.0, to: 60.0 });
        let after = rounded(&[p(55.0, 0.0), p(50.0, 50.0), p(60.0, 100.0)], 0.0).unwrap();
        let before = rounded(&[p(45.0, 0.0), p(50.0, 50.0), p(40.0, 100.0)], 0.0).unwrap();
        let long = 25.0_f64.hypot(250.0) / 5.0 + 50.0_f64.hypot(250.0) / 5.0;
        for [right, left] in [cut_between(&ring, bottom, top, &after, &before)] {
            assert_eq!((right.len(), left.len()), (4, 4));
            assert!(
                (right[3].path.length() - long).abs() < 1e-9 && (left[3].path.length() - long).abs() < 1e-9
            );
            for half in [&right, &left] {
                let paths: Vec<Path> = half.iter().map(|edge| edge.path.clone()).collect();
                assert_eq!(check_ring(&paths), Ok(()));
            }
            // 10 000 less the two mouths of 10·50/2 and 20·50/2, halved.
            assert!((area(&right) - 4625.0).abs() < 1e-9 && (area(&left) - 4625.0).abs() < 1e-9);
        }
    }

    /// A right angle with legs of 50, rounded 20: 30 + 30 straight, and a quarter circle of 20 (Hobby: within 0.02 %).
    #[test]
    fn corners_taken_off() {
        let corners = [Point::new(0.0, 0.0), Point::new(50.0, 0.0), Point::new(50.0, 50.0)];
        let path = rounded(&corners, 20.0).unwrap();
        assert!((path.length() - 60.0 - 10.0 * std::f64::consts::PI).abs() < 0.01, "{}", path.length());
        assert!(path.is_smooth(1e-6));
        assert_eq!(rounded(&corners, 60.0), Err(50.0));
        assert_eq!(rounded(&corners, 0.0).unwrap().length(), 100.0);
    }
}
