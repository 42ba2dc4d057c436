//! Where two curves meet.
//!
//! Every segment is first parted where it turns in x or y, so that each piece rises or falls throughout and lies in
//! the box of its two ends. Two pieces whose boxes overlap are halved until both are flat, the chords are met, and
//! Newton's method on the curves themselves confirms the place (Sederberg & Parry, "Comparison of three curve
//! intersection algorithms", Computer-Aided Design 18 (1986) 58–63, describe subdivision of this kind).

use super::path::{Path, Position};
use super::root::turning_points;
use super::segment;
use super::tolerance::SAME_POINT;
use kurbo::{CubicBez, ParamCurve, ParamCurveDeriv, PathSeg, Point, Rect, Vec2};
use smallvec::SmallVec;

/// A piece flatter than this is met as its chord, mm.
const FLAT: f64 = 1e-3;
/// How nearly two curves must meet to count as meeting, mm.
const MEETS: f64 = 1e-7;
/// The most halvings spent on two pieces.
const STEPS: usize = 20_000;

/// A piece of a path that rises or falls throughout, in x and in y.
#[derive(Debug, Clone, Copy)]
pub(super) struct Piece {
    /// Index of the path.
    pub edge: usize,
    /// Where the piece begins on its path.
    pub from: Position,
    /// Parameter in the same segment where it ends.
    pub to: f64,
    /// Its shape; a straight one has its handles on the chord.
    pub curve: CubicBez,
    /// Whether it is a straight line.
    pub straight: bool,
    /// The box of its ends.
    pub bounds: Rect,
}

impl Piece {
    /// The place on the path of parameter `t` of the piece.
    pub fn place(&self, t: f64) -> Position {
        Position { segment: self.from.segment, t: self.from.t + (self.to - self.from.t) * t.clamp(0.0, 1.0) }
    }
}

/// A meeting of two pieces.
#[derive(Debug, Clone, Copy)]
pub(super) struct Meet {
    /// Parameter on the first piece.
    pub first: f64,
    /// Parameter on the second piece.
    pub second: f64,
    /// Where.
    pub point: Point,
}

/// Adds the pieces of a path, in order, those without length left out.
pub(super) fn add_pieces(edge: usize, path: &Path, found: &mut Vec<Piece>) {
    add_pieces_of(edge, path, |_, _| true, found);
}

/// The same of those segments alone that may matter, each asked once and in order.
pub(super) fn add_pieces_of(
    edge: usize,
    path: &Path,
    mut may_matter: impl FnMut(usize, &PathSeg) -> bool,
    found: &mut Vec<Piece>,
) {
    for (index, part) in path.segments().iter().enumerate().filter(|(at, part)| may_matter(*at, part)) {
        add_pieces_of_segment(edge, index, part, found);
    }
}

/// The same of one segment.
fn add_pieces_of_segment(edge: usize, index: usize, part: &PathSeg, found: &mut Vec<Piece>) {
    let controls = segment::controls(part);
    let straight = matches!(part, PathSeg::Line(_));
    // At most two turns in each direction; places that are not used stay at the end.
    let mut stops = [1.0; 6];
    stops[0] = 0.0;
    let never_turns = straight || [controls.map(|p| p.x), controls.map(|p| p.y)].into_iter().all(is_one_way);
    if !never_turns {
        let turns = turning_points(controls.map(|p| p.x)).chain(turning_points(controls.map(|p| p.y)));
        stops.iter_mut().skip(1).zip(turns).for_each(|(stop, turn)| *stop = turn);
        stops.sort_by(f64::total_cmp);
    }
    let whole = match part {
        PathSeg::Line(line) => CubicBez::new(
            line.p0,
            line.p0.lerp(line.p1, 1.0 / 3.0),
            line.p0.lerp(line.p1, 2.0 / 3.0),
            line.p1,
        ),
        other => other.to_cubic(),
    };
    for pair in stops.windows(2) {
        let &[low, high] = pair else { continue };
        if high <= low {
            continue;
        }
        let is_whole = low <= 0.0 && high >= 1.0;
        let curve = if is_whole { whole } else { cubic_part(whole, low, high) };
        // No polygon is shorter than the straight way between its ends.
        let is_long = (curve.p3 - curve.p0).hypot2() > 4.0 * SAME_POINT * SAME_POINT || {
            let legs = [curve.p1 - curve.p0, curve.p2 - curve.p1, curve.p3 - curve.p2];
            legs.iter().map(|leg| leg.hypot()).sum::<f64>() > SAME_POINT
        };
        if is_long {
            found.push(Piece {
                edge,
                from: Position { segment: index, t: low },
                to: high,
                curve,
                straight,
                bounds: bounds(&curve),
            });
        }
    }
}

