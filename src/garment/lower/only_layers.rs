//! In which layers pieces are meant that lie in different ones, each in one alone: a front of tweed and a back of satin.

use super::Lowering;
use crate::garment::{Chain, SewnEdge, SewnLayers};

impl Lowering<'_> {
    /// Gives what a seam, a closure or an opening names the layer of its piece, where no layer has all of its pieces and
    /// each of them lies in one alone.
    pub(super) fn find_only_layers(&mut self) {
        if self.garment.layers.len() < 2 || self.garment.incomplete.layers {
            return;
        }
        let layers = SewnLayers::new(&self.garment);
        for seam in &mut self.garment.seams {
            name_layers(&layers, seam.first.iter_mut().chain(&mut seam.second).collect());
        }
        for closure in &mut self.garment.closures {
            name_layers(&layers, vec![&mut closure.first, &mut closure.second]);
        }
        for opening in &mut self.garment.openings {
            name_layers(&layers, vec![&mut opening.ring]);
        }
    }
}

fn name_layers(layers: &SewnLayers, mut chains: Vec<&mut Chain>) {
    let named: Vec<&Chain> = chains.iter().map(|chain| &**chain).collect();
    if !layers.of_chains(&named).is_empty() {
        return;
    }
    let open = |sewn: &&SewnEdge| sewn.layer.is_none();
    let is_one_each = {
        let mut all = named.iter().flat_map(|chain| &chain.edges).filter(open);
        all.all(|sewn| layers.only_of(sewn.piece).is_some())
    };
    if !is_one_each {
        return;
    }
    for sewn in chains.iter_mut().flat_map(|chain| &mut chain.edges).filter(|sewn| sewn.layer.is_none()) {
        sewn.layer = layers.only_of(sewn.piece);
    }
}
