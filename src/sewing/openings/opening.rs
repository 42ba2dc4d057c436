//! The rings of every opening that the garment speaks of.

use super::hold::Holding;
use super::lines::{Lines, NamedLine};
use super::model::{OpeningRing, PassedRing, RingBreak};
use super::passed::passed;
use super::reach::reached;
use super::ring::rings;
use super::ways::Ways;
use crate::garment::{Catcher, EdgeId, FinishId, FinishKind, Garment, LayerId, Opening, SewnEdge};
use crate::id_hash::{IdIndexSet, IdMap, IdSet};
use crate::resolve::{DrawnEdgeId, SizedGarment, sewn_layer};
use crate::sewing::model::{PartId, SewnPart, SewnSeam, TakenBy};
use crate::sewing::stitching::{Finder, Place};
use crate::sewing::surface::{RimPart, StretchId, Surface};
use crate::sewing::whole::Sewing;

/// Every opening, in the order of the garment; none where the surface is not known, or is twisted.
/// `elastic` tells of each finish how many times the length of its channel the elastic in it stretches to.
pub(in crate::sewing) fn openings(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    parts: &[SewnPart],
    seams: &[SewnSeam],
    surface: Option<&Surface>,
    elastic: &[Option<f64>],
) -> Vec<Option<OpeningRing>> {
    let surface = surface.filter(|surface| surface.twists.is_empty());
    let (Some(surface), false) = (surface, garment.openings.is_empty()) else {
        return vec![None; garment.openings.len()];
    };
    let mut of_edge: IdMap<(PartId, DrawnEdgeId), Vec<StretchId>> = IdMap::default();
    for id in surface.stretch_ids() {
        let side = surface.side_of(id);
        if !side.fold {
            of_edge.entry((side.part, side.edge)).or_default().push(id);
        }
    }
    let ways = Ways::new(garment, sized, parts, surface);
    let holding = Holding::new(garment, sized, parts, seams, surface, elastic);
    let mut opens = Opens { garment, sized, finder, parts, ways, holding, of_edge };
    garment.openings.iter().map(|opening| opens.opening(opening)).collect()
}

/// The ring that lines make round the body; none where they make none, or several.
pub fn ring_of_lines(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    lines: &[(LayerId, EdgeId)],
) -> Option<PassedRing> {
    let surface = sewing.surface.as_ref().filter(|surface| surface.twists.is_empty())?;
    let ways = Ways::new(garment, sized, &sewing.parts, surface);
    let named: Vec<NamedLine> = lines.iter().map(|&(layer, line)| (layer, line, None)).collect();
    let found = Lines { garment, sized, parts: &sewing.parts, ways: &ways }.rings(&named);
    let mut rings = found.rings.into_iter();
    let ring = rings.next().filter(|ring| found.breaks.is_empty() && ring.opens().is_finite())?;
    rings.next().is_none().then_some(ring)
}

/// Whether two lines inside pieces run on in one another over a seam, each in its layer and on one side of the body or
/// both; none where that cannot be told.
pub fn lines_run_on(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    one: NamedLine,
    other: NamedLine,
) -> Option<bool> {
    let surface = sewing.surface.as_ref().filter(|surface| surface.twists.is_empty())?;
    let ways = Ways::new(garment, sized, &sewing.parts, surface);
    Lines { garment, sized, parts: &sewing.parts, ways: &ways }.run_on(one, other)
}

struct Opens<'a, 'b> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    finder: &'b Finder<'a>,
    parts: &'a [SewnPart],
    ways: Ways<'a>,
    holding: Holding<'a>,
    of_edge: IdMap<(PartId, DrawnEdgeId), Vec<StretchId>>,
}

impl Opens<'_, '_> {
    fn opening(&mut self, opening: &Opening) -> Option<OpeningRing> {
        let mut all = OpeningRing::default();
        // A lining that is felled to a zip opens with it, in the ring of the layer that the zip is sewn to.
        let mut beside_zips = Vec::new();
        let mut layers = self.finder.layers.of_chains(&[&opening.ring]);
        if layers.is_empty() {
            layers.push(None);
        }
        for layer in layers {
            if let Some(lines) = self.lines(opening, layer) {
                let found = self.looking_along_lines().rings(&lines);
                all.rings.extend(found.rings);
                all.line_breaks.extend(found.breaks);
                continue;
            }
            let edges = self.edges(opening, layer)?;
            let mut wanted: Vec<StretchId> =
                edges.iter().filter_map(|edge| self.of_edge.get(edge)).flatten().copied().collect();
            wanted.sort_unstable();
            let found = rings(&self.ways, self.sized, self.parts, &wanted, &edges);
            if !found.breaks.is_empty() && found.breaks.iter().all(|one| self.is_felled_to_zip(one)) {
                beside_zips.extend(found.breaks);
                continue;
            }
            all.breaks.extend(found.breaks);
            if all.apart.is_empty() && all.breaks.is_empty() {
                all.apart = self.apart(&found.rings);
            }
            for ring in found.rings {
                let reached = reached(&self.ways, self.parts, &ring);
                let every: IdSet<StretchId> =
                    reached.iter().flatten().chain(&ring).map(|part| part.stretch).collect();
                all.rings.push(passed(&self.ways, &mut self.holding, &ring, &every, false));
                for far in &reached {
                    all.rings.push(passed(&self.ways, &mut self.holding, far, &every, true));
                }
            }
        }
        if all.rings.is_empty() {
            all.breaks.extend(beside_zips);
        }
        let is_known = all.rings.iter().all(|ring| ring.opens().is_finite());
        let is_found = !(all.rings.is_empty() && all.breaks.is_empty() && all.line_breaks.is_empty());
        (is_known && is_found).then_some(all)
    }

