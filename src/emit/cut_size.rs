//! What of the cutting table the outputs show.

use super::documents::ExtentDocument;
use super::number::Figure;
use crate::cutting::{CutPart, WorkedSize, cut_extent};
use crate::garment::{Garment, Part};
use std::collections::HashMap;

/// One size's parts as they are cut; those whose allowances are not known are left out.
pub(super) fn cut_parts<'a>(garment: &Garment, size: &'a WorkedSize) -> HashMap<Part, &'a CutPart> {
    size.cut(garment).parts.iter().map(|part| (part.part, part)).collect()
}

/// How large a part is cut, opened out where it is cut on the fold.
pub(super) fn extent(part: &CutPart) -> Option<ExtentDocument> {
    let (width, height) = cut_extent(part)?;
    Some(ExtentDocument { width: Figure(width), height: Figure(height) })
}
