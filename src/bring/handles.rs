//! Handles of a curve that are exchanged in one size: the curve then bends otherwise, or loops, and its ends are where they were.

use super::corners::answering_by;
use super::course::{Course, controls};
use crate::report::listed;
use kurbo::{ParamCurve, PathSeg, Point, Vec2};

/// From so large a share of the chord on handles lie elsewhere.
const ELSEWHERE: f64 = 0.15;
/// Exchanged they have to come so many times nearer.
const NEARER: f64 = 3.0;

/// A curve whose handles are exchanged.
pub struct Exchanged {
    /// In which size.
    pub size: usize,
    /// Where it begins and ends there.
    pub ends: (Point, Point),
    /// What is said of it: a sentence's end, behind what the curve is called.
    pub words: String,
}

/// The curves of a piece whose handles are exchanged in one of its sizes.
pub fn exchanged(courses: &[&Course], sizes: &[String]) -> Vec<Exchanged> {
    let Some(shifts) = answering_by(courses).filter(|_| courses.len() > 1) else { return Vec::new() };
    let count = courses.first().map_or(0, |course| course.segments.len());
    let curve = |size: usize, at: usize| -> Option<PathSeg> {
        let own = courses.get(size)?;
        let segment = own.segments.get((at + shifts.get(size)?) % count)?;
        (!matches!(segment.course, PathSeg::Line(_)) && segment.arc.is_none()).then_some(segment.course)
    };
    let mut found = Vec::new();
    for at in 0..count {
        let curves: Option<Vec<PathSeg>> = (0..courses.len()).map(|size| curve(size, at)).collect();
        let Some(curves) = curves else { continue };
        let ways: Vec<(Vec2, Vec2)> = curves.iter().map(ways).collect();
        if let Some(size) = odd(&ways) {
            let called = |wanted: &dyn Fn(usize) -> bool| -> Vec<&str> {
                sizes
                    .iter()
                    .enumerate()
                    .filter(|(at, _)| wanted(*at))
                    .map(|(_, name)| name.as_str())
                    .collect()
            };
            let words = format!(
                "has its two handles exchanged in {}: the first stands where the second does in {}",
                listed(&called(&|own| own == size)),
                listed(&called(&|own| own != size))
            );
            let ends = curves.get(size).map_or((Point::ZERO, Point::ZERO), |own| (own.start(), own.end()));
            found.push(Exchanged { size, ends, words });
        }
    }
    found
}

/// Where the handles of a curve lie, along and beside its chord, as shares of it.
fn ways(curve: &PathSeg) -> (Vec2, Vec2) {
    let [from, first, second, to] = controls(curve);
    let chord = to - from;
    let share = |at: Point| {
        let way = at - from;
        Vec2::new(way.dot(chord), chord.cross(way)) / chord.hypot2().max(f64::MIN_POSITIVE)
    };
    (share(first), share(second))
}

/// The size whose handles lie where those of all others do once they are exchanged.
fn odd(ways: &[(Vec2, Vec2)]) -> Option<usize> {
    let is_exchanged = |own: &(Vec2, Vec2), other: &(Vec2, Vec2)| {
        let as_drawn = (own.0 - other.0).hypot() + (own.1 - other.1).hypot();
        let exchanged = (own.0 - other.1).hypot() + (own.1 - other.0).hypot();
        as_drawn > ELSEWHERE && NEARER * exchanged < as_drawn
    };
    match ways {
        // Of two the one whose first handle lies farther along than its second.
        [one, other] if is_exchanged(one, other) => {
            let gone = |own: &(Vec2, Vec2)| own.0.x - own.1.x;
            Some(if gone(one) > gone(other) { 0 } else { 1 })
        }
        [_, _] => None,
        _ => ways.iter().enumerate().find_map(|(at, own)| {
            let mut others = ways.iter().enumerate().filter(|(other, _)| *other != at);
            others.all(|(_, other)| is_exchanged(own, other)).then_some(at)
        }),
    }
}
