//! What becomes of every edge of every part.

use super::allowances::allowance;
use super::model::{EdgeFate, PartId, SewnPart, TakenBy, Taker};
use super::reach::Reach;
use super::stitching::{Finder, Place, Stitching};
use crate::few::Few;
use crate::garment::{
    Caught, Chain, Closure, ClosureId, ClosureKind, CutHow, EdgeId, Finish, FinishId, FinishKind, Garment,
    LayerId, Outline, Piece, Placement, PlacementId, Seam, SewnEdge, StrapId,
};
use crate::resolve::{DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::source::Span;
use crate::syntax::tree::Hand;

/// Every part that could be drawn, with all that takes its edges and with its edges' allowances.
///
/// An edge that one seam names on both sides (left meets right), or in two plies that two copies of it make, is taken once by
/// it. One that a seam takes in two layers, or that is named twice on one side in a row, is taken twice.
pub fn parts(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    stitchings: &[Stitching],
) -> Vec<SewnPart> {
    let mut taking = Taking { garment, sized, parts: empty_parts(garment, sized, finder) };
    let mut first: Vec<(PartId, DrawnEdgeId)> = Vec::new();
    for stitching in stitchings {
        first.clear();
        for (side, plies) in stitching.sides.iter().enumerate() {
            let places =
                plies.iter().enumerate().flat_map(|(ply, all)| all.iter().map(move |one| (ply, one)));
            for (ply, place) in places.filter(|(_, place)| !place.elsewhere) {
                let at = (place.part, place.edge);
                if side == 0 {
                    first.push(at);
                } else if first.contains(&at) {
                    continue;
                }
                if is_another_copy(stitching, plies, ply, place) {
                    continue;
                }
                // What is not told apart lies in both of two one-sided seams, and is taken once.
                let is_second = stitching.reach == Reach::On { hand: Hand::Right, of_two: true };
                if !is_second || finder.hand(place.part).is_some() {
                    taking.take(place, TakenBy::Seam(stitching.seam, side == 1));
                }
            }
        }
        for (side, plies) in stitching.right.iter().flatten().enumerate() {
            let own = |place: &&Place| !place.elsewhere && finder.hand(place.part).is_some();
            for place in plies.iter().flatten().filter(own) {
                taking.take(place, TakenBy::Seam(stitching.seam, side == 1));
            }
        }
    }
    for (id, finish) in FinishId::enumerate(&garment.finishes) {
        for sewn in &finish.edges {
            finder.each_everywhere(sewn, &mut |place| taking.take(&place, TakenBy::Finish(id)));
        }
    }
    let takes_edges = |closure: &Closure| {
        closure.kind.as_ref().map_or(!garment.incomplete.sewing, ClosureKind::takes_edges)
    };
    for (id, closure) in ClosureId::enumerate(&garment.closures).filter(|(_, one)| takes_edges(one)) {
        let mut taken: Vec<(PartId, DrawnEdgeId)> = Vec::new();
        for side in [&closure.first, &closure.second] {
            let places: Vec<Place> = side.edges.iter().flat_map(|sewn| finder.everywhere(sewn)).collect();
            let fresh = places.iter().filter(|place| !taken.contains(&(place.part, place.edge)));
            let fresh: Vec<Place> = fresh.copied().collect();
            for place in &fresh {
                taking.take(place, TakenBy::Closure(id));
            }
            taken.extend(fresh.iter().map(|place| (place.part, place.edge)));
        }
    }
    for (id, placement) in PlacementId::enumerate(&garment.placements) {
        let named = |edge: EdgeId, span: Span| -> Vec<Place> {
            let piece = garment.edge(edge).piece;
            let (layer, on) = (placement.layer, placement.hand);
            finder.everywhere(&SewnEdge { layer, piece, edge, on, user: None, span })
        };
        for place in placement.topstitched.iter().flat_map(|&(edge, span)| named(edge, span)) {
            taking.take(&place, TakenBy::Topstitched(id));
        }
        for &Caught { edge, span, by } in &placement.caught {
            for place in named(edge, span) {
                taking.take(&place, TakenBy::Caught(id, by));
            }
        }
        if let Some(span) = placement.all_round {
            taking.take_all_round(id, placement, span);
        }
    }
    for (id, strap) in StrapId::enumerate(&garment.straps) {
        let Outline::Rectangle { edges, .. } = garment.piece(strap.piece).drawing.outline else { continue };
        // Folded in four, its long edges lie inside.
        let long = |at: &usize| at % 2 == 1;
        for edge in (0..edges.len()).filter(|at| !(strap.in_four && long(at))).map(|at| edges[at]) {
            let (piece, span) = (strap.piece, strap.name_span);
            let of = SewnEdge { layer: None, piece, edge, on: None, user: None, span };
            finder.each_everywhere(&of, &mut |place| taking.take(&place, TakenBy::Strap(id)));
        }
    }
    taking.fold_and_allow();
    taking.parts
}

/// Whether a ply takes another copy of what an earlier ply of its side takes.
fn is_another_copy(stitching: &Stitching, plies: &[Few<Place>], ply: usize, place: &Place) -> bool {
    let is_own = |other: &Place| !other.elsewhere && (other.part, other.edge) == (place.part, place.edge);
    stitching.in_plies.contains(&place.part) && plies.iter().take(ply).flatten().any(is_own)
}

fn empty_parts(garment: &Garment, sized: &SizedGarment, finder: &Finder) -> Vec<SewnPart> {
    let parts = PartId::enumerate(finder.parts);
    parts
        .map(|(id, &part)| {
            let edges = sized.paper(part.paper);
            SewnPart {
                part,
                hand: finder.hand(id),
                fused: garment.layer(part.layer).fused,
                edges: vec![EdgeFate::default(); edges.map_or(0, |drawn| drawn.edges.len())],
                notches: Vec::new(),
                fasteners: Vec::new(),
                rows: Vec::new(),
                line_rows: Vec::new(),
                tacks: Vec::new(),
                gaps: Vec::new(),
            }
        })
        .collect()
}

/// Parts whose edges are being taken.
struct Taking<'a> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    parts: Vec<SewnPart>,
}

