//! Lengths and points as the text says them: in its unit, rounded, one for all sizes or one a size.

use crate::report::INCH;
use kurbo::Point;

/// In which unit a text is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TextUnit {
    /// Centimetres, to 0.01 mm.
    Centimetres,
    /// Inches, to 0.0001 in.
    Inches,
}

impl TextUnit {
    /// How many millimetres one is.
    pub fn millimetres(self) -> f64 {
        match self {
            TextUnit::Centimetres => 10.0,
            TextUnit::Inches => INCH,
        }
    }

    /// How the language spells it.
    pub fn word(self) -> &'static str {
        match self {
            TextUnit::Centimetres => "cm",
            TextUnit::Inches => "in",
        }
    }

    fn decimals(self) -> usize {
        match self {
            TextUnit::Centimetres => 3,
            TextUnit::Inches => 4,
        }
    }

    /// The length as it will stand in the text, in millimetres.
    pub fn rounded(self, mm: f64) -> f64 {
        self.steps(mm, 0) as f64 / power(self.decimals()) * self.millimetres()
    }

    /// The point as it will stand in the text, in millimetres.
    pub fn rounded_point(self, point: Point) -> Point {
        Point::new(self.rounded(point.x), self.rounded(point.y))
    }

    /// A length in the unit: `12.4`.
    pub fn length(self, mm: f64) -> String {
        self.number(mm, 0)
    }

    /// A length for people, to a tenth of a millimetre or a hundredth of an inch.
    pub fn about(self, mm: f64) -> String {
        let steps = (mm / self.millimetres() * 100.0).round() as i64;
        decimal(steps, 2)
    }

    /// A length that may differ from size to size, where a value stands in brackets or as a whole:
    /// `8`, `8 grade +0.2`, `each 8, 8.2, 8.5`.
    pub fn lengths(self, sizes: &[f64]) -> String {
        match self.graded(sizes, 0) {
            Some(steps) => steps,
            None => {
                let each: Vec<String> = sizes.iter().map(|mm| self.number(*mm, 0)).collect();
                format!("each {}", each.join(", "))
            }
        }
    }

    /// A point that may differ from size to size, as a whole value: `(0, 0)`, `((20 grade +1), 0)`,
    /// `each (0, 0), (1, 2)`. `finer` adds decimals.
    pub fn points(self, sizes: &[Point], finer: usize) -> String {
        let (across, up): (Vec<f64>, Vec<f64>) = sizes.iter().map(|point| (point.x, point.y)).unzip();
        if let (Some(across), Some(up)) = (self.graded(&across, finer), self.graded(&up, finer)) {
            let within = |own: String| if own.contains(' ') { format!("({own})") } else { own };
            return format!("({}, {})", within(across), within(up));
        }
        let each = sizes
            .iter()
            .map(|point| format!("({}, {})", self.number(point.x, finer), self.number(point.y, finer)));
        format!("each {}", each.collect::<Vec<_>>().join(", "))
    }

    /// The same where an expression is wanted.
    pub fn point_expression(self, sizes: &[Point], finer: usize) -> String {
        let points = self.points(sizes, finer);
        if points.starts_with("each") { format!("({points})") } else { points }
    }

    /// One number for all sizes, or the first with an even step; none where the sizes go by neither.
    fn graded(self, sizes: &[f64], finer: usize) -> Option<String> {
        let steps: Vec<i64> = sizes.iter().map(|mm| self.steps(*mm, finer)).collect();
        let first = *steps.first()?;
        let places = self.decimals() + finer;
        let step = steps.get(1).map_or(0, |second| second.saturating_sub(first));
        if !steps.windows(2).all(|pair| matches!(pair, [one, other] if other.checked_sub(*one) == Some(step)))
        {
            return None;
        }
        let number = decimal(first, places);
        match step {
            0 => Some(number),
            step if step > 0 => Some(format!("{number} grade +{}", decimal(step, places))),
            step => Some(format!("{number} grade {}", decimal(step, places))),
        }
    }

    fn number(self, mm: f64, finer: usize) -> String {
        decimal(self.steps(mm, finer), self.decimals() + finer)
    }

    fn steps(self, mm: f64, finer: usize) -> i64 {
        (mm / self.millimetres() * power(self.decimals() + finer)).round() as i64
    }
}

fn power(places: usize) -> f64 {
    (0..places).fold(1.0, |all, _| all * 10.0)
}

/// A whole number of small steps as a decimal number without needless zeros.
fn decimal(steps: i64, places: usize) -> String {
    let sign = if steps < 0 { "-" } else { "" };
    let digits = format!("{:0>width$}", steps.unsigned_abs(), width = places + 1);
    let (whole, part) = digits.split_at(digits.len() - places);
    let part = part.trim_end_matches('0');
    if part.is_empty() { format!("{sign}{whole}") } else { format!("{sign}{whole}.{part}") }
}

#[cfg(test)]
mod tests {
    use super::TextUnit::{Centimetres, Inches};
    use kurbo::Point;

    #[test]
    fn numbers_are_written_as_they_are_read() {
        assert_eq!(Centimetres.length(124.0), "12.4");
        assert_eq!(Centimetres.length(-0.05), "-0.005");
        assert_eq!(Centimetres.length(-0.001), "0");
        assert_eq!(Inches.length(6.35), "0.25");
    }

    #[test]
    fn even_steps_are_grades_and_others_a_list() {
        let points = [(0.0, 0.0), (10.0, 5.0), (20.0, 10.0)].map(Point::from);
        assert_eq!(Centimetres.points(&points, 0), "((0 grade +1), (0 grade +0.5))");
        let points = [(0.0, 0.0), (10.0, 5.0), (25.0, 10.0)].map(Point::from);
        assert_eq!(Centimetres.points(&points, 0), "each (0, 0), (1, 0.5), (2.5, 1)");
        assert_eq!(Centimetres.lengths(&[80.0, 80.0]), "8");
    }
}
