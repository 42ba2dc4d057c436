//! Rules of what is placed, caught and sewn down.
//!
//! What is placed is finished before, and what catches it is sewn after; what is felled onto a seam is sewn down
//! once that is sewn.

use super::doing::Doing;
use super::jobs::{Job, Work};
use super::rule::{Needs, Rule};
use super::schedule::catching;
use super::why::Why;
use crate::garment::{Catcher, FinishKind, LayerId, PieceId};
use crate::sewing::Place;
use indexmap::IndexSet;
use std::collections::HashMap;

/// All of them.
pub(super) fn rules(work: &Work, rules: &mut Vec<Rule>) {
    placements(work, rules);
    straps(work, rules);
    felled(work, rules);
}

fn placements(work: &Work, rules: &mut Vec<Rule>) {
    let garment = work.garment;
    if garment.placements.is_empty() {
        return;
    }
    let mut finishes: HashMap<(LayerId, PieceId), Vec<Job>> = HashMap::new();
    for &job in &work.jobs {
        if let Job::Finish(id, nth, layer) = job
            && let Some(sewn) = garment.finish(id).edges.get(nth)
        {
            finishes.entry((layer, sewn.piece)).or_default().push(job);
        }
    }
    for &job in &work.jobs {
        let Job::Place(id, layer) = job else { continue };
        let placement = garment.placement(id);
        for &finish in finishes.get(&(layer, placement.piece)).into_iter().flatten() {
            rules.push(Rule::jobs(job, finish, Why::StitchesDown));
        }
        // What joins it to itself alone, the long seam of a tab, cannot be sewn flat any more.
        let is_own = |place: &Place| {
            let part = work.finder.part(place.part);
            part.piece == placement.piece && part.layer == layer
        };
        for (at, stitching) in work.stitchings.iter().enumerate() {
            if stitching.places().all(is_own) {
                rules.push(Rule::jobs(job, Job::Seam(at), Why::Finished));
            }
        }
        let catchers: IndexSet<Catcher> = placement.caught.iter().map(|caught| caught.by).collect();
        let caught = |by: Catcher| Rule::new(catching(by), Needs::Done(Doing::Job(job)), Why::Catches);
        rules.extend(catchers.into_iter().map(caught));
    }
}

/// What a seam catches is in place before.
fn straps(work: &Work, rules: &mut Vec<Rule>) {
    for &job in &work.jobs {
        let Job::Strap(id) = job else { continue };
        let runs = &work.garment.strap(id).runs;
        let catchers: IndexSet<Catcher> =
            runs.iter().flat_map(|run| run.ends()).filter_map(|end| end.caught).collect();
        let caught = |by: Catcher| Rule::new(catching(by), Needs::Done(Doing::Job(job)), Why::Catches);
        rules.extend(catchers.into_iter().map(caught));
    }
}

fn felled(work: &Work, rules: &mut Vec<Rule>) {
    for &job in &work.jobs {
        let Job::Finish(id, ..) = job else { continue };
        if let FinishKind::TurnedUnderOnto(seam) = work.garment.finish(id).kind {
            rules.push(Rule::new(Doing::Job(job), Needs::Done(Doing::Whole(seam)), Why::Onto));
        }
    }
}
