//! The forms that tables come in.

use crate::report::{DisplayUnit, INCH};

/// How a table is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Columns aligned with blanks.
    Text,
    /// A Markdown table.
    Markdown,
    /// Comma-separated values (RFC 4180), a row for each size.
    Csv,
    /// JSON, in millimetres.
    Json,
}

/// The unit that figures of a table are in, which it names, and how many millimetres it has.
pub(super) fn unit_of(unit: DisplayUnit) -> (&'static str, f64) {
    match unit {
        DisplayUnit::Millimetre => ("mm", 1.0),
        DisplayUnit::Centimetre => ("cm", 10.0),
        DisplayUnit::Inch => ("in", INCH),
    }
}
