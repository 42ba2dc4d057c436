//! Paths as readers draw them, out of lines, arcs and Béziers.

use crate::bring::traced::{TracedArc, TracedPath, TracedPoint, TracedSegment};
use crate::shape::tolerance::{ARC_ACCURACY, SAME_POINT};
use kurbo::{Affine, CubicBez, Line, ParamCurve, PathSeg, Point};
use std::f64::consts::FRAC_PI_2;

/// A path that grows segment by segment; what has no length is passed over.
#[derive(Debug, Default)]
pub(super) struct LineWork {
    segments: Vec<TracedSegment>,
}

impl LineWork {
    /// A straight line from one point to another.
    pub fn line(&mut self, from: Point, to: Point) {
        if from.distance(to) > SAME_POINT {
            self.push(TracedSegment {
                course: PathSeg::Line(Line::new(from, to)),
                arc: None,
                ends_at: TracedPoint::Unsaid,
            });
        }
    }

    /// Any segment.
    pub fn push(&mut self, segment: TracedSegment) {
        self.segments.push(segment);
    }

    /// Part of an ellipse: of the unit circle as `whole` puts it down, from an angle on by `sweep` radians. It is an
    /// arc of a circle where `whole` keeps circles circles.
    ///
    /// Method: as [`crate::shape::arc`], parts by the larger half axis; an affine map of a Bézier is the Bézier of its
    /// mapped points, so that the error grows by the map's largest stretch and no more.
    pub fn arc(&mut self, whole: Affine, from: f64, sweep: f64) {
        let [a, b, c, d, _, _] = whole.as_coeffs();
        let (first, second) = (a.hypot(b), c.hypot(d));
        let largest = (first * first + second * second).sqrt();
        let is_circle =
            (first - second).abs() <= 1e-9 * largest && (a * c + b * d).abs() <= 1e-9 * largest * largest;
        let quarters = sweep.abs() / FRAC_PI_2;
        let parts = (quarters * libm::pow(2.73e-4 * largest / ARC_ACCURACY, 1.0 / 6.0)).ceil();
        let parts = parts.clamp(quarters.ceil().max(1.0), 1024.0);
        let step = sweep / parts;
        let handle = 4.0 / 3.0 * libm::tan(step / 4.0);
        let arc = is_circle.then(|| TracedArc {
            centre: whole * Point::ZERO,
            clockwise: (a * d - b * c < 0.0) != (sweep < 0.0),
        });
        let parts = parts as usize;
        for part in 0..parts {
            let (start, end) = (from + step * part as f64, from + step * (part + 1) as f64);
            let (sine, cosine) = libm::sincos(start);
            let (end_sine, end_cosine) = libm::sincos(end);
            let course = PathSeg::Cubic(CubicBez::new(
                whole * Point::new(cosine, sine),
                whole * Point::new(cosine - sine * handle, sine + cosine * handle),
                whole * Point::new(end_cosine + end_sine * handle, end_sine - end_cosine * handle),
                whole * Point::new(end_cosine, end_sine),
            ));
            let ends_at = if part + 1 == parts { TracedPoint::Unsaid } else { TracedPoint::Curve };
            self.push(TracedSegment { course, arc, ends_at });
        }
    }

    /// The path, closed where that was said, or where it ends where it begins; none of what has no segment.
    pub fn path(self, closed: bool) -> Option<TracedPath> {
        let mut path = TracedPath { segments: self.segments, closed: false };
        let (start, end) = ends(&path)?;
        if closed && start.distance(end) > SAME_POINT {
            path.segments.push(TracedSegment {
                course: PathSeg::Line(Line::new(end, start)),
                arc: None,
                ends_at: TracedPoint::Unsaid,
            });
        }
        path.closed = (closed || start.distance(end) <= SAME_POINT) && path.segments.len() > 1;
        meet(&mut path);
        Some(path)
    }
}

/// Where a path starts and ends; none of one without segments.
pub(super) fn ends(path: &TracedPath) -> Option<(Point, Point)> {
    Some((path.segments.first()?.course.start(), path.segments.last()?.course.end()))
}

/// Lets each segment begin exactly where the one before ends.
pub(super) fn meet(path: &mut TracedPath) {
    let Some((start, _)) = ends(path) else { return };
    let mut at = start;
    let count = path.segments.len();
    for (index, segment) in path.segments.iter_mut().enumerate() {
        let end = if path.closed && index + 1 == count { start } else { segment.course.end() };
        segment.course = match segment.course {
            PathSeg::Line(_) => PathSeg::Line(Line::new(at, end)),
            other => {
                let cubic = other.to_cubic();
                PathSeg::Cubic(CubicBez::new(at, cubic.p1, cubic.p2, end))
            }
        };
        at = end;
    }
}

