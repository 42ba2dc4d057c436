//! Shutting a mouth of an outline about a point, and opening the outline elsewhere: one part of the paper turns
//! about the point. Angles, and all lengths but those of the two edges, stay as they are.

use crate::shape::crossing::paths_meet;
use crate::shape::curve::smooth_curve;
use crate::shape::line::{Hit, StraightLine, meet};
use crate::shape::nearest::Nearest;
use crate::shape::outline::{Region, RingError, check_ring, is_anticlockwise, is_on};
use crate::shape::path::Path;
use crate::shape::place::move_ends;
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};
use crate::shape::turn::{angle_between, rotation_about};
use kurbo::{Affine, Point, Vec2};

/// A stretch of an edge of a ring, in millimetres from the edge's start; of no length it is a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// Index of the edge.
    pub edge: usize,
    /// From there …
    pub from: f64,
    /// … to there.
    pub to: f64,
}

/// Which part of the outline turns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Turning {
    /// What lies after the mouth that is shut, as the ring runs, up to where it opens.
    AfterShut,
    /// What lies before it.
    BeforeShut,
}

/// An outline of which one part was turned.
#[derive(Debug, Clone, PartialEq)]
pub struct Pivot {
    /// The same edges in the same order; straight across a mouth that is left or opened.
    pub edges: Vec<Path>,
    /// The turn.
    pub turn: Affine,
    /// Where the mouth that was shut is on its edge now; of no length where it is shut altogether.
    pub shut: (f64, f64),
    /// Where the other is that was opened.
    pub opened: (f64, f64),
    /// How far apart the legs of the mouth end that was shut altogether: one is longer than the other.
    pub step: f64,
    /// What turned, as it was: a stretch of the outline, and two sides to the point.
    turned: Vec<Path>,
    /// How many of those are of the outline.
    of_outline: usize,
    /// The cloth of the mouth that was shut, as it was.
    cloth: [Path; 3],
    apex: Point,
}

/// A part of an outline between two gaps.
#[derive(Debug, Clone)]
pub struct Between {
    /// Index of the edge.
    pub edge: usize,
    /// The part.
    pub path: Path,
}

/// The two parts of a ring between two gaps of it, each as the ring runs: what lies after the first gap, and
/// what lies before it.
pub fn parts(ring: &[Path], first: Gap, second: Gap) -> [Vec<Between>; 2] {
    let [mut after, mut before] = [Vec::new(), Vec::new()];
    // The walk begins at the start of the ring, which lies in the one part or the other.
    let mut in_after = !comes_first(first, second);
    let began_in_after = in_after;
    let (mut head, mut tail) = (Vec::new(), Vec::new());
    let mut passed = 0;
    for (edge, path) in ring.iter().enumerate() {
        for stop in stops(path, edge, first, second) {
            match stop {
                Stop::Part(path) => {
                    let part = Between { edge, path };
                    // What is passed before the first gap ends the part that the walk ends in.
                    match (in_after == began_in_after, passed) {
                        (true, 0) => tail.push(part),
                        (true, _) => head.push(part),
                        (false, _) if in_after => after.push(part),
                        (false, _) => before.push(part),
                    }
                }
                Stop::Gap(_) => {
                    in_after = !in_after;
                    passed += 1;
                }
            }
        }
    }
    head.extend(tail);
    match began_in_after {
        true => after = head,
        false => before = head,
    }
    [after, before]
}

fn comes_first(one: Gap, other: Gap) -> bool {
    (one.edge, one.from) < (other.edge, other.from)
}

/// What lies along an edge: parts of it, and gaps (the first: true).
enum Stop {
    Part(Path),
    Gap(bool),
}

