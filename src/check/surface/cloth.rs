//! How much cloth is in a thing.

use crate::cutting::WorkedSize;
use crate::garment::{CutHow, LayerId};
use crate::id_hash::{IdIndexMap, IdSet};
use crate::sewing::surface::{FaceId, Surface};
use crate::shape::outline::signed_area;

/// The cloth of the layer that has most of it, without what is placed on it, in square millimetres.
pub(super) fn cloth(size: &WorkedSize, surface: &Surface, faces: &[FaceId]) -> f64 {
    let placed: IdSet<FaceId> = surface.placings.iter().map(|placing| placing.placed).collect();
    let mut layers: IdIndexMap<LayerId, f64> = IdIndexMap::default();
    for &at in faces.iter().filter(|face| !placed.contains(face)) {
        let face = surface.face(at);
        let Some(drawn) = size.drawn.paper(size.sewn.part(face.part).part.paper) else { continue };
        let ring = drawn.edges.iter().map(|edge| &edge.path);
        let halves = if matches!(drawn.cut, CutHow::OnFold(_)) { 2.0 } else { 1.0 };
        let folded = if face.flap { 0.5 } else { 1.0 };
        *layers.entry(face.layer).or_insert(0.0) += signed_area(ring).abs() * halves * folded;
    }
    layers.into_values().fold(0.0, f64::max)
}