/// Closes a path whose ends nearly meet: the last one is moved to the first. What is bent so is no arc any more.
pub(super) fn close(path: &mut TracedPath) {
    let Some((start, end)) = ends(path) else { return };
    path.closed = true;
    if let Some(last) = path.segments.last_mut().filter(|_| start.distance(end) > SAME_POINT) {
        last.arc = None;
    }
    meet(path);
}

/// The same path walked the other way.
pub(super) fn reversed(path: &TracedPath) -> TracedPath {
    let count = path.segments.len();
    let said = |index: usize| match index {
        0 if path.closed => path.segments.last().map_or(TracedPoint::Unsaid, |last| last.ends_at),
        0 => TracedPoint::Unsaid,
        index => path.segments.get(index - 1).map_or(TracedPoint::Unsaid, |before| before.ends_at),
    };
    let segments = (0..count).rev().filter_map(|index| {
        let segment = path.segments.get(index)?;
        let arc = segment.arc.map(|arc| TracedArc { clockwise: !arc.clockwise, ..arc });
        Some(TracedSegment { course: segment.course.reverse(), arc, ends_at: said(index) })
    });
    TracedPath { segments: segments.collect(), closed: path.closed }
}

/// The path elsewhere; `whole` keeps circles circles, or none is said any more.
pub(super) fn moved(path: &TracedPath, by: kurbo::Vec2) -> TracedPath {
    let segments = path.segments.iter().map(|segment| TracedSegment {
        course: Affine::translate(by) * segment.course,
        arc: segment.arc.map(|arc| TracedArc { centre: arc.centre + by, ..arc }),
        ends_at: segment.ends_at,
    });
    TracedPath { segments: segments.collect(), closed: path.closed }
}

/// The middle and radius of a path that is one whole circle.
pub(super) fn circle(path: &TracedPath) -> Option<(Point, f64)> {
    let first = path.segments.first()?;
    let centre = first.arc?.centre;
    let is_whole = path.closed
        && path
            .segments
            .iter()
            .all(|segment| segment.arc.is_some_and(|arc| arc.centre.distance(centre) <= 1e-6));
    is_whole.then(|| (centre, centre.distance(first.course.start())))
}

/// The closed path without stretches that go out and come back the same way, as a stitching line does round a slit that
/// takes no width: they enclose nothing. Only straight ones can be told.
pub(super) fn without_spurs(path: &TracedPath) -> TracedPath {
    let mut kept: Vec<TracedSegment> = Vec::with_capacity(path.segments.len());
    for segment in &path.segments {
        match kept.last() {
            Some(before) if undoes(before, segment) => {
                kept.pop();
            }
            _ => kept.push(*segment),
        }
    }
    // One that begins where the path does.
    while kept.len() > 3 && kept.last().zip(kept.first()).is_some_and(|(last, first)| undoes(last, first)) {
        kept.pop();
        kept.remove(0);
    }
    let mut path = TracedPath { segments: kept, closed: path.closed };
    meet(&mut path);
    path
}

/// Whether one straight segment goes back over the whole of the other.
fn undoes(before: &TracedSegment, after: &TracedSegment) -> bool {
    matches!((before.course, after.course), (PathSeg::Line(_), PathSeg::Line(_)))
        && before.course.start().distance(after.course.end()) <= ROUNDED
}

/// How far apart two points may be written that were one, in millimetres.
const ROUNDED: f64 = 0.003;

#[cfg(test)]
mod tests {
    use super::*;

    /// A square with a slit of two parts in its top, and one that begins with a slit.
    #[test]
    fn what_goes_out_and_back_is_left_out() {
        let ring = |corners: &[(f64, f64)]| {
            let mut work = LineWork::default();
            let nexts = corners.iter().cycle().skip(1);
            corners.iter().zip(nexts).for_each(|(&from, &to)| work.line(from.into(), to.into()));
            work.path(true).unwrap()
        };
        let starts = |path: &TracedPath| -> Vec<(f64, f64)> {
            path.segments.iter().map(|segment| segment.course.start()).map(|at| (at.x, at.y)).collect()
        };
        let whole = [(0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (5.0, 9.0), (0.0, 9.0)];
        let slit =
            [whole[0], whole[1], whole[2], whole[3], (5.0, 6.0), (5.0, 4.0), (5.0, 6.0), whole[3], whole[4]];
        assert_eq!(starts(&without_spurs(&ring(&slit))), whole);
        let first = [(5.0, 4.0), whole[3], whole[4], whole[0], whole[1], whole[2], whole[3]];
        let expected = [whole[3], whole[4], whole[0], whole[1], whole[2]];
        assert_eq!(starts(&without_spurs(&ring(&first))), expected);
        assert_eq!(without_spurs(&ring(&whole)), ring(&whole));
    }
}
