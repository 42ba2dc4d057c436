//! Rules of what is placed, caught and sewn down.
//!
//! What is placed is finished before, with its own darts sewn, its interfacing fused on and what lies on it placed, and so
//! are the darts that it lies over; what catches it is sewn after; what is felled onto a seam is sewn down once that is sewn.
//! Buttonholes are worked through what is stiffened already, and a buckle is sewn to straps that are in their places.

use super::doing::Doing;
use super::jobs::{Job, Work};
use super::phase::is_by_hand;
use super::rule::{Needs, Rule};
use super::schedule::catching;
use super::why::Why;
use crate::garment::{
    Catcher, ClosureId, ClosureKind, EdgeId, FinishId, FinishKind, LayerId, PieceId, Placement, PlacementId,
    StrapId,
};
use crate::id_hash::{IdIndexSet, IdMap};
use crate::resolve::sewn_layer;
use crate::sewing::patches::{Patch, Under};
use crate::sewing::{PartId, Place};
use crate::syntax::tree::Fastener;
use indexmap::IndexSet;

/// All of them.
pub(super) fn rules(work: &Work, rules: &mut Vec<Rule>) {
    placements(work, rules);
    over_darts(work, rules);
    over_pockets(work, rules);
    straps(work, rules);
    buckles(work, rules);
    felled(work, rules);
    stiffened(work, rules);
}

fn placements(work: &Work, rules: &mut Vec<Rule>) {
    let garment = work.garment;
    if garment.placements.is_empty() {
        return;
    }
    let mut finishes: IdMap<(LayerId, PieceId), Vec<Job>> = IdMap::default();
    for &job in &work.jobs {
        if let Job::Finish(id, nth, layer) = job
            && let Some(sewn) = garment.finish(id).edges.get(nth)
        {
            finishes.entry((layer, sewn.piece)).or_default().push(job);
        }
    }
    // A zip between two of them is told of once.
    let mut zipped: IdMap<Job, usize> = IdMap::default();
    for &job in &work.jobs {
        let Job::Place(id, layer) = job else { continue };
        let placement = garment.placement(id);
        for &finish in finishes.get(&(layer, placement.piece)).into_iter().flatten() {
            rules.push(Rule::jobs(job, finish, Why::StitchesDown));
        }
        // What joins it to itself alone, the long seam of a tab, cannot be sewn flat any more; nor can what joins its two plies.
        let plies: Vec<LayerId> = work
            .jobs
            .iter()
            .filter_map(|job| match job {
                Job::Place(own, layer) if *own == id => Some(*layer),
                _ => None,
            })
            .collect();
        let is_own = |place: &Place| {
            let part = work.finder.part(place.part);
            part.piece == placement.piece && plies.contains(&part.layer)
        };
        for (at, stitching) in work.stitchings.iter().enumerate() {
            if stitching.places().all(is_own) {
                rules.push(Rule::jobs(job, Job::Seam(at), Why::Finished));
            }
        }
        for &own in &work.jobs {
            match own {
                // What lies on it is stitched to it alone.
                Job::Place(other, _) => {
                    let above = garment.placement(other);
                    let on_layer = above.on_layer.or(above.layer);
                    if above.on == placement.piece && on_layer.is_none_or(|on| on == layer) && other != id {
                        rules.push(Rule::jobs(job, own, Why::ThroughBoth));
                    }
                }
                Job::TakeUp(of, name) if of == layer && garment.edge(name).piece == placement.piece => {
                    rules.push(Rule::jobs(job, own, Why::Reaches));
                }
                Job::Fuse(_, piece) if piece == placement.piece => {
                    rules.push(Rule::jobs(job, own, Why::Covers));
                }
                _ => {}
            }
        }
        // A zip between two pieces of a pocket is sewn in before nothing but its own edge is left to be reached.
        for &zip in &work.jobs {
            let (Job::Closure(closure) | Job::PutIn(closure)) = zip else { continue };
            if is_zipped_into(work, placement, closure) {
                let group = *zipped.entry(zip).or_insert(rules.len());
                rules.push(Rule { one_of: Some(group), ..Rule::jobs(job, zip, Why::Finished) });
            }
        }
        let catchers: IndexSet<Catcher> = placement.caught.iter().map(|caught| caught.by).collect();
        let caught = |by: Catcher| Rule::new(catching(by), Needs::Done(Doing::Job(job)), Why::Catches);
        rules.extend(catchers.into_iter().map(caught));
    }
}

