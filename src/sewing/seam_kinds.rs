//! How seams are made that are not plain: what each kind takes of allowance, how many rows of stitching
//! it has, and which of them show.
//!
//! The amounts are common practice of home and trade sewing; the classes are those of ISO 4916:1991 (from
//! memory): 1 superimposed, 2 lapped, 3 bound.

use super::amounts::amount_of;
use crate::garment::{Garment, Seam, SeamSide};
use crate::resolve::SizedGarment;
use crate::syntax::tree::SeamKind;

/// So much narrower than a felled seam its under allowance is trimmed, in millimetres, that it lies within
/// the fold (common practice).
pub const FELL_TRIM: f64 = 2.0;
/// So far an allowance goes on beyond the row that holds it down, in millimetres (common practice).
pub const BEYOND_ROW: f64 = 3.0;

/// Stitches that were once sewn by hand: class 200 of ISO 4915.
pub(crate) const BY_HAND: std::ops::Range<u16> = 200..300;

/// A seam that is not plain, in one size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamMaking {
    /// Which kind.
    pub kind: SeamKind,
    /// How wide it is when it is finished, in millimetres.
    pub width: f64,
    /// The side that lies over; none of a kind that has none.
    pub over: Option<SeamSide>,
}

/// How a seam is made; none of a plain one, and where its width could not be worked out.
pub fn seam_making(garment: &Garment, sized: &SizedGarment, seam: &Seam) -> Option<SeamMaking> {
    let work = seam.work.as_ref()?;
    let width = amount_of(garment, sized, &work.width).filter(|width| *width > 0.0)?;
    Some(SeamMaking { kind: work.kind, width, over: work.over })
}

impl SeamMaking {
    /// The least allowance of a side, in millimetres; none where any will do.
    ///
    /// French and felled seams take twice their width, topstitched ones what the row must catch on both
    /// sides; of a lapped one the under side must reach beyond the row, while the upper side turns under
    /// what it has. A bound edge lies on its allowance as wide as it is.
    pub fn least_allowance(&self, side: SeamSide) -> Option<f64> {
        match self.kind {
            SeamKind::French | SeamKind::Felled => Some(2.0 * self.width),
            SeamKind::Topstitched => Some(self.width + BEYOND_ROW),
            SeamKind::Lapped if self.over == Some(side) => None,
            SeamKind::Lapped => Some(self.width + BEYOND_ROW),
            SeamKind::EdgesBound => Some(self.width),
        }
    }

    /// The widest seam of this kind that an allowance is enough for, in millimetres.
    pub fn widest(&self, allowance: f64) -> f64 {
        match self.kind {
            SeamKind::French | SeamKind::Felled => allowance / 2.0,
            SeamKind::Topstitched | SeamKind::Lapped => allowance - BEYOND_ROW,
            SeamKind::EdgesBound => allowance,
        }
    }

    /// To what the under side's allowance is trimmed once the first row is sewn, in millimetres.
    pub fn trimmed(&self) -> Option<f64> {
        (self.kind == SeamKind::Felled).then(|| (self.width - FELL_TRIM).max(0.0))
    }

    /// Rows of stitching through both sides.
    pub fn rows(&self) -> u32 {
        match self.kind {
            SeamKind::Felled | SeamKind::French | SeamKind::Topstitched => 2,
            SeamKind::Lapped | SeamKind::EdgesBound => 1,
        }
    }

    /// The side through whose right side a row goes, so far inside of the stitching line as the seam is
    /// wide: what lies over, but of a felled seam what the fold lies on.
    pub fn row_on(&self) -> Option<SeamSide> {
        match self.kind {
            SeamKind::Felled => self.over.map(SeamSide::other),
            SeamKind::Lapped | SeamKind::Topstitched => self.over,
            SeamKind::French | SeamKind::EdgesBound => None,
        }
    }

    /// The class of ISO 4916:1991 that it is of.
    pub fn iso_4916_class(&self) -> u8 {
        match self.kind {
            SeamKind::French => 1,
            SeamKind::Felled | SeamKind::Lapped | SeamKind::Topstitched => 2,
            SeamKind::EdgesBound => 3,
        }
    }
}
