//! Which pieces of a garment end on the same rim.

use super::ways::Ways;
use crate::garment::Garment;
use crate::id_hash::IdSet;
use crate::resolve::SizedGarment;
use crate::sewing::surface::{FaceId, Surface};
use crate::sewing::whole::Sewing;

/// The rims that each face ends on, layer by layer and with the closures open.
pub struct RimsOfFaces<'a> {
    surface: &'a Surface,
    /// The rim of each stretch that is on one.
    of_stretch: Vec<Option<usize>>,
}

impl<'a> RimsOfFaces<'a> {
    /// Takes time in proportion to the number of stretches.
    pub fn new(garment: &Garment, sized: &SizedGarment, sewing: &Sewing, surface: &'a Surface) -> Self {
        let ways = Ways::new(garment, sized, &sewing.parts, surface);
        let mut of_stretch = vec![None; surface.stretches.len()];
        for (at, rim) in ways.open.rims(surface).iter().enumerate() {
            for part in &rim.parts {
                of_stretch[part.stretch.index()] = Some(at);
            }
        }
        RimsOfFaces { surface, of_stretch }
    }

    /// Whether some of these faces end on a rim on which some of those end too; none where either end on no
    /// rim at all.
    pub fn share(&self, one: &[FaceId], other: &[FaceId]) -> Option<bool> {
        let of = |faces: &[FaceId]| -> IdSet<usize> {
            let stretches = faces.iter().flat_map(|&face| self.surface.stretches_of(face));
            stretches.filter_map(|stretch| self.of_stretch[stretch.index()]).collect()
        };
        let (one, other) = (of(one), of(other));
        (!one.is_empty() && !other.is_empty()).then(|| !one.is_disjoint(&other))
    }
}
