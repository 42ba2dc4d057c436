//! Parallel edges: offsets, edges moved out or in, facing strips.

use crate::few::Few;
use crate::shape::crossing::meet_nearest_to;
use crate::shape::outline::{RingError, check_ring, is_anticlockwise, next, previous};
use crate::shape::path::{Path, Position};
use crate::shape::tolerance::{OFFSET_ACCURACY, SAME_POINT};
use crate::shape::turn::unit;
use kurbo::offset::offset_cubic;
use kurbo::{BezPath, CubicBez, Line, ParamCurve, ParamCurveDeriv, PathSeg, Point};
use thiserror::Error;

/// Why there is no parallel.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum OffsetError {
    /// The edge curves too tightly for this distance.
    #[error("the edge curves with a radius of {radius} mm at {point:?}, too tight for {distance} mm")]
    TooTight {
        /// Where on the edge.
        point: Point,
        /// The radius there, mm: the most that could be offset.
        radius: f64,
        /// What was asked for, mm.
        distance: f64,
    },
    /// The parallel of an edge does not meet the edge beside it.
    #[error("the parallel of edge {edge} does not meet edge {neighbour}")]
    MissesNeighbour {
        /// The edge that was moved.
        edge: usize,
        /// The edge beside it.
        neighbour: usize,
    },
    /// Nothing is left of an edge between its neighbours.
    #[error("nothing is left of edge {edge}")]
    NothingLeft {
        /// The edge.
        edge: usize,
    },
    /// There is no such edge, or the run holds none or all of them.
    #[error("there is no such run of edges")]
    NoSuchEdge,
    /// A number is not finite.
    #[error("a number is not finite")]
    NotFinite,
    /// The paths are no closed outline.
    #[error(transparent)]
    Ring(#[from] RingError),
}

/// The inner side of a strip along a run of edges.
#[derive(Debug, Clone, PartialEq)]
pub struct InnerRun {
    /// The parallels of the run's edges, in the same order and direction, mitred between each other.
    pub parallels: Vec<Path>,
    /// Length along the edge before the run where the strip ends, mm from that edge's start.
    pub on_previous: f64,
    /// Length along the edge after the run where the strip ends, mm from that edge's start.
    pub on_next: f64,
}

/// The parallel of `path` at `distance` mm to its left (negative: to its right), in its direction.
///
/// Straight segments are moved exactly. Curves: kurbo's offset of cubics, to [`OFFSET_ACCURACY`]. At a corner inside the
/// path both sides go on straight to meet, or are cut where they meet.
///
/// # Errors
/// When the path curves toward that side with a radius no greater than the distance: the parallel would turn back on
/// itself there.
pub fn parallel(path: &Path, distance: f64) -> Result<Path, OffsetError> {
    if !path.is_finite() || !distance.is_finite() {
        return Err(OffsetError::NotFinite);
    }
    if distance == 0.0 {
        return Ok(path.clone());
    }
    let mut whole: Option<Path> = None;
    for piece in path.segments() {
        let Some(next) = parallel_of_segment(piece, distance)? else { continue };
        whole = Some(match whole {
            None => next,
            // A smooth join, but for the last digits of the offset.
            Some(before) if before.end().distance(next.start()) <= SMOOTH_GAP => before.on_into(&next),
            Some(before) => {
                let (before, next) = mitre(&before, &next, piece.start(), distance)
                    .ok_or(OffsetError::TooTight { point: piece.start(), radius: 0.0, distance })?;
                before.then(&next)
            }
        });
    }
    match whole {
        Some(whole) if whole.is_finite() => Ok(whole),
        Some(_) => Err(OffsetError::NotFinite),
        None => Err(OffsetError::NothingLeft { edge: 0 }),
    }
}

