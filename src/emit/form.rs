//! The forms that tables come in.

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
