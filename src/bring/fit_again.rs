//! A cubic through points that the straight way to it misses.
//!
//! Where the handles of a curve are of very unlike lengths, steps of least squares overshoot, and end beside it: at a curve
//! that turns back, or at one that misses by a millimetre. Here each step is as long as it does good (K. Levenberg, "A
//! method for the solution of certain non-linear problems in least squares", Quarterly of Applied Mathematics 2 (1944); D. W.
//! Marquardt, SIAM Journal on Applied Mathematics 11 (1963)), and several starts are tried.

use super::fit::{eliminated, goes_forward, mended, tangent, to_the_side};
use kurbo::{CubicBez, ParamCurve, Point, Vec2};

/// At most so many of the points are asked: a cubic has no more to say.
const ASKED: usize = 48;
/// How often a start is mended.
const STEPS: usize = 60;
/// What a step gains that is little, as a share …
const LITTLE: f64 = 0.05;
/// … and after how many of those no more is tried.
const PATIENCE: usize = 4;
/// How often parameters are mended for each step.
const FEET: usize = 3;
/// Handles to start with, as shares of the length of the line: out of the first point and back from the last.
const STARTS: [(f64, f64); 5] = [(0.33, 0.33), (0.2, 0.5), (0.5, 0.2), (0.1, 0.6), (0.6, 0.1)];

/// The ways that a curve must go at its ends, where they are known.
pub type Ways = (Option<Vec2>, Option<Vec2>);

/// A curve that comes nearer to points than that one, if any start leads to one, and where it passes them. What comes as near
/// as is enough ends the search.
pub fn search(
    points: &[Point],
    shares: &[f64],
    best: CubicBez,
    ways: Ways,
    enough: f64,
) -> Option<(CubicBez, Vec<f64>)> {
    let every = points.len().div_ceil(ASKED).max(1);
    let last = points.len().checked_sub(1)?;
    let is_asked = |at: &usize| at.is_multiple_of(every) || *at == last;
    let asked: Vec<usize> = (0..points.len()).filter(is_asked).collect();
    let own: Vec<Point> = asked.iter().filter_map(|at| points.get(*at).copied()).collect();
    let by_chords: Vec<f64> = asked.iter().filter_map(|at| shares.get(*at).copied()).collect();
    let mut found: Option<(f64, CubicBez, Vec<f64>)> = None;
    for start in std::iter::once(best).chain(starts(points, ways)) {
        let (error, curve, feet) = descended(start, &own, &by_chords, ways);
        if found.as_ref().is_none_or(|(least, ..)| error < *least) {
            found = Some((error, curve, feet));
        }
        if error < enough {
            break;
        }
    }
    let (_, curve, feet) = found?;
    let all = feet_of(&curve, points, &between(shares, &asked, &feet));
    goes_forward(&curve, points).then_some((curve, all))
}

/// The parameters of all points, from those of the points that were asked: between two of them as their shares of the length say.
fn between(shares: &[f64], asked: &[usize], feet: &[f64]) -> Vec<f64> {
    let mut all = shares.to_vec();
    for (places, own) in asked.windows(2).zip(feet.windows(2)) {
        let (&[from, to], &[first, last]) = (places, own) else { continue };
        let (Some(&begin), Some(&end)) = (shares.get(from), shares.get(to)) else { continue };
        let part = |share: f64| (share - begin) / (end - begin).max(f64::MIN_POSITIVE);
        for share in all.get_mut(from..=to).into_iter().flatten().zip(from..) {
            let own = shares.get(share.1).copied().unwrap_or(begin);
            *share.0 = first + (last - first) * part(own);
        }
    }
    all
}

/// Curves to start with.
fn starts(points: &[Point], (leaving, arriving): Ways) -> impl Iterator<Item = CubicBez> {
    let back: Vec<Point> = points.iter().rev().take(3).copied().collect();
    let out = leaving.or_else(|| tangent(points)).unwrap_or_default();
    let arrive = arriving.or_else(|| tangent(&back).map(|way| -way)).unwrap_or_default();
    let long: f64 = points
        .windows(2)
        .map(|pair| pair.first().zip(pair.last()).map_or(0.0, |(one, other)| one.distance(*other)))
        .sum();
    let ends = points.first().copied().zip(points.last().copied());
    let unit = |way: Vec2| way / way.hypot().max(f64::MIN_POSITIVE);
    STARTS.into_iter().filter_map(move |(first, second)| {
        let (from, to) = ends?;
        Some(CubicBez::new(from, from + unit(out) * (first * long), to - unit(arrive) * (second * long), to))
    })
}

