//! What lies between two corners, in all sizes at once: one or more stretches of one form each.
//!
//! What is drawn as straight lines, arcs and Béziers stays exactly that. What is traced as many points, and what is drawn
//! in unlike forms from size to size, is fitted; where one cubic does not reach, in several that go on smoothly.

use super::course::{controls, leaving_end, leaving_start};
use super::parting::{COLLINEAR, followed};
use super::traced::{TracedPoint, TracedSegment};
use kurbo::{CubicBez, ParamCurve, PathSeg, Point};

/// So many straight segments in a row, or more, are a curve that was traced.
const LINES_OF_CURVE: usize = 5;
/// A straight segment so many times longer than the middle one is no part of a traced curve.
const LONG: f64 = 4.0;
/// Of rows of fewer straight segments with points that are said to be those of a curve the long ones at its ends are straight: those
/// so many times as long as the middle one.
const STRAIGHT: f64 = 3.0;
/// See [`STRAIGHT`].
const LINES_OF_COARSE: usize = 12;
/// The most stretches of one run.
const MOST_STRETCHES: usize = 64;
/// How far apart points are set on what is drawn in unlike forms, in millimetres.
const SAMPLES: f64 = 4.0;
/// Two straight segments that turn less than this, in radians, and less than [`COLLINEAR`] aside are one.
const SAME_WAY: f64 = 1e-3;

/// The form of a stretch.
#[derive(Debug, Clone, PartialEq)]
pub enum Form {
    /// Straight.
    Straight,
    /// A circular arc.
    Arc {
        /// The middle of its circle, by size.
        centres: Vec<Point>,
        /// Whether it turns clockwise, with y up.
        clockwise: bool,
    },
    /// A cubic Bézier: its handles, by size.
    Handles {
        /// The one that it leaves toward.
        first: Vec<Point>,
        /// The one that it arrives from.
        second: Vec<Point>,
    },
}

/// A stretch of an edge or a line, in all sizes.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// How it goes.
    pub form: Form,
    /// Where it ends, by size; it begins where the one before ends.
    pub ends: Vec<Point>,
}

/// What a run is made of.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// One after the other.
    pub stretches: Vec<Stretch>,
    /// How far it misses what was drawn, in millimetres: 0 of what is exact.
    pub error: f64,
}

/// What one size's run is made of.
#[derive(Debug, Clone)]
enum Element {
    Line(Point, Point),
    Arc { from: Point, to: Point, centre: Point, clockwise: bool, courses: Vec<CubicBez> },
    Cubic(CubicBez),
    Points(Vec<Point>),
}

/// The run whose segments are those, by size; each size has one segment at least. None where it is so restless that it
/// comes to more stretches than there may be.
pub fn run(sizes: &[Vec<TracedSegment>], tolerance: f64) -> Option<Run> {
    let elements: Vec<Vec<Element>> = sizes.iter().map(|segments| elements(segments)).collect();
    let count = elements.first()?.len();
    let alike = |at: usize| {
        let traced = |own: &Vec<Element>| matches!(own.get(at), Some(Element::Points(_)));
        elements.iter().all(traced) || !elements.iter().any(traced)
    };
    let mut found = Run { stretches: Vec::new(), error: 0.0 };
    if elements.iter().all(|own| own.len() == count) && (0..count).all(alike) {
        for at in 0..count {
            let own: Vec<&Element> = elements.iter().filter_map(|all| all.get(at)).collect();
            match exact(&own) {
                Some(stretch) => found.stretches.push(stretch),
                None => fitted(
                    &own.iter().map(|element| points(element)).collect::<Vec<_>>(),
                    tolerance,
                    &mut found,
                )?,
            }
        }
        return (found.stretches.len() <= MOST_STRETCHES).then_some(found);
    }
    let together = |all: &Vec<Element>| {
        let mut whole: Vec<Point> = Vec::new();
        for element in all {
            whole.extend(points(element).into_iter().skip(usize::from(!whole.is_empty())));
        }
        whole
    };
    fitted(&elements.iter().map(together).collect::<Vec<_>>(), tolerance, &mut found)?;
    Some(found)
}

