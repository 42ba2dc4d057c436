//! The cutting line of a part, before anything is written on it.

use super::allowed::{Allowed, CornerCut, Darted, Laid};
use super::line::{CutRun, Unfit, cutting_line_over};
use crate::garment::{Garment, Piece};
use crate::resolve::{DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::sewing::{Sewing, SewnPart, TakenBy, piece_allowance};
use crate::shape::path::Path;

/// The cutting line of a part, before anything is written on it.
#[derive(Clone, Debug)]
pub(crate) enum PartLine {
    /// Its allowances could not be worked out, which has been reported.
    Unknown,
    /// The line.
    Cut(Vec<CutRun>),
    /// Why there is none.
    Unfit(Unfit),
}

/// The cutting lines of all parts, in their order.
pub(super) fn lines(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<PartLine> {
    let line = |sewn: &SewnPart| -> Option<Result<Vec<CutRun>, Unfit>> {
        let drawn = sized.paper(sewn.part.paper)?;
        let corners = corners(garment.piece(sewn.part.piece), drawn);
        let darts = darts(garment, sized, sewn, drawn);
        Some(cutting_line_over(&stitching(drawn), &allowed(sewn)?, &corners, &darts?))
    };
    let known = |sewn: &SewnPart| match line(sewn) {
        None => PartLine::Unknown,
        Some(Ok(line)) => PartLine::Cut(line),
        Some(Err(unfit)) => PartLine::Unfit(unfit),
    };
    sewing.parts.iter().map(known).collect()
}

/// The darts of each edge, with what they are given; none at all where no edge has one, nothing where an
/// allowance could not be worked out. What is fused on has no allowances.
fn darts(
    garment: &Garment,
    sized: &SizedGarment,
    sewn: &SewnPart,
    drawn: &DrawnPiece,
) -> Option<Vec<Vec<Darted>>> {
    if drawn.take_ups.iter().all(|take_up| take_up.mouth.is_none()) {
        return Some(Vec::new());
    }
    let own = match sewn.fused {
        true => Some(0.0),
        false => piece_allowance(garment, sized, sewn.part.piece),
    };
    let edges = DrawnEdgeId::enumerate(&drawn.edges).map(|(edge, _)| {
        let darted = drawn.take_ups_on(edge).into_iter().map(|(take_up, mouth)| {
            let laid = match take_up.pressed {
                Some(toward) => Laid::Pressed(toward),
                None => Laid::CutOpen(own?),
            };
            Some(Darted { wedge: take_up.wedge, mouth: (mouth.from, mouth.to), laid })
        });
        darted.collect::<Option<Vec<Darted>>>()
    });
    edges.collect()
}

/// The outline that is sewn along, edge by edge.
pub(super) fn stitching(drawn: &DrawnPiece) -> Vec<Path> {
    drawn.edges.iter().map(|edge| edge.path.clone()).collect()
}

/// The widest allowance of a part, in millimetres, what is fused on having none; none where one of
/// them could not be worked out.
pub fn widest_allowance(sewn: &SewnPart) -> Option<f64> {
    Some(allowed(sewn)?.iter().map(|one| one.width).fold(0.0, f64::max))
}

/// What each edge is given; none where one of them could not be worked out. What is fused on is
/// cut without allowances.
pub(super) fn allowed(sewn: &SewnPart) -> Option<Vec<Allowed>> {
    let one = |fate: &crate::sewing::EdgeFate| {
        let fold = fate.takers.iter().any(|taker| taker.what == TakenBy::Fold);
        let width = if fold || sewn.fused { Some(0.0) } else { fate.allowance };
        let turned_up = fate.turned_up && !sewn.fused;
        width.filter(|width| width.is_finite()).map(|width| Allowed {
            width: width.max(0.0),
            turned_up,
            turned_under: fate.turned_under.filter(|_| turned_up),
            fold,
        })
    };
    sewn.edges.iter().map(one).collect()
}

/// How the corner after each edge is cut.
fn corners(piece: &Piece, drawn: &DrawnPiece) -> Vec<CornerCut> {
    let count = drawn.edges.len();
    let pairs = (0..count).map(|at| (drawn.edges.get(at), drawn.edges.get((at + 1) % count)));
    pairs
        .map(|(before, after)| {
            let (Some(before), Some(after)) = (before, after) else { return CornerCut::default() };
            let pair = (before.edge, after.edge);
            let said = piece.corners.iter().find(|corner| {
                pair == (corner.first, corner.second) || pair == (corner.second, corner.first)
            });
            said.map_or(CornerCut::default(), |corner| CornerCut {
                style: Some(corner.style),
                second_first: corner.first == after.edge,
            })
        })
        .collect()
}
