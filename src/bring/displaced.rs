//! A whole outline that lies otherwise in one size than the others' growth has it: turned a little, beside all that is drawn on it,
//! or everywhere equally far outside. Of each of its points by itself nothing is wrong then.

use super::course::Course;
use super::growth::Growth;
use super::jumps::way;
use super::median::median;
use super::names::one_line;
use super::outside;
use super::traced::TracedSize;
use super::turned_edges;
use crate::report::listed;
use kurbo::{ParamCurve, Point, Vec2};

/// Fewer sizes than this show no growth.
pub const SIZES: usize = 3;
/// A piece with more corners is not asked.
const MOST_CORNERS: usize = 200;
/// By so much, in radians (1.5°), a size is turned …
pub const TURNED: f64 = 0.026;
/// … beside others that are turned by less than this to one another (0.5°) …
pub const STRAIGHT: f64 = 0.009;
/// … and turned back it lies so many times nearer to their growth.
pub const NEARER: f64 = 3.0;
/// An outline lies so far beside what is drawn on it, in millimetres.
const BESIDE: f64 = 4.0;
/// What is drawn on it lies off alike to this share of that, and one millimetre.
const ALIKE: f64 = 0.25;

/// What is said of the outline of one size, if something is: a sentence's end, behind the piece's name.
pub fn displaced(
    courses: &[Course],
    places: &[Vec<usize>],
    drawn: &[&TracedSize],
    sizes: &[String],
) -> Option<String> {
    let corners: Vec<Vec<Point>> = courses
        .iter()
        .zip(places)
        .map(|(course, own)| own.iter().map(|at| course.node(*at)).collect())
        .collect();
    let count = corners.first().map_or(0, Vec::len);
    if !(3..=MOST_CORNERS).contains(&count) || corners.iter().any(|own| own.len() != count) {
        return None;
    }
    if corners.len() < SIZES {
        return turned_edges::told(&corners, sizes);
    }
    turned(&corners, sizes)
        .or_else(|| turned_edges::told(&corners, sizes))
        .or_else(|| beside(&corners, drawn, sizes))
        .or_else(|| outside::told(courses, places, drawn, sizes))
}

/// The size of that number, and the others.
pub fn named(sizes: &[String], size: usize) -> (String, String) {
    let own = sizes.get(size).map_or_else(String::new, |name| one_line(name));
    let others: Vec<&str> =
        sizes.iter().enumerate().filter(|(at, _)| *at != size).map(|(_, name)| name.as_str()).collect();
    (own, if others.len() > SIZES { "the other sizes".to_owned() } else { listed(&others) })
}

/// The middle of points.
pub fn middle(points: &[Point]) -> Point {
    let sum = points.iter().fold(Vec2::ZERO, |sum, at| sum + at.to_vec2());
    (sum / points.len().max(1) as f64).to_point()
}

/// By which angle points are turned beside others, each seen from its middle.
fn turn(base: &[Point], own: &[Point]) -> f64 {
    let (from, to) = (middle(base), middle(own));
    let (mut sine, mut cosine) = (0.0, 0.0);
    for (one, other) in base.iter().zip(own) {
        sine += (*one - from).cross(*other - to);
        cosine += (*one - from).dot(*other - to);
    }
    libm::atan2(sine, cosine)
}

/// A size that is turned a little.
fn turned(corners: &[Vec<Point>], sizes: &[String]) -> Option<String> {
    let count = corners.len();
    let odd = |size: usize| -> Option<f64> {
        let mut turns = Vec::new();
        let others: Vec<&Vec<Point>> =
            corners.iter().enumerate().filter(|(at, _)| *at != size).map(|(_, own)| own).collect();
        let first = others.first()?;
        if others.iter().any(|other| turn(first, other).abs() > STRAIGHT) {
            return None;
        }
        turns.extend(others.iter().map(|other| turn(other, corners.get(size).map_or(&[], Vec::as_slice))));
        let least = turns.iter().map(|turn| turn.abs()).fold(f64::INFINITY, f64::min);
        let by = turns.iter().sum::<f64>() / turns.len().max(1) as f64;
        (least > TURNED && turns.iter().all(|turn| (turn > &0.0) == (by > 0.0))).then_some(by)
    };
    let (size, by) = (0..count).find_map(|size| Some((size, odd(size)?)))?;
    let own = corners.get(size)?;
    let about = middle(own);
    let back: Vec<Point> = own
        .iter()
        .map(|at| {
            let (sine, cosine) = (libm::sin(-by), libm::cos(-by));
            let away = *at - about;
            about + Vec2::new(away.x * cosine - away.y * sine, away.x * sine + away.y * cosine)
        })
        .collect();
    let off = |own: &[Point]| -> f64 {
        let with: Vec<Vec<Point>> = corners
            .iter()
            .enumerate()
            .map(|(at, other)| if at == size { own.to_vec() } else { other.clone() })
            .map(|own| seen_from_middle(&own))
            .collect();
        let growth = Growth::of(&with);
        (0..own.len()).filter_map(|at| growth.off(size, at)).map(|(off, ..)| off.hypot()).sum()
    };
    let (name, others) = named(sizes, size);
    (NEARER * off(&back) < off(own)).then(|| {
        format!(
            "{name} is drawn turned by {:.1}° beside {others}: turn it back in the drawing, or its grain lies otherwise",
            by.abs().to_degrees()
        )
    })
}

