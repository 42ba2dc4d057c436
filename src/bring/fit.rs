//! A cubic Bézier through many points.
//!
//! Method: Philip J. Schneider, "An Algorithm for Automatically Fitting Digitized Curves", Graphics Gems (1990): the
//! points get parameters by the length of their chords, the handles come out of least squares, the parameters are
//! mended by Newton's method, and so on. Beyond it, a handle is free where no tangent is known, and solved for whole; and
//! once there is a curve, what counts is how far a point lies to its side, not along it (tangent distance minimisation:
//! Wang, Pottmann and Liu, "Fitting B-spline curves to point clouds by curvature-based squared distance minimization",
//! ACM Transactions on Graphics 25 (2006)), which ends in a few rounds where the other takes hundreds.

use super::fit_again::{Ways, search};
use kurbo::{CubicBez, ParamCurve, ParamCurveDeriv, Point, Vec2};

/// How often parameters are mended.
const ROUNDS: usize = 16;
/// How much a distance along the curve counts against one to its side: enough to keep points in place.
const ALONG: f64 = 1e-7;
/// From so many points on, a handle is left free; fewer would not hold it.
const POINTS_OF_FREE_HANDLES: usize = 6;

/// A curve that misses none of many points by more than this share of what is allowed is the one that they were traced along.
const EXACT: f64 = 0.1;
/// See [`EXACT`]: fewer points may lie so by chance.
const POINTS_OF_EXACT: usize = 10;
/// Of so many points a curve's handles may reach farther: it cannot go far around between them.
const POINTS_OF_FAR_HANDLES: usize = 12;

/// What misses its points by more, as a share of the line's length, is no one curve.
const HOPELESS: f64 = 0.04;

/// A cubic, and how far it misses the points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// The curve, from the first point to the last.
    pub curve: CubicBez,
    /// The greatest distance of a point from the curve, in millimetres, never less than it is; or by how much the curve strays
    /// from the straight way between two points beyond what it may bow there, where that is more.
    pub error: f64,
    /// Which point that is; of two that it strays between the nearer one.
    pub worst: usize,
}

/// The cubic from the first point to the last that comes nearest to those between. `leaving` and `arriving` are the ways
/// it must go at its ends, where they are known, both of them forward; `bows` say by how much it may stand off the straight way
/// from each point to the next, in millimetres, and `tolerance` by how much it may miss anything.
pub fn fit(points: &[Point], bows: &[f64], (leaving, arriving): Ways, tolerance: f64) -> Fit {
    let (Some(&from), Some(&to)) = (points.first(), points.last()) else {
        let nothing = CubicBez::new(Point::ZERO, Point::ZERO, Point::ZERO, Point::ZERO);
        return Fit { curve: nothing, error: 0.0, worst: 0 };
    };
    let long = from.distance(to);
    let straight = CubicBez::new(from, from.lerp(to, 1.0 / 3.0), from.lerp(to, 2.0 / 3.0), to);
    let (leaving, arriving) = match points.len() >= POINTS_OF_FREE_HANDLES {
        true => (leaving, arriving),
        false => (
            leaving.or_else(|| tangent(points)),
            arriving.or_else(|| tangent(&points.iter().rev().copied().collect::<Vec<_>>()).map(|way| -way)),
        ),
    };
    let [leaving, arriving] =
        [leaving, arriving].map(|way| way.filter(|way| way.hypot2() > 0.0).map(Vec2::normalize));
    if points.len() == 2 {
        // Nothing lies between that would say more.
        let third = |way: Option<Vec2>| way.map_or((to - from) / 3.0, |way| way * (long / 3.0));
        let curve = CubicBez::new(from, from + third(leaving), to - third(arriving), to);
        return strayed(Fit { curve, error: 0.0, worst: 0 }, points, bows, &[0.0, 1.0], tolerance);
    }
    let mut shares = by_chords(points);
    let mut best = measured(straight, points, &shares);
    let mut best_shares = shares.clone();
    let mut sides: Vec<Vec2> = Vec::new();
    for _ in 0..ROUNDS {
        let curve = solved(points, &shares, &sides, leaving, arriving, long).unwrap_or(straight);
        shares = mended(&curve, points, &shares);
        sides = to_the_side(&curve, &shares);
        let found = measured(curve, points, &shares);
        let gained = best.error - found.error;
        // What turns back at an end, to come nearer to points beside it, is no curve through them.
        if goes_forward(&curve, points) && (found.error < best.error || best.curve == straight) {
            best = found;
            best_shares.clone_from(&shares);
        }
        // A third of a per cent a round is no gain that is worth it, nor is anything finer than the text.
        if gained.abs() < 3e-3 * best.error || best.error < 5e-3 {
            break;
        }
    }
    strayed(best, points, bows, &best_shares, tolerance)
}

