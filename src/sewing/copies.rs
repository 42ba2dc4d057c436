//! How often a piece's edges are there, and whether left and right differ.

use super::model::PartId;
use super::stitching::{Finder, Place};
use crate::few::Few;
use crate::garment::{CutHow, Garment, Part};
use crate::resolve::{DrawnEdgeId, DrawnPiece};

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

/// The parts of which several plies of a side each take another copy, naming the same edge: the upper and the under one of two
/// collars. The two of a pair are of no side of the body then. `is_in_middle` tells of an edge whether left and right come
/// together beside it.
///
/// Of two pairs on both sides of the body each takes its own, as cuffs do; where they come together in the middle, as halves of
/// hoods do, nothing tells which two lie on one another. Nor does it of halves on the fold, of which an edge that meets itself
/// is left and right.
pub(super) fn lying_in_plies(
    finder: &Finder,
    sides: &[Few<Few<Place>>; 2],
    is_in_middle: &dyn Fn(&Place) -> bool,
) -> Few<PartId> {
    let mut found = Few::new();
    for plies in sides.iter().filter(|plies| plies.len() > 1) {
        for place in plies.iter().flatten().filter(|place| !place.elsewhere) {
            let is_own =
                |other: &Place| !other.elsewhere && (other.part, other.edge) == (place.part, place.edge);
            let named = plies.iter().filter(|places| places.iter().any(is_own)).count();
            let beside = || sides.iter().flatten().flatten().filter(|other| other.part != place.part);
            let lies = named > 1
                && finder.twin(place.part).is_none()
                && finder.drawn(place.part).is_some_and(|drawn| match (drawn.cut, drawn.count as usize) {
                    (CutHow::Alike, count) => count >= named,
                    (CutHow::Mirrored, count) if named == 2 => count == 2 || !beside().any(is_in_middle),
                    (CutHow::Mirrored | CutHow::OnFold(_), _) => false,
                });
            if lies && !found.contains(&place.part) {
                found.push(place.part);
            }
        }
    }
    found
}

/// Whether left and right of what an edge is of come together beside it: at the fold, at what is sewn left to right, or
/// somewhere on it, where it is there but once.
pub(super) fn is_in_middle(
    finder: &Finder,
    place: &Place,
    is_crossed: &dyn Fn(PartId, DrawnEdgeId) -> bool,
) -> bool {
    finder.drawn(place.part).is_none_or(|drawn| {
        let beside = [drawn.before(place.edge), drawn.after(place.edge)];
        match drawn.cut {
            CutHow::Alike => drawn.count == 1,
            CutHow::Mirrored => beside.into_iter().any(|edge| is_crossed(place.part, edge)),
            CutHow::OnFold(fold) => beside.into_iter().any(|edge| {
                let is_fold = drawn.edge_at(edge).is_some_and(|own| finder.garment.is_run_of(own.edge, fold));
                is_fold || is_crossed(place.part, edge)
            }),
        }
    })
}
