//! Which seams join the pieces that an edge runs over.

use super::jobs::Work;
use crate::garment::{Chain, LayerId, SewnEdge};
use crate::id_hash::IdMap;
use crate::resolve::DrawnEdgeId;
use crate::sewing::{PartId, Place};

/// Edges of a chain that follow one another, in each layer.
pub(super) fn neighbours(work: &Work, chain: &Chain) -> Vec<(Place, Place)> {
    let mut found = Vec::new();
    for two in chain.edges.windows(2) {
        let [one, other] = two else { continue };
        let in_layers = |sewn: &SewnEdge| -> Vec<(LayerId, Place)> {
            let places = work.finder.everywhere(sewn).into_iter();
            places.map(|place| (sewn.layer.unwrap_or_else(|| work.layer_of(&place)), place)).collect()
        };
        for (first_layer, first) in in_layers(one) {
            for (second_layer, second) in in_layers(other) {
                if first_layer == second_layer || one.layer.is_some() || other.layer.is_some() {
                    found.push((first, second));
                }
            }
        }
    }
    found
}

/// Which stitchings take which edge.
pub(super) struct Joining<'w, 'g> {
    work: &'w Work<'g>,
    by_edge: IdMap<(PartId, DrawnEdgeId), Vec<usize>>,
}

impl<'w, 'g> Joining<'w, 'g> {
    pub(super) fn new(work: &'w Work<'g>) -> Self {
        let mut by_edge: IdMap<(PartId, DrawnEdgeId), Vec<usize>> = IdMap::default();
        for (at, stitching) in work.stitchings.iter().enumerate() {
            for place in stitching.places() {
                by_edge.entry((place.part, place.edge)).or_default().push(at);
            }
        }
        Joining { work, by_edge }
    }

    /// The stitchings between the two edges' pieces where the edges run on, but for one.
    pub(super) fn between(&self, one: &Place, other: &Place, but: Option<usize>) -> Vec<usize> {
        let mut found = Vec::new();
        if one.part == other.part {
            return found;
        }
        let beside_other = self.beside(other);
        for near in self.beside(one) {
            for &at in self.by_edge.get(&near).into_iter().flatten().filter(|at| Some(**at) != but) {
                let Some(stitching) = self.work.stitchings.get(at) else { continue };
                if stitching.places().any(|place| beside_other.contains(&(place.part, place.edge))) {
                    found.push(at);
                }
            }
        }
        found
    }

    /// The edges before and after an edge, on its part.
    fn beside(&self, place: &Place) -> Vec<(PartId, DrawnEdgeId)> {
        let drawn = self.work.finder.drawn(place.part).filter(|drawn| drawn.edges.len() > 1);
        drawn.map_or_else(Vec::new, |drawn| {
            vec![(place.part, drawn.before(place.edge)), (place.part, drawn.after(place.edge))]
        })
    }
}