/// Whether a cubic with these controls rises all the way, or falls: then it turns nowhere.
fn is_one_way([a, b, c, d]: [f64; 4]) -> bool {
    (a <= b && b <= c && c <= d) || (a >= b && b >= c && c >= d)
}

/// The part of a cubic from `low` to `high`, whose ends are those of the cubic where it reaches them.
fn cubic_part(curve: CubicBez, low: f64, high: f64) -> CubicBez {
    let mut part = curve.subsegment(low..high);
    if low <= 0.0 {
        part.p0 = curve.p0;
    }
    if high >= 1.0 {
        part.p3 = curve.p3;
    }
    part
}

fn bounds(curve: &CubicBez) -> Rect {
    Rect::from_points(curve.p0, curve.p3).inflate(SAME_POINT, SAME_POINT)
}

/// Whether two boxes overlap or touch.
pub(super) fn overlap(a: &Rect, b: &Rect) -> bool {
    a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1
}

/// Two parts of curves that may meet, each with the parameters of its ends on its piece.
type Pair = (CubicBez, f64, f64, CubicBez, f64, f64);

/// A search for meetings: how many halvings it may still spend, and what is still to be looked at.
pub(super) struct Search {
    budget: usize,
    open: Vec<Pair>,
}

impl Search {
    /// A search that may spend so many halvings.
    pub(super) fn new(budget: usize) -> Search {
        Search { budget, open: Vec::new() }
    }
}

/// Where two pieces meet: crossings, touches, and the middle of a stretch which two straight pieces share.
pub(super) fn meets(a: &Piece, b: &Piece, search: &mut Search) -> Vec<Meet> {
    let mut found: Vec<Meet> = Vec::new();
    if !overlap(&a.bounds, &b.bounds) {
        return found;
    }
    if a.straight && b.straight {
        found.extend(shared_stretch(&a.curve, &b.curve));
    }
    // A curve lies within the hull of its handles: one beside a straight line does not meet it.
    let (line_a, line_b) = (a.straight.then(|| Side::of(&a.curve)), b.straight.then(|| Side::of(&b.curve)));
    let Search { budget, open: stack } = search;
    stack.clear();
    stack.push((a.curve, 0.0, 1.0, b.curve, 0.0, 1.0));
    let mut steps = 0;
    while let Some((p, p_low, p_high, q, q_low, q_high)) = stack.pop() {
        steps += 1;
        if steps > STEPS || *budget == 0 {
            break;
        }
        *budget -= 1;
        if !overlap(&bounds(&p), &bounds(&q)) {
            continue;
        }
        let is_beside =
            |line: &Option<Side>, curve: &CubicBez| line.is_some_and(|line| line.has_beside(curve));
        if is_beside(&line_b, &p) || is_beside(&line_a, &q) {
            continue;
        }
        let (p_flat, q_flat) = (is_flat(&p, p_high - p_low), is_flat(&q, q_high - q_low));
        if p_flat && q_flat {
            if let Some((s, t)) = chords_meet(&p, &q) {
                let start = (p_low + (p_high - p_low) * s, q_low + (q_high - q_low) * t);
                if let Some(meet) = confirm(&a.curve, &b.curve, start)
                    && !found.iter().any(|known| known.point.distance(meet.point) <= 10.0 * SAME_POINT)
                {
                    found.push(meet);
                }
            }
            continue;
        }
        let halve_p = !p_flat && (q_flat || p.p0.distance(p.p3) >= q.p0.distance(q.p3));
        if halve_p {
            let (first, second) = p.subdivide();
            let middle = 0.5 * (p_low + p_high);
            stack.push((second, middle, p_high, q, q_low, q_high));
            stack.push((first, p_low, middle, q, q_low, q_high));
        } else {
            let (first, second) = q.subdivide();
            let middle = 0.5 * (q_low + q_high);
            stack.push((p, p_low, p_high, second, middle, q_high));
            stack.push((p, p_low, p_high, first, q_low, middle));
        }
    }
    found
}

/// Steeper than this a curve is not held to lie near a corner whose x or y alone it comes near to.
const STEEP: f64 = 100.0;