/// The same looked for harder, where that one misses points by more than is enough and a better one may be; else that one.
pub fn fit_harder(
    found: Fit,
    points: &[Point],
    bows: &[f64],
    ways: Ways,
    (enough, tolerance): (f64, f64),
) -> Fit {
    let along: f64 = chords(points).sum();
    if found.error <= enough || found.error > HOPELESS * along || points.len() < POINTS_OF_FREE_HANDLES {
        return found;
    }
    let ways = (ways.0.filter(leads), ways.1.filter(leads));
    let again = search(points, &by_chords(points), found.curve, ways, enough / 40.0);
    let again = again.map(|(curve, shares)| {
        let own = measured(curve, points, &shares);
        strayed(own, points, bows, &shares, tolerance)
    });
    again.filter(|again| again.error < found.error).unwrap_or(found)
}

fn leads(way: &Vec2) -> bool {
    way.hypot2() > 0.0
}

/// How far each point lies from the one before.
fn chords(points: &[Point]) -> impl Iterator<Item = f64> {
    points
        .windows(2)
        .map(|pair| pair.first().zip(pair.last()).map_or(0.0, |(one, other)| one.distance(*other)))
}

/// The fit with what it strays from the straight ways between points beyond what it may bow there, where that is more than
/// it misses the points.
fn strayed(fit: Fit, points: &[Point], bows: &[f64], shares: &[f64], tolerance: f64) -> Fit {
    let mut found = fit;
    let is_exact = fit.error < EXACT * tolerance && points.len() >= POINTS_OF_EXACT;
    let chords = points.windows(2).zip(shares.windows(2)).zip(bows);
    for (at, ((pair, spans), bow)) in chords.enumerate() {
        let (&[from, to], &[t, u]) = (pair, spans) else { continue };
        // So many points lie on no curve but that which they were traced along: it bows as the line turns there.
        let bow = if is_exact { bow.max(from.distance(to) * sharpest(points, at) / 4.0) } else { *bow };
        let chord = kurbo::Line::new(from, to);
        for part in [0.25, 0.5, 0.75] {
            let away = fit.curve.eval(t + (u - t) * part);
            let off = kurbo::ParamCurveNearest::nearest(&chord, away, 0.0).distance_sq.sqrt() - bow;
            if off > found.error {
                // The end that is no end of all.
                let is_first = at > 0 && (at + 2 == points.len() || part < 0.5);
                found = Fit { error: off, worst: if is_first { at } else { at + 1 }, ..found };
            }
        }
    }
    found
}

/// The most that a line turns at the ends of one of its ways, in radians.
fn sharpest(points: &[Point], chord: usize) -> f64 {
    let turn = |at: usize| match at.checked_sub(1).and_then(|before| points.get(before..=at + 1)) {
        Some(&[before, own, after]) => super::course::angle(own - before, after - own),
        _ => 0.0,
    };
    turn(chord).max(turn(chord + 1))
}

/// The way that points leave the first one: along the circle through the first three.
pub fn tangent(points: &[Point]) -> Option<Vec2> {
    let &[a, b, ..] = points else { return None };
    let Some(&c) = points.get(2) else { return Some(b - a) };
    let (near, far) = (b - a, c - a);
    let (short, long) = (near.hypot2(), far.hypot2());
    if near.cross(far).abs() < 1e-9 * short.max(long) {
        return Some(near);
    }
    // Inversion about `a` takes the circle to a straight line along its tangent there.
    Some(near / short.max(f64::MIN_POSITIVE) - far / long.max(f64::MIN_POSITIVE))
}

/// The share of the whole length at which each point lies.
fn by_chords(points: &[Point]) -> Vec<f64> {
    let mut along = 0.0;
    let mut shares = vec![0.0];
    for pair in points.windows(2) {
        if let &[from, to] = pair {
            along += from.distance(to);
            shares.push(along);
        }
    }
    let whole = along.max(f64::MIN_POSITIVE);
    shares.iter().map(|own| own / whole).collect()
}

