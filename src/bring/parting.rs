//! Traced points of all sizes at once, parted until cubics follow them: smoothly, but for kinks.
//!
//! A curve turns a little at each of its points, and alike at neighbours; where a line turns much at one alone, as it does
//! where a dart was shut, is a kink. No curve is laid over one that would miss the points, or the straight way between them,
//! by more than is allowed: the line is parted there, and goes on another way.

use super::fit::{Fit, fit, fit_harder};
use super::fit_again::Ways;
use kurbo::{CubicBez, Point, Vec2};
use std::f64::consts::FRAC_PI_2;

/// Points nearer to a straight line than this, in millimetres, lie on it.
pub const COLLINEAR: f64 = 0.01;
/// What bows so many times as much as the points of a line do in the middle is no part of its curve.
const UNLIKE: f64 = 4.0;

/// A stretch of all sizes that one cubic each follows.
#[derive(Debug, Clone, PartialEq)]
pub struct Followed {
    /// The cubics, by size.
    pub curves: Vec<CubicBez>,
    /// Whether the points of every size lie on a straight line.
    pub is_straight: bool,
}

/// A part of a traced line that is still to be followed, by size: from one point to another, and the ways at its ends.
struct Part {
    spans: Vec<(usize, usize)>,
    leaving: Option<Vec<Vec2>>,
    arriving: Option<Vec<Vec2>>,
}

/// Cubics along traced points of all sizes, which are parted at kinks and at the same share of their lengths until none is
/// missed by more; and by how much the worst is. None where it comes to more than `most`.
pub fn followed(sizes: &[Vec<Point>], tolerance: f64, most: usize) -> Option<(Vec<Followed>, f64)> {
    let (bows, kinks): (Vec<Vec<f64>>, Vec<Vec<usize>>) =
        sizes.iter().map(|points| bows_and_kinks(points, tolerance)).unzip();
    let whole = Part {
        spans: sizes.iter().map(|points| (0, points.len().saturating_sub(1))).collect(),
        leaving: None,
        arriving: None,
    };
    let (mut found, mut missed) = (Vec::new(), 0.0_f64);
    // The parts that wait, the first one last.
    let mut waiting = vec![whole];
    while let Some(part) = waiting.pop() {
        let spans = || {
            sizes
                .iter()
                .zip(&part.spans)
                .map(|(points, &(from, to))| points.get(from..=to).unwrap_or_default())
        };
        let is_smooth = part.leaving.is_some() || part.arriving.is_some();
        if spans().all(|points| is_flat(points) && (points.len() > 2 || !is_smooth)) {
            let straight = |points: &[Point]| {
                let (from, to) =
                    (points.first().copied().unwrap_or_default(), points.last().copied().unwrap_or_default());
                CubicBez::new(from, from.lerp(to, 1.0 / 3.0), from.lerp(to, 2.0 / 3.0), to)
            };
            found.push(Followed { curves: spans().map(straight).collect(), is_straight: true });
            continue;
        }
        let fits = fits(sizes, &bows, &part, tolerance);
        let worst = fits.iter().enumerate().max_by(|one, other| one.1.error.total_cmp(&other.1.error));
        let (size, error) = worst.map_or((0, 0.0), |(size, fit)| (size, fit.error));
        let parted = match error > tolerance {
            true => parted(sizes, &kinks, &part, size, fits.get(size)?.worst),
            false => None,
        };
        if let Some((near, far)) = parted {
            if found.len() + waiting.len() + 2 > most {
                return None;
            }
            waiting.push(far);
            waiting.push(near);
            continue;
        }
        missed = missed.max(error);
        found.push(Followed { curves: fits.iter().map(|fit| fit.curve).collect(), is_straight: false });
    }
    Some((found, missed))
}

/// A cubic a size along a part. Where one misses its points all that do are looked for harder, the worst first: what one size cannot
/// follow is parted in all.
fn fits(sizes: &[Vec<Point>], bows: &[Vec<f64>], part: &Part, tolerance: f64) -> Vec<Fit> {
    let own = |size: usize| -> Option<(&[Point], &[f64], Ways)> {
        let way = |ways: &Option<Vec<Vec2>>| ways.as_ref().and_then(|ways| ways.get(size).copied());
        let &(from, to) = part.spans.get(size)?;
        let (points, bows) = (sizes.get(size)?.get(from..=to)?, bows.get(size)?.get(from..to)?);
        Some((points, bows, (way(&part.leaving), way(&part.arriving))))
    };
    let first = |size: usize| {
        let (points, bows, ways) = own(size).unwrap_or_default();
        fit(points, bows, ways, tolerance)
    };
    let mut fits: Vec<Fit> = (0..sizes.len()).map(first).collect();
    let mut missing: Vec<usize> =
        (0..fits.len()).filter(|size| fits.get(*size).is_some_and(|fit| fit.error > tolerance)).collect();
    let error = |fits: &[Fit], size: usize| fits.get(size).map_or(0.0, |fit| fit.error);
    missing.sort_by(|one, other| error(&fits, *other).total_cmp(&error(&fits, *one)));
    let is_found = !missing.is_empty();
    for size in missing {
        let (Some((points, bows, ways)), Some(fit)) = (own(size), fits.get_mut(size)) else { continue };
        *fit = fit_harder(*fit, points, bows, ways, (tolerance, tolerance));
        if fit.error > tolerance {
            return fits;
        }
    }
    // Of a curve that comes so near in other sizes the next one comes as near: its handles then grow as theirs do.
    for (size, fit) in fits.iter_mut().enumerate().filter(|_| is_found) {
        if let Some((points, bows, ways)) = own(size) {
            *fit = fit_harder(*fit, points, bows, ways, (tolerance / 40.0, tolerance));
        }
    }
    fits
}

