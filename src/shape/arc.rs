//! Circular arcs.

use crate::shape::path::Path;
use crate::shape::tolerance::{ARC_ACCURACY, RADII_DIFFER, SAME_POINT};
use crate::shape::turn::{angle_between, turned};
use kurbo::{CubicBez, PathSeg, Point};
use std::f64::consts::{FRAC_PI_2, TAU};
use thiserror::Error;

/// Which way round an arc goes, y being up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Turning {
    /// As the hands of a clock.
    Clockwise,
    /// Against the hands of a clock.
    Anticlockwise,
}

/// Why no arc could be drawn.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum ArcError {
    /// The ends are not equally far from the centre.
    #[error("the start is {from_radius} mm from the centre and the end {to_radius} mm")]
    RadiiDiffer {
        /// Distance from the centre to the start, mm.
        from_radius: f64,
        /// Distance from the centre to the end, mm.
        to_radius: f64,
    },
    /// Start and end are one point, so the arc would be nothing or a full circle.
    #[error("the arc starts and ends at the same point")]
    FullCircle {
        /// The radius, mm.
        radius: f64,
    },
    /// The centre is at an end.
    #[error("the centre is where the arc starts or ends")]
    NoRadius,
    /// A coordinate is not a finite number.
    #[error("a coordinate is not a finite number")]
    NotFinite,
}

/// The circular arc about `centre` from `from` to `to`, going round in the direction of `turning`.
///
/// Method: the arc is parted evenly and each part drawn as the cubic that touches it at both ends and its middle
/// (handles 4/3·tan(a/4) of the radius). Such a cubic is off by 2.73·10⁻⁴ of the radius for a quarter and falls with
/// the sixth power of the angle, so the number of parts follows from the accuracy, [`ARC_ACCURACY`].
/// Radii that differ by no more than [`RADII_DIFFER`] are evened out along the arc.
///
/// # Errors
/// Ends that are not equally far from the centre, ends that are one point, a centre at an end.
pub fn arc_about(centre: Point, from: Point, to: Point, turning: Turning) -> Result<Path, ArcError> {
    let (out, back) = (from - centre, to - centre);
    let (from_radius, to_radius) = (out.hypot(), back.hypot());
    if !from_radius.is_finite() || !to_radius.is_finite() {
        return Err(ArcError::NotFinite);
    }
    if from_radius <= SAME_POINT || to_radius <= SAME_POINT {
        return Err(ArcError::NoRadius);
    }
    if (from_radius - to_radius).abs() > RADII_DIFFER {
        return Err(ArcError::RadiiDiffer { from_radius, to_radius });
    }
    if from.distance(to) <= SAME_POINT {
        return Err(ArcError::FullCircle { radius: from_radius });
    }
    let short = angle_between(out, back);
    let sweep = match turning {
        Turning::Anticlockwise if short < 0.0 => short + TAU,
        Turning::Clockwise if short > 0.0 => short - TAU,
        _ => short,
    };
    let parts = (sweep.abs() / FRAC_PI_2 * libm::pow(2.73e-4 * from_radius / ARC_ACCURACY, 1.0 / 6.0)).ceil();
    let parts = parts.clamp((sweep.abs() / FRAC_PI_2).ceil(), 1024.0);
    let step = sweep / parts;
    let handle = 4.0 / 3.0 * libm::tan(step / 4.0);
    let parts = parts as usize;
    let at = |k: usize| {
        let share = k as f64 / parts as f64;
        let radius = from_radius + (to_radius - from_radius) * share;
        turned(out, step * k as f64) * (radius / from_radius)
    };
    let pieces = (0..parts).map(|k| {
        let start = at(k);
        let end = if k + 1 == parts { back } else { at(k + 1) };
        PathSeg::Cubic(CubicBez::new(
            if k == 0 { from } else { centre + start },
            centre + start + start.turn_90() * handle,
            centre + end - end.turn_90() * handle,
            if k + 1 == parts { to } else { centre + end },
        ))
    });
    Path::from_segments(pieces).map_err(|_| ArcError::NotFinite)
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Vec2;
    use std::f64::consts::PI;

    /// Length of an arc is radius × angle; every point lies at the radius.
    #[test]
    fn arcs_are_round() {
        let centre = Point::new(30.0, -20.0);
        for radius in [5.0, 113.2, 452.9, 5000.0] {
            let at = |degrees: f64| centre + turned(Vec2::new(radius, 0.0), degrees.to_radians());
            for (from, to, turning, angle) in [
                (10.0, 100.0, Turning::Anticlockwise, PI / 2.0),
                (10.0, 100.0, Turning::Clockwise, 1.5 * PI),
                (0.0, 180.0, Turning::Clockwise, PI),
                (0.0, 3.0, Turning::Anticlockwise, PI / 60.0),
            ] {
                let path = arc_about(centre, at(from), at(to), turning).unwrap();
                assert!((path.length() - radius * angle).abs() < 1e-3, "{radius} {angle}");
                for p in path.flatten(1e-4) {
                    assert!((p.distance(centre) - radius).abs() < 1e-4);
                }
            }
        }
        // Clockwise from the top goes to the right, y being up.
        let path =
            arc_about(Point::ZERO, Point::new(0.0, 1.0), Point::new(1.0, 0.0), Turning::Clockwise).unwrap();
        assert!(path.point_at_length(path.length() / 2.0).x > 0.7);
    }

    #[test]
    fn mistakes_are_values() {
        let (o, p, q) = (Point::ZERO, Point::new(3.0, 0.0), Point::new(0.0, 5.0));
        let arc = |c, a, b| arc_about(c, a, b, Turning::Clockwise);
        assert_eq!(arc(o, p, q), Err(ArcError::RadiiDiffer { from_radius: 3.0, to_radius: 5.0 }));
        assert_eq!(arc(o, p, p), Err(ArcError::FullCircle { radius: 3.0 }));
        assert_eq!(arc(p, p, q), Err(ArcError::NoRadius));
        assert_eq!(arc(p, Point::new(f64::INFINITY, 0.0), q), Err(ArcError::NotFinite));
    }
}
