//! Which points of a path are corners, the same in every size.

use super::course::Course;
use super::traced::TracedPoint;
use crate::limits::EDGES_OF_PIECE;
use kurbo::{Point, Vec2};

/// Paths with more points than this are traced, not drawn: which of their points answers to which is not by their number.
const DRAWN_POINTS: usize = 64;
/// How far corners may lie from those of another size, as a share of the piece, and still answer to them.
const UNLIKE: f64 = 0.14;

/// Why the sizes of a path do not answer to one another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unmatched {
    /// They have unlike numbers of corners.
    Counts {
        /// Which size, and how many.
        one: (usize, usize),
        /// Which other size, and how many.
        other: (usize, usize),
    },
    /// One has more than a piece may have.
    TooMany {
        /// Which size.
        size: usize,
        /// How many.
        count: usize,
    },
    /// Their corners lie elsewhere.
    Places {
        /// The size that is unlike the first.
        size: usize,
    },
}

/// By size, the corners' places among the path's points, so that those of one number answer to one another. A closed
/// path has two at least, an open one its ends. `least` is the turn, in radians, from which on a point is a corner.
///
/// # Errors
/// Where sizes have unlike corners.
pub fn corners(courses: &[&Course], least: f64) -> Result<Vec<Vec<usize>>, Unmatched> {
    if let Some(found) = by_number(courses, least) {
        return Ok(found);
    }
    let mut found: Vec<Vec<usize>> = courses.iter().map(|course| sharp(course, least)).collect();
    if let Some((size, own)) = found.iter().enumerate().find(|(_, own)| own.len() > EDGES_OF_PIECE) {
        return Err(Unmatched::TooMany { size, count: own.len() });
    }
    let wanted = usual(&found);
    for (corners, course) in found.iter_mut().zip(courses) {
        if corners.len() != wanted {
            *corners = sharpest(course, wanted, least * 0.5).unwrap_or_else(|| corners.clone());
        }
    }
    for (corners, course) in found.iter_mut().zip(courses) {
        if course.closed && corners.len() < 2 {
            *corners = extremes(course, corners);
        }
    }
    let first = found.first().cloned().unwrap_or_default();
    if let Some((at, other)) = found.iter().enumerate().find(|(_, other)| other.len() != first.len()) {
        return Err(Unmatched::Counts { one: (0, first.len()), other: (at, other.len()) });
    }
    let Some(ground) = courses.first() else { return Ok(found) };
    let places = |course: &Course, corners: &[usize]| {
        corners.iter().map(|&at| course.node(at)).collect::<Vec<Point>>()
    };
    let base = places(ground, &first);
    for (size, (corners, course)) in found.iter_mut().zip(courses).enumerate().skip(1) {
        match answering(&base, &places(course, corners), course.closed) {
            Some(shift) => corners.rotate_left(shift),
            None => return Err(Unmatched::Places { size }),
        }
    }
    Ok(found)
}

/// Of drawn paths with equally many points, point answers to point: a corner in one size is one in all.
fn by_number(courses: &[&Course], least: f64) -> Option<Vec<Vec<usize>>> {
    let first = courses.first()?;
    let count = first.nodes();
    let shifts = answering_by(courses)?;
    let turn = |at: usize| {
        let each = courses.iter().zip(&shifts).map(|(course, shift)| sharpness(course, (at + shift) % count));
        each.fold((f64::INFINITY, 0.0_f64), |(least, most), own| (least.min(own), most.max(own)))
    };
    let mut found = Vec::new();
    for at in 0..count {
        let (lowest, highest) = turn(at);
        if highest >= least && lowest < least * 0.5 {
            return None;
        }
        if highest >= least {
            found.push(at);
        }
    }
    if first.closed && found.len() < 2 {
        found = extremes(first, &found);
    }
    Some(shifts.iter().map(|shift| found.iter().map(|at| (at + shift) % count).collect()).collect())
}

/// Of drawn paths with equally many points, by how many places those of each size are to be turned to answer to the first one's;
/// none of traced ones, or where they lie elsewhere.
pub fn answering_by(courses: &[&Course]) -> Option<Vec<usize>> {
    let first = courses.first()?;
    let count = first.nodes();
    if count > DRAWN_POINTS || courses.iter().any(|course| course.nodes() != count) {
        return None;
    }
    let places = |course: &Course| (0..count).map(|at| course.node(at)).collect::<Vec<Point>>();
    let base = places(first);
    courses.iter().map(|course| answering(&base, &places(course), course.closed)).collect()
}

/// How much of a corner a point is: what the drawing says counts before its turn.
fn sharpness(course: &Course, at: usize) -> f64 {
    if !course.closed && (at == 0 || at + 1 == course.nodes()) {
        return f64::INFINITY;
    }
    match course.said(at) {
        TracedPoint::Corner => f64::INFINITY,
        TracedPoint::Curve => 0.0,
        TracedPoint::Unsaid => course.turn(at),
    }
}

