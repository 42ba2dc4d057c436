//! A point of a traced curve that stands beside its neighbours, which go on smoothly without it: a place where a hand slipped, or
//! where a figure of a coordinate is wrong. It is seen in one size alone.

use super::course::{Course, angle};
use super::outlines::in_size;
use super::traced::TracedPoint;
use super::unmatched::place;
use kurbo::{PathSeg, Point, Vec2};

/// It stands so far beside them, in millimetres: no hand traces better than half of that, …
const BESIDE: f64 = 3.0;
/// … and so many times as far as points of this outline usually do.
const USUAL: f64 = 5.0;
/// Without it the line turns less than this at its neighbours, in radians (25°).
const SMOOTH: f64 = 0.436;
/// Steps from point to point of a traced curve are no longer than this, in millimetres, …
const STEP: f64 = 60.0;
/// … and none so many times as long as another.
const UNEVEN: f64 = 3.0;
/// At each neighbour it turns back by this share of how far it turns at the point: where the line only kinks it does not.
const BACK: f64 = 0.2;
/// More of them in one outline were meant.
const MOST: usize = 2;
/// So many points on each side are looked at, as far as no corner is between.
const REACH: usize = 3;

/// A point that stands beside its neighbours.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beside {
    /// Where it lies.
    pub at: Point,
    /// How far from the line through its neighbours, in millimetres.
    pub off: f64,
}

/// Those of an outline.
pub fn zigzags(course: &Course) -> Vec<Beside> {
    let count = course.nodes();
    if !course.closed || count < 2 * REACH + 1 {
        return Vec::new();
    }
    let each: Vec<Option<f64>> = (0..count).map(|at| off(course, at)).collect();
    let mut sorted: Vec<f64> = each.iter().flatten().copied().collect();
    sorted.sort_by(f64::total_cmp);
    let usual = sorted.get(sorted.len() / 2).copied().unwrap_or(0.0);
    let least = BESIDE.max(USUAL * usual);
    let found: Vec<Beside> = (0..count)
        .filter(|at| is_lone(course, *at))
        .filter_map(|at| Some(Beside { at: course.node(at), off: *each.get(at)?.as_ref()? }))
        .filter(|own| own.off > least)
        .collect();
    if found.len() > MOST { Vec::new() } else { found }
}

/// What is said of them, by size: of those that all sizes have alike it is said once.
pub fn words(all: &[Vec<Beside>], courses: &[Course], sizes: &[String]) -> Vec<(String, String)> {
    let is_alike = all.len() > 1
        && all.windows(2).all(|pair| match pair {
            [one, other] => one.len() == other.len(),
            _ => true,
        });
    let of_size = |(size, (found, course)): (usize, (&Vec<Beside>, &Course))| -> Vec<(String, String)> {
        let which = if is_alike { " in every size".to_owned() } else { in_size(sizes, size) };
        let each = found.iter().map(|own| {
            let words = format!(
                "the point {} stands {:.0} mm beside those before and behind it, which go on smoothly without it: was it traced wrong, or \
                 is it a mark or a notch that belongs to no outline? The outline goes there and back",
                place(course, own.at),
                own.off
            );
            (which.clone(), words)
        });
        each.collect()
    };
    let told = if is_alike { 1 } else { all.len() };
    all.iter().zip(courses).enumerate().take(told).flat_map(of_size).collect()
}

/// The points before and behind one, the nearest first, as far as the line is traced there: straight steps, and no corner between.
fn around(course: &Course, at: usize) -> Option<[Vec<usize>; 2]> {
    let count = course.nodes();
    let on = |at: usize, step: usize| (at + step) % count;
    let back = |at: usize, step: usize| (at + count - step) % count;
    let is_step = |segment: usize| {
        course.segments.get(segment).is_some_and(|one| matches!(one.course, PathSeg::Line(_)))
    };
    let is_corner = |at: usize| course.said(at) == TracedPoint::Corner;
    let side = |place: &dyn Fn(usize) -> usize, segment: &dyn Fn(usize) -> usize| {
        let mut found = Vec::with_capacity(REACH);
        for step in 1..=REACH {
            if !is_step(segment(step)) {
                break;
            }
            found.push(place(step));
            if is_corner(place(step)) {
                break;
            }
        }
        found
    };
    let before = side(&|step| back(at, step), &|step| back(at, step));
    let after = side(&|step| on(at, step), &|step| on(at, step - 1));
    let is_known = before.len().min(after.len()) >= 2 && before.len() + after.len() > REACH + 1;
    (is_known && !is_corner(at)).then_some([before, after])
}