fn stops(path: &Path, edge: usize, first: Gap, second: Gap) -> Vec<Stop> {
    let mut gaps: Vec<(Gap, bool)> =
        [(first, true), (second, false)].into_iter().filter(|(gap, _)| gap.edge == edge).collect();
    gaps.sort_by(|a, b| a.0.from.total_cmp(&b.0.from));
    if gaps.is_empty() {
        return vec![Stop::Part(path.clone())];
    }
    let length = path.length();
    let mut found = Vec::with_capacity(2 * gaps.len() + 1);
    let mut here = 0.0;
    for (gap, is_first) in gaps {
        if gap.from - here > SAME_POINT {
            found.push(Stop::Part(path.part(here, gap.from)));
        }
        found.push(Stop::Gap(is_first));
        here = gap.to;
    }
    if length - here > SAME_POINT {
        found.push(Stop::Part(path.part(here, length)));
    }
    found
}

/// Turn one part of the ring about `apex` by `share` of the angle that the mouth `shut` has there: it is shut by
/// so much, and `open` opened. With a share of 1 the ends that then do not meet, where one leg is longer than the
/// other, are brought together, as far as one edge goes.
///
/// # Errors
/// When the ring is not closed.
pub fn pivot(
    ring: &[Path],
    apex: Point,
    shut: Gap,
    open: Gap,
    share: f64,
    turning: Turning,
) -> Result<Pivot, RingError> {
    check_ring(ring)?;
    let side = |gap: Gap, at: f64| ring.get(gap.edge).map_or(apex, |path| path.point_at_length(at));
    let [one, other] = [side(shut, shut.from), side(shut, shut.to)];
    let angle = share * angle_between(one - apex, other - apex);
    turned_by(ring, apex, shut, open, angle, share >= 1.0, turning)
}

/// Turn one part of the ring about `hinge`, a place on it, so that it opens `wide` mm straight across at another place.
///
/// # Errors
/// When the ring is not closed.
pub fn opened_about(
    ring: &[Path],
    hinge: (usize, f64),
    open: (usize, f64),
    wide: f64,
    turning: Turning,
) -> Result<Pivot, RingError> {
    check_ring(ring)?;
    let place =
        |(edge, at): (usize, f64)| ring.get(edge).map_or(Point::ZERO, |path| path.point_at_length(at));
    let (apex, at) = (place(hinge), place(open));
    let gap = |(edge, at): (usize, f64)| Gap { edge, from: at, to: at };
    let way = ring.get(open.0).and_then(|path| path.tangent_at_length(open.1)).unwrap_or(Vec2::ZERO);
    let cut = at - apex;
    // What lies after the hinge ends at the place that opens, and goes back from there; what lies before it, on.
    let onward = if turning == Turning::AfterShut { -way } else { way };
    let half = libm::asin((wide / (2.0 * cut.hypot().max(f64::MIN_POSITIVE))).clamp(0.0, 1.0));
    let turn = 2.0 * half * cut.cross(onward).signum();
    let angle = if turning == Turning::AfterShut { -turn } else { turn };
    turned_by(ring, apex, gap(hinge), gap(open), angle, true, turning)
}

