//! What of the cutting table the outputs show.

use super::documents::ExtentDocument;
use super::number::Figure;
use crate::cutting::{CutPart, cut, cut_extent};
use crate::garment::{Garment, Part};
use crate::resolve::SizedGarment;
use crate::sewing::Sewing;
use std::collections::HashMap;

/// One size's parts as they are cut; those whose allowances are not known are left out.
pub(super) fn cut_parts(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: Option<&Sewing>,
) -> HashMap<Part, CutPart> {
    let cutting = sewing.map(|sewing| cut(garment, sized, sewing)).unwrap_or_default();
    cutting.parts.into_iter().map(|part| (part.part, part)).collect()
}

/// How large a part is cut, opened out where it is cut on the fold.
pub(super) fn extent(part: &CutPart) -> Option<ExtentDocument> {
    let (width, height) = cut_extent(part)?;
    Some(ExtentDocument { width: Figure(width), height: Figure(height) })
}