/// The points of a path that turn by so much, or are said to be corners.
pub fn sharp(course: &Course, least: f64) -> Vec<usize> {
    (0..course.nodes()).filter(|&at| sharpness(course, at) >= least).collect()
}

/// How many corners most sizes have; of equally many the greater number.
fn usual(found: &[Vec<usize>]) -> usize {
    let count = |wanted: usize| found.iter().filter(|own| own.len() == wanted).count();
    found.iter().map(Vec::len).max_by_key(|&own| (count(own), own)).unwrap_or(0)
}

/// The sharpest points, as many as wanted, none of them blunter than that.
fn sharpest(course: &Course, wanted: usize, least: f64) -> Option<Vec<usize>> {
    let mut all: Vec<(usize, f64)> = (0..course.nodes()).map(|at| (at, sharpness(course, at))).collect();
    all.sort_by(|one, other| other.1.total_cmp(&one.1).then(one.0.cmp(&other.0)));
    all.truncate(wanted);
    if all.len() < wanted || all.iter().any(|(_, turn)| *turn < least) {
        return None;
    }
    let mut found: Vec<usize> = all.into_iter().map(|(at, _)| at).collect();
    found.sort_unstable();
    Some(found)
}

/// The lowest and the highest point of a round path, beside what is a corner already.
fn extremes(course: &Course, corners: &[usize]) -> Vec<usize> {
    let by_height = |one: &usize, other: &usize| {
        let (one, other) = (course.node(*one), course.node(*other));
        one.y.total_cmp(&other.y).then(other.x.total_cmp(&one.x))
    };
    let mut found = corners.to_vec();
    let all = 0..course.nodes();
    match found.first().copied() {
        None => found.extend(all.clone().min_by(by_height)),
        Some(one) => {
            let away = |at: &usize| course.node(*at).distance(course.node(one));
            found.extend(all.clone().max_by(|a, b| away(a).total_cmp(&away(b)).then(b.cmp(a))));
        }
    }
    if found.len() < 2 {
        found.extend(all.max_by(by_height));
    }
    found.sort_unstable();
    found.dedup();
    found
}

/// By how many places the points of one size are to be turned to answer to the base's; none where they lie elsewhere.
/// They are compared in their shape, and then across and up each by itself, since sizes grow wider and hardly longer.
fn answering(base: &[Point], own: &[Point], closed: bool) -> Option<usize> {
    [spread, spread_each_way].into_iter().find_map(|spread: fn(&[Point]) -> Vec<Vec2>| {
        let (base, own) = (spread(base), spread(own));
        let shift = if closed { nearest_shift(&base, &own) } else { 0 };
        (apart(&base, &own, shift) <= UNLIKE).then_some(shift)
    })
}

/// Points about their middle.
fn about_middle(points: &[Point]) -> Vec<Vec2> {
    let count = points.len().max(1) as f64;
    let middle = points.iter().fold(Vec2::ZERO, |sum, point| sum + point.to_vec2()) / count;
    points.iter().map(|point| point.to_vec2() - middle).collect()
}

/// The same about their middle, as shares of their spread.
fn spread(points: &[Point]) -> Vec<Vec2> {
    let away = about_middle(points);
    let far = away.iter().map(|one| one.hypot()).fold(f64::MIN_POSITIVE, f64::max);
    away.iter().map(|one| *one / far).collect()
}

/// The same, as shares of their spread across and of that up.
fn spread_each_way(points: &[Point]) -> Vec<Vec2> {
    let away = about_middle(points);
    let wide = away.iter().map(|one| one.x.abs()).fold(f64::MIN_POSITIVE, f64::max);
    let high = away.iter().map(|one| one.y.abs()).fold(f64::MIN_POSITIVE, f64::max);
    // What is a line has one spread alone.
    let least = 1e-6 * wide.max(high);
    away.iter().map(|one| Vec2::new(one.x / wide.max(least), one.y / high.max(least))).collect()
}

/// By how many places a ring's points are to be turned to lie nearest to the base's.
fn nearest_shift(base: &[Vec2], own: &[Vec2]) -> usize {
    (0..own.len())
        .min_by(|&one, &other| apart(base, own, one).total_cmp(&apart(base, own, other)))
        .unwrap_or(0)
}

/// The root of the mean square of how far points lie from the base's.
fn apart(base: &[Vec2], own: &[Vec2], shift: usize) -> f64 {
    let turned = own.iter().cycle().skip(shift);
    let sum: f64 = base.iter().zip(turned).map(|(one, other)| (*one - *other).hypot2()).sum();
    libm::sqrt(sum / base.len().max(1) as f64)
}