/// The parallel of one segment; none when it has no length.
fn parallel_of_segment(piece: &PathSeg, distance: f64) -> Result<Option<Path>, OffsetError> {
    let alone = Path::chain(Few::one(*piece), piece.start());
    let Some(way) = alone.tangent_at_start() else { return Ok(None) };
    if alone.is_straight() {
        let out = way.turn_90() * distance;
        return Ok(Some(Path::straight(alone.start() + out, alone.end() + out)));
    }
    let curve = piece.to_cubic();
    if !bends_less_than(&curve, distance.abs().recip()) {
        let (t, bend) = tightest(&curve, distance);
        if bend * distance.abs() >= 1.0 {
            return Err(OffsetError::TooTight { point: curve.eval(t), radius: bend.recip(), distance });
        }
    }
    let mut drawn = BezPath::new();
    offset_cubic(curve, distance, OFFSET_ACCURACY * 0.5, &mut drawn);
    Path::from_segments(drawn.segments()).map(Some).map_err(|_| OffsetError::NotFinite)
}

/// Whether it is plain that a curve nowhere bends as much as that (1/mm): its second derivative is no longer than the
/// longest difference of its handles' differences, and its first no shorter than the least advance of a handle along
/// the chord, so |B′ × B″| / |B′|³ ≤ |B″| / |B′|².
fn bends_less_than(curve: &CubicBez, bend: f64) -> bool {
    let ways = [curve.p1 - curve.p0, curve.p2 - curve.p1, curve.p3 - curve.p2];
    let Some(chord) = unit(curve.p3 - curve.p0) else { return false };
    let least = ways.iter().map(|way| 3.0 * way.dot(chord)).fold(f64::INFINITY, f64::min);
    let most = 6.0 * (ways[1] - ways[0]).hypot().max((ways[2] - ways[1]).hypot());
    least > 0.0 && most < bend * least * least
}

/// Where a curve bends most toward the side of `distance`, and the curvature (1/mm, positive) there.
fn tightest(curve: &CubicBez, distance: f64) -> (f64, f64) {
    let (first, second) = (curve.deriv(), curve.deriv().deriv());
    let bend = |t: f64| {
        let (along, turning) = (first.eval(t).to_vec2(), second.eval(t).to_vec2());
        let bend = along.cross(turning) / (along.hypot2() * along.hypot()) * distance.signum();
        if bend.is_nan() { 0.0 } else { bend }
    };
    let step = 1.0 / BEND_SAMPLES as f64;
    let (mut best, mut most) = (0.0, f64::NEG_INFINITY);
    for sample in 0..=BEND_SAMPLES {
        let t = sample as f64 * step;
        if bend(t) > most {
            (best, most) = (t, bend(t));
        }
    }
    // Golden section between the neighbours of the best sample.
    let (mut low, mut high) = ((best - step).max(0.0), (best + step).min(1.0));
    for _ in 0..40 {
        let (a, b) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
        if bend(a) > bend(b) {
            high = b;
        } else {
            low = a;
        }
    }
    let middle = 0.5 * (low + high);
    if bend(middle) > most { (middle, bend(middle)) } else { (best, most) }
}