/// The segments of one size, what belongs together joined.
fn elements(segments: &[TracedSegment]) -> Vec<Element> {
    let mut found: Vec<Element> = Vec::new();
    let lines = segments.iter().filter(|one| matches!(one.course, PathSeg::Line(_)));
    let mut longs: Vec<f64> = lines.map(|one| one.course.start().distance(one.course.end())).collect();
    longs.sort_by(f64::total_cmp);
    let longest = longs.get(longs.len() / 2).copied().unwrap_or(0.0) * LONG;
    // The straight segments that stand in a row and have not been told yet.
    let mut row: Vec<TracedSegment> = Vec::new();
    for segment in segments {
        let (from, to) = (segment.course.start(), segment.course.end());
        let short = matches!(segment.course, PathSeg::Line(_)) && from.distance(to) <= longest;
        if short {
            row.push(*segment);
            continue;
        }
        told(&mut row, &mut found);
        match (segment.arc, segment.course) {
            (Some(arc), course) => push_arc(&mut found, arc.centre, arc.clockwise, course.to_cubic()),
            (None, PathSeg::Line(_)) => push_line(&mut found, from, to),
            (None, course) => {
                let [a, b, c, d] = controls(&course);
                found.push(Element::Cubic(CubicBez::new(a, b, c, d)));
            }
        }
    }
    told(&mut row, &mut found);
    found
}

/// Takes the long straight segments off both ends of a row with points that are said to be those of a curve: a straight edge may go over
/// into a curve without a corner.
fn trimmed(row: &mut Vec<TracedSegment>) -> [Vec<TracedSegment>; 2] {
    let long = |one: &TracedSegment| one.course.start().distance(one.course.end());
    let mut longs: Vec<f64> = row.iter().map(long).collect();
    longs.sort_by(f64::total_cmp);
    let usual = longs.get(longs.len().saturating_sub(1) / 2).copied().unwrap_or(0.0);
    let is_straight = |one: Option<&TracedSegment>| one.is_some_and(|one| long(one) > STRAIGHT * usual);
    let (mut before, mut after) = (Vec::new(), Vec::new());
    if row.len() > 2 && is_straight(row.first()) {
        before.push(row.remove(0));
    }
    if row.len() > 2 && is_straight(row.last()) {
        after.extend(row.pop());
    }
    [before, after]
}

/// Ends a row of straight segments: many, or such as are said to be of a curve, are a traced curve.
fn told(row: &mut Vec<TracedSegment>, found: &mut Vec<Element>) {
    let is_said = |row: &[TracedSegment]| {
        let within = row.len().saturating_sub(1);
        row.iter().take(within).any(|one| one.ends_at == TracedPoint::Curve)
    };
    if row.len() < LINES_OF_COARSE && is_said(row) {
        let [before, after] = trimmed(row);
        before.iter().for_each(|one| push_line(found, one.course.start(), one.course.end()));
        curve_or_lines(row, found);
        after.iter().for_each(|one| push_line(found, one.course.start(), one.course.end()));
    } else {
        curve_or_lines(row, found);
    }
}

fn curve_or_lines(row: &mut Vec<TracedSegment>, found: &mut Vec<Element>) {
    let within = row.len().saturating_sub(1);
    let curve = row.iter().take(within).any(|one| one.ends_at == TracedPoint::Curve);
    let bends = row.windows(2).any(|pair| match pair {
        [one, other] => {
            super::course::angle(leaving_end(&one.course), leaving_start(&other.course)) > SAME_WAY
        }
        _ => false,
    });
    if bends && (row.len() >= LINES_OF_CURVE || (curve && row.len() >= 2)) {
        let first = row.first().map(|one| one.course.start());
        found
            .push(Element::Points(first.into_iter().chain(row.iter().map(|one| one.course.end())).collect()));
    } else {
        for one in row.iter() {
            push_line(found, one.course.start(), one.course.end());
        }
    }
    row.clear();
}

fn push_line(found: &mut Vec<Element>, from: Point, to: Point) {
    if let Some(Element::Line(start, end)) = found.last_mut() {
        let (one, other) = (*end - *start, to - from);
        let aside = (to - *start).cross(one).abs() / one.hypot().max(f64::MIN_POSITIVE);
        if super::course::angle(one, other) < SAME_WAY && aside < COLLINEAR {
            *end = to;
            return;
        }
    }
    found.push(Element::Line(from, to));
}

