//! Why a line inside a piece does not answer to itself in every size, in a maker's words.

use super::corners::Unmatched;
use super::course::Course;
use super::jumps::way;
use super::names::{Called, one_line};
use crate::report::listed;
use kurbo::{Point, Vec2};

/// An end lies off that is so far, in millimetres, from where others have it.
const OFF: f64 = 10.0;
/// The nearer end is told too, if it is off by so much of what the other is.
const BOTH: f64 = 0.5;

/// Behind a colon why lines of one name are not as many in each size.
pub fn counts(called: &[Called], stem: &str, sizes: &[String]) -> Option<String> {
    let own: Vec<usize> = called.iter().map(|own| own.count(stem)).collect();
    let first = own.first().copied()?;
    let (at, other) = own.iter().enumerate().find(|(_, own)| **own != first && **own > 0)?;
    let (one, size) = (sizes.first()?, sizes.get(at)?);
    Some(format!(
        ": it is drawn {} in {}, and {} in {}",
        times(first),
        one_line(one),
        times(*other),
        one_line(size)
    ))
}

fn times(count: usize) -> String {
    if count == 1 { "once".to_owned() } else { format!("{count} times") }
}

/// Behind a colon why the corners of lines do not answer to one another.
pub fn why(unmatched: Unmatched, courses: &[Course], moves: &[Vec2], sizes: &[String]) -> Option<String> {
    let called = |size: usize| sizes.get(size).map(|name| one_line(name));
    match unmatched {
        Unmatched::Counts { one: (one, corners), other: (other, others) } => {
            let between = |corners: usize| corners.saturating_sub(2);
            Some(format!(
                ": it turns at {} corners between its ends in {}, and at {} in {}",
                between(corners),
                called(one)?,
                between(others),
                called(other)?
            ))
        }
        Unmatched::TooMany { .. } => None,
        Unmatched::Places { .. } => {
            let [start, end] = [ends(courses, moves, true)?, ends(courses, moves, false)?];
            let names = sides(*start.first()?, *end.first()?);
            let mut off: Vec<(f64, String)> = [(names[0], start), (names[1], end)]
                .into_iter()
                .filter_map(|(name, places)| {
                    let (size, off) = odd(&places)?;
                    let others: Vec<String> =
                        (0..places.len()).filter(|at| *at != size).filter_map(called).collect();
                    let have = if others.len() == 1 { "has" } else { "have" };
                    let words = format!(
                        "its {name} end lies {} in {} from where {} {have} it",
                        way(off),
                        called(size)?,
                        listed(&others)
                    );
                    Some((off.hypot(), words))
                })
                .filter(|(off, _)| *off >= OFF)
                .collect();
            off.sort_by(|(one, _), (other, _)| other.total_cmp(one));
            let most = off.first()?.0;
            let told: Vec<String> =
                off.into_iter().filter(|(own, _)| *own >= BOTH * most).map(|(_, words)| words).collect();
            Some(format!(": {}", told.join(", ")))
        }
    }
}

/// By size where lines begin, or end, moved as their pieces are; none of closed ones.
fn ends(courses: &[Course], moves: &[Vec2], is_start: bool) -> Option<Vec<Point>> {
    let each = courses.iter().enumerate().map(|(at, course)| {
        let node = if is_start { 0 } else { course.segments.len() };
        (!course.closed).then(|| course.node(node) + moves.get(at).copied().unwrap_or_default())
    });
    each.collect()
}

/// What the two ends of a line are called by where they lie.
fn sides(start: Point, end: Point) -> [&'static str; 2] {
    let by = end - start;
    match (by.x.abs() >= by.y.abs(), by.x > 0.0, by.y > 0.0) {
        (true, true, _) => ["left", "right"],
        (true, false, _) => ["right", "left"],
        (false, _, true) => ["lower", "upper"],
        (false, _, false) => ["upper", "lower"],
    }
}

/// The size without which the others lie nearest to each other, and how far it lies from the middle of those beside it.
fn odd(places: &[Point]) -> Option<(usize, Vec2)> {
    let spread = |without: usize| {
        let others = places.iter().enumerate().filter(|(at, _)| *at != without).map(|(_, place)| *place);
        let others: Vec<Point> = others.collect();
        let pairs = others.iter().flat_map(|one| others.iter().map(move |other| one.distance(*other)));
        pairs.fold(0.0, f64::max)
    };
    // Of two nobody knows which is meant: the second is said to lie elsewhere than the first.
    let at = (0..places.len()).rev().min_by(|one, other| spread(*one).total_cmp(&spread(*other)))?;
    let beside: Vec<Point> = [at.checked_sub(1), Some(at + 1)]
        .into_iter()
        .flatten()
        .filter_map(|beside| places.get(beside).copied())
        .collect();
    let sum = beside.iter().fold(Vec2::ZERO, |sum, place| sum + place.to_vec2());
    Some((at, places.get(at)?.to_vec2() - sum / beside.len().max(1) as f64))
}
