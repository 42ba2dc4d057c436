//! Where a cubic in Bernstein form is zero between 0 and 1.

use crate::few::Few;

/// The parameters in [0, 1], rising, at which the cubic with these Bernstein coefficients is zero, a touch counted as
/// once; `near` is the value that still counts as zero at an end or at a turning point.
///
/// Method: the range is cut at the turning points (a quadratic), and in each monotone stretch with a change of sign
/// the zero is closed in on as nearly as numbers go. Nothing is given where the whole cubic is within `near` of zero.
pub(super) fn bernstein_roots(coefficients: [f64; 4], near: f64) -> Few<f64> {
    if coefficients.iter().any(|c| !c.is_finite()) || coefficients.iter().all(|c| c.abs() <= near) {
        return Few::new();
    }
    // A cubic lies between the least and the greatest of its coefficients.
    let clear = 2.0 * near;
    if coefficients.iter().all(|c| *c > clear) || coefficients.iter().all(|c| *c < -clear) {
        return Few::new();
    }
    let value = |t: f64| {
        let v = bernstein(coefficients, t);
        if v.abs() <= near { 0.0 } else { v }
    };
    let mut roots: Few<f64> = Few::new();
    let mut push = |t: f64| {
        if roots.last().is_none_or(|last| t - last > 1e-12) {
            roots.push(t);
        }
    };
    let mut low = 0.0;
    for high in turning_points(coefficients).chain([1.0]) {
        let (at_low, at_high) = (value(low), value(high));
        if at_low == 0.0 {
            push(low);
        }
        if at_low * at_high < 0.0 {
            push(closed_in(coefficients, low, high, at_low));
        }
        if at_high == 0.0 && high >= 1.0 {
            push(high);
        }
        low = high;
    }
    roots
}

/// The value of a cubic in Bernstein form.
pub(super) fn bernstein([a, b, c, d]: [f64; 4], t: f64) -> f64 {
    let u = 1.0 - t;
    a * u * u * u + 3.0 * (b * u * u * t + c * u * t * t) + d * t * t * t
}

/// Where the cubic turns, strictly between 0 and 1, rising.
pub(super) fn turning_points([a, b, c, d]: [f64; 4]) -> impl Iterator<Item = f64> {
    // The derivative over 3 is p(1−t)² + 2q(1−t)t + rt².
    let (p, q, r) = (b - a, c - b, d - c);
    let (square, half, constant) = (p - 2.0 * q + r, q - p, p);
    // Without a root the square root is no number, and neither are these.
    let sum = -(half + (half * half - square * constant).sqrt().copysign(half));
    let mut found = [sum / square, constant / sum];
    found.sort_by(f64::total_cmp);
    found.into_iter().filter(|t| *t > 0.0 && *t < 1.0)
}

/// The zero between two places of which the one has another sign than the other: Newton's method, held inside a
/// shrinking bracket.
fn closed_in(coefficients: [f64; 4], mut low: f64, mut high: f64, at_low: f64) -> f64 {
    let [a, b, c, d] = coefficients;
    let (p, q, r) = (b - a, c - b, d - c);
    let mut t = 0.5 * (low + high);
    for _ in 0..80 {
        let v = bernstein(coefficients, t);
        if v == 0.0 {
            return t;
        }
        if v * at_low > 0.0 {
            low = t;
        } else {
            high = t;
        }
        let u = 1.0 - t;
        let slope = 3.0 * (p * u * u + 2.0 * q * u * t + r * t * t);
        let next = t - v / slope;
        let next = if next > low && next < high { next } else { 0.5 * (low + high) };
        if next <= low || next >= high || (next - t).abs() <= f64::EPSILON * 0.5 {
            return next;
        }
        t = next;
    }
    t
}

#[cfg(test)]
mod tests {
    use super::*;

    /// (t − ¼)(t − ½)(t − ¾) by hand: power form −3/32 + 11/16 t − 3/2 t² + t³, turned to Bernstein form with
    /// b0 = a0, b1 = a0 + a1/3, b2 = a0 + 2a1/3 + a2/3, b3 = sum.
    #[test]
    fn finds_three_roots() {
        let (a0, a1, a2, a3) = (-3.0 / 32.0, 11.0 / 16.0, -1.5, 1.0);
        let roots =
            bernstein_roots([a0, a0 + a1 / 3.0, a0 + 2.0 * a1 / 3.0 + a2 / 3.0, a0 + a1 + a2 + a3], 0.0);
        assert_eq!(roots.len(), 3);
        for (found, true_root) in roots.iter().zip([0.25, 0.5, 0.75]) {
            assert!((found - true_root).abs() < 1e-14, "{found}");
        }
    }

    /// t² − t + ¼ = (t − ½)² touches zero at ½.
    #[test]
    fn finds_a_touch_once() {
        let roots = bernstein_roots([0.25, 0.25 - 1.0 / 3.0, 0.25 - 2.0 / 3.0 + 1.0 / 3.0, 0.25], 1e-9);
        assert_eq!(roots.len(), 1);
        assert!((roots[0] - 0.5).abs() < 1e-9);
    }

    #[test]
    fn survives_what_is_no_number() {
        assert!(bernstein_roots([f64::NAN, 0.0, 1.0, 2.0], 1e-9).is_empty());
        assert!(bernstein_roots([0.0; 4], 1e-9).is_empty());
    }
}
