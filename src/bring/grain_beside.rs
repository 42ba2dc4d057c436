//! A grain line that is drawn beside its piece: it says a way, and is laid onto the piece.

use super::figures::TextUnit;
use super::pattern::{Grain, Walk};
use super::walks::as_written;
use crate::shape::outline::contains;
use crate::shape::path::Path;
use kurbo::{BezPath, PathEl, Point, Shape};

/// How finely curves are looked at, in millimetres.
const FLAT: f64 = 0.1;

/// Moves the grain line of every size in which neither its ends nor its middle lie on the piece, as both are written, into that;
/// whether one was moved.
pub fn lay_on(grain: &mut Grain, outline: &Walk, unit: TextUnit) -> bool {
    let Grain::Along(from, to) = grain else { return false };
    let outline = as_written(outline, unit);
    let mut is_moved = false;
    for (size, (from, to)) in from.iter_mut().zip(to.iter_mut()).enumerate() {
        let ring = (0..outline.edges.len()).map(|edge| Path::from_segments(outline.path(edge, size)));
        let Ok(ring) = ring.collect::<Result<Vec<Path>, _>>() else { continue };
        let (start, end) = (unit.rounded_point(*from), unit.rounded_point(*to));
        if [0.0, 0.5, 1.0].iter().any(|share| contains(&ring, start.lerp(end, *share))) {
            continue;
        }
        let Some(within) = within(&outline.whole(size)) else { continue };
        let by = within - from.midpoint(*to);
        (*from, *to) = (*from + by, *to + by);
        is_moved = true;
    }
    is_moved
}

/// A place well within an outline: the middle of the longest stretch across it, up its middle.
fn within(outline: &BezPath) -> Option<Point> {
    let middle = outline.bounding_box().center().x;
    let mut points = Vec::new();
    kurbo::flatten(outline, FLAT, |element| match element {
        PathEl::MoveTo(at) | PathEl::LineTo(at) => points.push(at),
        PathEl::QuadTo(..) | PathEl::CurveTo(..) | PathEl::ClosePath => {}
    });
    let next = points.iter().skip(1).chain(points.first());
    let crossing = |(one, other): (&Point, &Point)| {
        let crosses = (one.x <= middle) != (other.x <= middle);
        crosses.then(|| one.lerp(*other, (middle - one.x) / (other.x - one.x)).y)
    };
    let mut crossings: Vec<f64> = points.iter().zip(next).filter_map(crossing).collect();
    crossings.sort_by(f64::total_cmp);
    let stretches = crossings.chunks(2).filter_map(|pair| match pair {
        &[low, high] => Some((high - low, f64::midpoint(low, high))),
        _ => None,
    });
    let (_, up) = stretches.max_by(|one, other| one.0.total_cmp(&other.0))?;
    Some(Point::new(middle, up))
}
