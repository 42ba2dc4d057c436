//! How long a segment of a drawing is.

use kurbo::{ParamCurve, ParamCurveArclen, PathSeg};

/// What may be longer, in mm, is not measured: a damaged drawing may hold figures whose squares are beyond all numbers, and
/// measuring one such curve takes as long as a thousand others.
const MOST: f64 = 1e9;

/// How long a segment is, in millimetres, to that accuracy; what may be longer than [`MOST`] is as long as its handles let it be.
pub fn length(segment: &PathSeg, accuracy: f64) -> f64 {
    let cubic = segment.to_cubic();
    let most = cubic.p0.distance(cubic.p1) + cubic.p1.distance(cubic.p2) + cubic.p2.distance(cubic.p3);
    match segment {
        _ if most.is_nan() || most > MOST => most,
        PathSeg::Line(line) => line.start().distance(line.end()),
        PathSeg::Quad(_) | PathSeg::Cubic(_) => segment.arclen(accuracy),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::CubicBez;

    /// A quarter of a circle by its usual handles: r × π / 2, which they miss by less than 0.03 % (Bézier circles, common
    /// knowledge); and one that is 10^308 long ends at once.
    #[test]
    fn a_quarter_circle_and_a_figure_beyond_all_sense() {
        let k = 0.552_284_75 * 100.0;
        let quarter = CubicBez::new((100.0, 0.0), (100.0, k), (k, 100.0), (0.0, 100.0));
        let whole = 50.0 * std::f64::consts::PI;
        assert!((length(&PathSeg::Cubic(quarter), 0.01) / whole - 1.0).abs() < 3e-4);
        let far = CubicBez::new((666.0, 68.0), (740.0, -1e307), (800.0, 50.0), (820.0, 110.0));
        let begun = std::time::Instant::now();
        assert!(length(&PathSeg::Cubic(far), 0.01) > 1e306);
        assert!(begun.elapsed() < std::time::Duration::from_secs(1));
        let beyond = CubicBez::new((0.0, 0.0), (0.0, -1.7e308), (800.0, 1.7e308), (820.0, 110.0));
        assert!(length(&PathSeg::Cubic(beyond), 0.01).is_infinite());
    }
}
