use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};
use std::borrow::Cow;
use std::fmt;

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

impl fmt::Display for Figure {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let hundredths = (self.0 * 100.0).round();
        if hundredths.is_nan() || hundredths.abs() >= WHOLE {
            return write!(formatter, "{}", self.rounded());
        }
        // Outlines are thousands of figures, and whole numbers are written in a third of the time. Of a number of at most
        // 15 digits its two places are also the shortest that tell it from all others.
        let (hundredths, sign) = (hundredths.abs() as u64, if hundredths < 0.0 { "-" } else { "" });
        let (whole, rest) = (hundredths / 100, hundredths % 100);
        match (rest, rest % 10) {
            (0, _) => write!(formatter, "{sign}{whole}"),
            (_, 0) => write!(formatter, "{sign}{whole}.{}", rest / 10),
            (..) => write!(formatter, "{sign}{whole}.{rest:02}"),
        }
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