/// The curve that a start leads to, how far it misses the points, and where it passes them.
fn descended(start: CubicBez, points: &[Point], shares: &[f64], ways: Ways) -> (f64, CubicBez, Vec<f64>) {
    let mut curve = start;
    let mut feet = feet_of(&curve, points, shares);
    let (mut sum, mut most) = missed(&curve, points, &feet);
    let (mut held, mut slow) = (1e-3, 0);
    for _ in 0..STEPS {
        let Some(next) = stepped(&curve, points, &feet, ways, held) else { break };
        let next_feet = feet_of(&next, points, &feet);
        let (next_sum, next_most) = missed(&next, points, &next_feet);
        if next_sum < sum && goes_forward(&next, points) {
            let gained = sum - next_sum;
            (curve, feet, sum, most) = (next, next_feet, next_sum, next_most);
            held = (held / 5.0_f64).max(1e-12);
            slow = if gained < LITTLE * sum { slow + 1 } else { 0 };
            if slow >= PATIENCE || most < 1e-3 {
                break;
            }
        } else {
            held *= 4.0;
            if held > 1e6 {
                break;
            }
        }
    }
    (most, curve, feet)
}

fn feet_of(curve: &CubicBez, points: &[Point], shares: &[f64]) -> Vec<f64> {
    (0..FEET).fold(shares.to_vec(), |feet, _| mended(curve, points, &feet))
}

/// The sum of the squared distances, and the greatest distance.
fn missed(curve: &CubicBez, points: &[Point], feet: &[f64]) -> (f64, f64) {
    let each = points.iter().zip(feet).map(|(point, t)| curve.eval(*t).distance_squared(*point));
    let (sum, most) = each.fold((0.0, 0.0_f64), |(sum, most), own| (sum + own, most.max(own)));
    (sum, most.sqrt())
}

/// One step, the shorter the more it is held.
fn stepped(curve: &CubicBez, points: &[Point], feet: &[f64], ways: Ways, held: f64) -> Option<CubicBez> {
    let axes = |way: Option<Vec2>| {
        way.map_or_else(|| vec![Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0)], |way| vec![way])
    };
    let (first, second) = (axes(ways.0), axes(ways.1));
    let unknowns = first.len() + second.len();
    let mut square = [[0.0; 4]; 4];
    let mut right = [0.0; 4];
    for ((point, &t), side) in points.iter().zip(feet).zip(to_the_side(curve, feet)) {
        let s = 1.0 - t;
        let (near, far) = (3.0 * s * s * t, 3.0 * s * t * t);
        let rest = (*point - curve.eval(t)).dot(side);
        let columns: Vec<f64> = first
            .iter()
            .map(|axis| axis.dot(side) * near)
            .chain(second.iter().map(|axis| axis.dot(side) * far))
            .collect();
        for (row, one) in square.iter_mut().zip(&columns) {
            for (cell, other) in row.iter_mut().zip(&columns) {
                *cell += one * other;
            }
        }
        for (cell, one) in right.iter_mut().zip(&columns) {
            *cell += one * rest;
        }
    }
    for (at, row) in square.iter_mut().enumerate().take(unknowns) {
        if let Some(cell) = row.get_mut(at) {
            *cell *= 1.0 + held;
        }
    }
    let found = eliminated(square, right, unknowns)?;
    let moved = |axes: &[Vec2], from: usize| {
        axes.iter()
            .enumerate()
            .fold(Vec2::ZERO, |sum, (at, axis)| sum + *axis * found.get(from + at).copied().unwrap_or(0.0))
    };
    let (out, back) = (moved(&first, 0), moved(&second, first.len()));
    Some(CubicBez::new(curve.p0, curve.p1 + out, curve.p2 + back, curve.p3))
}
