//! Which pieces are spoken of on one side of the body alone, so that their left and right may differ.

use super::Lowering;
use crate::garment::{Chain, CutHow, EdgeId, PieceId, Seam, SewnEdge};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::Hand;

impl Lowering<'_> {
    /// Gives every edge of a one-sided seam or closure its side, and marks the pieces whose sides may
    /// differ. Where a seam or closure names both sides, each edge is meant as it is named.
    pub(super) fn mark_sides(&mut self) {
        self.report_sideless();
        for seam in &mut self.garment.seams {
            let Seam { first, second, .. } = seam;
            on_one_side(first.iter_mut().chain(second));
        }
        for closure in &mut self.garment.closures {
            on_one_side([&mut closure.first, &mut closure.second].into_iter());
        }
        let mut named: Vec<(PieceId, EdgeId, Span)> = Vec::new();
        let mut add = |sewn: &SewnEdge| {
            if sewn.on.is_some() {
                named.push((sewn.piece, sewn.edge, sewn.span));
            }
        };
        let garment = &self.garment;
        let sides = garment.seams.iter().flat_map(|seam| seam.first.iter().chain(&seam.second));
        let sides = sides.chain(garment.closures.iter().flat_map(|one| [&one.first, &one.second]));
        let sides = sides.chain(garment.openings.iter().map(|opening| &opening.ring));
        sides.flat_map(|chain| &chain.edges).for_each(&mut add);
        garment.finishes.iter().flat_map(|finish| &finish.edges).for_each(&mut add);
        garment.cords.iter().flat_map(|cord| &cord.through).for_each(&mut add);
        garment.rows.iter().flat_map(|row| &row.edges).for_each(|edge| add(&edge.sewn));
        for placement in self.garment.placements.iter().filter(|placement| placement.hand.is_some()) {
            named.extend(
                placement.topstitched.iter().map(|&(edge, _)| (placement.piece, edge, placement.span)),
            );
            named.extend(placement.caught.iter().map(|one| (placement.piece, one.edge, placement.span)));
        }
        for &(piece, edge, span) in &named {
            for (last, _) in self.runs_in_last_pieces(piece, edge) {
                self.garment.pieces[last.index()].one_sided.get_or_insert(span);
                self.garment.pieces[last.index()].told_apart = true;
            }
        }
        self.tell_apart_beside(&named);
    }

    /// What one side takes an edge from is sewn on the other side alone: so is all that it is sewn to there.
    fn tell_apart_beside(&mut self, named: &[(PieceId, EdgeId, Span)]) {
        let garment = &self.garment;
        let is_named = |sewn: &SewnEdge| {
            let is_it =
                |edge: EdgeId| garment.is_run_of(sewn.edge, edge) || garment.is_run_of(edge, sewn.edge);
            sewn.on.is_none() && named.iter().any(|&(_, edge, _)| is_it(edge))
        };
        let seams = garment.seams.iter().map(|seam| seam.first.iter().chain(&seam.second).collect());
        let closures = garment.closures.iter().map(|closure| vec![&closure.first, &closure.second]);
        let mut beside: Vec<(PieceId, EdgeId)> = Vec::new();
        for chains in seams.chain(closures) {
            let chains: Vec<&Chain> = chains;
            let edges = || chains.iter().flat_map(|chain| &chain.edges);
            if edges().any(is_named) {
                beside.extend(edges().map(|sewn| (sewn.piece, sewn.edge)));
            }
        }
        for (piece, edge) in beside {
            for (last, _) in self.runs_in_last_pieces(piece, edge) {
                self.garment.pieces[last.index()].told_apart = true;
            }
        }
    }

    /// One side of the body is named of what is cut alike.
    fn report_sideless(&self) {
        let garment = &self.garment;
        let has_sides = |sewn: &SewnEdge| {
            let last = self.runs_in_last_pieces(sewn.piece, sewn.edge);
            let is_one = |piece: PieceId| {
                garment.side_of(piece).is_some() || garment.piece(piece).cut.how != CutHow::Alike
            };
            last.is_empty() || last.iter().any(|(piece, _)| is_one(*piece))
        };
        let mut sideless: Vec<(PieceId, Span)> = Vec::new();
        let seams = garment.seams.iter().map(|seam| seam.first.iter().chain(&seam.second).collect());
        let closures = garment.closures.iter().map(|closure| vec![&closure.first, &closure.second]);
        for chains in seams.chain(closures) {
            let chains: Vec<&Chain> = chains;
            let edges = || chains.iter().flat_map(|chain| &chain.edges);
            // A band that is cut once may close on one side, with what is there on both.
            if let Some(named) = edges().find(|sewn| sewn.on.is_some())
                && !edges().any(has_sides)
            {
                sideless.push((named.piece, named.span));
            }
        }
        let alone = garment.finishes.iter().flat_map(|finish| &finish.edges);
        let alone = alone.chain(garment.cords.iter().flat_map(|cord| &cord.through));
        let alone = alone.chain(garment.rows.iter().flat_map(|row| &row.edges).map(|edge| &edge.sewn));
        let alone = alone.chain(garment.openings.iter().flat_map(|opening| &opening.ring.edges));
        let alone = alone.filter(|sewn| sewn.on.is_some() && !has_sides(sewn));
        sideless.extend(alone.map(|sewn| (sewn.piece, sewn.span)));
        let placed = garment.placements.iter().filter(|placement| {
            let on = garment.piece(placement.on);
            placement.hand.is_some() && on.ended_by.is_none() && on.cut.how == CutHow::Alike
        });
        sideless.extend(placed.map(|placement| (placement.on, placement.span)));
        for (piece, span) in sideless {
            let known = garment.piece(piece);
            if known.cut.span.is_empty() {
                continue;
            }
            let title = format!("{} is cut alike: it is on neither side of the body", known.title);
            let diagnostic = Diagnostic::new(&catalogue::SIDE_NONE, span, title)
                .label("neither left nor right")
                .also(known.cut.span, "cut alike")
                .help(format!(
                    "write cut 2 mirrored in {}, if there is a left and a right one; else leave out the side",
                    known.name
                ));
            self.report(diagnostic);
        }
    }
}

/// Where one side alone is named, all edges are meant on that side.
fn on_one_side<'c>(chains: impl Iterator<Item = &'c mut Chain>) {
    let chains: Vec<&mut Chain> = chains.collect();
    let edges = || chains.iter().flat_map(|chain| &chain.edges);
    let is_named = |hand: Hand| edges().any(|sewn| sewn.on == Some(hand));
    let only = match (is_named(Hand::Left), is_named(Hand::Right)) {
        (true, false) => Hand::Left,
        (false, true) => Hand::Right,
        _ => return,
    };
    for sewn in chains.into_iter().flat_map(|chain| &mut chain.edges) {
        sewn.on = Some(only);
    }
}
