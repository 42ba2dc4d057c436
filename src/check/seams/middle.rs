//! `seam/matching`: the middle of what is cut on the fold, matched with a corner where left and right do not come together.

use super::braces::Looking;
use crate::check::words;
use crate::garment::{Chain, CutHow, EdgeId, LayerId, Seam, SeamId, SewnPoint, SewnSpot};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::{CornerName, DrawnEdgeId, DrawnPiece};
use crate::sewing::surface::{JoinedBy, Union};
use crate::sewing::{SewnRun, TakenBy};
use crate::syntax::tree::Hand;

/// A corner of a run: its edge's start, or where the next one starts.
struct Spot<'a> {
    run: &'a SewnRun,
    drawn: &'a DrawnPiece,
    /// The edge that starts there, as it is drawn.
    at: DrawnEdgeId,
    /// It lies on a part of another ply.
    is_caught: bool,
}

impl Looking<'_> {
    /// The one lies on a fold, where both halves hang together; the other is there on the left and on the right, and
    /// nothing but this seam would bring those together.
    pub(super) fn off_the_middle(&self, one: &SewnPoint, other: &SewnPoint) -> Option<Finding> {
        let [first, second] = [self.spot(one)?, self.spot(other)?];
        let (middle, beside, within, side) = match (is_middle(self, &first), is_middle(self, &second)) {
            (true, false) => (one, other, first, second),
            (false, true) => (other, one, second, first),
            _ => return None,
        };
        let is_wrong = match side.drawn.cut {
            CutHow::Mirrored => self.other_end(&side).is_some() && self.is_open_beyond(&within),
            // A half that lies on another one, both from the fold.
            CutHow::OnFold(_) => within.is_caught || side.is_caught,
            CutHow::Alike => false,
        };
        let may_meet = || match side.drawn.cut {
            CutHow::Mirrored => self.meets_its_twin(&side).unwrap_or_else(|| self.is_sewn_at(&side)),
            CutHow::OnFold(_) | CutHow::Alike => self.is_sewn_at(&side),
        };
        if !is_wrong || may_meet() {
            return None;
        }
        let [middle_word, beside_word] = [middle, beside].map(|point| self.word(point));
        let piece = words::piece(self.garment, side.drawn.piece);
        let title = format!(
            "{middle_word} lies in the middle, on the fold, and {beside_word} is there on the left and on the right"
        );
        let mut mistake = Diagnostic::new(&catalogue::SEAM_MATCHING, beside.span, title)
            .label("there twice, and nothing sews the two together")
            .also(middle.span, "there once");
        mistake = match self.other_end(&side) {
            Some(end) => mistake.help(format!(
                "left and right of {piece} come together at {end}: match {middle_word} with that, or {beside_word} with the \
                 other end"
            )),
            None => mistake.help(format!(
                "match {beside_word} with the end that lies away from the fold, or {middle_word} with a place in the middle of \
                 {piece}"
            )),
        };
        self.found(mistake)
    }

    fn spot(&self, point: &SewnPoint) -> Option<Spot<'_>> {
        let mut runs = self.plies().flat_map(|ply| {
            let is_caught = ply.runs.iter().any(|run| run.elsewhere);
            ply.runs.iter().filter(|run| !run.elsewhere).map(move |run| (run, is_caught))
        });
        runs.find_map(|(run, is_caught)| {
            let is_end = [false, true].into_iter().find(|is_end| self.is_at(run, *is_end, point))?;
            let drawn = self.drawn(run)?;
            let at = if is_end != run.reversed { drawn.after(run.edge) } else { run.edge };
            Some(Spot { run, drawn, at, is_caught })
        })
    }

    /// Whether another seam takes an edge there, and so brings left and right together or keeps them apart.
    fn is_sewn_at(&self, spot: &Spot) -> bool {
        let part = self.sewing.part(spot.run.part);
        let edges = [spot.at, spot.drawn.before(spot.at)];
        let is_other = |taken: TakenBy| match taken {
            TakenBy::Seam(id, _) => !std::ptr::eq(self.garment.seam(id), self.seam),
            TakenBy::Fold => true,
            _ => false,
        };
        edges
            .iter()
            .filter_map(|&edge| part.fate(edge))
            .any(|fate| fate.takers.iter().any(|taker| is_other(taker.what)))
    }

    /// Whether the other seams alone bring the left and the right one of a corner of a pair together; none where the sewn
    /// surface is not known.
    fn meets_its_twin(&self, spot: &Spot) -> Option<bool> {
        let surface = self.sewing.surface.as_ref()?;
        let mut together = Union::new(surface.stretches.len());
        let is_other = |by: JoinedBy| match by {
            JoinedBy::Seam { seam, .. } => !std::ptr::eq(self.garment.seam(seam), self.seam),
            JoinedBy::Placing(_) => false,
        };
        for join in surface.joins.iter().filter(|join| is_other(join.by)) {
            let Some((first, others)) = join.plies.split_first() else { continue };
            for (ply, is_end) in others.iter().flat_map(|ply| [(ply, false), (ply, true)]) {
                let one = surface.corner(first.stretch, is_end != first.against);
                together.join(one, surface.corner(ply.stretch, is_end != ply.against));
            }
        }
        let pair = self.sewing.left_of(spot.run.part);
        let mut of_hand = |hand: Hand| -> Vec<usize> {
            let faces = surface.faces_of_pair(pair).filter(|&face| surface.face(face).hand == Some(hand));
            let sides = faces.flat_map(|face| surface.sides_of(face));
            let at_it = sides.filter(|&side| surface.side(side).edge == spot.at && !surface.side(side).fold);
            let begins = at_it.filter_map(|side| surface.stretches_on(side).next());
            begins.map(|stretch| together.root(surface.corner(stretch, false))).collect()
        };
        let (left, right) = (of_hand(Hand::Left), of_hand(Hand::Right));
        let is_known = !left.is_empty() && !right.is_empty();
        is_known.then(|| left.iter().any(|corner| right.contains(corner)))
    }

    /// Whether the ply of a run that begins on the fold ends where neither a fold nor a seam brings left and right together.
    fn is_open_beyond(&self, spot: &Spot) -> bool {
        let mut plies = self.plies().filter(|ply| ply.runs.iter().any(|run| std::ptr::eq(run, spot.run)));
        let Some(ply) = plies.next() else { return false };
        [(ply.runs.first(), false), (ply.runs.last(), true)].into_iter().any(|(run, is_end)| {
            let end = run.and_then(|run| {
                let drawn = self.drawn(run)?;
                let at = if is_end != run.reversed { drawn.after(run.edge) } else { run.edge };
                Some((run, drawn, at))
            });
            end.is_some_and(|(run, drawn, at)| !self.is_brought_together(run, drawn, at))
        })
    }

    fn is_brought_together(&self, run: &SewnRun, drawn: &DrawnPiece, at: DrawnEdgeId) -> bool {
        let part = self.sewing.part(run.part);
        [at, drawn.before(at)].into_iter().any(|edge| {
            let takers = part.fate(edge).map(|fate| fate.takers.as_slice()).unwrap_or_default();
            takers.iter().any(|taker| match taker.what {
                TakenBy::Fold => true,
                TakenBy::Seam(id, _) => {
                    drawn.edge_at(edge).is_some_and(|own| self.is_to_itself(id, own.edge, part.part.layer))
                }
                _ => false,
            })
        })
    }

    /// The run's other end, where a seam of an edge with itself, or the fold, brings left and right together.
    fn other_end(&self, spot: &Spot) -> Option<String> {
        let (run, drawn) = (spot.run, spot.drawn);
        let at = if spot.at == run.edge { drawn.after(run.edge) } else { run.edge };
        if !self.is_brought_together(run, drawn, at) {
            return None;
        }
        let part = self.sewing.part(run.part);
        let CornerName::Named(point) = drawn.edge_at(at)?.corner else { return None };
        let layer = Some(part.part.layer)
            .filter(|_| crate::sewing::seam_edges(self.seam).any(|sewn| sewn.layer.is_some()));
        Some(self.word(&SewnPoint { layer, point: SewnSpot::Point(point), span: self.seam.name_span }))
    }

    /// Whether a seam sews an edge of a layer to itself there, and not to the same edge of another layer.
    fn is_to_itself(&self, id: SeamId, edge: EdgeId, layer: LayerId) -> bool {
        let seam: &Seam = self.garment.seam(id);
        let names = |chains: &[Chain]| {
            let mut edges = chains.iter().flat_map(|chain| &chain.edges);
            edges.any(|sewn| {
                sewn.layer.is_none_or(|own| own == layer) && self.garment.is_run_of(edge, sewn.edge)
            })
        };
        names(&seam.first) && names(&seam.second)
    }
}

/// Whether a piece that is cut on the fold has its fold there.
fn is_middle(looking: &Looking, spot: &Spot) -> bool {
    let CutHow::OnFold(fold) = spot.drawn.cut else { return false };
    [spot.at, spot.drawn.before(spot.at)]
        .into_iter()
        .any(|edge| spot.drawn.edge_at(edge).is_some_and(|edge| looking.garment.is_run_of(edge.edge, fold)))
}