/// Whether points lie on their chord.
fn is_flat(points: &[Point]) -> bool {
    let (Some(&from), Some(&to)) = (points.first(), points.last()) else { return true };
    let long = from.distance(to).max(f64::MIN_POSITIVE);
    points.iter().all(|point| (*point - from).cross(to - from).abs() / long < COLLINEAR)
}

/// How far a curve may stand off each of the straight ways between a line's points, in millimetres, and at which points no curve
/// goes on.
///
/// A circle's arc stands off its chord by an eighth of the turn from chord to chord, times the chord; between points that lie
/// unevenly by up to a quarter. Where the line turns less at one end than at the other, the turn there says how much it
/// bends. A way that would bow much more than the others do, and more than is allowed, is straight, and kinks are at its ends;
/// so is a point from which a smooth curve would have to keep so far. But where the line turns more and more from point to point, and
/// then less and less, it is a curve that is tight there.
fn bows_and_kinks(points: &[Point], tolerance: f64) -> (Vec<f64>, Vec<usize>) {
    let last = points.len().saturating_sub(1);
    // At the ends of all it is not known.
    let turn_at = |at: usize| if at == 0 || at == last { f64::INFINITY } else { turn(points, at) };
    let long: Vec<f64> = points
        .windows(2)
        .map(|pair| pair.first().zip(pair.last()).map_or(0.0, |(a, b)| a.distance(*b)))
        .collect();
    let short = |at: usize| long.get(at).copied().unwrap_or(0.0);
    // How far a curve would keep from each point.
    let off: Vec<f64> = (0..=last)
        .map(|at| match at == 0 || at == last {
            true => f64::INFINITY,
            false => turn_at(at) * short(at - 1).min(short(at)) / 8.0,
        })
        .collect();
    let is_gradual: Vec<bool> = (0..=last).map(|at| at == 0 || at == last || gradual(&off, at)).collect();
    let are_gradual = |chord: usize| is_gradual.iter().skip(chord).take(2).all(|own| *own);
    let sagittas: Vec<f64> = long
        .iter()
        .enumerate()
        .map(|(at, long)| {
            let (one, other) = (turn_at(at), turn_at(at + 1));
            let turn = match are_gradual(at) && one.is_finite() && other.is_finite() {
                true => f64::midpoint(one, other),
                false => one.min(other),
            };
            if turn.is_finite() { long * turn / 8.0 } else { 0.0 }
        })
        .collect();
    let mut sorted = sagittas.clone();
    sorted.sort_by(f64::total_cmp);
    let usual = sorted.get(sorted.len() / 2).copied().unwrap_or(0.0);
    let is_unlike = |off: f64| off > UNLIKE * usual && off > tolerance / 2.0;
    let is_straight =
        |chord: usize| !are_gradual(chord) && sagittas.get(chord).is_some_and(|own| is_unlike(*own));
    let is_kink = |at: usize| {
        let is_lone = is_gradual.get(at) == Some(&false) && off.get(at).is_some_and(|own| is_unlike(*own));
        is_lone || is_straight(at - 1) || is_straight(at)
    };
    let kinks = (1..last).filter(|at| is_kink(*at)).collect();
    let bows = sagittas.iter().enumerate().map(|(at, own)| if is_straight(at) { 0.0 } else { 2.0 * own });
    (bows.collect(), kinks)
}

/// Whether a line comes to turn as much as it does at a point over the points beside it.
fn gradual(off: &[f64], at: usize) -> bool {
    let around = |step: usize| {
        let each = [at.checked_sub(step), Some(at + step)].into_iter().flatten();
        let known = each.filter_map(|at| off.get(at)).filter(|own| own.is_finite());
        known.copied().reduce(f64::max)
    };
    let own = off.get(at).copied().unwrap_or(f64::INFINITY);
    let Some(near) = around(1) else { return false };
    own <= RISES * near && around(2).is_none_or(|far| near <= RISES * far)
}

/// From one point to the next a curve comes to turn no more than so many times as much.
const RISES: f64 = 2.5;

/// By how much a line turns at one of its points, in radians from 0 to π.
fn turn(points: &[Point], at: usize) -> f64 {
    let around = at.checked_sub(1).and_then(|before| points.get(before..=at + 1));
    let Some(&[before, here, after]) = around else { return 0.0 };
    super::course::angle(here - before, after - here)
}