fn push_arc(found: &mut Vec<Element>, middle: Point, way: bool, course: CubicBez) {
    if let Some(Element::Arc { to, centre, clockwise, courses, .. }) = found.last_mut()
        && *clockwise == way
        && centre.distance(middle) < 1e-3
    {
        *to = course.p3;
        courses.push(course);
        return;
    }
    let (from, to) = (course.p0, course.p3);
    found.push(Element::Arc { from, to, centre: middle, clockwise: way, courses: vec![course] });
}

/// The stretch that these are, exactly; none of traced points, and of forms that do not go together.
fn exact(own: &[&Element]) -> Option<Stretch> {
    let ends: Vec<Point> = own.iter().map(|element| end(element)).collect();
    if own.iter().all(|element| matches!(element, Element::Line(..))) {
        return Some(Stretch { form: Form::Straight, ends });
    }
    let arcs: Vec<(Point, bool)> = own
        .iter()
        .filter_map(|element| match element {
            Element::Arc { centre, clockwise, .. } => Some((*centre, *clockwise)),
            _ => None,
        })
        .collect();
    if let Some(&(_, clockwise)) = arcs.first()
        && arcs.len() == own.len()
        && arcs.iter().all(|(_, way)| *way == clockwise)
    {
        let centres = arcs.into_iter().map(|(centre, _)| centre).collect();
        return Some(Stretch { form: Form::Arc { centres, clockwise }, ends });
    }
    let cubics: Option<Vec<CubicBez>> = own.iter().map(|element| cubic(element)).collect();
    let cubics = cubics?;
    let (first, second) = cubics.iter().map(|cubic| (cubic.p1, cubic.p2)).unzip();
    Some(Stretch { form: Form::Handles { first, second }, ends })
}

/// The one cubic that an element is; an arc only where one follows it.
fn cubic(element: &Element) -> Option<CubicBez> {
    match element {
        Element::Cubic(cubic) => Some(*cubic),
        Element::Line(from, to) => {
            Some(CubicBez::new(*from, from.lerp(*to, 1.0 / 3.0), from.lerp(*to, 2.0 / 3.0), *to))
        }
        Element::Arc { courses, .. } => match courses.as_slice() {
            [one] => Some(*one),
            _ => None,
        },
        Element::Points(_) => None,
    }
}

fn end(element: &Element) -> Point {
    match element {
        Element::Line(_, to) | Element::Arc { to, .. } => *to,
        Element::Cubic(cubic) => cubic.p3,
        Element::Points(points) => points.last().copied().unwrap_or(Point::ZERO),
    }
}

/// Points along an element, both ends among them.
fn points(element: &Element) -> Vec<Point> {
    let along = |from: Point, long: f64, at: &dyn Fn(f64) -> Point| {
        let parts = ((long / SAMPLES).ceil().clamp(8.0, 400.0)) as usize;
        std::iter::once(from)
            .chain((1..=parts).map(|part| at(part as f64 / parts as f64)))
            .collect::<Vec<_>>()
    };
    match element {
        Element::Points(points) => points.clone(),
        Element::Line(from, to) => along(*from, from.distance(*to), &|t| from.lerp(*to, t)),
        Element::Cubic(cubic) => along(cubic.p0, reach(cubic), &|t| cubic.eval(t)),
        Element::Arc { from, courses, .. } => {
            let mut all = vec![*from];
            for course in courses {
                all.extend(along(course.p0, reach(course), &|t| course.eval(t)).into_iter().skip(1));
            }
            all
        }
    }
}

fn reach(cubic: &CubicBez) -> f64 {
    cubic.p0.distance(cubic.p1) + cubic.p1.distance(cubic.p2) + cubic.p2.distance(cubic.p3)
}

/// Adds what follows traced points of all sizes.
fn fitted(sizes: &[Vec<Point>], tolerance: f64, found: &mut Run) -> Option<()> {
    let left = MOST_STRETCHES.checked_sub(found.stretches.len())?;
    let (followed, missed) = followed(sizes, tolerance, left)?;
    found.error = found.error.max(missed);
    found.stretches.extend(followed.into_iter().map(|own| {
        let ends = own.curves.iter().map(|curve| curve.p3).collect();
        let (first, second) = own.curves.iter().map(|curve| (curve.p1, curve.p2)).unzip();
        let form = if own.is_straight { Form::Straight } else { Form::Handles { first, second } };
        Stretch { form, ends }
    }));
    Some(())
}