/// Whether two pieces of which one ends where the other begins surely meet within `reach` mm of that corner alone:
/// their boxes have no more than it in common, or nothing but it in one of x and y, and one of them is not steep there.
/// `corner` is where both have it. That is looked at before the two are looked at more closely.
pub(super) fn meet_only_at(a: &Piece, b: &Piece, corner: (Point, Point), reach: f64) -> bool {
    let near = 10.0 * SAME_POINT;
    if corner.0.distance_squared(corner.1) > near * near {
        return false;
    }
    let both = a.bounds.intersect(b.bounds);
    let off = |low: f64, at: f64, high: f64| (at - low).abs().max((high - at).abs());
    let (x, y) = (off(both.x0, corner.0.x, both.x1), off(both.y0, corner.0.y, both.y1));
    let is_flat = |piece: &Piece, across: fn(Vec2) -> (f64, f64)| {
        let CubicBez { p0, p1, p2, p3 } = piece.curve;
        let legs = [p1 - p0, p2 - p1, p3 - p2].map(across);
        let forward = across(p3 - p0).0 >= 0.0;
        legs.iter().all(|&(along, aside)| (along >= 0.0) == forward && aside.abs() <= STEEP * along.abs())
    };
    let upright: fn(Vec2) -> (f64, f64) = |leg| (leg.y, leg.x);
    let level: fn(Vec2) -> (f64, f64) = |leg| (leg.x, leg.y);
    x * x + y * y <= 0.25 * reach * reach
        || (x <= near && (is_flat(a, level) || is_flat(b, level)))
        || (y <= near && (is_flat(a, upright) || is_flat(b, upright)))
}

/// A straight line to tell sides of.
#[derive(Clone, Copy)]
struct Side {
    from: Point,
    way: Vec2,
    clear: f64,
}

impl Side {
    fn of(line: &CubicBez) -> Self {
        let way = line.p3 - line.p0;
        Side { from: line.p0, way, clear: 10.0 * SAME_POINT * way.hypot() }
    }

    /// Whether all handles of a curve lie clearly on one side.
    fn has_beside(&self, curve: &CubicBez) -> bool {
        let off = [curve.p0, curve.p1, curve.p2, curve.p3].map(|point| self.way.cross(point - self.from));
        off.iter().all(|off| *off > self.clear) || off.iter().all(|off| *off < -self.clear)
    }
}

fn is_flat(curve: &CubicBez, range: f64) -> bool {
    let chord = kurbo::Line::new(curve.p0, curve.p3);
    let off = segment::distance_to_line(chord, curve.p1).max(segment::distance_to_line(chord, curve.p2));
    off <= FLAT || range < 1e-7
}

/// Parameters where two chords meet, their ends counted with a little play.
fn chords_meet(p: &CubicBez, q: &CubicBez) -> Option<(f64, f64)> {
    let (along, other, apart) = (p.p3 - p.p0, q.p3 - q.p0, q.p0 - p.p0);
    let cross = along.cross(other);
    let (s, t) = (apart.cross(other) / cross, apart.cross(along) / cross);
    // Chords stand for curves that lie up to FLAT beside them.
    let (play_s, play_t) = (2.0 * FLAT / along.hypot(), 2.0 * FLAT / other.hypot());
    let inside = |x: f64, play: f64| x >= -play && x <= 1.0 + play;
    (inside(s, play_s) && inside(t, play_t)).then_some((s, t))
}

/// Newton's method on both curves from a first guess; the meeting if they do meet.
fn confirm(a: &CubicBez, b: &CubicBez, (mut s, mut t): (f64, f64)) -> Option<Meet> {
    let (a_slope, b_slope) = (a.deriv(), b.deriv());
    for _ in 0..40 {
        let apart: Vec2 = a.eval(s) - b.eval(t);
        if apart.hypot() <= MEETS * 1e-3 {
            break;
        }
        let (u, v) = (a_slope.eval(s).to_vec2(), b_slope.eval(t).to_vec2());
        let cross = u.cross(v);
        let (next_s, next_t) = (s - apart.cross(v) / cross, t - apart.cross(u) / cross);
        if !next_s.is_finite() || !next_t.is_finite() {
            break;
        }
        (s, t) = (next_s.clamp(0.0, 1.0), next_t.clamp(0.0, 1.0));
    }
    let (s, t) = (s.clamp(0.0, 1.0), t.clamp(0.0, 1.0));
    let (p, q) = (a.eval(s), b.eval(t));
    (p.distance(q) <= MEETS).then_some(Meet { first: s, second: t, point: p.midpoint(q) })
}

/// The middle of the stretch that two straight pieces share, when they lie on one line.
fn shared_stretch(a: &CubicBez, b: &CubicBez) -> Option<Meet> {
    let along = a.p3 - a.p0;
    let length = along.hypot();
    let way = along / length;
    if way.cross(b.p0 - a.p0).abs() > SAME_POINT || way.cross(b.p3 - a.p0).abs() > SAME_POINT {
        return None;
    }
    let (from, to) = (way.dot(b.p0 - a.p0), way.dot(b.p3 - a.p0));
    let (low, high) = (from.min(to).max(0.0), from.max(to).min(length));
    let middle = 0.5 * (low + high);
    (high - low > 10.0 * SAME_POINT).then(|| Meet {
        first: middle / length,
        second: (middle - from) / (to - from),
        point: a.p0 + way * middle,
    })
}