impl Taking<'_> {
    fn take(&mut self, place: &Place, what: TakenBy) {
        let part = self.parts.get_mut(place.part.index());
        let fate = part.and_then(|part| part.edges.get_mut(place.edge.index()));
        if let Some(fate) = fate {
            fate.takers.push(Taker { what, span: place.span });
        }
    }

    /// Every edge of what is placed that neither is caught with it nor lies on a fold.
    fn take_all_round(&mut self, id: PlacementId, placement: &Placement, span: Span) {
        for sewn in self.parts.iter_mut().filter(|sewn| !sewn.fused) {
            let is_meant = placement.layer.is_none_or(|layer| layer == sewn.part.layer);
            if sewn.part.piece != placement.piece || !is_meant {
                continue;
            }
            let Some(drawn) = self.sized.paper(sewn.part.paper) else { continue };
            for (edge, fate) in drawn.edges.iter().zip(&mut sewn.edges) {
                let is_fold =
                    matches!(drawn.cut, CutHow::OnFold(fold) if self.garment.is_run_of(edge.edge, fold));
                let is_caught = |taker: &Taker| matches!(taker.what, TakenBy::Caught(own, _) if own == id);
                if !is_fold && !fate.takers.iter().any(is_caught) {
                    fate.takers.push(Taker { what: TakenBy::Topstitched(id), span });
                }
            }
        }
    }

    fn fold_and_allow(&mut self) {
        for sewn in self.parts.iter_mut().filter(|sewn| !sewn.fused) {
            let Some(drawn) = self.sized.paper(sewn.part.paper) else { continue };
            let piece = self.garment.piece(sewn.part.piece);
            for (edge, fate) in drawn.edges.iter().zip(&mut sewn.edges) {
                if let CutHow::OnFold(fold) = drawn.cut
                    && (edge.edge == fold || self.garment.is_run_of(edge.edge, fold))
                {
                    fate.takers.push(Taker { what: TakenBy::Fold, span: piece.cut.span });
                }
                let inside =
                    piece.folds.iter().find(|over| over.in_four && over.is_of(self.garment, edge.edge));
                let is_raw = |taker: &Taker| match taker.what {
                    TakenBy::Finish(id) => matches!(self.garment.finish(id).kind, FinishKind::Raw),
                    _ => false,
                };
                if let Some(over) = inside.filter(|_| fate.takers.iter().all(is_raw)) {
                    // It is drawn to the middle of the fold, and nothing is sewn along it.
                    (fate.allowance, fate.allowance_span) = (Some(0.0), Some(over.span));
                    fate.folded_in = fate.takers.is_empty();
                    continue;
                }
                if is_as_cut(piece, edge.edge, fate) {
                    (fate.allowance, fate.allowance_span) = (Some(0.0), Some(piece.span));
                    continue;
                }
                let said = allowance(self.garment, self.sized, sewn.part.piece, &fate.takers);
                fate.allowance = match self.garment.edge(edge.edge).side_of {
                    Some(slit) => in_window(drawn, slit, said.amount),
                    None => said.amount,
                };
                fate.allowance_span = said.span;
                fate.turned_up = said.turned_up;
                fate.turn_up = said.turn_up;
                fate.turned_under = said.turned_under;
            }
        }
    }
}

