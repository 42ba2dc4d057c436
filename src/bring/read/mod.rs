//! The readers, one a format: each makes [`Traced`](super::traced::Traced) of a file's bytes.
//!
//! A reader has this form: `pub fn read(bytes: &[u8], file_name: &str, options: &ReadOptions) -> Result<Traced,
//! BringError>`. It never opens another file, whatever the drawing names.

pub mod svg;

use super::error::BringError;
use super::traced::Traced;
use crate::limits::DRAWING_BYTES;

/// Reads a drawing, in whichever format it is: its name says it, or else how it begins.
///
/// # Errors
/// What is no drawing of a known format, is damaged or is too large.
pub fn read(bytes: &[u8], file_name: &str, options: &ReadOptions) -> Result<Traced, BringError> {
    if bytes.len() > DRAWING_BYTES {
        let why = format!("it is larger than {} MB, which no pattern is", DRAWING_BYTES / 1024 / 1024);
        return Err(BringError::new(file_name, why));
    }
    match format_of(bytes, file_name) {
        Some(Format::Svg) => svg::read(bytes, file_name, options),
        None => Err(BringError::new(file_name, "it is no drawing that can come in: those are SVG files")),
    }
}

/// Formats that are read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Format {
    Svg,
}

fn format_of(bytes: &[u8], file_name: &str) -> Option<Format> {
    let named = |ending: &str| file_name.to_lowercase().ends_with(ending);
    let begin = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes).trim_ascii_start();
    (named(".svg") || begin.starts_with(b"<")).then_some(Format::Svg)
}

/// What a maker says about a drawing that the drawing does not say itself.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct ReadOptions {
    /// How many millimetres one unit of the drawing is, instead of what the drawing says.
    pub scale: Option<f64>,
    /// What tells one size from another, of a drawing that can say it in several ways.
    pub sizes_from: Option<SizesFrom>,
}

/// What tells sizes apart in a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SizesFrom {
    /// Each size is a layer or an outermost group.
    Layers,
    /// A piece's name ends with its size: `front-M`, `front 38`.
    Names,
}
