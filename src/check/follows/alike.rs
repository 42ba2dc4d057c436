//! What is the same slip in several places: one message that shows all of them.

use crate::report::catalogue::{self, Entry};
use crate::report::{Diagnostic, Label};
use crate::source::Span;
use indexmap::IndexMap;

/// Kinds whose messages say the same, word for word, where one cause is behind them.
const SAME: [&Entry; 4] =
    [&catalogue::EDGE_PLACE, &catalogue::PART_MISSING, &catalogue::STEP_NOTHING, &catalogue::STRAP_PLACE];
/// So many places are shown.
const SHOWN: usize = 6;

/// What is said word for word of the same places is one message: a line of a piece that others are like is read once for each
/// of them.
pub(super) fn each_once(found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let mut kept: Vec<Diagnostic> = Vec::with_capacity(found.len());
    let mut by_place: IndexMap<Span, Vec<usize>> = IndexMap::new();
    for one in found {
        let beside = by_place.entry(one.span()).or_default();
        if !beside.iter().any(|&at| kept.get(at) == Some(&one)) {
            beside.push(kept.len());
            kept.push(one);
        }
    }
    kept
}

/// Messages that say the same are one; what shows a head as no body has it goes with its odd step.
pub(super) fn merged(found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let mut kept: Vec<Diagnostic> = Vec::with_capacity(found.len());
    for one in found {
        let is_same = |other: &&mut Diagnostic| {
            other.is(one.kind) && other.title == one.title && other.sizes == one.sizes
        };
        let before = one.is_any(&SAME).then(|| kept.iter_mut().find(is_same)).flatten();
        match (before, one.labels.first().map(|label| label.span)) {
            (Some(before), Some(place)) => {
                if before.places().all(|known| known != place) {
                    match before.labels.len() < SHOWN {
                        true => before.labels.push(Label { span: place, text: "and here".to_owned() }),
                        false => before.unshown.push(place),
                    }
                }
                before.unshown.extend(one.unshown);
            }
            _ => kept.push(one),
        }
    }
    let steps: Vec<Diagnostic> =
        kept.iter().filter(|one| one.is(&catalogue::SIZE_IRREGULAR)).cloned().collect();
    let is_told = |one: &Diagnostic| {
        one.is(&catalogue::BODY_UNLIKELY)
            && one.labels.first().is_some_and(|place| {
                let mut rows =
                    steps.iter().filter(|step| step.labels.iter().any(|label| label.span == place.span));
                rows.any(|step| one.sizes.iter().all(|size| step.sizes.contains(size)))
            })
    };
    let (unlikely, mut kept): (Vec<Diagnostic>, Vec<Diagnostic>) = kept.into_iter().partition(is_told);
    for place in unlikely.iter().filter_map(|one| one.labels.first()) {
        let steps = kept.iter_mut().filter(|one| one.is(&catalogue::SIZE_IRREGULAR));
        for label in steps.flat_map(|step| &mut step.labels).filter(|label| label.span == place.span) {
            label.text = place.text.clone();
        }
    }
    kept
}
