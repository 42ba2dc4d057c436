use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};
use std::borrow::Cow;
use std::fmt::{self, Write};

/// Where a whole number is still exact in a double, with room to spare.
const WHOLE: f64 = 1e15;

/// A figure of an output, rounded to 0.01 as it is written; whole ones have no point, and there is
/// no -0.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure(pub f64);

impl Figure {
    /// As it is written.
    pub fn rounded(self) -> f64 {
        let hundredths = (self.0 * 100.0).round();
        // Far out a double has no hundredths, and the product may be beyond all doubles.
        let rounded = if hundredths.abs() < WHOLE { hundredths / 100.0 } else { self.0 };
        rounded + 0.0
    }

    /// Millimetres in tenths of a metre, rounded up: something is needed, though it be less than is shown.
    pub fn metres_up(self) -> f64 {
        (self.rounded() / 100.0).ceil() / 10.0
    }
}

/// The most digits that the whole part of a figure has below [`WHOLE`] hundredths.
const DIGITS: usize = 14;

impl Figure {
    /// Writes it behind a text. Outlines are thousands of figures, and digits are written one by one in a third of the time.
    pub(crate) fn push_to(self, text: &mut String) {
        let hundredths = self.0 * 100.0;
        let Some(rounded) = whole_below(hundredths.abs(), WHOLE) else {
            // Writing to a String cannot fail.
            let _ = write!(text, "{}", self.rounded());
            return;
        };
        if rounded > 0 && hundredths < 0.0 {
            text.push('-');
        }
        // Of a number of at most 15 digits its two places are also the shortest that tell it from all others.
        push_whole(rounded / 100, text);
        let (tenths, rest) = ((rounded / 10 % 10) as u8, (rounded % 10) as u8);
        if tenths > 0 || rest > 0 {
            text.push('.');
            text.push(char::from(b'0' + tenths));
        }
        if rest > 0 {
            text.push(char::from(b'0' + rest));
        }
    }
}

/// The nearest whole number, of halves the greater one, of what is not negative; none where it is not below a bound that
/// is at most 2⁵³.
fn whole_below(number: f64, bound: f64) -> Option<u64> {
    if number.is_nan() || number >= bound {
        return None;
    }
    let whole = number as u64;
    // What is cut off is exact.
    let rounded = whole + u64::from(number - whole as f64 >= 0.5);
    (rounded < bound as u64).then_some(rounded)
}

fn push_whole(number: u64, text: &mut String) {
    let mut digits = [b'0'; DIGITS];
    let (mut left, mut length) = (number, 0);
    for digit in digits.iter_mut().rev() {
        *digit = b'0' + (left % 10) as u8;
        (left, length) = (left / 10, length + 1);
        if left == 0 {
            break;
        }
    }
    text.extend(digits.iter().skip(DIGITS - length).map(|&digit| char::from(digit)));
}

impl fmt::Display for Figure {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut text = String::new();
        self.push_to(&mut text);
        formatter.write_str(&text)
    }
}

impl Serialize for Figure {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let rounded = self.rounded();
        if !rounded.is_finite() {
            return Err(serde::ser::Error::custom("a figure is too large to measure"));
        }
        match rounded.fract() == 0.0 && rounded.abs() < WHOLE {
            true => serializer.serialize_i64(rounded as i64),
            false => serializer.serialize_f64(rounded),
        }
    }
}

impl JsonSchema for Figure {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Figure".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "number" })
    }
}

#[cfg(test)]
mod tests {
    use super::Figure;

    #[test]
    fn figures_have_two_places_and_no_minus_nothing() {
        for (value, written) in [
            (160.0, "160"),
            (12.345678, "12.35"),
            (-0.001, "0"),
            (-0.0, "0"),
            (0.1 + 0.2, "0.3"),
            (-2.5, "-2.5"),
            (1e300, "1e+300"),
        ] {
            assert_eq!(serde_json::to_string(&Figure(value)).unwrap(), written, "{value}");
        }
        assert!(serde_json::to_string(&Figure(f64::NAN)).is_err());
        assert_eq!(Figure(-0.004).to_string(), "0");
    }

    /// As the standard library writes the rounded number.
    #[test]
    fn figures_are_written_like_the_numbers_that_they_are_rounded_to() {
        let odd = [
            0.005,
            -0.005,
            0.05,
            99.995,
            9e12,
            9.99999999999999e12,
            9.999999999999996e12,
            0.004999999999999999,
            1e13,
            -1e13,
            1e300,
            f64::INFINITY,
            f64::NAN,
        ];
        let even = (-30_000..30_000).map(|step| f64::from(step) * 0.0337);
        for value in even.chain(odd) {
            assert_eq!(Figure(value).to_string(), Figure(value).rounded().to_string(), "{value}");
        }
    }
}