fn turned_by(
    ring: &[Path],
    apex: Point,
    shut: Gap,
    open: Gap,
    angle: f64,
    whole: bool,
    turning: Turning,
) -> Result<Pivot, RingError> {
    let side = |gap: Gap, at: f64| ring.get(gap.edge).map_or(apex, |path| path.point_at_length(at));
    let [one, other] = [side(shut, shut.from), side(shut, shut.to)];
    let turn = rotation_about(apex, if turning == Turning::AfterShut { -angle } else { angle });
    let mut turns = comes_first(open, shut) == (turning == Turning::AfterShut);
    let mut edges = Vec::with_capacity(ring.len());
    let (mut shut_now, mut opened, mut step) = ((shut.from, shut.from), (open.from, open.from), 0.0);
    for (edge, path) in ring.iter().enumerate() {
        let mut made: Option<Path> = None;
        // The gap just passed, and how long the edge was before it.
        let mut gaps: Vec<(bool, f64)> = Vec::new();
        for stop in stops(path, edge, shut, open) {
            match stop {
                Stop::Gap(is_shut) => {
                    turns = !turns;
                    gaps.push((is_shut, made.as_ref().map_or(0.0, Path::length)));
                }
                Stop::Part(part) => {
                    let mut part = if turns { part.transform(turn) } else { part };
                    let Some(before) = made else {
                        // A gap at the very start: the edge before ends at its other side.
                        if whole && gaps.pop().is_some_and(|(is_shut, _)| is_shut) {
                            let meets = if turns { one } else { turn * one };
                            step = meets.distance(part.start());
                            part = move_ends(&part, meets - part.start(), Vec2::ZERO);
                        }
                        made = Some(part);
                        continue;
                    };
                    let mut across = part.start() - before.end();
                    if let Some((true, _)) = gaps.last().filter(|_| whole) {
                        step = across.hypot();
                        part = move_ends(&part, -across, Vec2::ZERO);
                        across = Vec2::ZERO;
                    }
                    let at = before.length();
                    match gaps.pop() {
                        Some((true, _)) => shut_now = (at, at + across.hypot()),
                        Some((false, _)) => opened = (at, at + across.hypot()),
                        None => {}
                    }
                    made = Some(match across.hypot() > SAME_POINT {
                        true => before.then(&Path::straight(before.end(), part.start())).then(&part),
                        false => before.then(&part),
                    });
                }
            }
        }
        // A gap at the very end: the edge after begins at its other side.
        if let (Some(part), Some((true, _)), true) = (&made, gaps.last(), whole) {
            let meets = if turns { turn * other } else { other };
            step = meets.distance(part.end());
            shut_now = (part.length(), part.length());
            made = Some(move_ends(part, Vec2::ZERO, meets - part.end()));
        }
        edges.push(made.unwrap_or_else(|| path.clone()));
    }
    let [after, before] = parts(ring, shut, open);
    let of = if turning == Turning::AfterShut { after } else { before };
    let mut turned: Vec<Path> = of.into_iter().map(|part| part.path).collect();
    let of_outline = turned.len();
    if let (Some(start), Some(end)) = (turned.first().map(Path::start), turned.last().map(Path::end)) {
        turned.push(Path::straight(end, apex));
        turned.push(Path::straight(apex, start));
    }
    let cloth = [Path::straight(one, apex), Path::straight(apex, other), Path::straight(other, one)];
    Ok(Pivot { edges, turn, shut: shut_now, opened, step, turned, of_outline, cloth, apex })
}

impl Pivot {
    /// Whether a point of the piece as it was turns; one on a side of the cut does not. A point within
    /// [`ON_OUTLINE`] of the outline that turned belongs to it.
    pub fn turns(&self, point: Point) -> bool {
        let (outline, sides) = self.turned.split_at(self.of_outline.min(self.turned.len()));
        if point.distance(self.apex) <= SAME_POINT {
            return false;
        }
        is_on(outline, point, ON_OUTLINE)
            || (!is_on(sides, point, SAME_POINT) && Region::of(&self.turned).winding(point) != 0)
    }

    /// Where a point of the piece as it was ends up.
    pub fn moved(&self, point: Point) -> Point {
        if self.turns(point) { self.turn * point } else { point }
    }

    /// A line of the piece as it was: cut where it crosses what was cut, each part with its paper, straight across
    /// what opened between. What lay in the mouth that was shut is gone.
    pub fn line(&self, line: &Path) -> Path {
        let mut stops = vec![0.0, line.length()];
        let sides = self.turned.iter().skip(self.of_outline).chain(&self.cloth);
        for side in sides {
            stops.extend(paths_meet(line, side).iter().map(|(on_line, ..)| line.length_to(*on_line)));
        }
        stops.sort_by(f64::total_cmp);
        let cloth = Region::of(&self.cloth);
        let mut made: Option<Path> = None;
        for pair in stops.windows(2) {
            let &[from, to] = pair else { continue };
            if to - from <= SAME_POINT {
                continue;
            }
            let middle = line.point_at_length(f64::midpoint(from, to));
            if cloth.winding(middle) != 0 {
                continue;
            }
            let part = line.part(from, to);
            let part = if self.turns(middle) { part.transform(self.turn) } else { part };
            made = Some(match made {
                None => part,
                Some(before) if before.end().distance(part.start()) > SAME_POINT => {
                    before.then(&Path::straight(before.end(), part.start())).then(&part)
                }
                Some(before) => before.then(&part),
            });
        }
        made.unwrap_or_else(|| line.clone())
    }
}

