//! Runs of one edge on opposite sides of the body: they may lie over one another on the paper that both sides share.

use super::Lowering;
use crate::few::Few;
use crate::garment::{Chain, EdgeId, Garment, PortionId, PortionName, PortionOver, SewnEdge};
use crate::limits;
use crate::report::{Diagnostic, catalogue};
use crate::syntax::tree::Hand;
use indexmap::IndexMap;

impl Lowering<'_> {
    /// Tells every run the side of the body that takes it, and names what one of the left and one of the right have.
    /// Of an edge that would have too many of those that is reported.
    pub(super) fn lay_runs_over(&mut self) {
        if self.garment.portions.is_empty() {
            return;
        }
        for (portion, on) in sides_of_runs(&self.garment) {
            if let Some(portion) = self.garment.portions.get_mut(portion) {
                portion.on = on;
            }
        }
        let garment = &self.garment;
        // By edge the runs of its left side and of its right one.
        let mut sides: IndexMap<EdgeId, [Vec<PortionId>; 2]> = IndexMap::new();
        for (id, portion) in PortionId::enumerate(&garment.portions) {
            let side = match portion.on {
                Some(Hand::Left) => 0,
                Some(Hand::Right) => 1,
                None => continue,
            };
            for names in &portion.names {
                sides.entry(names.on).or_default()[side].push(id);
            }
        }
        let words = |portion: PortionId| garment.portions.get(portion.index()).map_or("", |own| &*own.words);
        let mut named: Vec<(PortionId, PortionId, EdgeId, String)> = Vec::new();
        for (&on, [lefts, rights]) in &sides {
            let own = garment.edge(on);
            if lefts.len() * rights.len() > limits::EDGES_OF_PIECE {
                let (left, right) = (lefts.len(), rights.len());
                let title = format!(
                    "{} is taken in {left} runs on the left side of the body and {right} on the right: with what they \
                     share that is more than the {} edges that a piece may have",
                    own.name,
                    limits::EDGES_OF_PIECE
                );
                self.report(
                    Diagnostic::new(&catalogue::LIMIT_EDGES, own.span, title)
                        .help("take fewer runs of it, or divide the edge"),
                );
                continue;
            }
            for &left in lefts {
                let pairs = rights.iter().map(|&right| {
                    let name = format!("{} {} and {}", own.name, words(left), words(right));
                    (left, right, on, name)
                });
                named.extend(pairs);
            }
        }
        for (left, right, on, name) in named {
            let name =
                self.add_portion(on, name, PortionName { portion: left, taken: true, also: Some(right) });
            if let Some(portion) = self.garment.portions.get_mut(left.index()) {
                portion.over_right.push(PortionOver { on, right, name });
            }
        }
    }
}

/// Of every run by its number the one side on which it is taken, or spoken of, if that is one.
fn sides_of_runs(garment: &Garment) -> Vec<(usize, Option<Hand>)> {
    let mut sides: Vec<Few<Option<Hand>>> = vec![Few::new(); garment.portions.len()];
    let mut add = |sewn: &SewnEdge| {
        if let Some(own) = garment.edge(sewn.edge).portion
            && let Some(sides) = sides.get_mut(own.portion.index())
        {
            sides.push(sewn.on.or_else(|| garment.side_of(sewn.piece)));
        }
    };
    let chains = garment.seams.iter().flat_map(|seam| seam.first.iter().chain(&seam.second));
    let chains = chains.chain(garment.closures.iter().flat_map(|one| [&one.first, &one.second]));
    let chains = chains.chain(garment.openings.iter().map(|opening| &opening.ring));
    chains.flat_map(|chain: &Chain| &chain.edges).for_each(&mut add);
    garment.finishes.iter().flat_map(|finish| &finish.edges).for_each(&mut add);
    garment.cords.iter().flat_map(|cord| &cord.through).for_each(&mut add);
    garment.rows.iter().flat_map(|row| &row.edges).for_each(|edge| add(&edge.sewn));
    let only = |sides: &Few<Option<Hand>>| {
        let first = sides.iter().next().copied().flatten()?;
        sides.iter().all(|side| *side == Some(first)).then_some(first)
    };
    sides.iter().map(only).enumerate().collect()
}
