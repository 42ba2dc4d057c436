//! The half-planes that bound the Minkowski sum of two convex parts: the normals of their sides.

use super::request::Point;

/// An overlap no deeper than this, in millimetres, is touching.
pub const TOUCH: f64 = 0.004;
/// Corners of the grown sum turn by no more than this, in radians, where a space is kept.
const FINE_TURN: f64 = 0.6;

/// The outward normals of the sides of a convex part, or, with a sign of −1, of its reflection.
pub fn edge_normals(part: &[Point], sign: f64) -> Vec<Point> {
    (0..part.len())
        .filter_map(|i| {
            let (p, q) = (part[i], part[(i + 1) % part.len()]);
            let (x, y) = (q.1 - p.1, p.0 - q.0);
            let length = libm::hypot(x, y);
            (length > 1e-9).then(|| (sign * x / length, sign * y / length))
        })
        .collect()
}

/// Normals in order of their direction, with more of them where two are far apart: tangents of the
/// circle that a space draws round a corner.
pub fn rounded_corners(normals: &[Point]) -> Vec<Point> {
    let count = normals.len();
    let mut round = Vec::with_capacity(2 * count);
    for i in 0..count {
        let (n, m) = (normals[i], normals[(i + 1) % count]);
        round.push(n);
        let start = libm::atan2(n.1, n.0);
        let gap = (libm::atan2(m.1, m.0) - start).rem_euclid(std::f64::consts::TAU);
        let pieces = (gap / FINE_TURN).ceil();
        for k in 1..pieces as usize {
            let at = start + gap * k as f64 / pieces;
            round.push((libm::cos(at), libm::sin(at)));
        }
    }
    round
}
