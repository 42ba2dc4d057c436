//! In which layers a name is meant that names none.

use crate::garment::{Chain, Garment, LayerId, PieceId, PieceOrigin, Seam, SewnEdge};
use std::collections::HashSet;

/// Which sewn layer has which piece; a piece that was split or joined is there in what became of it.
#[derive(Clone, Debug, Default)]
pub struct SewnLayers {
    /// Every layer that is not fused, in order.
    pub layers: Vec<LayerId>,
    has: HashSet<(LayerId, PieceId)>,
}

impl SewnLayers {
    /// Of a garment; the same in every size.
    pub fn new(garment: &Garment) -> Self {
        let mut found = SewnLayers::default();
        for (at, layer) in garment.layers.iter().enumerate().filter(|(_, layer)| !layer.fused) {
            let id = LayerId::from_index(at);
            found.layers.push(id);
            let mut open: Vec<PieceId> = layer.pieces.clone();
            while let Some(piece) = open.pop() {
                if found.has.insert((id, piece)) {
                    open.extend(made_of(garment, piece));
                }
            }
        }
        found
    }

    /// Whether the layer is sewn and has the piece.
    pub fn has(&self, layer: LayerId, piece: PieceId) -> bool {
        self.has.contains(&(layer, piece))
    }

    /// The sewn layers that are meant by a name: the one that is named, else all that have the piece.
    pub fn meant(&self, layer: Option<LayerId>, piece: PieceId) -> Vec<LayerId> {
        let is_meant = |&id: &LayerId| layer.is_none_or(|layer| layer == id) && self.has(id, piece);
        self.layers.iter().copied().filter(is_meant).collect()
    }

    /// How often a seam is sewn for the sake of its layers: once in each layer that has all the
    /// pieces whose layer it does not name; once, as none, where it names the layers of all.
    pub fn of_seam(&self, seam: &Seam) -> Vec<Option<LayerId>> {
        self.with_all(seam_edges(seam))
    }

    /// The same of chains that lie beside one another, as in a closure.
    pub fn of_chains(&self, chains: &[&Chain]) -> Vec<Option<LayerId>> {
        self.with_all(chains.iter().flat_map(|chain| &chain.edges))
    }

    fn with_all<'e>(&self, edges: impl Iterator<Item = &'e SewnEdge>) -> Vec<Option<LayerId>> {
        let open: Vec<&SewnEdge> = edges.filter(|sewn| sewn.layer.is_none()).collect();
        if open.is_empty() {
            return vec![None];
        }
        let has_all = |&&layer: &&LayerId| open.iter().all(|sewn| self.has(layer, sewn.piece));
        self.layers.iter().filter(has_all).map(|&layer| Some(layer)).collect()
    }
}

/// Every edge that a seam names.
pub fn seam_edges(seam: &Seam) -> impl Iterator<Item = &SewnEdge> {
    seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges)
}

/// The pieces that a piece was split from or joined of.
fn made_of(garment: &Garment, piece: PieceId) -> Vec<PieceId> {
    match garment.pieces.get(piece.index()).map(|piece| piece.origin) {
        Some(PieceOrigin::Split { of, .. }) => vec![of],
        Some(PieceOrigin::Join { by }) => garment.pieces_joined(by),
        Some(PieceOrigin::Drawn) | None => Vec::new(),
    }
}