/// How far along `a`, in mm, each place is where it meets `b`, in order.
pub fn meetings(a: &Path, b: &Path) -> Vec<f64> {
    paths_meet(a, b).into_iter().map(|(on_a, ..)| a.length_to(on_a)).collect()
}

/// The rectangle round all of these, and a little more; round none an empty one.
fn hull(all: impl Iterator<Item = Rect>) -> Rect {
    let none = Rect::new(f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY);
    let around = 4.0 * SAME_POINT;
    let whole = all.fold(none, |so_far, one| {
        let (x0, y0) = (so_far.x0.min(one.x0), so_far.y0.min(one.y0));
        Rect { x0, y0, x1: so_far.x1.max(one.x1), y1: so_far.y1.max(one.y1) }
    });
    Rect { x0: whole.x0 - around, y0: whole.y0 - around, x1: whole.x1 + around, y1: whole.y1 + around }
}

/// Every place where two paths meet, in order along the first.
pub(super) fn paths_meet(a: &Path, b: &Path) -> Vec<(Position, Position, Point)> {
    let mut found: Vec<(Position, Position, Point)> = Vec::new();
    if !a.is_finite() || !b.is_finite() {
        return found;
    }
    // What lies clear of all of the other path meets nothing of it.
    let near = |path: &Path, edge: usize, within: Rect| {
        let mut found = Vec::with_capacity(path.segments().len());
        add_pieces_of(edge, path, |_, part| overlap(&segment::hull(part), &within), &mut found);
        found
    };
    let first = near(a, 0, hull(b.segments().iter().map(segment::hull)));
    let second = near(b, 1, hull(first.iter().map(|piece| piece.bounds)));
    let mut search = Search::new(1_000_000);
    for p in &first {
        for q in &second {
            for meet in meets(p, q, &mut search) {
                found.push((p.place(meet.first), q.place(meet.second), meet.point));
            }
        }
    }
    found.sort_by(|(x, ..), (y, ..)| x.segment.cmp(&y.segment).then(x.t.total_cmp(&y.t)));
    found.dedup_by(|x, y| x.2.distance(y.2) <= 10.0 * SAME_POINT);
    found
}

/// More than rounding may add to where two curves meet, mm.
const BESIDE: f64 = 1e-3;

/// Of the places where two paths meet, as [`paths_meet`] finds them, the one that is nearest to a point. Segments of the first
/// that lie farther from it than one that is found are not looked at.
pub(super) fn meet_nearest_to(a: &Path, b: &Path, point: Point) -> Option<(Position, Position)> {
    if !a.is_finite() || !b.is_finite() {
        return None;
    }
    let within = hull(b.segments().iter().map(segment::hull));
    let mut near: SmallVec<[(f64, usize); 8]> = SmallVec::new();
    let mut around: SmallVec<[Rect; 8]> = SmallVec::new();
    for (at, part) in a.segments().iter().enumerate() {
        let own = segment::hull(part);
        if overlap(&own, &within) {
            near.push((segment::beyond(&own, point), at));
            around.push(own);
        }
    }
    near.sort_by(|one, other| one.0.total_cmp(&other.0));
    let around = hull(around.into_iter());
    let mut second = Vec::with_capacity(b.segments().len());
    add_pieces_of(1, b, |_, part| overlap(&segment::hull(part), &around), &mut second);
    // Most that one straight line is asked of lies beside it.
    let line = match second.as_slice() {
        [only] if only.straight => Some(Side::of(&only.curve)),
        _ => None,
    };
    let mut search = Search::new(1_000_000);
    let mut first = Vec::with_capacity(3);
    let mut found: SmallVec<[(Position, Position, Point); 4]> = SmallVec::new();
    let mut best = f64::INFINITY;
    for (beyond, at) in near {
        if beyond > (best + BESIDE) * (best + BESIDE) {
            break;
        }
        first.clear();
        match a.segments().get(at) {
            Some(part) if line.is_none_or(|line| !line.has_beside(&part.to_cubic())) => {
                add_pieces_of_segment(0, at, part, &mut first);
            }
            _ => continue,
        }
        for p in &first {
            for q in &second {
                for meet in meets(p, q, &mut search) {
                    best = best.min(meet.point.distance(point));
                    found.push((p.place(meet.first), q.place(meet.second), meet.point));
                }
            }
        }
    }
    found.sort_by(|(x, ..), (y, ..)| x.segment.cmp(&y.segment).then(x.t.total_cmp(&y.t)));
    found.dedup_by(|x, y| x.2.distance(y.2) <= 10.0 * SAME_POINT);
    let nearest = found.iter().min_by(|x, y| x.2.distance(point).total_cmp(&y.2.distance(point)));
    nearest.map(|&(on_a, on_b, _)| (on_a, on_b))
}