/// A part in two: at a kink, where one lies in it, and the kinks of all sizes answer to one another; else where the worst
/// size is missed most. None where a size has no point there to part it at.
fn parted(
    sizes: &[Vec<Point>],
    kinks: &[Vec<usize>],
    part: &Part,
    size: usize,
    worst: usize,
) -> Option<(Part, Part)> {
    if part.spans.iter().any(|(from, to)| *to < from + 2) {
        return None;
    }
    let within = |size: usize| -> Vec<usize> {
        let (from, to) = part.spans.get(size).copied().unwrap_or_default();
        kinks.get(size).into_iter().flatten().copied().filter(|at| (from + 1..to).contains(at)).collect()
    };
    let worst = part.spans.get(size)?.0 + worst;
    let own = within(size);
    let kink = own.iter().enumerate().min_by_key(|(_, at)| at.abs_diff(worst)).map(|(number, _)| number);
    let each: Vec<Vec<usize>> = (0..sizes.len()).map(within).collect();
    let by_number = kink.filter(|_| each.iter().all(|other| other.len() == own.len()));
    let places = match by_number {
        Some(number) => each.iter().filter_map(|own| own.get(number).copied()).collect(),
        None => {
            by_share(sizes, &each, part, size, kink.and_then(|kink| own.get(kink).copied()).unwrap_or(worst))
        }
    };
    let (mut near, mut far, mut ways) = (Vec::new(), Vec::new(), Vec::new());
    for ((points, &(from, to)), &at) in sizes.iter().zip(&part.spans).zip(&places) {
        near.push((from, at));
        far.push((at, to));
        ways.push(way_through(points, from, at, to));
    }
    // What kinks in one size is parted without one way through it in all.
    let kinked = places.iter().zip(kinks).any(|(at, kinks)| kinks.contains(at));
    let smooth = !kinked && ways.iter().all(|way| way.hypot2() > 0.0 && way.is_finite());
    let ways = smooth.then_some(ways);
    Some((
        Part { spans: near, leaving: part.leaving.clone(), arriving: ways.clone() },
        Part { spans: far, leaving: ways, arriving: part.arriving.clone() },
    ))
}

/// By size the point at the same share of a part's length as that point of one size has, or a kink close to it.
fn by_share(sizes: &[Vec<Point>], kinks: &[Vec<usize>], part: &Part, size: usize, at: usize) -> Vec<usize> {
    let lengths = |size: usize| -> Vec<f64> {
        let (from, to) = part.spans.get(size).copied().unwrap_or_default();
        let points = sizes.get(size).and_then(|points| points.get(from..=to)).unwrap_or_default();
        let mut along = vec![0.0];
        for pair in points.windows(2) {
            if let &[one, other] = pair {
                along.push(along.last().copied().unwrap_or(0.0) + one.distance(other));
            }
        }
        along
    };
    let whole = |along: &[f64]| along.last().copied().unwrap_or(0.0).max(f64::MIN_POSITIVE);
    let own = lengths(size);
    let from = part.spans.get(size).map_or(0, |(from, _)| *from);
    let share = own.get(at.saturating_sub(from)).copied().unwrap_or(0.0) / whole(&own);
    let place = |(number, &(from, to)): (usize, &(usize, usize))| {
        if number == size {
            return at.clamp(from + 1, to - 1);
        }
        let along = lengths(number);
        let off = |place: usize| {
            (along.get(place - from).copied().unwrap_or(f64::INFINITY) / whole(&along) - share).abs()
        };
        // The nearest one: of sizes that are alike but for their scale it is the same, whatever is lost in rounding.
        let nearest = |one: &usize, other: &usize| off(*one).total_cmp(&off(*other));
        let kink = kinks.get(number).into_iter().flatten().copied().min_by(nearest);
        let any = (from + 1..to).min_by(nearest);
        kink.filter(|kink| off(*kink) < BESIDE).or(any).unwrap_or(from + 1)
    };
    part.spans.iter().enumerate().map(place).collect()
}

/// How far, as a share of a part's length, a kink of one size may lie from that of another.
const BESIDE: f64 = 0.05;

/// The way of a traced curve through one of its points: along the circle through it and its neighbours.
fn way_through(points: &[Point], from: usize, at: usize, to: usize) -> Vec2 {
    let reach = ((to - from) / 16).clamp(1, 3);
    let (before, after) = (at.saturating_sub(reach).max(from), (at + reach).min(to));
    let place = |at: usize| points.get(at).copied().unwrap_or(Point::ZERO);
    let (back, on) = (place(at) - place(before), place(after) - place(at));
    let weighed = |way: Vec2| way / way.hypot2().max(f64::MIN_POSITIVE);
    // The nearer neighbour says more: the tangent of the circle through the three.
    let way = weighed(back) + weighed(on);
    match super::course::angle(back, on) < FRAC_PI_2 {
        true => way,
        false => Vec2::ZERO,
    }
}
