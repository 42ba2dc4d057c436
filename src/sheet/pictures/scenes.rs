//! Which scene shows a step.

use super::canvas::Panel;
use super::ink::Stroke;
use super::making::Making;
use super::seam::Sewn;
use super::{closing, finishing, marking, placing, seam, turning};
use crate::garment::{ActionTarget, ClosureKind, LayerId, PieceId};
use crate::sewing::order::{Job, PlannedAction, PlannedTarget};
use crate::syntax::tree::Verb;

/// The scenes of a step; nothing where only words are said.
pub fn step(making: &Making, at: usize) -> Vec<Panel> {
    let Some(row) = making.facts.rows.get(at) else { return Vec::new() };
    let Some(action) = row.action(&making.facts.plan) else { return Vec::new() };
    let targets = row.targets(&making.facts.plan);
    let mut panels = Vec::new();
    if action.verb == Verb::Fuse {
        let parts: Vec<(LayerId, PieceId)> = targets
            .iter()
            .flat_map(|target| jobs_of(making, action, target))
            .filter_map(|job| if let Job::Fuse(layer, piece) = job { Some((layer, piece)) } else { None })
            .collect();
        return placing::fuse(making, &parts).into_iter().collect();
    }
    if action.verb == Verb::Press {
        for target in targets {
            panels.extend(pressed(making, target, &jobs_of(making, action, target), at));
        }
    } else {
        let jobs: Vec<Job> = targets.iter().flat_map(|target| jobs_of(making, action, target)).collect();
        panels.extend(done(making, action.verb, &jobs, at));
    }
    panels
}

/// What is done for good by one target, or was where it is only pressed.
fn done(making: &Making, verb: Verb, jobs: &[Job], step: usize) -> Vec<Panel> {
    let letter = |job: Job| making.letter(job).unwrap_or_default();
    let sewn: Vec<Sewn> = jobs
        .iter()
        .flat_map(|job| {
            turning::seams_of(making, *job)
                .into_iter()
                .map(|(at, letter)| Sewn { at, letter: letter.unwrap_or_default() })
        })
        .collect();
    let stroke = if verb == Verb::Baste { Stroke::Basted } else { Stroke::Now };
    let mut panels = seam::panels(making, &sewn, step, stroke);
    for &job in jobs {
        let letter = letter(job);
        match job {
            Job::Seam(at) if is_across_fold(making, at) => {
                panels.extend(seam::across_fold(making, at, &letter, step, stroke));
            }
            Job::Seam(_) | Job::Fuse(..) => {}
            // All edges of a finish are one picture.
            Job::Finish(id, ..) => {
                let of = |job: &Job| if let Job::Finish(id, ..) = job { Some(*id) } else { None };
                if jobs.iter().find(|other| of(other) == Some(id)) == Some(&job) {
                    let parts: Vec<finishing::Part> = jobs
                        .iter()
                        .filter_map(|job| match job {
                            Job::Finish(own, nth, layer) if *own == id => {
                                let letter = making.letter(*job).unwrap_or_default();
                                Some(finishing::Part { nth: *nth, layer: *layer, letter })
                            }
                            _ => None,
                        })
                        .collect();
                    panels.extend(finishing::panels(making, id, &parts, step, verb == Verb::Thread));
                }
            }
            Job::Place(id, layer) => panels.extend(placing::place(making, id, layer, &letter, step)),
            Job::Closure(id) | Job::PutIn(id) => {
                let is_zip = matches!(making.garment.closure(id).kind, Some(ClosureKind::Zipper { .. }));
                let stroke = if is_zip { stroke } else { Stroke::Now };
                let is_basted = matches!(job, Job::PutIn(_));
                panels.extend(closing::panel(making, id, &letter, step, (stroke, is_basted)));
            }
            Job::TakeUp(layer, name) => {
                panels.extend(marking::take_up(making, layer, name, &letter, step, verb == Verb::Baste));
            }
            Job::Row(id) => panels.extend(marking::row(making, id, &letter, step)),
            Job::Tack(id) => panels.extend(marking::tack(making, id, Some(&letter), step)),
            Job::Cord(id) => panels.extend(marking::cord(making, id, Some(&letter), step)),
            Job::Strap(id) => panels.extend(placing::strap(making, id, &letter, step)),
            Job::Turn(id) => panels.extend(turning::gap(making, id, None, step)),
            Job::Gap(id) => panels.extend(turning::gap(making, id, Some(&letter), step)),
        }
    }
    panels
}

