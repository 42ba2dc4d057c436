//! Chains of edges that a slit breaks.

use crate::sewing::stitching::{Finder, Place};

/// Other orders of a chain of three edges or more of which a slit breaks one, and only one: from the slit round, and with
/// the two runs of the edge changed over, so that it goes from the slit out at one end and comes back at the other.
///
/// Of two runs of one edge alone, the cheaper way to lay them end to end is found without more.
pub(super) fn otherwise(finder: &Finder, places: &[Place]) -> Vec<Vec<Place>> {
    let Some(at) = only_break(finder, places) else { return Vec::new() };
    let (mut round, mut changed) = (places.to_vec(), places.to_vec());
    round.rotate_left(at + 1);
    changed.swap(at, at + 1);
    vec![round, changed]
}

/// After which edge of the chain a slit breaks it.
fn only_break(finder: &Finder, places: &[Place]) -> Option<usize> {
    if places.len() < 3 {
        return None;
    }
    let is_break = |pair: &[Place]| {
        let [before, after] = pair else { return false };
        let runs = finder.drawn(before.part).and_then(|drawn| drawn.opened.as_ref());
        let run = |place: &Place| runs.and_then(|runs| *runs.run_of.get(place.edge.index())?);
        before.part == after.part && run(before).is_some() && run(before) == run(after)
    };
    let mut breaks = places.windows(2).enumerate().filter(|(_, pair)| is_break(pair));
    let (first, _) = breaks.next()?;
    breaks.next().is_none().then_some(first)
}