/// Points seen from their middle.
pub fn seen_from_middle(points: &[Point]) -> Vec<Point> {
    let by = middle(points).to_vec2();
    points.iter().map(|at| *at - by).collect()
}

/// A size whose outline lies beside all that is drawn on it.
fn beside(corners: &[Vec<Point>], drawn: &[&TracedSize], sizes: &[String]) -> Option<String> {
    let things: Vec<Vec<Point>> =
        drawn.iter().zip(corners).map(|(own, all)| things(own, middle(all))).collect();
    let count = things.first().map_or(0, Vec::len);
    // Of one thing alone it is rather that which lies elsewhere.
    if count < 2 || things.iter().any(|own| own.len() != count) {
        return None;
    }
    let with: Vec<Vec<Point>> = corners
        .iter()
        .zip(&things)
        .map(|(own, things)| seen_from_middle(own).into_iter().chain(things.iter().copied()).collect())
        .collect();
    // How large a size is its outline says; what is drawn on it goes along.
    let growth = Growth::of(&with);
    let corner_count = corners.first().map_or(0, Vec::len);
    let off = |size: usize| -> Option<(Vec2, f64)> {
        let own: Option<Vec<(Vec2, Vec2, f64)>> =
            (corner_count..corner_count + count).map(|at| growth.off(size, at)).collect();
        let mut own = own?;
        // Points of the outline keep to each other: how they lie as a whole is no part of what lies on it.
        let corners: Vec<(Vec2, Vec2, f64)> =
            (0..corner_count).filter_map(|at| growth.off(size, at)).collect();
        let still = median_of(corners.iter().map(|own| own.0));
        let grown = corners.iter().fold(Vec2::ZERO, |sum, own| sum + own.1) / corner_count.max(1) as f64;
        let restless = median(corners.iter().map(|own| (own.0 - still).hypot()).collect());
        own.iter_mut().for_each(|own| (own.0, own.1) = (own.0 - still, own.1 - grown));
        let by = own.iter().fold(Vec2::ZERO, |sum, own| sum + own.0) / count as f64;
        let far = by.hypot();
        let is_alike = own
            .iter()
            .all(|(off, _, uneven)| (*off - by).hypot() < ALIKE * far + 1.0 && *uneven < far / NEARER);
        let grown = own.iter().map(|own| own.1.hypot()).sum::<f64>() / count as f64;
        (far > BESIDE + NEARER * restless && is_alike).then_some((by, grown))
    };
    let each = (0..corners.len()).filter_map(|size| Some((size, off(size)?)));
    let (size, (by, _)) = each.min_by(|(_, one), (_, other)| one.1.total_cmp(&other.1))?;
    let (name, others) = named(sizes, size);
    Some(format!(
        "the outline of {name} lies {:.0} mm off ({}) beside all that is drawn on it, as {others} have that: is it, or what is drawn \
         on it, shifted in {name}?",
        by.hypot(),
        way(-by)
    ))
}

/// What is drawn on a piece, seen from its middle: marks, notches and the middles of lines. Where a grain line stands is no matter.
fn things(drawn: &TracedSize, from: Point) -> Vec<Point> {
    let lines = drawn.lines.iter().filter_map(|line| {
        let (first, last) = (line.path.segments.first()?, line.path.segments.last()?);
        Some(first.course.start().midpoint(last.course.end()))
    });
    let notches = drawn.notches.iter().map(|notch| notch.at);
    let all = drawn.marks.iter().map(|mark| mark.at).chain(notches).chain(lines);
    all.map(|at| at - from.to_vec2()).collect()
}

fn median_of(all: impl Iterator<Item = Vec2>) -> Vec2 {
    let (across, up): (Vec<f64>, Vec<f64>) = all.map(|one| (one.x, one.y)).unzip();
    Vec2::new(median(across), median(up))
}