    /// Whether a ring ends where the edge that leads on from it is felled to a zip.
    fn is_felled_to_zip(&self, one: &RingBreak) -> bool {
        let own = self.parts.get(one.at.part.index());
        let Some((own, drawn)) = own.and_then(|own| Some((own, self.sized.paper(own.part.paper)?))) else {
            return false;
        };
        let begins_at = |edge: DrawnEdgeId| drawn.edge_at(edge).map(|edge| edge.corner);
        let next = match begins_at(one.edge) == Some(one.at.corner) {
            true => drawn.before(one.edge),
            false => drawn.after(one.edge),
        };
        let is_felled = |finish: FinishId| {
            matches!(self.garment.finish(finish).kind, FinishKind::TurnedUnderOnto(Catcher::Closure(_)))
        };
        own.fate(next).is_some_and(|fate| {
            fate.takers.iter().any(|taker| matches!(taker.what, TakenBy::Finish(id) if is_felled(id)))
        })
    }

    /// The lines meant in one layer, where the opening names lines; those that a piece is cut along are edges.
    fn lines(&self, opening: &Opening, layer: Option<LayerId>) -> Option<Vec<NamedLine>> {
        let edges = &opening.ring.edges;
        if !edges.iter().all(|sewn| self.garment.edge(sewn.edge).line) {
            return None;
        }
        let layer = |sewn: &SewnEdge| sewn.layer.or(layer).or_else(|| sewn_layer(self.garment, sewn.piece));
        let mut lines = edges.iter().filter_map(|sewn| Some((layer(sewn)?, sewn)));
        if lines.clone().any(|(layer, sewn)| !self.finder.through(layer, sewn).is_empty()) {
            return None;
        }
        Some(lines.by_ref().map(|(layer, sewn)| (layer, sewn.edge, sewn.on)).collect())
    }

    fn looking_along_lines(&self) -> Lines<'_> {
        Lines { garment: self.garment, sized: self.sized, parts: self.parts, ways: &self.ways }
    }

    /// The kinds of rings that edges fall into; nothing where all run along the same edges, as those of a
    /// left and a right copy do.
    fn apart(&self, rings: &[Vec<RimPart>]) -> Vec<Vec<(PartId, DrawnEdgeId)>> {
        let surface = self.ways.surface;
        let mut kinds: Vec<Vec<(PartId, DrawnEdgeId)>> = Vec::new();
        for ring in rings {
            let side = |part: &RimPart| surface.side_of(part.stretch);
            let mut edges: Vec<_> =
                ring.iter().map(side).map(|side| (surface.face(side.face).pair, side.edge)).collect();
            edges.sort_unstable();
            edges.dedup();
            if !kinds.contains(&edges) {
                kinds.push(edges);
            }
        }
        if kinds.len() > 1 { kinds } else { Vec::new() }
    }

    /// The edges meant in one layer. Of a piece folded with both edges in one seam the edge that lies
    /// underneath is the other one.
    fn edges(&self, opening: &Opening, layer: Option<LayerId>) -> Option<IdIndexSet<(PartId, DrawnEdgeId)>> {
        let mut edges = IdIndexSet::default();
        for sewn in &opening.ring.edges {
            let layer = sewn.layer.or(layer).or_else(|| sewn_layer(self.garment, sewn.piece))?;
            let found = self.finder.through(layer, sewn);
            if found.is_empty() {
                return None;
            }
            for place in found {
                match self.of_edge.contains_key(&(place.part, place.edge)) {
                    true => edges.extend([(place.part, place.edge)]),
                    false => edges.extend(self.under(&place)?),
                }
            }
        }
        Some(edges)
    }

    fn under(&self, place: &Place) -> Option<Vec<(PartId, DrawnEdgeId)>> {
        let drawn = self.finder.drawn(place.part)?;
        let edge = drawn.edge_at(place.edge)?.edge;
        let is = |one, other| self.garment.is_run_of(one, other) || self.garment.is_run_of(other, one);
        let folds = &self.garment.piece(drawn.piece).folds;
        let over = folds.iter().find(|over| is(edge, over.onto))?;
        let own = DrawnEdgeId::enumerate(&drawn.edges).filter(|(_, own)| is(own.edge, over.edge));
        Some(own.map(|(at, _)| (place.part, at)).collect())
    }
}
