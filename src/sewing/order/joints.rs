//! Rules of what runs over edges: seams between pieces, darts, and what a seam encloses.
//!
//! Where two edges run on from piece to piece, the seam between the pieces is sewn before what crosses it; one of
//! the seams, where they are joined at both ends. A dart is sewn before the seam, and before the finish, that its
//! edge is taken up in.

use super::doing::Doing;
use super::jobs::{Job, Work};
use super::joining::{Joining, neighbours};
use super::rule::{Needs, Rule};
use super::why::Why;
use crate::garment::{ClosureId, ClosureKind, EdgeId, LayerId, SeamId};
use crate::id_hash::IdMap;
use crate::sewing::Place;

/// All of them.
pub(super) fn rules(work: &Work, rules: &mut Vec<Rule>) {
    let garment = work.garment;
    // A seam that was misread may be the one that is sewn before; that has been reported.
    if !garment.incomplete.sewing && !garment.seams.iter().any(|seam| seam.poisoned) {
        crossed(work, rules);
    }
    darts(work, rules);
    for (id, seam) in SeamId::enumerate(&garment.seams) {
        for &(closure, _) in
            seam.enclosing.iter().filter(|(closure, _)| work.jobs.contains(&Job::PutIn(*closure)))
        {
            let put_in = Needs::Done(Doing::PutIn(closure));
            rules.push(Rule::new(Doing::Begun(id), put_in, Why::Encloses));
        }
    }
    // What goes on beyond those seams hangs in its place by then.
    for (id, closure) in ClosureId::enumerate(&garment.closures) {
        let both = [Job::Closure(id), Job::PutIn(id)];
        let is_zip = matches!(closure.kind, Some(ClosureKind::Zipper { .. }));
        if is_zip && both.iter().all(|job| work.jobs.contains(job)) {
            rules.push(Rule::jobs(Job::Closure(id), Job::PutIn(id), Why::HeldFirst));
        }
    }
}

fn crossed(work: &Work, rules: &mut Vec<Rule>) {
    let joining = Joining::new(work);
    let mut add = |waits: Doing, one: &Place, other: &Place, but: Option<usize>| {
        let mut between = joining.between(one, other, but);
        between.sort_unstable();
        between.dedup();
        if !between.is_empty() {
            rules.push(Rule::new(waits, Needs::OneOf(between), Why::Crosses));
        }
    };
    for (at, stitching) in work.stitchings.iter().enumerate() {
        for two in stitching.plies().flat_map(|ply| ply.windows(2)) {
            if let [one, other] = two {
                add(Doing::Job(Job::Seam(at)), one, other, Some(at));
            }
        }
    }
    for (id, closure) in ClosureId::enumerate(&work.garment.closures) {
        let sides = [&closure.first, &closure.second];
        for (one, other) in sides.into_iter().flat_map(|side| neighbours(work, side)) {
            add(Doing::PutIn(id), &one, &other, None);
        }
    }
}

fn darts(work: &Work, rules: &mut Vec<Rule>) {
    let garment = work.garment;
    let mut found: IdMap<(LayerId, EdgeId), Vec<(bool, Job)>> = IdMap::default();
    if !work.jobs.iter().any(|job| matches!(job, Job::TakeUp(..))) {
        return;
    }
    let mut lies = |place: &Place, is_seam: bool, job: Job| {
        let layer = work.layer_of(place);
        let drawn = work.finder.drawn(place.part).into_iter();
        for (take_up, _) in drawn.flat_map(|drawn| drawn.take_ups_on(place.edge)) {
            let over = found.entry((layer, take_up.name)).or_default();
            if !over.contains(&(is_seam, job)) {
                over.push((is_seam, job));
            }
        }
    };
    for (at, stitching) in work.stitchings.iter().enumerate() {
        stitching.places().for_each(|place| lies(place, true, Job::Seam(at)));
    }
    for &job in &work.jobs {
        let Job::Finish(finish, nth, layer) = job else { continue };
        let Some(sewn) = garment.finish(finish).edges.get(nth) else { continue };
        work.finder.in_layer(layer, sewn).iter().for_each(|place| lies(place, false, job));
    }
    for &job in &work.jobs {
        let Job::Closure(id) = job else { continue };
        let closure = garment.closure(id);
        if matches!(closure.kind, Some(ClosureKind::Zipper { .. })) {
            let edges = closure.first.edges.iter().chain(&closure.second.edges);
            edges.flat_map(|sewn| work.finder.everywhere(sewn)).for_each(|place| lies(&place, false, job));
        }
    }
    let mut groups = rules.len();
    for &job in &work.jobs {
        let Job::TakeUp(layer, name) = job else { continue };
        let over = found.get(&(layer, name)).map_or(&[][..], Vec::as_slice);
        // One seam and one finish are told of each.
        for of_seams in [true, false] {
            groups += 1;
            for &(_, waits) in over.iter().filter(|(is_seam, _)| *is_seam == of_seams) {
                let rule = Rule::jobs(waits, job, Why::OverMouth);
                rules.push(Rule { one_of: Some(groups), ..rule });
            }
        }
    }
}
