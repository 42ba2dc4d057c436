//! In which layers a name is meant that names none.

use super::{Chain, Garment, LayerId, PieceId, PieceOrigin, Placement, Seam, SewnEdge};
use crate::few::Few;

/// Which sewn layer has which piece; a piece that was split or joined is there in what became of it.
#[derive(Clone, Debug, Default)]
pub struct SewnLayers {
    /// Every layer that is not fused, in order.
    pub layers: Vec<LayerId>,
    /// The sewn layers of each piece, in order, one piece's after another's.
    of_pieces: Vec<LayerId>,
    /// Where in that list those of each piece end.
    ends: Vec<u32>,
}

impl SewnLayers {
    /// Of a garment; the same in every size.
    pub fn new(garment: &Garment) -> Self {
        let mut layers = Vec::new();
        let mut has: Vec<(PieceId, LayerId)> = Vec::new();
        // The last layer in which each piece was met.
        let mut seen: Vec<Option<LayerId>> = vec![None; garment.pieces.len()];
        for (id, layer) in LayerId::enumerate(&garment.layers).filter(|(_, layer)| !layer.fused) {
            layers.push(id);
            let mut open: Vec<PieceId> = layer.pieces.clone();
            while let Some(piece) = open.pop() {
                match seen.get_mut(piece.index()) {
                    Some(seen) if *seen != Some(id) => *seen = Some(id),
                    _ => continue,
                }
                has.push((piece, id));
                open.extend(made_of(garment, piece));
            }
        }
        has.sort_unstable();
        let mut end = 0;
        let ends = PieceId::enumerate(&garment.pieces)
            .map(|(id, _)| {
                while has.get(end).is_some_and(|(piece, _)| *piece == id) {
                    end += 1;
                }
                end as u32
            })
            .collect();
        SewnLayers { layers, of_pieces: has.into_iter().map(|(_, layer)| layer).collect(), ends }
    }

    /// The sewn layers that have a piece, in order.
    fn of_piece(&self, piece: PieceId) -> &[LayerId] {
        let end = |at: usize| self.ends.get(at).map_or(0, |end| *end as usize);
        let start = piece.index().checked_sub(1).map_or(0, end);
        self.of_pieces.get(start..end(piece.index())).unwrap_or_default()
    }

    /// Whether the layer is sewn and has the piece.
    pub fn has(&self, layer: LayerId, piece: PieceId) -> bool {
        self.of_piece(piece).contains(&layer)
    }

    /// The one sewn layer that has a piece; none where several have it, or none has.
    pub fn only_of(&self, piece: PieceId) -> Option<LayerId> {
        match self.of_piece(piece) {
            [only] => Some(*only),
            _ => None,
        }
    }

    /// The sewn layers that are meant by a name: the one that is named, else all that have the piece.
    pub fn meant(&self, layer: Option<LayerId>, piece: PieceId) -> Vec<LayerId> {
        self.each_meant(layer, piece).collect()
    }

    /// The same, one after the other.
    pub(crate) fn each_meant(&self, layer: Option<LayerId>, piece: PieceId) -> impl Iterator<Item = LayerId> {
        let is_meant = move |id: &LayerId| layer.is_none_or(|layer| layer == *id);
        self.of_piece(piece).iter().copied().filter(is_meant)
    }

    /// The layer of what something in the layer `own` is placed on: the one that is said, its own, or the
    /// first, of those that have it.
    pub fn of_host(
        &self,
        placement: &Placement,
        own: LayerId,
        has: impl Fn(LayerId) -> bool,
    ) -> Option<LayerId> {
        let said = placement.on_layer.or(placement.layer);
        let mut likely = said.into_iter().chain([own]).chain(self.layers.iter().copied());
        likely.find(|&layer| has(layer))
    }

    /// How often a seam is sewn for the sake of its layers: once in each layer that has all the
    /// pieces whose layer it does not name; once, as none, where it names the layers of all.
    pub fn of_seam(&self, seam: &Seam) -> Few<Option<LayerId>> {
        self.with_all(seam_edges(seam))
    }

    /// The same of chains that lie beside one another, as in a closure.
    pub fn of_chains(&self, chains: &[&Chain]) -> Vec<Option<LayerId>> {
        self.with_all(chains.iter().flat_map(|chain| &chain.edges)).into_vec()
    }

    fn with_all<'e>(&self, edges: impl Iterator<Item = &'e SewnEdge> + Clone) -> Few<Option<LayerId>> {
        let open = edges.filter(|sewn| sewn.layer.is_none());
        // Only a layer that has the first of them can have them all.
        let Some(first) = open.clone().next() else { return Few::one(None) };
        let has_all = |layer: &LayerId| open.clone().all(|sewn| self.has(*layer, sewn.piece));
        self.of_piece(first.piece).iter().copied().filter(has_all).map(Some).collect()
    }
}

/// Every edge that a seam names.
pub fn seam_edges(seam: &Seam) -> impl Iterator<Item = &SewnEdge> + Clone {
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
