//! An outline whose edges all are turned by one angle from one size to another: a piece that grows turns one edge more than another.

use super::displaced::{STRAIGHT, TURNED, named};
use super::median::median;
use kurbo::{Point, Vec2};

/// Fewer long edges show nothing.
const EDGES: usize = 3;
/// Shorter ones, in millimetres, turn with every corner that is moved.
const LONG: f64 = 40.0;
/// All turn alike to this, in radians (0.7°), …
const ALIKE: f64 = 0.0122;
/// … or to this share of how far they turn.
const SHARE: f64 = 0.2;

/// What is said of a size that is turned, by the corners of each: a sentence's end, behind the piece's name. Of two sizes nobody
/// knows which it is.
pub fn told(corners: &[Vec<Point>], sizes: &[String]) -> Option<String> {
    let count = corners.len();
    let turn = |one: usize, other: usize| turn(corners.get(one)?, corners.get(other)?);
    if count == 2 {
        let by = turn(0, 1).filter(|by| by.abs() > TURNED)?;
        let (one, other) = (sizes.first()?, sizes.get(1)?);
        return Some(format!(
            "{other} is drawn turned by {:.1}° beside {one}: which of them lies straight? Turn the other in the drawing, or its grain lies \
             otherwise",
            by.abs().to_degrees()
        ));
    }
    let odd = |size: usize| -> Option<f64> {
        let others: Vec<usize> = (0..count).filter(|other| *other != size).collect();
        let first = *others.first()?;
        let are_straight = others.iter().all(|other| middle_turn(corners, first, *other) < STRAIGHT);
        let turns: Option<Vec<f64>> = others.iter().map(|other| turn(*other, size)).collect();
        let turns = turns.filter(|_| are_straight)?;
        let is_one_way =
            turns.iter().all(|own| own.abs() > TURNED && (*own > 0.0) == (turns.first() > Some(&0.0)));
        is_one_way.then(|| turns.iter().sum::<f64>() / turns.len() as f64)
    };
    let (size, by) = (0..count).find_map(|size| Some((size, odd(size)?)))?;
    let (name, others) = named(sizes, size);
    Some(format!(
        "{name} is drawn turned by {:.1}° beside {others}: turn it back in the drawing, or its grain lies otherwise",
        by.abs().to_degrees()
    ))
}

/// How the long edges of one size turn to those of another, anticlockwise.
fn turns(one: &[Point], other: &[Point]) -> Vec<f64> {
    let ways = |own: &[Point]| -> Vec<Vec2> {
        own.iter().zip(own.iter().cycle().skip(1)).map(|(from, to)| *to - *from).collect()
    };
    let both = ways(one).into_iter().zip(ways(other));
    let long = both.filter(|(one, other)| one.hypot().min(other.hypot()) > LONG);
    long.map(|(one, other)| libm::atan2(one.cross(other), one.dot(other))).collect()
}

/// By how much all of them turn, if they turn alike.
fn turn(one: &[Point], other: &[Point]) -> Option<f64> {
    let all = turns(one, other);
    let by = median(all.clone());
    let is_alike = all.iter().all(|own| (own - by).abs() < ALIKE.max(SHARE * by.abs()));
    (all.len() >= EDGES && is_alike).then_some(by)
}

/// By how much most of them turn.
fn middle_turn(corners: &[Vec<Point>], one: usize, other: usize) -> f64 {
    let all = corners.get(one).zip(corners.get(other)).map(|(one, other)| turns(one, other));
    median(all.unwrap_or_default()).abs()
}
