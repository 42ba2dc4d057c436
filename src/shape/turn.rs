//! Rotations by `libm`, so that every machine gives the same bits.

use kurbo::{Affine, Point, Vec2};

/// A vector turned by `angle` radians, anticlockwise.
pub(super) fn turned(vector: Vec2, angle: f64) -> Vec2 {
    let (sine, cosine) = libm::sincos(angle);
    Vec2::new(vector.x * cosine - vector.y * sine, vector.x * sine + vector.y * cosine)
}

/// The rotation by `angle` radians anticlockwise about `centre`.
pub(super) fn rotation_about(centre: Point, angle: f64) -> Affine {
    let (sine, cosine) = libm::sincos(angle);
    let moved = turned(centre.to_vec2(), angle);
    Affine::new([cosine, sine, -sine, cosine, centre.x - moved.x, centre.y - moved.y])
}

/// The unit vector of `vector`; none when it has no length or is not finite.
pub(crate) fn unit(vector: Vec2) -> Option<Vec2> {
    let length = vector.hypot();
    (length.is_finite() && length > 1e-12).then(|| vector / length)
}

/// The angle in radians from `from` to `to`, anticlockwise positive, in (−π, π].
pub(super) fn angle_between(from: Vec2, to: Vec2) -> f64 {
    libm::atan2(from.cross(to), from.dot(to))
}
