//! Joining two ends without a corner.

use super::curve::smooth_curve;
use super::path::Path;
use super::tolerance::SAME_POINT;
use kurbo::{PathSeg, Point, Vec2};

/// Push a smooth piece from `from` to `to` with the directions given: Hobby's curve, straight where the directions go
/// straight on. Nothing is pushed when the ends are one point.
pub(super) fn bridge_from(
    segments: &mut Vec<PathSeg>,
    from: Point,
    leaving: Option<Vec2>,
    to: Point,
    arriving: Option<Vec2>,
) {
    if from.distance(to) <= SAME_POINT {
        return;
    }
    let piece = smooth_curve(&[from, to], leaving, arriving).unwrap_or_else(|_| Path::straight(from, to));
    segments.extend_from_slice(piece.segments());
}
