//! Rims of some faces by themselves: a band, cut off from what it is sewn to.

use super::gluing::Gluing;
use super::model::{FaceId, StretchId, Surface};
use super::rims::{Rim, RimPart};
use crate::id_hash::IdSet;

impl Gluing {
    /// The rims of what these faces make together, cut off from all other faces and where `is_cut`.
    /// Takes time in proportion to their own stretches.
    pub(in crate::sewing) fn rims_within(
        &self,
        surface: &Surface,
        faces: &[FaceId],
        is_cut: &dyn Fn(StretchId) -> bool,
    ) -> Vec<Rim> {
        let within: IdSet<FaceId> = faces.iter().copied().collect();
        let is_cut = |stretch: StretchId| {
            is_cut(stretch)
                || self.partner(stretch).is_some_and(|partner| {
                    is_cut(partner.stretch) || !within.contains(&surface.face_of(partner.stretch))
                })
        };
        let mut seen: IdSet<StretchId> = IdSet::default();
        let mut rims = Vec::new();
        for first in faces.iter().flat_map(|&face| surface.stretches_of(face)) {
            if seen.contains(&first) || (self.partner(first).is_some() && !is_cut(first)) {
                continue;
            }
            let mut parts = Vec::new();
            let (mut at, mut against) = (first, false);
            while seen.insert(at) {
                parts.push(RimPart { stretch: at, against });
                (at, against) = self.turn_cut(surface, &is_cut, at, !against);
            }
            rims.push(Rim { parts });
        }
        rims
    }
}
