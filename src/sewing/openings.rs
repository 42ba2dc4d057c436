//! How far an opening opens: the whole ring, its cloth at full stretch, and closures undone.

use super::ends::{Corners, Node};
use super::give::give;
use super::hands;
use super::model::{OpeningRing, PartId, SewnPart, SewnPly, SewnSeam, TakenBy};
use super::seams::strand::Strand;
use super::stitching::{Finder, Place};
use crate::garment::{Chain, ClosureId, FinishId, Garment, Opening};
use crate::resolve::{DrawnEdgeId, SizedGarment, finished, sewn_layer};
use std::collections::HashMap;

/// Every opening, in the order of the garment. `elastic` reports each finish how many times the length
/// of its channel the elastic in it stretches to.
pub fn openings<'a>(
    garment: &'a Garment,
    sized: &'a SizedGarment,
    finder: &Finder<'a>,
    corners: &mut Corners<'a>,
    seams: &[SewnSeam],
    parts: &[SewnPart],
    elastic: &[Option<f64>],
) -> Vec<Option<OpeningRing>> {
    if garment.openings.is_empty() {
        return Vec::new();
    }
    let mut opens =
        Opens { garment, sized, finder, corners, seams, of_edge: HashMap::new(), held: HashMap::new() };
    for (part, sewn) in PartId::enumerate(parts) {
        for (edge, fate) in DrawnEdgeId::enumerate(&sewn.edges) {
            for taker in &fate.takers {
                if let TakenBy::Finish(id) = taker.what
                    && let Some(share) = elastic.get(id.index()).copied().flatten()
                {
                    opens.held.insert((part, edge), (id, share));
                }
            }
        }
    }
    for (at, seam) in seams.iter().enumerate() {
        for (side, plies) in [&seam.first.plies, &seam.second.plies].into_iter().enumerate() {
            for run in plies.iter().flat_map(|ply| &ply.runs) {
                let known = opens.of_edge.entry((run.part, run.edge)).or_default();
                if known.last() != Some(&(at, side == 1)) {
                    known.push((at, side == 1));
                }
            }
        }
    }
    garment.openings.iter().map(|opening| opens.ring(opening)).collect()
}

struct Opens<'a, 'c> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    finder: &'c Finder<'a>,
    corners: &'c mut Corners<'a>,
    seams: &'c [SewnSeam],
    /// The seams that take an edge, and on which side.
    of_edge: HashMap<(PartId, DrawnEdgeId), Vec<(usize, bool)>>,
    /// The edges that elastic holds, and how many times their length they stretch to.
    held: HashMap<(PartId, DrawnEdgeId), (FinishId, f64)>,
}

impl Opens<'_, '_> {
    fn ring(&mut self, opening: &Opening) -> Option<OpeningRing> {
        let places = self.places(&opening.ring)?;
        let strand = Strand::of(self.corners, &places, &|_| None, &[])?;
        // Joined end to end on one hand, it is a ring by itself: a wrist, a trouser hem.
        let is_whole = strand.start == strand.end || self.corners.joined(strand.start, strand.end);
        let (mut length, mut stretched) = (0.0, 0.0);
        let mut held_by = None;
        let mut nodes: Vec<Node> = Vec::new();
        for place in &places {
            let drawn = self.finder.drawn(place.part)?;
            let times = if is_whole { 1.0 } else { f64::from(hands::times(drawn)) };
            let own = times * finished(self.garment, drawn, place.edge)?;
            length += own;
            let stretches = self.stretches_to(place);
            match self.held.get(&(place.part, place.edge)) {
                Some(&(finish, share)) if share < stretches => {
                    stretched += own * share;
                    held_by = held_by.or(Some(finish));
                }
                _ => stretched += own * stretches,
            }
            nodes.extend(
                [false, true]
                    .iter()
                    .filter_map(|&is_end| self.corners.end_of(place.part, place.edge, is_end)),
            );
        }
        let closures = self.closures(opening, &nodes);
        let known = length.is_finite() && stretched.is_finite();
        known.then_some(OpeningRing { length, stretched, held_by, closures })
    }