/// Whether a zip joins a placed piece to another placed piece by the one edge of it that is not stitched down.
fn is_zipped_into(work: &Work, placement: &Placement, zip: ClosureId) -> bool {
    let garment = work.garment;
    let closure = garment.closure(zip);
    let is_placed = |piece: PieceId| garment.placements.iter().any(|placement| placement.piece == piece);
    let edges = || closure.first.edges.iter().chain(&closure.second.edges);
    let is_zip = matches!(closure.kind, Some(ClosureKind::Zipper { .. }));
    if !is_zip
        || !edges().all(|sewn| is_placed(sewn.piece))
        || !edges().any(|one| one.piece == placement.piece)
    {
        return false;
    }
    let is_held = |edge: EdgeId| {
        placement.topstitched.iter().any(|(named, _)| garment.is_run_of(edge, *named))
            || placement.caught.iter().any(|caught| garment.is_run_of(edge, caught.edge))
    };
    let layer = placement.layer.or_else(|| sewn_layer(garment, placement.piece));
    let own = garment.paper_of(layer, placement.piece).and_then(|paper| work.sized.paper(paper));
    own.is_some_and(|own| {
        own.edges
            .iter()
            .all(|edge| is_held(edge.edge) || edges().any(|zipped| garment.is_run_of(edge.edge, zipped.edge)))
    })
}

/// What lies over a dart is placed once that is sewn.
fn over_darts(work: &Work, rules: &mut Vec<Rule>) {
    if work.garment.placements.is_empty() || !work.jobs.iter().any(|job| matches!(job, Job::TakeUp(..))) {
        return;
    }
    for patch in Patch::all(work.garment, work.sized) {
        for take_up in &patch.host.take_ups {
            if Under::of(&patch, take_up, work.garment.tolerance).is_none() {
                continue;
            }
            for &job in &work.jobs {
                let Job::TakeUp(_, name) = job else { continue };
                let places = work.jobs.iter().filter(
                    |other| matches!(other, Job::Place(id, _) if name == take_up.name && *id == patch.id),
                );
                rules.extend(places.map(|&place| Rule::jobs(place, job, Why::OverDart)));
            }
        }
    }
}

/// A flap that hangs over a pocket is placed once that is: the stitching of the pocket would shut it.
fn over_pockets(work: &Work, rules: &mut Vec<Rule>) {
    if work.garment.placements.len() < 2 {
        return;
    }
    let patches = Patch::all(work.garment, work.sized);
    for (at, one) in patches.iter().enumerate() {
        for other in patches.iter().skip(at + 1).filter(|other| one.lies_beside(other)) {
            let (pocket, flap) = match (one.hangs_under(other), other.hangs_under(one)) {
                (true, _) => (one.id, other.id),
                (_, true) => (other.id, one.id),
                // Clear of one another; or each goes through the other, which is told.
                _ => continue,
            };
            let of = |id: PlacementId| {
                work.jobs.iter().copied().filter(move |job| matches!(job, Job::Place(own, _) if *own == id))
            };
            let rule = |waits| of(pocket).map(move |first| Rule::jobs(waits, first, Why::HangsOver));
            rules.extend(of(flap).flat_map(rule));
        }
    }
}

/// Buttons and buttonholes are made once what holds them is stiffened.
fn stiffened(work: &Work, rules: &mut Vec<Rule>) {
    for &job in &work.jobs {
        let Job::Fuse(_, piece) = job else { continue };
        let own = work.sewing.parts.iter().filter(|part| part.part.piece == piece);
        let closures: IdIndexSet<ClosureId> =
            own.flat_map(|part| &part.fasteners).map(|place| place.closure).collect();
        let waits = closures.into_iter().map(Job::Closure).filter(|waits| work.jobs.contains(waits));
        rules.extend(waits.map(|waits| Rule::jobs(waits, job, Why::Stiffens)));
    }
}

/// What a seam catches is in place before, and so is what stiffens the cloth that an end is stitched through.
fn straps(work: &Work, rules: &mut Vec<Rule>) {
    for &job in &work.jobs {
        let Job::Strap(id) = job else { continue };
        let runs = &work.garment.strap(id).runs;
        let catchers: IndexSet<Catcher> =
            runs.iter().flat_map(|run| run.ends()).filter_map(|end| end.caught).collect();
        let caught = |by: Catcher| Rule::new(catching(by), Needs::Done(Doing::Job(job)), Why::Catches);
        rules.extend(catchers.into_iter().map(caught));
        let sewn_on: Vec<(PieceId, Option<LayerId>)> = runs
            .iter()
            .flat_map(|run| run.ends())
            .filter(|end| end.caught.is_none())
            .map(|end| (work.garment.point(end.point).piece, end.layer))
            .collect();
        for &fuse in &work.jobs {
            let Job::Fuse(layer, piece) = fuse else { continue };
            let is_under = |(own, on): &(PieceId, Option<LayerId>)| {
                *own == piece && on.is_none_or(|on| work.garment.is_fused_onto(layer, on))
            };
            if sewn_on.iter().any(is_under) {
                rules.push(Rule::jobs(job, fuse, Why::Stiffens));
            }
        }
    }
}