/// The ring with edge `edge` moved `distance` mm out of the piece (negative: in), in parallel.
///
/// The two neighbours go on straight from their ends to meet it, or are cut where they meet it; so does the edge
/// itself. Same edges, same order.
///
/// # Errors
/// When a neighbour does not meet the parallel, nothing is left of an edge, or the edge curves too tightly.
pub fn extend_edge(ring: &[Path], edge: usize, distance: f64) -> Result<Vec<Path>, OffsetError> {
    check_ring(ring)?;
    let count = ring.len();
    let (before, after) = (previous(edge, count), next(edge, count));
    let (Some(moving), Some(prior), Some(later)) = (ring.get(edge), ring.get(before), ring.get(after)) else {
        return Err(OffsetError::NoSuchEdge);
    };
    if count < 2 {
        return Err(OffsetError::NoSuchEdge);
    }
    if distance == 0.0 {
        return Ok(ring.to_vec());
    }
    let left = if is_anticlockwise(ring) { -distance } else { distance };
    let reach = reach(distance);
    let moved = longer(&parallel(moving, left)?, reach, reach);
    let (prior, later) = (longer(prior, 0.0, reach), longer(later, reach, 0.0));
    let misses = |neighbour| OffsetError::MissesNeighbour { edge, neighbour };
    let (on_prior, start) = meet_near(&prior, &moved, moving.start()).ok_or(misses(before))?;
    let (on_later, end) = meet_near(&later, &moved, moving.end()).ok_or(misses(after))?;
    let mut edges = ring.to_vec();
    let mut put = |index: usize, path: Path| {
        let left = path.length() > SAME_POINT;
        if let Some(place) = edges.get_mut(index) {
            *place = straightened(path);
        }
        if left { Ok(()) } else { Err(OffsetError::NothingLeft { edge: index }) }
    };
    put(edge, moved.between(start, end))?;
    if before == after {
        // Two edges only: the other one is both neighbours. `prior` begins where the edge does, `later` `reach` before.
        let from = later.length_to(on_later) - reach;
        let to = prior.length_to(on_prior);
        let whole = longer(ring.get(before).ok_or(OffsetError::NoSuchEdge)?, reach, reach);
        put(before, whole.part(from + reach, to + reach))?;
    } else {
        put(before, prior.up_to(on_prior))?;
        put(after, later.onward(on_later))?;
    }
    Ok(edges)
}

/// The inner side of a strip `width` mm wide along `count` edges from `first` on (round the ring's end if need be): the
/// parallels of the edges inside the piece, mitred between each other, ended where they meet the edges beside the run.
///
/// # Errors
/// When a parallel does not meet its neighbour, an edge curves too tightly, or nothing is left of one.
pub fn inner_run(ring: &[Path], first: usize, count: usize, width: f64) -> Result<InnerRun, OffsetError> {
    check_ring(ring)?;
    let total = ring.len();
    if first >= total || count == 0 || count >= total {
        return Err(OffsetError::NoSuchEdge);
    }
    let left = if is_anticlockwise(ring) { width } else { -width };
    let mut kept: Vec<Inner> = Vec::with_capacity(count);
    for index in (0..count).map(|k| (first + k) % total) {
        let edge = ring.get(index).ok_or(OffsetError::NoSuchEdge)?;
        kept.push(Inner { index, own: parallel(edge, left)?, length: edge.length(), corner: edge.start() });
    }
    // An edge shorter than the strip is wide may have nothing inside: its neighbours then meet.
    loop {
        match joined_inside(ring, first, count, &kept, width) {
            Ok(run) => return Ok(run),
            Err(error) => {
                let shortest = (1..kept.len().saturating_sub(1))
                    .filter(|&at| kept.get(at).is_some_and(|inner| inner.length < width))
                    .min_by(|&a, &b| kept[a].length.total_cmp(&kept[b].length));
                let Some(shortest) = shortest else { return Err(error) };
                kept.remove(shortest);
            }
        }
    }
}

/// The parallel of one edge of a strip's run.
struct Inner {
    index: usize,
    own: Path,
    length: f64,
    corner: Point,
}

