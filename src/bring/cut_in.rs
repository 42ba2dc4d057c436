//! A small V or box that is drawn into an outline where the line else goes straight on: it may be a notch.

use super::course::{Course, angle, leaving_end, leaving_start};
use super::unmatched::place;
use kurbo::{ParamCurve, PathSeg, Point};

/// A notch is no wider and no deeper than this, in millimetres, …
const LARGEST: f64 = 12.0;
/// … and no less deep and wide than this.
const SMALLEST: f64 = 1.5;
/// Without it the line goes straight on to this, in radians (10°).
const STRAIGHT: f64 = 0.175;
/// Of two legs the one is no more than so many times as long as the other.
const LEGS: f64 = 1.6;
/// More of them in one outline are an edge that is cut so.
const MOST: usize = 12;

/// A small V or box: between which points it stands, and how wide and deep it is.
struct CutIn {
    middle: Point,
    wide: f64,
    deep: f64,
    is_box: bool,
}

/// What is said of them: a sentence's end, behind the piece's name. Told of the first size that has some.
pub fn told(courses: &[Course], sizes: &[String]) -> Option<String> {
    let each: Vec<Vec<CutIn>> = courses.iter().map(all).collect();
    let size = each.iter().position(|own| !own.is_empty())?;
    let (own, course) = (each.get(size)?, courses.get(size)?);
    let first = own.first().filter(|_| own.len() <= MOST)?;
    let of_size = match each.iter().all(|other| other.len() == own.len()) {
        true => String::new(),
        false => super::outlines::in_size(sizes, size),
    };
    let form = if first.is_box { "box" } else { "V" };
    let more = match own.len() {
        1 => String::new(),
        count => format!(" (and {} more like it)", count - 1),
    };
    Some(format!(
        "a {form} {:.0} mm wide and {:.0} mm deep is drawn into the outline{of_size}, {}, where the line else goes straight on{more}: is it a \
         notch? It parts the edge there; a notch is drawn by itself, as a short line at the edge",
        first.wide,
        first.deep,
        place(course, first.middle)
    ))
}

fn all(course: &Course) -> Vec<CutIn> {
    if !course.closed || course.nodes() < 5 {
        return Vec::new();
    }
    let at = |from: usize| [2, 3].into_iter().find_map(|legs| cut_in(course, from, legs));
    (0..course.nodes()).filter_map(at).collect()
}

/// The V of two legs, or the box of three, that begins at a point.
fn cut_in(course: &Course, from: usize, legs: usize) -> Option<CutIn> {
    let count = course.segments.len();
    let segment = |step: usize| course.segments.get((from + step) % count).map(|one| one.course);
    let (before, after) = (segment(count - 1)?, segment(legs)?);
    let own: Option<Vec<PathSeg>> = (0..legs).map(segment).collect();
    let own = own.filter(|own| own.iter().all(|one| matches!(one, PathSeg::Line(_))))?;
    let (first, last) = (own.first()?, own.last()?);
    let (foot, end) = (first.start(), last.end());
    let chord = end - foot;
    let goes_on =
        angle(leaving_end(&before), chord) < STRAIGHT && angle(chord, leaving_start(&after)) < STRAIGHT;
    let long = [first, last].map(|one| one.start().distance(one.end()));
    let is_even =
        long.iter().all(|one| *one < LEGS * long.iter().fold(f64::INFINITY, |least, own| least.min(*own)));
    let wide = chord.hypot();
    let off = |at: Point| (at - foot).cross(chord) / wide.max(f64::MIN_POSITIVE);
    let inner: Vec<f64> = own.iter().skip(1).map(|one| off(one.start())).collect();
    let deep = inner.iter().fold(f64::INFINITY, |least, own| least.min(own.abs()));
    let is_small = [wide, deep].iter().all(|one| (SMALLEST..=LARGEST).contains(one));
    let one_side = inner.iter().all(|own| (*own > 0.0) == (inner.first() > Some(&0.0)));
    // A step of a curve that is traced coarsely is as wide as others, and less deep.
    let is_steep = deep > wide / 3.0;
    (goes_on && is_even && is_small && one_side && is_steep).then(|| CutIn {
        middle: foot.midpoint(end),
        wide,
        deep,
        is_box: legs > 2,
    })
}
