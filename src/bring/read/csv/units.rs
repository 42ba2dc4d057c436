//! What the columns of a table are measured in.

use crate::bring::TextUnit;
use crate::bring::read::ReadOptions;
use crate::report::INCH;

/// A unit that points are measured in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Unit {
    /// 1 mm.
    Millimetre,
    /// 10 mm.
    Centimetre,
    /// 25.4 mm.
    Inch,
}

impl Unit {
    /// How many millimetres it is.
    pub fn size(self) -> f64 {
        match self {
            Unit::Millimetre => 1.0,
            Unit::Centimetre => 10.0,
            Unit::Inch => INCH,
        }
    }
}

/// The name of a column without the unit behind it, and the unit: `x cm`, `x_cm` and `x (cm)` are `x` in centimetres.
pub(super) fn measured(name: &str) -> (String, Option<Unit>) {
    let mut words = name.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty());
    let unit = match (words.next(), words.next(), words.next()) {
        (Some("x" | "y"), Some("mm"), None) => Some(Unit::Millimetre),
        (Some("x" | "y"), Some("cm"), None) => Some(Unit::Centimetre),
        (Some("x" | "y"), Some("in" | "inch" | "inches"), None) => Some(Unit::Inch),
        _ => None,
    };
    let plain = if unit.is_some() { name.get(..1).unwrap_or(name) } else { name };
    (plain.to_owned(), unit)
}

/// How many millimetres a unit is, and whether it is an inch: as the scale says it, the first row, or the maker.
pub(super) fn unit(options: &ReadOptions, said: Option<Unit>) -> (f64, bool) {
    let maker = || match options.points_in {
        Some(TextUnit::Inches) => Unit::Inch,
        Some(TextUnit::Centimetres) => Unit::Centimetre,
        None => Unit::Millimetre,
    };
    let unit = said.unwrap_or_else(maker);
    match (options.scale, unit) {
        (Some(scale), unit) => (scale, unit == Unit::Inch),
        (None, unit) => (unit.size(), unit == Unit::Inch),
    }
}
