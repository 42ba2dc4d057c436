//! A cord in piping: it lies in a folded strip that a seam takes in between other cloth.

use super::jobs::Work;
use crate::few::Few;
use crate::garment::CordId;
use crate::id_hash::IdSet;
use crate::resolve::sewn_layer;
use crate::sewing::{PartId, Place};

/// The seams that close a strip round a cord, by their places among the stitchings; none where the cord runs through a band that is
/// sewn on, a casing or a hem, which are channels by themselves and are threaded afterwards.
pub fn laid_in(work: &Work, cord: CordId) -> Vec<usize> {
    let garment = work.garment;
    let through = &garment.cord(cord).through;
    if through.is_empty() || through.iter().any(|sewn| garment.piece(sewn.piece).folds.is_empty()) {
        return Vec::new();
    }
    let strips: IdSet<PartId> = through
        .iter()
        .filter_map(|sewn| Some((sewn.layer.or_else(|| sewn_layer(garment, sewn.piece))?, sewn)))
        .flat_map(|(layer, sewn)| work.finder.in_layer(layer, sewn))
        .map(|place| place.part)
        .collect();
    let is_of_strip = |ply: &[Place]| ply.iter().all(|place| strips.contains(&place.part));
    let mut closing = Vec::new();
    for (at, stitching) in work.stitchings.iter().enumerate() {
        let of_side = |plies: &[Few<Place>]| {
            let plies = || plies.iter().filter(|ply| !ply.is_empty());
            [true, false].map(|own| plies().filter(|ply| is_of_strip(ply) == own).count())
        };
        let [[own, others], [own_too, others_too]] = stitching.sides.each_ref().map(|plies| of_side(plies));
        match (own + own_too, others, others_too) {
            // Both edges of the strip, and cloth on either side of them.
            (2.., 1.., 1..) => closing.push(at),
            // Sewn on to what lies on its one side it is a band, whether that is lined or not.
            (1.., 1.., 0) | (1.., 0, 1..) | (1, 1.., 1..) => return Vec::new(),
            _ => {}
        }
    }
    closing
}