/// The handles by least squares: at most four unknowns, two a handle that is free and one a handle whose way is known.
fn solved(
    points: &[Point],
    shares: &[f64],
    sides: &[Vec2],
    leaving: Option<Vec2>,
    arriving: Option<Vec2>,
    long: f64,
) -> Option<CubicBez> {
    let (&from, &to) = (points.first()?, points.last()?);
    let axes = |way: Option<Vec2>| {
        way.map_or_else(|| vec![Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0)], |way| vec![way])
    };
    let (first, second) = (axes(leaving), axes(arriving.map(|way| -way)));
    let unknowns = first.len() + second.len();
    let mut square = [[0.0; 4]; 4];
    let mut right = [0.0; 4];
    for (at, (point, &t)) in points.iter().zip(shares).enumerate() {
        let side = sides.get(at).copied();
        // How much two ways have in common: all of it at first, later what lies to the side of the curve.
        let common = |one: Vec2, other: Vec2| match side {
            None => one.dot(other),
            Some(side) => one.dot(side) * other.dot(side) + ALONG * one.dot(other),
        };
        let s = 1.0 - t;
        let (near, far) = (3.0 * s * s * t, 3.0 * s * t * t);
        let fixed = from.to_vec2() * (s * s * s + near) + to.to_vec2() * (t * t * t + far);
        let rest = point.to_vec2() - fixed;
        let columns: Vec<Vec2> =
            first.iter().map(|axis| *axis * near).chain(second.iter().map(|axis| *axis * far)).collect();
        for (row, one) in square.iter_mut().zip(&columns) {
            for (cell, other) in row.iter_mut().zip(&columns) {
                *cell += common(*one, *other);
            }
        }
        for (cell, one) in right.iter_mut().zip(&columns) {
            *cell += common(*one, rest);
        }
    }
    let found = eliminated(square, right, unknowns)?;
    let handle = |axes: &[Vec2], from: usize| {
        axes.iter()
            .enumerate()
            .fold(Vec2::ZERO, |sum, (at, axis)| sum + *axis * found.get(from + at).copied().unwrap_or(0.0))
    };
    let (mut out, mut back) = (handle(&first, 0), handle(&second, first.len()));
    // A handle that points backward, or beyond all measure, is a third of the chord instead.
    for (handle, axes) in [(&mut out, &first), (&mut back, &second)] {
        if let [way] = axes.as_slice()
            && !(handle.dot(*way) > 1e-6 * long && handle.hypot() < 20.0 * long)
        {
            *handle = *way * (long / 3.0);
        }
    }
    Some(CubicBez::new(from, from + out, to + back, to))
}

/// The unknowns of some equations, by Gauss's elimination with pivots.
pub fn eliminated(mut square: [[f64; 4]; 4], mut right: [f64; 4], unknowns: usize) -> Option<[f64; 4]> {
    let most = square.iter().flatten().fold(0.0_f64, |most, cell| most.max(cell.abs()));
    for step in 0..unknowns {
        let pivot =
            (step..unknowns).max_by(|&a, &b| square[a][step].abs().total_cmp(&square[b][step].abs()))?;
        if square[pivot][step].abs() <= 1e-12 * most {
            return None;
        }
        square.swap(step, pivot);
        right.swap(step, pivot);
        for row in step + 1..unknowns {
            let share = square[row][step] / square[step][step];
            let above = square[step];
            for (cell, own) in square[row].iter_mut().zip(above).take(unknowns).skip(step) {
                *cell -= share * own;
            }
            right[row] -= share * right[step];
        }
    }
    let mut found = [0.0; 4];
    for row in (0..unknowns).rev() {
        let known: f64 = (row + 1..unknowns).map(|column| square[row][column] * found[column]).sum();
        found[row] = (right[row] - known) / square[row][row];
    }
    found.iter().all(|one| one.is_finite()).then_some(found)
}

/// Whether a curve leaves its first point and arrives at its last as the points do, without going far around.
pub fn goes_forward(curve: &CubicBez, points: &[Point]) -> bool {
    let [.., before, last] = points else { return true };
    let [first, after, ..] = points else { return true };
    let (out, back) = (curve.p1 - curve.p0, curve.p3 - curve.p2);
    let along: f64 = chords(points).sum();
    // A half circle's handles come to 1.49 of its length; what turns further both ways comes to more.
    let reach = out.hypot() + (curve.p2 - curve.p1).hypot() + back.hypot();
    let most = if points.len() < POINTS_OF_FAR_HANDLES { 1.6 } else { 2.2 };
    out.dot(*after - *first) >= 0.0 && back.dot(*last - *before) >= 0.0 && reach <= most * along
}

/// At each parameter the unit vector to the side of the curve.
pub fn to_the_side(curve: &CubicBez, shares: &[f64]) -> Vec<Vec2> {
    let first = curve.deriv();
    let side = |t: &f64| {
        let way = first.eval(*t).to_vec2();
        way.turn_90() / way.hypot().max(f64::MIN_POSITIVE)
    };
    shares.iter().map(side).collect()
}

/// Parameters nearer to where the points lie: one step of Newton's method each, kept in order.
pub fn mended(curve: &CubicBez, points: &[Point], shares: &[f64]) -> Vec<f64> {
    let (first, count) = (curve.deriv(), points.len());
    let second = first.deriv();
    let mut least = 0.0;
    let each = points.iter().zip(shares).enumerate().map(|(at, (point, &t))| {
        if at == 0 || at + 1 == count {
            return t;
        }
        let (away, speed, bend) = (curve.eval(t) - *point, first.eval(t).to_vec2(), second.eval(t).to_vec2());
        let (top, below) = (away.dot(speed), speed.hypot2() + away.dot(bend));
        let better = if below.abs() > f64::MIN_POSITIVE { t - top / below } else { t };
        least = better.clamp(least, 1.0);
        least
    });
    each.collect()
}

fn measured(curve: CubicBez, points: &[Point], shares: &[f64]) -> Fit {
    let mut found = Fit { curve, error: 0.0, worst: 0 };
    for (at, (point, &t)) in points.iter().zip(shares).enumerate() {
        let away = curve.eval(t).distance(*point);
        if away > found.error {
            found = Fit { curve, error: away, worst: at };
        }
    }
    found
}
