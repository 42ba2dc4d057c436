//! `place/over-pocket`: the end of a strap that is stitched on where a pocket lies.

use super::put;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, Strap, StrapEnd};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::sewing::patches::Patch;
use crate::sewing::strap_place;
use crate::shape::outline::Region;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::PLACE_OVER_POCKET], run: Run::PerSize(run) };

/// So far inside the outline of a pocket, in millimetres, it is not merely beside it: a strap may be held at its corner.
const INSIDE: f64 = 10.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.straps.is_empty() || size.drawn.placed.is_empty() {
        return;
    }
    let patches = Patch::all(garment, &size.drawn);
    for strap in garment.straps.iter().filter(|strap| !strap.poisoned) {
        let mut ends = strap.runs.iter().flat_map(|run| run.ends()).filter(|end| end.caught.is_none());
        findings.extend(ends.find_map(|end| through(garment, size, &patches, strap, end)));
    }
}

fn through(
    garment: &Garment,
    size: &WorkedSize,
    patches: &[Patch],
    strap: &Strap,
    end: &StrapEnd,
) -> Option<Finding> {
    let (drawn, at) = strap_place(garment, &size.drawn, end.point)?;
    let is_there = |patch: &&Patch| {
        let hands = patch.placement.hand.zip(end.hand);
        patch.host.piece == drawn.piece && hands.is_none_or(|(one, other)| one == other)
    };
    // What hangs there, a flap, lies over the end and hides it.
    let pockets = patches.iter().filter(is_there).filter(|patch| !patch.open.is_empty() && !patch.hangs());
    let deep = |patch: &Patch| {
        let away = patch.outline.iter().map(|edge| edge.nearest(at).distance).fold(f64::INFINITY, f64::min);
        Some(away).filter(|_| Region::of(&patch.outline).contains(at))
    };
    let (pocket, by) =
        pockets.filter_map(|patch| Some((patch, deep(patch)?))).find(|(_, by)| *by > INSIDE)?;
    let name = words::piece(garment, pocket.placement.piece);
    let title = Title::new(format!("{} is stitched on in the middle of {name}", strap.name)).in_sizes();
    let mistake = Diagnostic::new(&catalogue::PLACE_OVER_POCKET, end.span, title)
        .label(format!("its end lies {} inside", amount(by, garment.unit)))
        .also(put(pocket), format!("{name} lies here"))
        .help(format!(
            "move its mark at least {} away, clear of {name}: sewn on over it, it holds the pocket shut, and under it, it comes \
             out inside",
            at_least(by, garment.unit)
        ));
    Some(Finding::new(size.id(), by, mistake).about(format!("{} {name}", strap.name)))
}