/// What there is beyond the side of a slit: half of its window at most, in millimetres.
fn in_window(drawn: &DrawnPiece, slit: EdgeId, said: Option<f64>) -> Option<f64> {
    let slit = drawn.uncut().slits.iter().find(|own| own.name == slit)?;
    let half = slit.window() / 2.0;
    Some(said.map_or(half, |said| said.min(half)))
}

/// Whether it is a long edge of a strap that is not folded: that stays as it is cut.
fn is_as_cut(piece: &Piece, edge: EdgeId, fate: &EdgeFate) -> bool {
    let is_strap = fate.takers.iter().any(|taker| matches!(taker.what, TakenBy::Strap(_)));
    let Outline::Rectangle { edges: [_, right, _, left], .. } = piece.drawing.outline else {
        return false;
    };
    is_strap && (edge == right || edge == left)
}

/// Whether these takers may share an edge: one alone; or one seam with closures that it encloses, and
/// with a casing to whose edge the seam sews another layer.
pub fn may_share(garment: &Garment, takers: &[Taker]) -> bool {
    let mut seam = None;
    for taker in takers {
        if let TakenBy::Seam(id, _) = taker.what {
            if seam.is_some() {
                return false;
            }
            seam = Some(id);
        }
    }
    let Some(seam) = seam else { return takers.len() <= 1 };
    let enclosing = &garment.seam(seam).enclosing;
    takers.iter().all(|taker| match taker.what {
        TakenBy::Seam(..) => true,
        TakenBy::Closure(closure) => enclosing.iter().any(|&(enclosed, _)| enclosed == closure),
        TakenBy::Finish(finish) => is_sewn_to_casing(garment, garment.seam(seam), finish),
        _ => false,
    })
}

/// Whether a seam sews one layer to the edge of another's casing.
fn is_sewn_to_casing(garment: &Garment, seam: &Seam, finish: FinishId) -> bool {
    let is_casing = |finish: &Finish| matches!(finish.kind, FinishKind::Casing(..));
    let layers = |chains: &[Chain]| -> Vec<Option<LayerId>> {
        chains.iter().flat_map(|chain| &chain.edges).map(|sewn| sewn.layer).collect()
    };
    let (first, second) = (layers(&seam.first), layers(&seam.second));
    let apart = first.iter().all(|layer| layer.is_some() && !second.contains(layer))
        && second.iter().all(Option::is_some);
    let is_cased = |sewn: &SewnEdge| {
        let casings = garment.finishes.iter().filter(|finish| is_casing(finish));
        casings.flat_map(|finish| &finish.edges).any(|own| {
            own.layer.zip(sewn.layer).is_none_or(|(one, other)| one == other)
                && (garment.is_run_of(own.edge, sewn.edge) || garment.is_run_of(sewn.edge, own.edge))
        })
    };
    let cased =
        |chains: &[Chain]| chains.iter().flat_map(|chain| &chain.edges).filter(|sewn| is_cased(sewn)).count();
    is_casing(garment.finish(finish)) && apart && (cased(&seam.first) == 0 || cased(&seam.second) == 0)
}
