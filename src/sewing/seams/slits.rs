//! Chains of edges that a slit breaks.

use crate::sewing::stitching::{Finder, Place};

/// After which edge of a chain of three or more a slit breaks it, if one does and only one.
///
/// Of two runs of one edge alone, the cheaper way to lay them end to end is found without more.
pub(super) fn only_break(finder: &Finder, places: &[Place]) -> Option<usize> {
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
