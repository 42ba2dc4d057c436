//! Runs of one edge in different layers or on opposite sides of the body: they may lie over one another on the paper that
//! these share.

use super::Lowering;
use crate::few::Few;
use crate::garment::{
    Chain, EdgeId, Garment, LayerId, PortionId, PortionName, PortionOver, PortionOverId, PortionPlace,
    SewnEdge, SewnLayers,
};
use crate::limits;
use crate::report::{Diagnostic, catalogue};
use indexmap::IndexMap;

impl Lowering<'_> {
    /// Tells every run in which cloth it is taken, and names what those share that no cloth has both of. Of an edge that
    /// would have too many of such names that is reported.
    pub(super) fn lay_runs_over(&mut self) {
        if self.garment.portions.is_empty() {
            return;
        }
        let places = places_of_runs(&self.garment);
        for (portion, places) in self.garment.portions.iter_mut().zip(places) {
            portion.places = places;
        }
        let garment = &self.garment;
        let mut by_edge: IndexMap<EdgeId, Vec<PortionId>> = IndexMap::new();
        for (id, portion) in PortionId::enumerate(&garment.portions) {
            for names in &portion.names {
                by_edge.entry(names.on).or_default().push(id);
            }
        }
        let mut named: Vec<(EdgeId, Vec<PortionId>)> = Vec::new();
        let mut too_many: Vec<EdgeId> = Vec::new();
        for (&on, runs) in &by_edge {
            match shared(garment, runs) {
                Some(all) => named.extend(all.into_iter().map(|runs| (on, runs))),
                None => too_many.push(on),
            }
        }
        for on in too_many {
            let own = self.garment.edge(on);
            let many = by_edge.get(&on).map_or(0, Vec::len);
            let title = format!(
                "{} is taken in {many} runs in different layers and on both sides of the body: with what they share that \
                 is more than the {} edges that a piece may have",
                own.name,
                limits::EDGES_OF_PIECE
            );
            self.report(
                Diagnostic::new(&catalogue::LIMIT_EDGES, own.span, title)
                    .help("take fewer runs of it, or divide the edge"),
            );
        }
        for (on, runs) in named {
            let words: Vec<&str> = runs.iter().map(|&run| &*self.garment.portion(run).words).collect();
            let name = format!("{} {}", self.garment.edge(on).name, words.join(" and "));
            let over = PortionOverId::from_index(self.garment.portions_over.len());
            let Some(&portion) = runs.first() else { continue };
            let name = self.add_portion(on, name, PortionName { portion, taken: true, over: Some(over) });
            self.garment.portions_over.push(PortionOver { on, portions: runs.into(), name });
        }
    }
}

/// All sets of two and more runs of which no cloth has two. None where there are more than a piece may have edges.
fn shared(garment: &Garment, runs: &[PortionId]) -> Option<Vec<Vec<PortionId>>> {
    let is_apart =
        |one: PortionId, other: PortionId| garment.portion(one).is_apart_from(garment.portion(other));
    let mut all: Vec<Vec<PortionId>> = Vec::new();
    // Those that end in the run before, each of which the next may be put to.
    let mut sets: Vec<Vec<PortionId>> = Vec::new();
    for &run in runs {
        let fits = |set: &&Vec<PortionId>| set.iter().all(|&own| is_apart(own, run));
        let larger: Vec<Vec<PortionId>> =
            sets.iter().filter(fits).map(|set| set.iter().copied().chain([run]).collect()).collect();
        if all.len() + larger.len() > limits::EDGES_OF_PIECE {
            return None;
        }
        all.extend(larger.iter().cloned());
        sets.extend(larger);
        sets.push(vec![run]);
    }
    Some(all)
}

/// Of every run by its number where it is taken, or spoken of.
fn places_of_runs(garment: &Garment) -> Vec<Few<PortionPlace>> {
    let layers = SewnLayers::new(garment);
    let mut places: Vec<Few<PortionPlace>> = vec![Few::new(); garment.portions.len()];
    let mut add = |sewn: &SewnEdge, layer: Option<LayerId>| {
        if let Some(own) = garment.edge(sewn.edge).portion
            && let Some(places) = places.get_mut(own.portion.index())
        {
            let hand = sewn.on.or_else(|| garment.side_of(sewn.piece));
            let place = PortionPlace { layer: sewn.layer.or(layer), hand };
            if !places.contains(&place) {
                places.push(place);
            }
        }
    };
    let mut in_chains = |layers: &[Option<LayerId>], chains: &mut dyn Iterator<Item = &Chain>| {
        for sewn in chains.flat_map(|chain| &chain.edges) {
            layers.iter().for_each(|&layer| add(sewn, layer));
        }
    };
    for seam in &garment.seams {
        in_chains(&layers.of_seam(seam), &mut seam.first.iter().chain(&seam.second));
    }
    for closure in &garment.closures {
        let chains = [&closure.first, &closure.second];
        in_chains(&layers.of_chains(&chains), &mut chains.into_iter());
    }
    let others = garment.openings.iter().flat_map(|opening| &opening.ring.edges);
    let others = others.chain(garment.finishes.iter().flat_map(|finish| &finish.edges));
    let others = others.chain(garment.cords.iter().flat_map(|cord| &cord.through));
    for sewn in others.chain(garment.rows.iter().flat_map(|row| row.edges.iter().map(|edge| &edge.sewn))) {
        layers.each_meant(sewn.layer, sewn.piece).for_each(|layer| add(sewn, Some(layer)));
    }
    places
}
