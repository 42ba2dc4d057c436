//! What an alteration that is told to reach too far draws awry: edges that jump, kink or bend, in the pieces that it changes.

use super::about::Looking;
use crate::garment::{Garment, PieceId};
use crate::report::Diagnostic;
use crate::report::catalogue::{self, Entry};
use crate::source::Span;

/// What is to be looked at once the alteration is right.
const DRAWN_AWRY: [&Entry; 4] = [
    &catalogue::ALTER_ADJUST_ALONE,
    &catalogue::ALTER_S_BEND,
    &catalogue::SEAM_KINK,
    &catalogue::SIZE_LINES_CROSS,
];

/// The pieces that such alterations change. One side of one seam alone is a length that is amended there; two seams that no longer
/// match are a piece that lies elsewhere.
pub(super) fn pieces(garment: &Garment, found: &[Diagnostic]) -> Vec<PieceId> {
    let told = |place: Span| {
        found.iter().filter(|one| one.is(&catalogue::ALTER_ONE_SIDE) && one.span() == place).count() > 1
    };
    let own = garment.alterations.iter().filter(|alteration| told(alteration.span));
    own.flat_map(|alteration| alteration.targets.iter().map(|target| target.piece)).collect()
}

/// Whether a message only follows from what these pieces came to.
pub(super) fn follows(garment: &Garment, pieces: &[PieceId], one: &Diagnostic) -> bool {
    let looking = Looking { garment };
    let has = |piece: PieceId| pieces.contains(&piece);
    let of_seam = || looking.about(one).into_iter().flat_map(|about| looking.edges(about));
    if one.is(&catalogue::SEAM_UNEQUAL) {
        return of_seam().any(|sewn| has(sewn.piece));
    }
    let is_of = |place: Span| {
        let edges = garment.edges.iter().any(|edge| edge.span == place && has(edge.piece));
        edges || pieces.iter().any(|&piece| garment.piece(piece).span == place)
    };
    one.is_any(&DRAWN_AWRY)
        && (one.places().any(is_of)
            // What is sewn to it is lengthened for it.
            || one.is(&catalogue::ALTER_ADJUST_ALONE) && !pieces.is_empty())
}
