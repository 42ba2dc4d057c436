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
}

impl fmt::Display for Figure {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{}", self.rounded())
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
}
