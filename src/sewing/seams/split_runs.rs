//! Chains of an edge that a split parts, of which something else takes runs.

use crate::sewing::stitching::Place;

/// Another order of a chain whose pieces lie in another order than the runs of the edge on each of them: with the
/// runs of each piece the other way round, they may lie end to end.
pub(super) fn otherwise(places: &[Place]) -> Option<Vec<Place>> {
    if places.len() < 3 {
        return None;
    }
    let groups = || places.chunk_by(|one, other| one.part == other.part);
    if groups().nth(1).is_none() || groups().all(|group| group.len() < 2) {
        return None;
    }
    Some(groups().flat_map(|group| group.iter().rev().copied()).collect())
}