/// How far a point stands off the curve through two on each side, to the side of the way from the one to the other. None where the
/// line without it is no smooth traced one.
fn off(course: &Course, at: usize) -> Option<f64> {
    let [before, after] = around(course, at)?;
    let others: Vec<Point> = before.iter().rev().chain(&after).map(|other| course.node(*other)).collect();
    let chords: Vec<Vec2> =
        others.windows(2).filter_map(|pair| Some(*pair.last()? - *pair.first()?)).collect();
    let is_smooth = chords.windows(2).all(|pair| match pair {
        [one, other] => angle(*one, *other) < SMOOTH,
        _ => true,
    });
    // The one over the point stands for two steps.
    let steps = || {
        let over = before.len() - 1;
        chords
            .iter()
            .enumerate()
            .map(move |(at, way)| if at == over { way.hypot() / 2.0 } else { way.hypot() })
    };
    let (least, most) = (steps().fold(f64::INFINITY, f64::min), steps().fold(0.0, f64::max));
    if !is_smooth || most > STEP || most > UNEVEN * least {
        return None;
    }
    let place = |side: &[usize], number: usize| side.get(number).map(|at| course.node(*at));
    let (second, first) = (place(&before, 1)?, place(&before, 0)?);
    let (third, fourth) = (place(&after, 0)?, place(&after, 1)?);
    let own = course.node(at);
    let way = third - first;
    let share = ((own - first).dot(way) / way.hypot2().max(f64::MIN_POSITIVE)).clamp(0.1, 0.9);
    let knots = [-first.distance(second), 0.0, way.hypot(), way.hypot() + third.distance(fourth)];
    let expected = through(&knots, &[second, first, third, fourth], share * way.hypot());
    let side = way.turn_90() / way.hypot().max(f64::MIN_POSITIVE);
    Some((own.to_vec2() - expected).dot(side).abs())
}

/// Where the cubic through four points, passed at these parameters, is at another one (J.-L. Lagrange's form).
fn through(knots: &[f64; 4], points: &[Point; 4], at: f64) -> Vec2 {
    let each = points.iter().zip(knots).enumerate().map(|(number, (point, knot))| {
        let others = knots.iter().enumerate().filter(|(other, _)| *other != number);
        let weight: f64 = others.map(|(_, other)| (at - other) / (knot - other)).product();
        point.to_vec2() * weight
    });
    each.fold(Vec2::ZERO, |sum, own| sum + own)
}

/// Whether the line goes out to a point and back: at both neighbours it turns the other way than there, beyond what it turns anyway.
fn is_lone(course: &Course, at: usize) -> bool {
    let Some([before, after]) = around(course, at) else { return false };
    let turn = |at: usize| {
        let count = course.nodes();
        let own = course.node(at);
        let (one, other) = (own - course.node((at + count - 1) % count), course.node((at + 1) % count) - own);
        angle(one, other) * one.cross(other).signum()
    };
    // What it turns beside: nothing is known of that where a corner stands.
    let beside = |side: &[usize]| match side {
        [_, second, _] => turn(*second),
        _ => 0.0,
    };
    let (Some(&near), Some(&next)) = (before.first(), after.first()) else { return false };
    let tip = turn(at) - (beside(&before) + beside(&after)) / 2.0;
    let feet = [turn(near) - beside(&before), turn(next) - beside(&after)];
    feet.iter().all(|foot| foot * tip.signum() < -BACK * tip.abs())
}
