//! Sew lines that do not close: along the fold of a half they need not, elsewhere nobody knows where they go on.

use super::inside::follows;
use super::line_work::{ends, meet};
use crate::bring::course::{Course, straight};
use crate::bring::length::length;
use crate::bring::traced::TracedPath;
use kurbo::{ParamCurve, ParamCurveNearest, Point};

/// An end nearer to a line than this, in millimetres, lies on it.
const ON_LINE: f64 = 0.5;
/// What a sew line holds once it is closed is no less of what its outline does: bands keep a third within wide allowances.
const LEAST_SHARE: f64 = 0.2;
/// Between these, in millimetres, an allowance lies …
const ALLOWANCE: (f64, f64) = (2.0, 50.0);
/// … and is the same all along to so much.
const EVEN: f64 = 0.5;
/// What lacks less of its whole length was meant to close.
const SMALL_GAP: f64 = 0.1;
/// At about so many places it is asked how far a line runs inside of an outline.
const PLACES: usize = 24;

/// What tells that a line is where a piece is sewn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::bring::read) enum Told {
    /// Its layer or its name.
    Said,
    /// Its dashes.
    Dashed,
    /// Nothing but its course: it has to run equally far inside all along.
    ByCourse,
}

/// What an open line on a piece is.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::bring::read) enum OpenSewLine {
    /// The sew line, which is open along the fold alone: here it is closed there.
    AlongFold(TracedPath),
    /// A sew line that breaks off, so far from where it begins and between these places.
    BreaksOff(f64, Point, Point),
    /// A line that may be the sew line of a half whose fold is not drawn, or stitches.
    Doubtful,
    /// No sew line.
    Line,
}

/// What an open line on a piece is that has no closed sew line.
pub(in crate::bring::read) fn judged(
    path: &TracedPath,
    outline: &TracedPath,
    fold: Option<(Point, Point)>,
    told: Told,
) -> OpenSewLine {
    judge(path, outline, fold, told).unwrap_or(OpenSewLine::Line)
}

fn judge(
    path: &TracedPath,
    outline: &TracedPath,
    fold: Option<(Point, Point)>,
    told: Told,
) -> Option<OpenSewLine> {
    if path.closed || path.segments.len() < 2 {
        return None;
    }
    let (start, end) = ends(path)?;
    let mut whole = path.clone();
    whole.segments.push(straight(end, start));
    whole.closed = true;
    meet(&mut whole);
    let (own, around) = (Course::of(&whole)?, Course::of(outline)?);
    if !follows(&around.bounds(), &own.bounds()) || own.area() < LEAST_SHARE * around.area().abs() {
        return None;
    }
    let is_on_fold = |at: Point| fold.is_some_and(|fold| off(fold, at) < ON_LINE);
    // The fold itself is no cutting line: a sew line may run up to it.
    let cutting = around.segments.iter().filter(|one| {
        let (from, to) = (one.course.start(), one.course.end());
        !(is_on_fold(from) && is_on_fold(to))
    });
    let cutting: Vec<_> = cutting.map(|one| one.course).collect();
    let from_cutting = |at: Point| {
        let away = cutting.iter().map(|one| one.nearest(at, 0.01).distance_sq);
        libm::sqrt(away.fold(f64::INFINITY, f64::min))
    };
    let every = path.segments.len().div_ceil(PLACES).max(1);
    let places = path.segments.iter().step_by(every).map(|one| from_cutting(one.course.eval(0.5)));
    let (least, most) =
        places.fold((f64::INFINITY, 0.0_f64), |(least, most), away| (least.min(away), most.max(away)));
    let is_even = least > ALLOWANCE.0 && most < ALLOWANCE.1 && most - least < EVEN;
    if told == Told::ByCourse && !is_even {
        return None;
    }
    if is_on_fold(start) && is_on_fold(end) {
        return Some(OpenSewLine::AlongFold(whole));
    }
    let on_outline = |at: Point| {
        let away = around.segments.iter().map(|one| one.course.nearest(at, 0.01).distance_sq);
        libm::sqrt(away.fold(f64::INFINITY, f64::min)) < ON_LINE
    };
    if on_outline(start) && on_outline(end) {
        return Some(OpenSewLine::Doubtful);
    }
    let gap = start.distance(end);
    let long: f64 = path.segments.iter().map(|one| length(&one.course, 0.1)).sum();
    let lacks_little = gap < SMALL_GAP * long;
    // Stitches round a pocket end below its hem: what would close them lies farther inside than they do.
    let goes_on = is_even && (from_cutting(start.midpoint(end)) - most).abs() < EVEN;
    match told == Told::Said || lacks_little || goes_on {
        true => Some(OpenSewLine::BreaksOff(gap, start, end)),
        false => Some(OpenSewLine::Doubtful),
    }
}

/// How far a point lies off the line through two others.
fn off((from, to): (Point, Point), at: Point) -> f64 {
    (at - from).cross(to - from).abs() / from.distance(to).max(f64::EPSILON)
}
