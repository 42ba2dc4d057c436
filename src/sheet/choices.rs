//! What is asked of a sheet: sizes, paper, language.

use super::words::Language;
use crate::garment::SizeId;

/// What a sheet is printed on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SheetPaper {
    /// 210 by 297 mm.
    #[default]
    A4,
    /// 8½ by 11 in.
    Letter,
}

/// What is asked of a sheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Choices {
    /// Only these sizes; all where none is named.
    pub sizes: Vec<SizeId>,
    /// What it is printed on.
    pub paper: SheetPaper,
    /// Its language.
    pub language: Language,
    /// Without what has to be laid out to be known: how much cloth is bought, and how it lies.
    pub without_lays: bool,
    /// Other widths that cloth is told for beside its own, in millimetres.
    pub widths: Vec<f64>,
}
