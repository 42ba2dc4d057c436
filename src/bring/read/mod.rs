//! The readers, one a format: each makes [`Traced`] of a file's bytes.
//!
//! A reader has this form: `pub fn read(bytes: &[u8], file_name: &str, options: &ReadOptions) -> Result<Traced,
//! BringError>`. It never opens another file, whatever the drawing names.

pub mod csv;
pub mod dxf;
pub mod svg;

mod by_place;
mod inside;
mod letters;
mod line_work;
mod open_sew;
mod overlaps;
pub(super) mod said;
mod small_notches;
mod two_folds;

pub(super) use letters::base_name;
pub(super) use said::{cut_of, ending_in_size};

use super::error::BringError;
use super::figures::TextUnit;
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
        Some(Format::Dxf) => dxf::read(bytes, file_name, options),
        Some(Format::Csv) => csv::read(bytes, file_name, options),
        None => {
            let why = "it is no drawing that can come in: those are SVG and DXF files, and tables of points in CSV, whose names end with .csv \
                 or whose first row names the columns piece, x and y";
            Err(BringError::new(file_name, why))
        }
    }
}

/// Formats that are read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Format {
    Svg,
    Dxf,
    Csv,
}

/// Whether a line names the columns that every table of points has.
fn is_head_of_table(line: &[u8]) -> bool {
    let line = String::from_utf8_lossy(line).to_lowercase();
    let columns = line.split([',', ';', '\t']).map(|column| column.trim().trim_matches('"'));
    let columns: Vec<String> = columns.map(csv::without_unit).collect();
    ["piece", "x", "y"].iter().all(|wanted| columns.iter().any(|column| column == wanted))
}

fn format_of(bytes: &[u8], file_name: &str) -> Option<Format> {
    let named = |ending: &str| file_name.to_lowercase().ends_with(ending);
    let begin = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes).trim_ascii_start();
    // A DXF file begins with a group code: that of a section, or of a note.
    let first_line = begin.split(|&byte| byte == b'\n').next().unwrap_or_default().trim_ascii();
    match () {
        () if named(".svg") => Some(Format::Svg),
        // A drawing in the other form of it is told how it comes in.
        () if named(".dxf") || named(".dwg") => Some(Format::Dxf),
        () if named(".csv") || named(".tsv") => Some(Format::Csv),
        () if begin.starts_with(b"<") => Some(Format::Svg),
        () if first_line == b"0" || first_line == b"999" => Some(Format::Dxf),
        () if is_head_of_table(first_line) => Some(Format::Csv),
        () => None,
    }
}

/// What a maker says about a drawing that the drawing does not say itself.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct ReadOptions {
    /// How many millimetres one unit of the drawing is, instead of what the drawing says.
    pub scale: Option<f64>,
    /// What tells one size from another, of a drawing that can say it in several ways.
    pub sizes_from: Option<SizesFrom>,
    /// In which unit a table's points are measured that does not say it; millimetres where nothing is said.
    pub points_in: Option<TextUnit>,
}

/// What tells sizes apart in a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SizesFrom {
    /// Each size is a layer or an outermost group.
    Layers,
    /// A piece's name ends with its size: `front-M`, `front 38`.
    Names,
}
