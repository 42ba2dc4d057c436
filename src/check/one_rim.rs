//! What is done along one rim in one go, over the seams from piece to piece, and is told of once.

use super::words;
use crate::cutting::WorkedSize;
use crate::garment::{FinishId, Garment};
use crate::resolve::DrawnEdgeId;
use crate::sewing::{PartId, TakenBy};

/// An edge of a part.
pub(super) type EdgeOfPart = (PartId, DrawnEdgeId);

/// For each of some edges, with what finishes it, the first edge that the same finish takes round the same rim: the same for
/// all edges of one rim. Where the rims are not known it is the edge itself.
pub(super) fn first_edges(size: &WorkedSize, edges: &[(EdgeOfPart, FinishId)]) -> Vec<EdgeOfPart> {
    let mut firsts: Vec<EdgeOfPart> = edges.iter().map(|(edge, _)| *edge).collect();
    let Some(surface) = size.sewn.surface.as_ref().filter(|_| !edges.is_empty()) else { return firsts };
    for rim in size.sewn.gluing.rims(surface) {
        let sides = rim.parts.iter().map(|part| surface.side_of(part.stretch));
        let mut along: Vec<EdgeOfPart> = sides.map(|side| (side.part, side.edge)).collect();
        along.sort_unstable();
        along.dedup();
        for (own, first) in edges.iter().zip(&mut firsts) {
            let (edge, finish) = own;
            if !along.contains(edge) {
                continue;
            }
            let is_taken = |&&(part, edge): &&EdgeOfPart| {
                let takers = size.sewn.part(part).fate(edge).map(|fate| &fate.takers);
                let mut takers = takers.into_iter().flatten();
                takers.any(|taker| matches!(taker.what, TakenBy::Finish(id) if id == *finish))
            };
            if let Some(&found) = along.iter().find(is_taken) {
                *first = found.min(*first);
            }
        }
    }
    firsts
}

/// What messages about a rim are told apart by.
pub(super) fn subject(garment: &Garment, size: &WorkedSize, (part, edge): EdgeOfPart) -> String {
    let own = size.sewn.part(part).part;
    let drawn = size.drawn.paper(own.paper).and_then(|drawn| drawn.edge_at(edge));
    let name = drawn.map_or(String::new(), |drawn| words::edge(garment, drawn.edge));
    garment.part_name(Some(own.layer), own.piece) + &name
}
