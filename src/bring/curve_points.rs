//! Points that are said to be those of a curve, and at which the line turns as at a corner.

use super::course::{Course, SAME};
use super::unmatched::place;
use kurbo::{ParamCurve, PathSeg, Point};

/// A curve turns less at any of its points, in radians (60°), …
const TURN: f64 = 1.047;
/// … if the lines on both sides of it are longer than this, in millimetres.
const LONG: f64 = 15.0;
/// So many of them are no slip each.
const SEVERAL: usize = 3;

/// What is said of them in the first size that has some: a sentence's end, behind the piece's name. Of those at places, by size, that
/// lie elsewhere than they should it is told as that, and of those beside them nothing.
pub fn doubtful(courses: &[Course], elsewhere: &[Vec<Point>]) -> Option<String> {
    courses.iter().zip(elsewhere).find_map(|(course, elsewhere)| {
        let count = course.nodes();
        let is_explained = |at: usize| {
            let around = [(at + count - 1) % count, at, (at + 1) % count].map(|at| course.node(at));
            around.iter().any(|own| elsewhere.iter().any(|other| own.distance(*other) < SAME))
        };
        let all: Vec<usize> =
            (0..count).filter(|at| is_doubtful(course, *at) && !is_explained(*at)).collect();
        let first = *all.first()?;
        let (before, after) = lines(course, first)?;
        let where_it_is = place(course, course.node(first));
        let turn = course.turn(first).to_degrees();
        Some(match all.len() {
            count if count >= SEVERAL => format!(
                "{count} points are said to be those of a curve, and the line turns there as at corners, {where_it_is} by {turn:.0}°: \
                 are corners and points of curves exchanged? A curve is laid through them"
            ),
            _ => format!(
                "the point {where_it_is} is said to be one of a curve, and the line turns there by {turn:.0}° between straight lines of \
                 {before:.0} and {after:.0} mm: is it a corner? A curve is laid through it"
            ),
        })
    })
}

fn is_doubtful(course: &Course, at: usize) -> bool {
    course.said(at) == super::traced::TracedPoint::Curve
        && course.turn(at) > TURN
        && lines(course, at).is_some_and(|(before, after)| before.min(after) > LONG)
}

/// How long the straight lines before and behind a point are.
fn lines(course: &Course, at: usize) -> Option<(f64, f64)> {
    let count = course.segments.len();
    let before = if at == 0 { count.checked_sub(1)? } else { at - 1 };
    let long = |at: usize| match course.segments.get(at)?.course {
        PathSeg::Line(line) => Some(line.start().distance(line.end())),
        _ => None,
    };
    Some((long(before)?, long(at)?))
}
