//! Runs of one edge on opposite sides of the body: they may lie over one another on the paper that both sides share.

use super::Lowering;
use crate::few::Few;
use crate::garment::{Chain, EdgeId, Garment, Portion, PortionId, PortionName, PortionOver, SewnEdge};
use crate::limits;
use crate::syntax::tree::Hand;

impl Lowering<'_> {
    /// Tells every run the side of the body that takes it, and names what one of the left and one of the right have.
    /// Runs for which there are too many names have none, and may not lie over one another.
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
        let of = |hand: Hand| {
            let all = PortionId::enumerate(&garment.portions);
            all.filter(move |(_, portion)| portion.on == Some(hand)).collect::<Vec<(PortionId, &Portion)>>()
        };
        let (lefts, rights) = (of(Hand::Left), of(Hand::Right));
        let mut named: Vec<(PortionId, PortionId, EdgeId, String)> = Vec::new();
        for &(left, one) in &lefts {
            for &(right, other) in &rights {
                for names in &one.names {
                    if other.names.iter().any(|other| other.on == names.on) {
                        let own = &garment.edge(names.on).name;
                        let name = format!("{own} {} and {}", one.words, other.words);
                        named.push((left, right, names.on, name));
                    }
                }
                if named.len() > limits::EDGES_OF_PIECE {
                    return;
                }
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
