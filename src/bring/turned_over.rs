//! Sizes that are drawn as the mirror image of the others, or upside down: corner by corner they may answer to them, and every
//! edge is then taken for another one.

use super::course::Course;
use super::traced::{TracedPath, TracedSize};
use crate::bring::length::length;
use crate::report::listed;
use kurbo::{ParamCurve, ParamCurveArea, Point, Vec2};

/// At so many places outlines are compared.
const PLACES: usize = 48;
/// What lies no farther from the other, as a share of the piece, may be one grown into the other …
const ALIKE: f64 = 0.015;
/// … and turned over it has to come so many times nearer.
const NEARER: f64 = 3.0;
/// What lies on a piece lies elsewhere from so large a share of it on, and in the same place up to half of that.
const ELSEWHERE: f64 = 0.1;

/// How a size lies to another one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Way {
    Alike,
    Mirrored,
    UpsideDown,
}

/// A sentence on the sizes of a piece that lie otherwise than most, if some do: its end, behind the piece's name.
pub fn turned_over(drawn: &[&TracedSize], courses: &[Course], sizes: &[String]) -> Option<String> {
    let seen: Vec<Seen> = drawn.iter().zip(courses).map(|(drawn, course)| Seen::of(drawn, course)).collect();
    let base = seen.first()?;
    let ways: Vec<Way> = seen.iter().map(|own| way(base, own)).collect();
    let of = |wanted: &dyn Fn(Way) -> bool| -> Vec<&str> {
        ways.iter().zip(sizes).filter(|(way, _)| wanted(**way)).map(|(_, name)| name.as_str()).collect()
    };
    let (same, other) = (of(&|way| way == Way::Alike), of(&|way| way != Way::Alike));
    let turn = *ways.iter().find(|way| **way != Way::Alike)?;
    let (image, cure) = match turn {
        Way::UpsideDown => ("upside down", "turn it round"),
        _ => ("the mirror image", "turn it over"),
    };
    if same.len() == other.len() {
        return Some(format!(
            "{} and {} are drawn as if the one were {} of the other: which of them lies wrong?",
            listed(&same),
            listed(&other),
            if turn == Way::UpsideDown { "the turned-round copy" } else { image },
        ));
    }
    let (odd, usual) = if other.len() < same.len() { (other, same) } else { (same, other) };
    let is = if odd.len() == 1 { "is" } else { "are" };
    Some(match turn {
        Way::UpsideDown => {
            format!(
                "{} {is} drawn upside down beside {}: {cure} in the drawing",
                listed(&odd),
                listed(&usual)
            )
        }
        _ => {
            format!(
                "{} {is} drawn as the mirror image of {}: {cure} in the drawing",
                listed(&odd),
                listed(&usual)
            )
        }
    })
}

/// A piece in one size as shares of what it covers.
struct Seen {
    outline: Vec<Point>,
    /// What lies on it.
    on: Vec<Point>,
    /// Whether it was drawn clockwise: a program that turns a drawing over keeps the order of its points.
    is_clockwise: bool,
}

impl Seen {
    fn of(drawn: &TracedSize, course: &Course) -> Self {
        let bounds = course.bounds();
        let (wide, high) = (bounds.width().max(f64::MIN_POSITIVE), bounds.height().max(f64::MIN_POSITIVE));
        let share = |at: Point| Point::new((at.x - bounds.x0) / wide, (at.y - bounds.y0) / high);
        let notches = drawn.notches.iter().map(|notch| notch.at);
        let marks = drawn.marks.iter().map(|mark| mark.at);
        let lines = drawn.lines.iter().filter_map(|line| middle(&line.path));
        Seen {
            outline: places(course).into_iter().map(share).collect(),
            on: notches.chain(marks).chain(lines).map(share).collect(),
            is_clockwise: drawn.outline.segments.iter().map(|one| one.course.signed_area()).sum::<f64>()
                < 0.0,
        }
    }
}

fn middle(path: &TracedPath) -> Option<Point> {
    let (first, last) = (path.segments.first()?, path.segments.last()?);
    Some(first.course.start().midpoint(last.course.end()))
}

/// Places along an outline, equally far from one another.
pub fn places(course: &Course) -> Vec<Point> {
    let lengths: Vec<f64> = course.segments.iter().map(|one| length(&one.course, 0.1)).collect();
    let whole: f64 = lengths.iter().sum();
    let (mut found, mut before, mut next) = (Vec::with_capacity(PLACES), 0.0, 0.0);
    for (segment, long) in course.segments.iter().zip(&lengths) {
        while found.len() < PLACES && next < before + long {
            let share = ((next - before) / long.max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
            found.push(segment.course.eval(share));
            next += whole / PLACES as f64;
        }
        before += long;
    }
    found
}

/// Where a point lies once its piece is turned, as shares.
type Turn = fn(Point) -> Point;

/// The ways in which a piece may be turned.
const TURNS: [(Way, Turn); 3] = [
    (Way::Mirrored, |at| Point::new(1.0 - at.x, at.y)),
    (Way::Mirrored, |at| Point::new(at.x, 1.0 - at.y)),
    (Way::UpsideDown, |at| Point::new(1.0 - at.x, 1.0 - at.y)),
];

fn way(base: &Seen, own: &Seen) -> Way {
    let off = off_ring(&base.outline, &own.outline);
    if off > ALIKE {
        let turned = TURNS.iter().map(|(way, turn)| {
            let turned: Vec<Point> = own.outline.iter().map(|at| turn(*at)).collect();
            (*way, off_ring(&base.outline, &turned))
        });
        return turned
            .filter(|(_, turned)| NEARER * turned < off)
            .min_by(|one, other| one.1.total_cmp(&other.1))
            .map_or(Way::Alike, |(way, _)| way);
    }
    // An outline that looks the same turned over is known by what lies on it.
    if base.on.len() != own.on.len() {
        return Way::Alike;
    }
    let every = own.on.len().div_ceil(MOST_ASKED).max(1);
    let asked = || own.on.iter().step_by(every);
    let far = asked().filter(|at| nearest(&base.on, **at) > ELSEWHERE).count();
    if far == 0 || (far < 2 && base.is_clockwise == own.is_clockwise) {
        return Way::Alike;
    }
    let fits = |turn: Turn| {
        asked().all(|at| nearest(&base.on, turn(*at)) < ELSEWHERE / 2.0)
            && off_ring(&base.outline, &own.outline.iter().map(|at| turn(*at)).collect::<Vec<_>>()) < ALIKE
    };
    TURNS.into_iter().find(|(_, turn)| fits(*turn)).map_or(Way::Alike, |(way, _)| way)
}

/// Of more things on a piece than about this every second, third … one is asked.
const MOST_ASKED: usize = 200;

fn nearest(all: &[Point], at: Point) -> f64 {
    all.iter().map(|other| other.distance(at)).fold(f64::INFINITY, f64::min)
}

/// How far points lie from a ring through others, in the middle.
pub fn off_ring(ring: &[Point], points: &[Point]) -> f64 {
    let nexts = || ring.iter().zip(ring.iter().cycle().skip(1));
    let off = |at: &Point| {
        let each = nexts().map(|(one, other)| {
            let along: Vec2 = *other - *one;
            let share = ((*at - *one).dot(along) / along.hypot2().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
            (*one + along * share - *at).hypot2()
        });
        libm::sqrt(each.fold(f64::INFINITY, f64::min))
    };
    points.iter().map(off).sum::<f64>() / points.len().max(1) as f64
}