/// A buckle joins the ends of straps that are sewn on already.
fn buckles(work: &Work, rules: &mut Vec<Rule>) {
    for &job in &work.jobs {
        let Job::Closure(id) = job else { continue };
        let closure = work.garment.closure(id);
        let is_buckle =
            matches!(&closure.kind, Some(ClosureKind::Fasteners(row)) if row.kind == Fastener::Buckle);
        let edges = closure.first.edges.iter().chain(&closure.second.edges).filter(|_| is_buckle);
        let straps: IdIndexSet<StrapId> = edges
            .filter_map(|sewn| {
                let mut all = StrapId::enumerate(&work.garment.straps);
                all.find(|(_, strap)| strap.piece == sewn.piece).map(|(strap, _)| strap)
            })
            .collect();
        let placed = straps.into_iter().map(Job::Strap).filter(|placed| work.jobs.contains(placed));
        // Of one that comes before both that is told once.
        let group = Some(rules.len());
        rules.extend(placed.map(|placed| Rule { one_of: group, ..Rule::jobs(job, placed, Why::Buckles) }));
    }
}

/// The parts that a seam or a zip is sewn to.
fn hosts(work: &Work, onto: Catcher) -> IdIndexSet<PartId> {
    match onto {
        Catcher::Seam(seam) => {
            let own = work.of_seam(seam).iter().filter_map(|&at| work.stitchings.get(at));
            own.flat_map(|stitching| stitching.places()).map(|place| place.part).collect()
        }
        Catcher::Closure(zip) => {
            let closure = work.garment.closure(zip);
            let edges = closure.first.edges.iter().chain(&closure.second.edges);
            edges.flat_map(|sewn| work.finder.everywhere(sewn)).map(|place| place.part).collect()
        }
    }
}

/// What is felled is sewn down once all else is turned: what joins its two plies by machine is sewn before.
fn felled(work: &Work, rules: &mut Vec<Rule>) {
    // Through a gap it is turned afterwards.
    let has_gap = work.garment.seams.iter().any(|seam| !seam.gaps.is_empty());
    let mut groups: IdMap<FinishId, usize> = IdMap::default();
    for &job in &work.jobs {
        let Job::Finish(id, nth, layer) = job else { continue };
        let finish = work.garment.finish(id);
        let FinishKind::TurnedUnderOnto(onto) = finish.kind else { continue };
        let sewn_in = match onto {
            Catcher::Seam(seam) => Doing::Whole(seam),
            Catcher::Closure(zip) => Doing::PutIn(zip),
        };
        rules.push(Rule::new(Doing::Job(job), Needs::Done(sewn_in), Why::Onto));
        let Some(sewn) = finish.edges.get(nth).filter(|_| !has_gap) else { continue };
        let own: IdIndexSet<PartId> =
            work.finder.in_layer(layer, sewn).iter().map(|place| place.part).collect();
        let hosts: IdIndexSet<PartId> =
            hosts(work, onto).into_iter().filter(|part| !own.contains(part)).collect();
        let group = Some(*groups.entry(id).or_insert(rules.len()));
        for (at, stitching) in work.stitchings.iter().enumerate() {
            // What takes in another ply lies over the raw edges of both, and turns nothing.
            let [[one], [other]] = stitching.sides.each_ref().map(|side| side.as_slice()) else { continue };
            let is_all = |ply: &[Place], parts: &IdIndexSet<PartId>| {
                !ply.is_empty() && ply.iter().all(|place| parts.contains(&place.part))
            };
            let joins =
                is_all(one, &own) && is_all(other, &hosts) || is_all(other, &own) && is_all(one, &hosts);
            if joins && onto != Catcher::Seam(stitching.seam) && !is_by_hand(work, stitching) {
                rules.push(Rule { one_of: group, ..Rule::jobs(job, Job::Seam(at), Why::TurnedOut) });
            }
        }
    }
}