/// The parallels mitred with each other and ended on the edges beside the run.
fn joined_inside(
    ring: &[Path],
    first: usize,
    count: usize,
    kept: &[Inner],
    width: f64,
) -> Result<InnerRun, OffsetError> {
    let total = ring.len();
    let mut parallels: Vec<Path> = Vec::with_capacity(kept.len());
    let mut before_index = first;
    for inner in kept {
        let mut own = inner.own.clone();
        if let Some(before) = parallels.last_mut() {
            let (cut_before, cut_own) = mitre(before, &own, inner.corner, width)
                .ok_or(OffsetError::MissesNeighbour { edge: before_index, neighbour: inner.index })?;
            *before = cut_before;
            own = cut_own;
        }
        before_index = inner.index;
        parallels.push(own);
    }
    let last = (first + count - 1) % total;
    let (before, after) = (previous(first, total), next(last, total));
    let (Some(prior), Some(later)) = (ring.get(before), ring.get(after)) else {
        return Err(OffsetError::NoSuchEdge);
    };
    let reach = reach(width);
    let mut on_previous = prior.length();
    let mut on_next = 0.0;
    if let Some(path) = parallels.first_mut() {
        let ray = longer(path, reach, 0.0);
        let (place, own) = meet_near(prior, &ray, prior.end())
            .ok_or(OffsetError::MissesNeighbour { edge: first, neighbour: before })?;
        on_previous = prior.length_to(place);
        *path = straightened(ray.onward(own));
    }
    if let Some(path) = parallels.last_mut() {
        let ray = longer(path, 0.0, reach);
        let (place, own) = meet_near(later, &ray, later.start())
            .ok_or(OffsetError::MissesNeighbour { edge: last, neighbour: after })?;
        on_next = later.length_to(place);
        *path = straightened(ray.up_to(own));
    }
    let gone = parallels.iter().zip(kept).find(|(path, _)| path.length() <= SAME_POINT);
    if let Some((_, inner)) = gone {
        return Err(OffsetError::NothingLeft { edge: inner.index });
    }
    if before == after && on_next >= on_previous {
        return Err(OffsetError::NothingLeft { edge: before });
    }
    Ok(InnerRun { parallels, on_previous, on_next })
}

/// How far straight ends go on to look for a meeting, mm.
pub(crate) fn reach(distance: f64) -> f64 {
    100.0 * distance.abs() + 10.0
}

/// The path going on straight at both ends by so much.
pub(crate) fn longer(path: &Path, at_start: f64, at_end: f64) -> Path {
    let before = path.tangent_at_start().filter(|_| at_start > 0.0);
    let before = before.map(|way| PathSeg::Line(Line::new(path.start() - way * at_start, path.start())));
    let after = path.tangent_at_end().filter(|_| at_end > 0.0);
    let after = after.map(|way| PathSeg::Line(Line::new(path.end(), path.end() + way * at_end)));
    if before.is_none() && after.is_none() {
        return path.clone();
    }
    let segments = before.iter().chain(path.segments()).chain(&after).copied();
    Path::chain(segments.collect::<Few<PathSeg>>(), path.start())
}

/// Of the places where two paths meet, the one nearest to `corner`.
pub(crate) fn meet_near(a: &Path, b: &Path, corner: Point) -> Option<(Position, Position)> {
    meet_nearest_to(a, b, corner)
}

/// Two parallels that follow each other, cut or gone on with so that they meet at their corner.
fn mitre(before: &Path, after: &Path, corner: Point, distance: f64) -> Option<(Path, Path)> {
    if before.end().distance(after.start()) <= SMOOTH_GAP {
        // A smooth join, but for the last digits of the offset.
        return Some((before.ended_at(after.start()), after.clone()));
    }
    let (first, second) = (longer(before, 0.0, reach(distance)), longer(after, reach(distance), 0.0));
    let (on_first, on_second) = meet_near(&first, &second, corner)?;
    Some((straightened(first.up_to(on_first)), straightened(second.onward(on_second))))
}

/// A straight path as one segment.
pub(crate) fn straightened(path: Path) -> Path {
    if path.segments().len() > 1 && path.is_straight() {
        Path::straight(path.start(), path.end())
    } else {
        path
    }
}

