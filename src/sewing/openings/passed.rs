//! A ring with all that holds it.

use super::hold::Holding;
use super::model::{Holder, PassedRing};
use super::ways::Ways;
use crate::id_hash::{IdIndexMap, IdSet};
use crate::sewing::surface::{RimPart, StretchId};

/// A ring with all that holds it. `every` are the stretches of all rings at the opening.
pub(super) fn passed(
    ways: &Ways,
    holding: &mut Holding,
    ring: &[RimPart],
    every: &IdSet<StretchId>,
    reached: bool,
) -> PassedRing {
    let (mut length, mut stretched) = (0.0, 0.0);
    let mut losses: IdIndexMap<Holder, f64> = IdIndexMap::default();
    let mut closures = Vec::new();
    for (at, &part) in ring.iter().enumerate() {
        let held = holding.of(part.stretch);
        length += held.length;
        stretched += held.stretched;
        if let Some(by) = held.by {
            *losses.entry(by).or_insert(0.0) += held.alone - held.stretched;
        }
        let next = ring[(at + 1) % ring.len()];
        closures.extend(ways.closure_between(part, next, every));
    }
    // What takes less than this is rounding.
    let least = ways.garment().tolerance.max(0.1);
    let held = losses.into_iter().filter(|(_, loss)| *loss > least);
    let held_by = held.max_by(|one, other| one.1.total_cmp(&other.1)).map(|(by, _)| by);
    PassedRing { parts: ring.to_vec(), lines: Vec::new(), length, stretched, held_by, closures, reached }
}
