//! A piece that says another of its edges for its fold: the one is sewn as well, and the other left loose.

use super::about::{About, Looking};
use super::{cuts, misnamed};
use crate::check::words;
use crate::garment::{Catcher, EdgeId, Garment, PieceId};
use crate::once_each::once_each;
use crate::report::Diagnostic;
use crate::report::catalogue::{self, Entry};

/// What comes of it in the seams of such a piece.
const OF_SEAMS: [&Entry; 6] = [
    &catalogue::SEAM_ENDS,
    &catalogue::SEAM_MATCHING,
    &catalogue::SEAM_JUMPS,
    &catalogue::SEAM_UNEQUAL,
    &catalogue::SEAM_TWISTED,
    &catalogue::CLOSURE_JUMPS,
];

/// It is told where the fold is said, once for all pieces that are drawn like one another.
pub(super) fn instead(garment: &Garment, mut found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let looking = Looking { garment };
    let mut loose: Vec<EdgeId> = found
        .iter()
        .filter(|one| one.is(&catalogue::EDGE_LOOSE))
        .filter_map(|one| misnamed::loose_edge(garment, one))
        .collect();
    // What is drawn once for several pieces is told of each.
    once_each(&mut loose);
    let only_loose = |piece: PieceId| -> Option<EdgeId> {
        let mut own = loose.iter().filter(|edge| garment.edge(**edge).piece == piece);
        own.next().filter(|_| own.next().is_none()).copied()
    };
    let slip = found.iter().filter(|one| one.is(&catalogue::EDGE_TWICE)).find_map(|one| {
        let mut pieces = PieceId::enumerate(&garment.pieces).map(|(piece, _)| piece);
        pieces.find_map(|piece| Some((piece, only_loose(piece).filter(|_| cuts(garment, one, piece))?)))
    });
    let Some((piece, meant)) = slip else { return found };
    let cut = garment.piece(piece).cut.span;
    let name = &garment.edge(meant).name;
    // Pieces that are like one another say it once.
    let alike: Vec<PieceId> = PieceId::enumerate(&garment.pieces)
        .map(|(other, _)| other)
        .filter(|&other| garment.piece(other).cut.span == cut)
        .collect();
    let takes = |about: About| looking.edges(about).any(|sewn| alike.contains(&sewn.piece));
    let is_caught = |one: &Diagnostic| {
        garment.straps.iter().filter(|strap| strap.length.span == one.span()).any(|strap| {
            strap.runs.iter().flat_map(|run| run.ends()).any(|end| match end.caught {
                Some(Catcher::Seam(id)) => takes(About::Seam(id)),
                Some(Catcher::Closure(id)) => takes(About::Closure(id)),
                None => false,
            })
        })
    };
    let mut first = None;
    found.retain(|one| {
        let is_twice = one.is(&catalogue::EDGE_TWICE) && alike.iter().any(|&piece| cuts(garment, one, piece));
        if is_twice && first.is_none() {
            first = Some(one.clone());
        }
        let is_loose = one.is(&catalogue::EDGE_LOOSE)
            && misnamed::loose_edge(garment, one).is_some_and(|edge| {
                alike.contains(&garment.edge(edge).piece) && garment.edge(edge).name == *name
            });
        let is_of_seam = one.is_any(&OF_SEAMS) && looking.about(one).into_iter().any(takes);
        let has_none =
            one.is(&catalogue::ALLOWANCE_NONE) && alike.iter().any(|&piece| cuts(garment, one, piece));
        !(is_twice || is_loose || has_none || is_of_seam || one.is(&catalogue::STRAP_SHORT) && is_caught(one))
    });
    found.extend(first.map(|first| {
        first.also(garment.edge(meant).span, "and this is neither sewn nor finished").help(format!(
            "is {name} the fold of {}? cut … on fold {name}; or open it at the edge that is sewn, and sew or finish {name}",
            words::piece(garment, piece)
        ))
    }));
    found
}