/// Whether a stitching sews an edge to itself across the fold of its piece.
fn is_across_fold(making: &Making, at: usize) -> bool {
    let seam = making.work.stitchings.get(at).map(|stitching| making.garment.seam(stitching.seam));
    seam.is_some_and(|seam| seam.across_fold)
}

/// What is pressed: a seam laid out flat, a piece, a dart.
fn pressed(making: &Making, target: &PlannedTarget, jobs: &[Job], step: usize) -> Vec<Panel> {
    let seams: Vec<(usize, Option<String>)> =
        jobs.iter().flat_map(|job| turning::seams_of(making, *job)).collect();
    if !seams.is_empty() {
        return turning::pressed(making, &seams, step).into_iter().collect();
    }
    match target.target {
        ActionTarget::Piece(layer, piece) => {
            placing::alone(making, layer, piece, step, true).into_iter().collect()
        }
        ActionTarget::Edge(layer, edge) => {
            placing::alone(making, layer, making.garment.edge(edge).piece, step, true).into_iter().collect()
        }
        _ => done(making, Verb::Press, jobs, step),
    }
}

/// What a target does; of what is basted or pressed what is sewn there.
fn jobs_of(making: &Making, action: &PlannedAction, target: &PlannedTarget) -> Vec<Job> {
    if !target.jobs.is_empty() {
        return target.jobs.clone();
    }
    let (garment, work, layer, verb) = (making.garment, &making.work, action.layer, action.verb);
    if let (ActionTarget::Seam(id) | ActionTarget::Joints(id, ..), Verb::Sew | Verb::Baste | Verb::Press) =
        (target.target, verb)
    {
        return work.seam_jobs(id, layer).into_iter().collect();
    }
    let is_in = |own: LayerId, said: Option<LayerId>| said.or(layer).is_none_or(|layer| layer == own);
    let is_meant = |job: &&Job| match (target.target, **job) {
        (ActionTarget::Closure(id), Job::Closure(own) | Job::PutIn(own)) => own == id,
        (ActionTarget::Edge(of, edge), Job::Finish(finish, nth, own)) => {
            let sewn = garment.finish(finish).edges.get(nth);
            let same = |own| garment.is_run_of(own, edge) || garment.is_run_of(edge, own);
            is_in(own, of) && sewn.is_some_and(|sewn| same(sewn.edge))
        }
        (ActionTarget::TakeUp(of, name), Job::TakeUp(own, run)) => {
            is_in(own, of) && garment.is_run_of(run, name)
        }
        (ActionTarget::Piece(of, piece), Job::Place(id, own)) => {
            is_in(own, of) && garment.placement(id).piece == piece
        }
        (ActionTarget::Piece(of, piece), Job::Fuse(own, fused)) => is_in(own, of) && fused == piece,
        (ActionTarget::Piece(_, piece), Job::Strap(id)) => garment.strap(id).piece == piece,
        (ActionTarget::Cord(id), Job::Cord(own)) => own == id,
        (ActionTarget::Row(id), Job::Row(own)) => own == id,
        (ActionTarget::Tack(id), Job::Tack(own)) => own == id,
        (ActionTarget::Seam(id), Job::Turn(own)) => verb == Verb::TurnThroughGap && own == id,
        (ActionTarget::Seam(id), Job::Gap(own)) => verb == Verb::SlipstitchGap && own == id,
        (ActionTarget::AnyGap, Job::Turn(_)) => verb == Verb::TurnThroughGap,
        (ActionTarget::AnyGap, Job::Gap(_)) => verb == Verb::SlipstitchGap,
        _ => false,
    };
    work.jobs.iter().filter(is_meant).copied().collect()
}