/// A wedge of a piece between two straight cuts to a hinge, both on the outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TakenWedge {
    /// What it takes of the outline.
    pub gap: Gap,
    /// Where the hinge is.
    pub hinge: Gap,
    /// Which part of the outline lies beyond it.
    pub turning: Turning,
}

/// The wedge of `ring` beside the cut from `opening` to `hinge`, on the side that `beyond` points to, whose other cut
/// ends `amount` mm away from the opening, at equal distance from the hinge.
///
/// # Errors
/// Where the edge ends before that: how wide the wedge could be, mm.
pub fn wedge_at(
    ring: &[Path],
    opening: Point,
    hinge: Point,
    beyond: Vec2,
    amount: f64,
) -> Result<TakenWedge, f64> {
    let way = opening - hinge;
    let length = way.hypot();
    if length <= SAME_POINT || amount > 2.0 * length {
        return Err(2.0 * length);
    }
    let left_is_beyond = way.cross(beyond) > 0.0;
    let sign = if left_is_beyond { 1.0 } else { -1.0 };
    let angle = sign * 2.0 * libm::asin(amount / (2.0 * length));
    let turn = rotation_about(hinge, angle);
    let other = turn * opening;
    // The outline beyond the opening: after it, of a ring that runs so that what is beyond comes next.
    let after = left_is_beyond == is_anticlockwise(ring);
    let on = |point: Point| {
        let all = ring.iter().enumerate().map(|(edge, path)| (edge, path.nearest(point), path.length()));
        all.min_by(|a, b| {
            // A corner belongs to the edge that lies beyond it.
            let off = |one: &(usize, Nearest, f64)| {
                let at_end = if after { one.2 - one.1.at } else { one.1.at };
                if at_end <= SAME_POINT { one.1.distance + SAME_POINT } else { one.1.distance }
            };
            off(a).total_cmp(&off(b))
        })
    };
    let (Some((edge, nearest, long)), Some((hinge_edge, hinge_at, _))) = (on(opening), on(hinge)) else {
        return Err(0.0);
    };
    let ray = StraightLine::through(hinge, other).ok_or(0.0)?;
    let hits = meet(&ray, ring.get(edge).map_or(&[][..], std::slice::from_ref));
    let ahead = hits.iter().filter(|hit| hit.along > SAME_POINT);
    let ahead = ahead.filter(|hit| if after { hit.at > nearest.at } else { hit.at < nearest.at });
    let hit = ahead.min_by(|a, b| a.point.distance(other).total_cmp(&b.point.distance(other)));
    let end = if after { long } else { 0.0 };
    let Some(hit) = hit.filter(|hit| (hit.at - end).abs() > SAME_POINT) else {
        let corner = ring.get(edge).map_or(opening, |path| path.point_at_length(end)) - hinge;
        return Err(2.0 * length * libm::sin(angle_between(way, corner).abs() / 2.0));
    };
    let gap = Gap { edge, from: nearest.at.min(hit.at), to: nearest.at.max(hit.at) };
    let hinge = Gap { edge: hinge_edge, from: hinge_at.at, to: hinge_at.at };
    Ok(TakenWedge { gap, hinge, turning: if after { Turning::AfterShut } else { Turning::BeforeShut } })
}

/// Where two ways from `apex`, half of `angle` (radians) to each side of the way to the place `along` mm along the
/// path, meet it nearest to that place. None where one does not.
pub fn lap(path: &Path, along: f64, apex: Point, angle: f64) -> [Option<Hit>; 2] {
    let middle = path.point_at_length(along);
    [-0.5, 0.5].map(|half| {
        let ray = StraightLine::through(apex, rotation_about(apex, half * angle) * middle)?;
        let hits = meet(&ray, std::slice::from_ref(path)).into_iter().filter(|hit| hit.along > 0.0);
        hits.min_by(|a, b| (a.at - along).abs().total_cmp(&(b.at - along).abs()))
    })
}