/// Samples of the curvature of a segment.
const BEND_SAMPLES: usize = 64;
/// The golden ratio less one.
const GOLDEN: f64 = 0.618_033_988_749_895;
/// A gap between two parallels that comes from rounding alone, mm.
pub(crate) const SMOOTH_GAP: f64 = 1e-4;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::arc::{Turning, arc_about};
    use crate::shape::outline::signed_area;

    fn polygon(corners: &[(f64, f64)]) -> Vec<Path> {
        let points: Vec<Point> = corners.iter().map(|&c| c.into()).collect();
        let ends = points.iter().cycle().skip(1);
        points.iter().zip(ends).map(|(a, b)| Path::straight(*a, *b)).collect()
    }

    fn quarter(radius: f64) -> Path {
        let (from, to) = (Point::new(radius, 0.0), Point::new(0.0, radius));
        arc_about(Point::ZERO, from, to, Turning::Anticlockwise).unwrap()
    }

    /// The parallel of a circle is a circle: radius 100 − 10 to the left of an anticlockwise arc, 100 + 10 to the right.
    #[test]
    fn parallel_of_an_arc() {
        for (distance, radius) in [(10.0, 90.0), (-10.0, 110.0), (99.0, 1.0)] {
            let path = parallel(&quarter(100.0), distance).unwrap();
            for point in path.flatten(1e-3) {
                assert!((point.to_vec2().hypot() - radius).abs() < 0.011, "{radius}: {point:?}");
            }
            assert!((path.length() - std::f64::consts::FRAC_PI_2 * radius).abs() < 0.05);
        }
        match parallel(&quarter(100.0), 101.0) {
            Err(OffsetError::TooTight { radius, .. }) => assert!((radius - 100.0).abs() < 0.1, "{radius}"),
            other => panic!("{other:?}"),
        }
        assert!(parallel(&quarter(100.0), -101.0).is_ok());
    }

    /// A trapezium whose sides lean 1 in 2 (20 out over 40 up), bottom moved out by 10: each side goes on by
    /// 10·√(1 + ¼), the bottom grows or shrinks by 5 at each end (by hand).
    #[test]
    fn an_edge_moved_out_and_in() {
        let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (120.0, 40.0), (-20.0, 40.0)]);
        let out = extend_edge(&ring, 0, 10.0).unwrap();
        assert!((out[0].start().distance(Point::new(5.0, -10.0))) < 1e-9);
        assert!((out[0].length() - 90.0).abs() < 1e-9);
        assert!((out[1].length() - 50.0 * 1.25_f64.sqrt()).abs() < 1e-9);
        assert_eq!(check_ring(&out), Ok(()));
        assert!(out.iter().all(|path| path.segments().len() == 1));
        let inward = extend_edge(&ring, 0, -10.0).unwrap();
        assert!((inward[0].length() - 110.0).abs() < 1e-9);
        assert!((signed_area(&ring) - signed_area(&inward) - 10.0 * 105.0).abs() < 1e-9);
        // The other way round it is the same.
        let back: Vec<Path> = ring.iter().rev().map(Path::reversed).collect();
        assert!((extend_edge(&back, 3, 10.0).unwrap()[3].length() - 90.0).abs() < 1e-9);
        // More than there is.
        assert!(matches!(extend_edge(&ring, 0, -45.0), Err(OffsetError::MissesNeighbour { .. })));
        assert_eq!(extend_edge(&ring, 7, 1.0), Err(OffsetError::NoSuchEdge));
    }

    /// A strip 10 wide along the left and bottom of a rectangle 100 by 60: lines of 90 and 50, by hand.
    #[test]
    fn a_strip_round_a_corner() {
        let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]);
        let strip = inner_run(&ring, 3, 2, 10.0).unwrap();
        assert_eq!(strip.parallels.len(), 2);
        assert!((strip.parallels[0].length() - 50.0).abs() < 1e-9);
        assert!((strip.parallels[1].length() - 90.0).abs() < 1e-9);
        assert!(strip.parallels[0].end().distance(Point::new(10.0, 10.0)) < 1e-9);
        assert!((strip.on_previous - 90.0).abs() < 1e-9 && (strip.on_next - 10.0).abs() < 1e-9);
        assert!(matches!(inner_run(&ring, 3, 2, 61.0), Err(OffsetError::MissesNeighbour { .. })));
        assert_eq!(inner_run(&ring, 0, 4, 1.0), Err(OffsetError::NoSuchEdge));
    }

    /// A neckline's facing: a quarter circle of radius 80 whose neighbours run straight away from it; 60 wide outside
    /// the arc, the strip's inner side is a quarter of radius 140 = 219.9 mm.
    #[test]
    fn a_strip_along_a_neckline() {
        let p = |x: f64, y: f64| Point::new(x, y);
        // Clockwise arc from (0, 80) to (80, 0) about the origin: the piece lies outside it.
        let neck = arc_about(Point::ZERO, p(80.0, 0.0), p(0.0, 80.0), Turning::Anticlockwise).unwrap();
        let ring = vec![
            neck.reversed(),
            Path::straight(p(80.0, 0.0), p(300.0, 0.0)),
            Path::straight(p(300.0, 0.0), p(300.0, 300.0)),
            Path::straight(p(300.0, 300.0), p(0.0, 300.0)),
            Path::straight(p(0.0, 300.0), p(0.0, 80.0)),
        ];
        let strip = inner_run(&ring, 0, 1, 60.0).unwrap();
        assert!((strip.parallels[0].length() - 70.0 * std::f64::consts::PI).abs() < 0.03);
        assert!((strip.on_next - 60.0).abs() < 0.01 && (strip.on_previous - 160.0).abs() < 0.01);
    }

    /// A curved side is cut where the edge moved in meets it, and goes on straight where it moves out; by hand: the arc
    /// of radius 100 about the origin stands at x = √(100² − 30²) at y = 30, and leaves (100, 0) upright.
    #[test]
    fn a_curved_neighbour() {
        let p = |x: f64, y: f64| Point::new(x, y);
        let ring = vec![
            Path::straight(p(0.0, 0.0), p(100.0, 0.0)),
            quarter(100.0),
            Path::straight(p(0.0, 100.0), p(0.0, 0.0)),
        ];
        let inward = extend_edge(&ring, 0, -30.0).unwrap();
        assert_eq!(check_ring(&inward), Ok(()));
        assert!(inward[0].end().distance(p(9100.0_f64.sqrt(), 30.0)) < 1e-3);
        let out = extend_edge(&ring, 0, 30.0).unwrap();
        assert!(out[0].end().distance(p(100.0, -30.0)) < 1e-6 && out[1].is_smooth(1e-6));
        assert!((out[1].length() - ring[1].length() - 30.0).abs() < 1e-6);
        // The arc itself moved out: still a quarter, of radius 110.
        let wide = extend_edge(&ring, 1, 10.0).unwrap();
        assert!((wide[1].length() - 55.0 * std::f64::consts::PI).abs() < 0.03);
        assert!((wide[0].length() - 110.0).abs() < 0.01 && check_ring(&wide).is_ok());
    }

    /// A half disc has two edges, each the other's neighbour on both sides: the straight one moved out by 10 leaves a
    /// chord of the same length (the arc goes on upright), moved in by 60 one of 2·√(100² − 60²) = 160.
    #[test]
    fn two_edges_only() {
        let p = |x: f64, y: f64| Point::new(x, y);
        let arc = arc_about(Point::ZERO, p(100.0, 0.0), p(-100.0, 0.0), Turning::Anticlockwise).unwrap();
        let ring = vec![Path::straight(p(-100.0, 0.0), p(100.0, 0.0)), arc];
        let out = extend_edge(&ring, 0, 10.0).unwrap();
        assert!((out[0].length() - 200.0).abs() < 1e-6 && check_ring(&out).is_ok());
        assert!((out[1].length() - 100.0 * std::f64::consts::PI - 20.0).abs() < 1e-3);
        let inward = extend_edge(&ring, 0, -60.0).unwrap();
        assert!((inward[0].length() - 160.0).abs() < 1e-3 && check_ring(&inward).is_ok());
    }

    /// A corner inside an edge (two straight stretches, joined pieces have such): both go on to meet, or are cut.
    #[test]
    fn a_corner_inside_an_edge() {
        let p = |x: f64, y: f64| Point::new(x, y);
        let bent =
            Path::straight(p(0.0, 0.0), p(100.0, 0.0)).then(&Path::straight(p(100.0, 0.0), p(100.0, 50.0)));
        assert!((parallel(&bent, 10.0).unwrap().length() - 130.0).abs() < 1e-9);
        assert!((parallel(&bent, -10.0).unwrap().length() - 170.0).abs() < 1e-9);
    }
}
