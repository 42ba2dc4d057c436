//! Notches by their form: a small V, triangle or box that stands on an edge, a short stroke at the sew line.

use crate::bring::traced::{TracedLine, TracedNotch, TracedPath, TracedSize};
use kurbo::{BezPath, ParamCurve, ParamCurveNearest, PathSeg, Point, Rect, Shape as _};

/// A V, a triangle or a box that is no larger, in millimetres, may be a notch.
const LARGEST: f64 = 15.0;
/// A point nearer to an edge than this, in millimetres, lies on it.
const ON_EDGE: f64 = 0.5;
/// At so many places of a stroke it is asked how near they are.
const PLACES: u32 = 32;

/// Where a small V, triangle or box stands on an edge: between those of its corners that lie there. Its foot stands on it: a V
/// that only points to an edge may be the head of an arrow.
pub(super) fn foot(path: &TracedPath, lies_on: impl Fn(Point) -> bool) -> Option<Point> {
    let fits = if path.closed { 3..=4 } else { 2..=3 };
    let are_straight = path.segments.iter().all(|one| matches!(one.course, PathSeg::Line(_)));
    if !fits.contains(&path.segments.len()) || !are_straight {
        return None;
    }
    let first = path.segments.first()?.course.start();
    let corners: Vec<Point> = path.segments.iter().map(|one| one.course.end()).collect();
    let bounds = corners.iter().fold(Rect::from_points(first, first), |all, at| all.union_pt(*at));
    if bounds.width().max(bounds.height()) > LARGEST {
        return None;
    }
    if !path.closed {
        let last = *corners.last()?;
        return (lies_on(first) && lies_on(last)).then(|| first.midpoint(last));
    }
    let mut on_edge = corners.into_iter().filter(|at| lies_on(*at));
    let (one, other) = (on_edge.next()?, on_edge.next()?);
    on_edge.next().is_none().then(|| one.midpoint(other))
}

/// Whether a point lies on a line.
pub(super) fn lies_on(line: &TracedPath, at: Point) -> bool {
    line.segments.iter().any(|one| one.course.nearest(at, 0.01).distance_sq < ON_EDGE * ON_EDGE)
}

/// Makes notches of short straight lines that touch the sew line or cross it: it becomes the outline. Others stay lines.
pub(super) fn at_sew_line(sized: &mut TracedSize, longest: f64) {
    let Some(sew_line) = sized.sew_line.as_ref().filter(|line| line.closed) else { return };
    let whole = BezPath::from_path_segments(sew_line.segments.iter().map(|one| one.course));
    let met = |line: &TracedLine| -> Option<Point> {
        let [only] = line.path.segments.as_slice() else { return None };
        let PathSeg::Line(stroke) = only.course else { return None };
        if stroke.p0.distance(stroke.p1) > longest {
            return None;
        }
        let places = (0..=PLACES).map(|at| stroke.eval(f64::from(at) / f64::from(PLACES)));
        let near = places.flat_map(|at| {
            sew_line.segments.iter().map(move |one| {
                let place = one.course.nearest(at, 1e-3);
                (place.distance_sq, one.course.eval(place.t))
            })
        });
        let (away, at) = near.min_by(|one, other| one.0.total_cmp(&other.0))?;
        let is_across = whole.contains(stroke.p0) != whole.contains(stroke.p1);
        (is_across || away < ON_EDGE * ON_EDGE).then_some(at)
    };
    let (mut lines, mut notches) = (Vec::with_capacity(sized.lines.len()), Vec::new());
    for line in std::mem::take(&mut sized.lines) {
        match met(&line) {
            Some(at) => notches.push(TracedNotch { at }),
            None => lines.push(line),
        }
    }
    sized.lines = lines;
    sized.notches.extend(notches);
}
