//! How long a closure's sides are, and which zip goes in.

use super::drawn_piece::DrawnPiece;
use super::model::{DrawnEdgeId, ZipFit};
use super::work::Work;
use crate::garment::{
    AlterationId, Chain, ClosureId, ClosureKind, EdgeUse, Garment, LayerId, Moment, PaperUse, PieceId,
    PieceOrigin, SewnEdge,
};
use std::sync::Arc;

/// The first sewn layer that has the piece, or pieces made of it by split or join: where a seam or
/// closure without a layer looks first.
pub fn sewn_layer(garment: &Garment, piece: PieceId) -> Option<LayerId> {
    let sewn = garment.layers.iter().enumerate().filter(|(_, layer)| !layer.fused);
    let mut has = sewn.filter(|(_, layer)| layer.pieces.iter().any(|&cut| is_made_of(garment, cut, piece)));
    has.next().map(|(at, _)| LayerId::from_index(at))
}

/// Whether a piece is another, or was made of it by splits and joins.
pub(super) fn is_made_of(garment: &Garment, piece: PieceId, of: PieceId) -> bool {
    let mut open = vec![piece];
    // Each piece is made once, so no way back is longer than there are pieces.
    for _ in 0..=2 * garment.pieces.len() {
        let Some(piece) = open.pop() else { return false };
        if piece == of {
            return true;
        }
        match garment.pieces.get(piece.index()).map(|piece| piece.origin) {
            Some(PieceOrigin::Split { of, .. }) => open.push(of),
            Some(PieceOrigin::Join { by }) => open.extend(garment.pieces_joined(by)),
            Some(PieceOrigin::Drawn) | None => {}
        }
    }
    false
}

impl Work<'_> {
    /// The finished length of both sides of a closure, on one copy, as the papers stand now.
    pub(super) fn sides(&self, closure: ClosureId) -> Option<[f64; 2]> {
        let closure = self.garment.closures.get(closure.index())?;
        Some([self.chain(&closure.first)?, self.chain(&closure.second)?])
    }

    fn chain(&self, chain: &Chain) -> Option<f64> {
        chain.edges.iter().map(|edge| self.sewn_length(edge)).sum()
    }

    fn sewn_length(&self, sewn: &SewnEdge) -> Option<f64> {
        let garment = self.garment;
        let layer = sewn.layer.or_else(|| sewn_layer(garment, sewn.piece));
        let of = garment.edges.get(sewn.edge.index())?.piece;
        let papers = self.finally(layer, of)?;
        let mut sum: Option<f64> = None;
        for drawn in papers {
            for (id, edge) in DrawnEdgeId::enumerate(&drawn.edges) {
                if garment.is_run_of(edge.edge, garment.whole_edge(sewn.edge))
                    && let Some(long) = self.named_length(sewn, layer, drawn, id)?
                {
                    sum = Some(sum.unwrap_or(0.0) + long);
                }
            }
        }
        sum
    }

    /// Reports the edges of a closure that no paper has any more.
    pub(super) fn report_gone_sides(&self, closure: ClosureId) {
        let Some(closure) = self.garment.closures.get(closure.index()) else { return };
        for sewn in closure.first.edges.iter().chain(&closure.second.edges) {
            let layer = sewn.layer.or_else(|| sewn_layer(self.garment, sewn.piece));
            let paper = self.garment.paper_of(layer, sewn.piece);
            let Some((paper, papers)) = paper.zip(self.finally(layer, sewn.piece)) else { continue };
            let is_run = |drawn: &Arc<DrawnPiece>| {
                drawn.edges.iter().any(|edge| self.garment.is_run_of(edge.edge, sewn.edge))
            };
            if !papers.iter().any(|drawn| is_run(drawn)) {
                let used = PaperUse { paper, moment: Moment::Final, span: sewn.span };
                self.report_gone_edge(&EdgeUse { edge: sewn.edge, paper: used }, &papers);
            }
        }
    }

    /// The lengths that a closure's zip may have; none of buttons.
    pub(super) fn zip_lengths(&self, closure: ClosureId) -> Option<(Vec<f64>, bool)> {
        match &self.garment.closures.get(closure.index())?.kind {
            Some(ClosureKind::Zipper { lengths, stocked, .. }) => {
                let lengths: Option<Vec<f64>> =
                    lengths.iter().map(|length| self.scalar(length, None)).collect();
                Some((lengths.filter(|lengths| !lengths.is_empty())?, *stocked))
            }
            _ => None,
        }
    }

    /// The fit of every zip whose sides are known.
    pub(super) fn zip_fits(&self) -> Vec<Option<ZipFit>> {
        let closures = (0..self.garment.closures.len()).map(ClosureId::from_index);
        closures.map(|closure| self.zip_fit(closure)).collect()
    }

    fn zip_fit(&self, closure: ClosureId) -> Option<ZipFit> {
        let (lengths, _) = self.zip_lengths(closure)?;
        let sides = self.sides(closure)?;
        let chosen = self.chosen.get(closure.index()).copied().flatten();
        let zip = chosen.or_else(|| nearest(&lengths, sides[0]))?;
        let solved_by = (0..self.garment.alterations.len()).map(AlterationId::from_index).find(|&id| {
            let solved = self.garment.alteration(id).until().is_some_and(|until| until.closure == closure);
            solved && self.amounts.get(id.index()).copied().flatten().is_some()
        });
        Some(ZipFit { closure, sides, zip, solved_by })
    }
}

/// Of the lengths the nearest; of two equally near the first.
pub(super) fn nearest(lengths: &[f64], wanted: f64) -> Option<f64> {
    let away = |length: &f64| (length - wanted).abs();
    lengths.iter().copied().min_by(|a, b| away(a).total_cmp(&away(b)))
}
