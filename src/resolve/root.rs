//! Where a function of one number is zero.

/// A place where a function is zero, as near as was looked for, and what is left there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Root {
    /// Where.
    pub(super) at: f64,
    /// The function's value there.
    pub(super) left: f64,
}

/// The zero between `low` and `high`, where the function's values `at_low` and `at_high` have
/// opposite signs, to 1e-9 of its size (at least 1e-9). At most `tries` evaluations; none if the
/// function is unknown somewhere on the way.
///
/// Method: T. R. Chandrupatla, "A new hybrid quadratic/bisection algorithm for finding the zero of
/// a nonlinear function without using derivatives", Advances in Engineering Software 28 (1997).
pub(super) fn between(
    (low, at_low): (f64, f64),
    (high, at_high): (f64, f64),
    tries: usize,
    mut function: impl FnMut(f64) -> Option<f64>,
) -> Option<Root> {
    let (mut a, mut fa, mut b, mut fb) = (high, at_high, low, at_low);
    if fa == 0.0 {
        return Some(Root { at: a, left: fa });
    }
    if fb == 0.0 {
        return Some(Root { at: b, left: fb });
    }
    let mut share = 0.5;
    for _ in 0..tries {
        let next = a + share * (b - a);
        let value = function(next)?;
        let (c, fc);
        if (value > 0.0) == (fa > 0.0) {
            (c, fc) = (a, fa);
        } else {
            (c, fc) = (b, fb);
            (b, fb) = (a, fa);
        }
        (a, fa) = (next, value);
        let (best, left) = if fa.abs() < fb.abs() { (a, fa) } else { (b, fb) };
        let near = 1e-9 * best.abs().max(1.0);
        let least = 0.5 * near / (b - a).abs();
        if left == 0.0 || least >= 0.5 {
            return Some(Root { at: best, left });
        }
        let xi = (a - b) / (c - b);
        let phi = (fa - fb) / (fc - fb);
        let is_smooth = phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi;
        share = match is_smooth {
            true => fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb),
            false => 0.5,
        };
        share = if share.is_finite() { share.clamp(least, 1.0 - least) } else { 0.5 };
    }
    let (at, left) = if fa.abs() < fb.abs() { (a, fa) } else { (b, fb) };
    Some(Root { at, left })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// √2 and the real root of x³ − 2x − 5, 2.0945514815423265 (Wallis 1685, in every textbook).
    #[test]
    fn finds_textbook_roots() {
        let root = between((1.0, -1.0), (2.0, 2.0), 100, |x| Some(x * x - 2.0)).map(|root| root.at);
        assert!((root.unwrap() - 2.0_f64.sqrt()).abs() < 1e-8);
        let root = between((2.0, -1.0), (3.0, 16.0), 100, |x| Some(x * x * x - 2.0 * x - 5.0));
        assert!((root.unwrap().at - 2.094_551_481_542_326_5).abs() < 1e-8);
    }

    #[test]
    fn a_straight_line_takes_few_tries() {
        let mut tries = 0;
        let root = between((0.0, -165.1), (400.0, 234.9), 100, |x| {
            tries += 1;
            Some(x - 165.1)
        });
        assert!((root.unwrap().at - 165.1).abs() < 1e-8);
        assert!(tries <= 6, "{tries}");
    }

    #[test]
    fn gives_up_on_what_is_unknown() {
        assert_eq!(between((0.0, -1.0), (1.0, 1.0), 10, |_| None), None);
    }
}