/// A path drawn anew, without a corner, between the middle of the stretch from `low` to `from` and that of the one
/// from `to` to `high` (lengths along it): what lies between is one smooth curve. A path that leaves and arrives
/// along its own chord becomes straight. None where there is no room.
pub fn smoothed(path: &Path, (low, from): (f64, f64), (to, high): (f64, f64)) -> Option<Path> {
    let length = path.length();
    let chord = path.end() - path.start();
    let along = |way: Option<Vec2>| way.is_some_and(|way| angle_between(chord, way).abs() <= STRAIGHTENED);
    if low <= SAME_POINT
        && high >= length - SAME_POINT
        && along(path.tangent_at_start())
        && along(path.tangent_at_end())
    {
        return Some(Path::straight(path.start(), path.end()));
    }
    let (first, second) = (f64::midpoint(low, from), f64::midpoint(to, high));
    if first - low <= SAME_POINT || high - second <= SAME_POINT {
        return None;
    }
    let (before, after) = (path.part(0.0, first), path.part(second, length));
    let ends = [before.end(), after.start()];
    let curve = smooth_curve(&ends, before.tangent_at_end(), after.tangent_at_start()).ok()?;
    Some(before.then(&curve).then(&after))
}

/// Ways that differ by less than this, in radians, from the chord of an edge are along it: what rounding leaves
/// after turning there and back.
const STRAIGHTENED: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::outline::signed_area;
    use crate::shape::wedge::Wedge;

    fn polygon(corners: &[(f64, f64)]) -> Vec<Path> {
        let points: Vec<Point> = corners.iter().map(|&c| c.into()).collect();
        let ends = points.iter().cycle().skip(1);
        points.iter().zip(ends).map(|(a, b)| Path::straight(*a, *b)).collect()
    }

    const APEX: Point = Point::new(100.0, 100.0);
    const SHUT: Gap = Gap { edge: 0, from: 85.0, to: 115.0 };

    /// A panel 200 by 300 with a mouth 30 wide in the middle of its hem, directed to a point 100 above: the
    /// legs are √(100² + 15²) and the angle 2·atan(0.15) = 17.06°. Opened in the right side at 160, 100 from the
    /// point and 60 above it: √(100² + 60²) = 116.62 long, so that the new mouth is 2·116.62·sin(8.53°) = 34.6 wide.
    #[test]
    fn a_mouth_moved_from_the_hem_to_the_side() {
        let ring = polygon(&[(0.0, 0.0), (200.0, 0.0), (200.0, 300.0), (0.0, 300.0)]);
        let open = Gap { edge: 1, from: 160.0, to: 160.0 };
        let wide = 2.0 * 116.619_037_897 * libm::sin(libm::atan(0.15));
        for (ring, shut, open) in [
            (ring.clone(), SHUT, open),
            (
                ring.iter().rev().map(Path::reversed).collect::<Vec<_>>(),
                Gap { edge: 3, ..SHUT },
                Gap { edge: 2, from: 140.0, to: 140.0 },
            ),
        ] {
            for turning in [Turning::AfterShut, Turning::BeforeShut] {
                let made = pivot(&ring, APEX, shut, open, 1.0, turning).unwrap();
                assert_eq!(check_ring(&made.edges), Ok(()));
                assert!((made.opened.1 - made.opened.0 - wide).abs() < 1e-6, "{:?}", made.opened);
                assert!((made.edges[shut.edge].length() - 170.0).abs() < 1e-6 && made.step < 1e-9);
                assert!((made.edges[open.edge].length() - 300.0 - wide).abs() < 1e-6);
                let edge = &made.edges[open.edge];
                let sides = [made.opened.0, made.opened.1].map(|at| edge.point_at_length(at));
                let wedge = Wedge { sides, point: APEX };
                assert!((wedge.legs()[0] - wedge.legs()[1]).abs() < 1e-6);
                assert!((wedge.angle().abs() - 2.0 * libm::atan(0.15)).abs() < 1e-9);
                // Without the mouths as much cloth is left: that of a mouth is a triangle.
                let old = signed_area(&ring).abs() - 0.5 * 30.0 * 100.0;
                let new = signed_area(&made.edges).abs()
                    - 0.5 * wedge.legs()[0].powi(2) * libm::sin(wedge.angle().abs());
                assert!((old - new).abs() < 1e-6, "{old} {new}");
            }
        }
    }

    /// Of a share of 40 % the rest of the angle stays.
    #[test]
    fn a_share_leaves_the_rest() {
        let ring = polygon(&[(0.0, 0.0), (200.0, 0.0), (200.0, 300.0), (0.0, 300.0)]);
        let open = Gap { edge: 2, from: 100.0, to: 100.0 };
        let made = pivot(&ring, APEX, SHUT, open, 0.4, Turning::AfterShut).unwrap();
        let angle = |edge: usize, (from, to): (f64, f64)| {
            let sides = [from, to].map(|at| made.edges[edge].point_at_length(at));
            Wedge { sides, point: APEX }.angle().abs()
        };
        let whole = 2.0 * libm::atan(0.15);
        assert!((angle(0, made.shut) - 0.6 * whole).abs() < 1e-9);
        assert!((angle(2, made.opened) - 0.4 * whole).abs() < 1e-9);
    }

    /// A line from side to side over the point's way to the new place is cut there, and loses what lay in the mouth.
    #[test]
    fn a_line_goes_with_its_paper() {
        let ring = polygon(&[(0.0, 0.0), (200.0, 0.0), (200.0, 300.0), (0.0, 300.0)]);
        let open = Gap { edge: 2, from: 100.0, to: 100.0 };
        let made = pivot(&ring, APEX, SHUT, open, 1.0, Turning::AfterShut).unwrap();
        // 20 above the hem 30·80/100 = 24 of it lie in the mouth; 200 above it the new mouth is 100/200 of its width.
        let low = made.line(&Path::straight(Point::new(0.0, 20.0), Point::new(200.0, 20.0)));
        assert!((low.length() - 176.0).abs() < 1e-6, "{}", low.length());
        let high = made.line(&Path::straight(Point::new(0.0, 200.0), Point::new(200.0, 200.0)));
        let opens = 2.0 * 100.0 * libm::sin(libm::atan(0.15));
        assert!((high.length() - 200.0 - opens).abs() < 1e-6, "{}", high.length());
        assert!(
            made.turns(Point::new(180.0, 50.0)) && !made.turns(Point::new(20.0, 50.0)) && !made.turns(APEX)
        );
    }

    /// A corner in the middle of two straight stretches of 100: an arc from middle to middle, of which only the outer
    /// halves stay.
    #[test]
    fn a_corner_is_drawn_smooth() {
        let path = Path::straight(Point::new(0.0, 0.0), Point::new(100.0, 0.0))
            .then(&Path::straight(Point::new(100.0, 0.0), Point::new(200.0, 30.0)));
        let length = path.length();
        let smooth = smoothed(&path, (0.0, 100.0), (100.0, length)).unwrap();
        assert!(smooth.is_smooth(1e-6) && !path.is_smooth(1e-3));
        assert!(smooth.part(0.0, 49.0).is_straight());
        let bent = Path::straight(Point::new(0.0, 0.0), Point::new(50.0, 0.0))
            .then(
                &smooth_curve(
                    &[Point::new(50.0, 0.0), Point::new(150.0, 0.0)],
                    Some(Vec2::new(1.0, 0.3)),
                    Some(Vec2::new(1.0, -0.3)),
                )
                .unwrap(),
            )
            .then(&Path::straight(Point::new(150.0, 0.0), Point::new(200.0, 0.0)));
        let length = bent.length();
        assert!(smoothed(&bent, (0.0, length / 2.0), (length / 2.0, length)).unwrap().is_straight());
    }
}
