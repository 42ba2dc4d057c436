//! What of the cutting table the outputs show.

use super::documents::ExtentDocument;
use super::number::Figure;
use crate::cutting::{CutPart, WorkedSize, cut_extent};
use crate::garment::{Garment, Part};
use crate::syntax::tree::Hand;
use std::collections::HashMap;

/// Parts as they are cut, by the part and its side of the body.
type CutParts<'a> = HashMap<(Part, Option<Hand>), &'a CutPart>;

/// One size's parts as they are cut; those whose allowances are not known are left out.
pub(super) fn cut_parts<'a>(garment: &Garment, size: &'a WorkedSize) -> CutParts<'a> {
    size.cut(garment).parts.iter().map(|part| ((part.part, part.hand), part)).collect()
}

/// How large a part is cut, opened out where it is cut on the fold.
pub(super) fn extent(part: &CutPart) -> Option<ExtentDocument> {
    let (width, height) = cut_extent(part)?;
    Some(ExtentDocument { width: Figure(width), height: Figure(height) })
}