    fn places(&self, chain: &Chain) -> Option<Vec<Place>> {
        let mut places = Vec::new();
        for sewn in &chain.edges {
            let layer = sewn.layer.or_else(|| sewn_layer(self.garment, sewn.piece))?;
            let found = self.finder.in_layer(layer, sewn);
            if found.is_empty() {
                return None;
            }
            places.extend(found);
        }
        Some(places)
    }

    /// How many times its length an edge stretches to: as its own cloth does, and no further than
    /// each ply that it is sewn to. Cloth of which nothing is said is not counted on.
    fn stretches_to(&self, place: &Place) -> f64 {
        let own = 1.0 + self.give(place.part, place.edge);
        let takers = self.of_edge.get(&(place.part, place.edge)).into_iter().flatten();
        takers.fold(own, |least, &(at, is_second)| {
            let Some(seam) = self.seams.get(at).filter(|seam| seam.known) else { return least };
            let ours = if is_second { &seam.second } else { &seam.first };
            let long = ours.plies.first().map_or(0.0, |ply| ply.length);
            let plies = seam.first.plies.iter().chain(&seam.second.plies);
            plies.fold(least, |least, ply| match long > 0.0 {
                true => least.min((self.fully(ply) / long).max(1.0)),
                false => least,
            })
        })
    }

    fn fully(&self, ply: &SewnPly) -> f64 {
        ply.runs.iter().map(|run| run.length * (1.0 + self.give(run.part, run.edge))).sum()
    }

    fn give(&self, part: PartId, edge: DrawnEdgeId) -> f64 {
        give(self.garment, self.sized, &self.finder.part(part), edge).share().unwrap_or(0.0)
    }

    /// Closures of which an edge begins at the ring, or whose line lies on a piece of it.
    fn closures(&mut self, opening: &Opening, nodes: &[Node]) -> Vec<(ClosureId, f64)> {
        let mut found = Vec::new();
        for (id, closure) in ClosureId::enumerate(&self.garment.closures) {
            let edges = closure.first.edges.iter().chain(&closure.second.edges);
            let mut touches = false;
            for sewn in edges {
                let is_line = self.garment.edge(sewn.edge).line;
                touches |= is_line && opening.ring.edges.iter().any(|edge| edge.piece == sewn.piece);
                for place in self.finder.everywhere(sewn) {
                    let ends =
                        [false, true].map(|is_end| self.corners.end_of(place.part, place.edge, is_end));
                    touches |= ends
                        .into_iter()
                        .flatten()
                        .any(|end| nodes.iter().any(|&node| node == end || self.corners.joined(node, end)));
                }
            }
            if touches && let Some(length) = self.closure_length(id) {
                found.push((id, 2.0 * length));
            }
        }
        found
    }

    fn closure_length(&self, id: ClosureId) -> Option<f64> {
        if let Some(fit) = self.sized.zips.get(id.index()).copied().flatten() {
            return Some(fit.zip.min(fit.sides[0].max(fit.sides[1])));
        }
        let chain = &self.garment.closure(id).first;
        let mut length = 0.0;
        for sewn in &chain.edges {
            let layer = sewn.layer.or_else(|| sewn_layer(self.garment, sewn.piece))?;
            for place in self.finder.in_layer(layer, sewn) {
                length += finished(self.garment, self.finder.drawn(place.part)?, place.edge)?;
            }
            let paper = self.garment.paper_of(Some(layer), sewn.piece)?;
            let drawn = self.sized.paper(paper)?;
            let lines = drawn.lines.iter().filter(|line| line.edge == sewn.edge);
            length += lines.map(|line| line.path.length()).sum::<f64>();
        }
        Some(length)
    }
}
