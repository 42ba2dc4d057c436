//! How often a piece's edges are there, and whether left and right differ.

use crate::garment::{CutHow, Garment, Part};
use crate::resolve::DrawnPiece;

/// How many times an edge of the piece is there: each half on the fold is one.
pub(super) fn times(drawn: &DrawnPiece) -> u32 {
    match drawn.cut {
        CutHow::OnFold(_) => drawn.count.saturating_mul(2),
        CutHow::Alike | CutHow::Mirrored => drawn.count,
    }
}

/// Whether there is a left and a right one of it.
pub(super) fn is_handed(drawn: &DrawnPiece) -> bool {
    drawn.cut != CutHow::Alike
}

/// Whether the left and the right of a part are told apart.
pub(super) fn is_told_apart(garment: &Garment, part: &Part, drawn: &DrawnPiece) -> bool {
    garment.piece(part.piece).told_apart && is_handed(drawn) && !garment.layer(part.layer).fused
}
