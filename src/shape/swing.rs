//! How much a path swings.

use super::path::Path;
use super::turn::angle_between;
use kurbo::Vec2;

/// Chords of a curve lie within this of it when its turning is summed up, mm.
const CLOSE: f64 = 0.05;

/// All the turning along a path in radians, to the left and to the right alike: π/2 of a quarter of a circle, twice
/// that of an S made of two. Where a curve turns over from left to right, less may be told by the angle of one chord.
pub fn absolute_turning(path: &Path) -> f64 {
    let points = path.flatten(CLOSE);
    let chords = points.windows(2).filter_map(|two| match two {
        [from, to] if from.distance(*to) > 0.0 => Some(*to - *from),
        _ => None,
    });
    let ways: Vec<Vec2> =
        path.tangent_at_start().into_iter().chain(chords).chain(path.tangent_at_end()).collect();
    ways.windows(2)
        .map(|two| match two {
            [before, after] => angle_between(*before, *after).abs(),
            _ => 0.0,
        })
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::arc::{Turning, arc_about};
    use kurbo::Point;
    use std::f64::consts::FRAC_PI_2;

    /// A quarter of a circle turns by a right angle; an S of two quarters, which ends the way it began, by two.
    #[test]
    fn both_ways_count() {
        let quarter =
            arc_about(Point::ZERO, Point::new(100.0, 0.0), Point::new(0.0, 100.0), Turning::Anticlockwise)
                .unwrap();
        assert!((absolute_turning(&quarter) - FRAC_PI_2).abs() < 1e-3);
        let back = arc_about(
            Point::new(0.0, 200.0),
            Point::new(0.0, 100.0),
            Point::new(-100.0, 200.0),
            Turning::Clockwise,
        )
        .unwrap();
        // A chord whose sagitta is s under an arc of radius r turns by 2 acos(1 − s/r) (geometry of the circle).
        let one_chord = 2.0 * (1.0 - CLOSE / 100.0_f64).acos();
        let turned = absolute_turning(&quarter.then(&back));
        assert!((2.0 * FRAC_PI_2 - one_chord - 1e-3..2.0 * FRAC_PI_2 + 1e-3).contains(&turned), "{turned}");
        assert!(absolute_turning(&Path::straight(Point::ZERO, Point::new(1.0, 2.0))).abs() < 1e-12);
    }
}
