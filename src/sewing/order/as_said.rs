//! A job as a step says it.

use super::jobs::{Job, Work};
use crate::garment::{ActionTarget, FinishKind, LayerId, TakeUp};
use crate::syntax::tree::{RowKind, Verb};

/// What a job is called in a step: the verb, and what it is done to, where its layer is not said.
pub(super) fn step_of(work: &Work, job: Job) -> Option<(Verb, ActionTarget)> {
    let garment = work.garment;
    Some(match job {
        Job::Seam(at) => (Verb::Sew, ActionTarget::Seam(work.stitchings.get(at)?.seam)),
        Job::Finish(id, nth, _) => {
            let finish = garment.finish(id);
            let verb = if matches!(finish.kind, FinishKind::Hem(_)) { Verb::Hem } else { Verb::Finish };
            let sewn = finish.edges.get(nth)?;
            (verb, ActionTarget::Edge(sewn.layer, garment.whole_edge(sewn.edge)))
        }
        Job::Closure(id) => (Verb::Sew, ActionTarget::Closure(id)),
        Job::PutIn(id) => (Verb::Baste, ActionTarget::Closure(id)),
        Job::Place(id, _) => (Verb::Place, ActionTarget::Piece(None, garment.placement(id).piece)),
        Job::Strap(id) => (Verb::Place, ActionTarget::Piece(None, garment.strap(id).piece)),
        Job::TakeUp(_, name) => {
            let open = garment.take_up(name).is_some_and(TakeUp::hangs_open);
            (if open { Verb::Baste } else { Verb::Sew }, ActionTarget::TakeUp(None, name))
        }
        Job::Fuse(_, piece) => (Verb::Fuse, ActionTarget::Piece(None, piece)),
        Job::Cord(id) => (Verb::Thread, ActionTarget::Cord(id)),
        Job::Row(id) => {
            let verb = match garment.row(id).kind {
                RowKind::Topstitch => Verb::Topstitch,
                RowKind::Understitch => Verb::Understitch,
            };
            (verb, ActionTarget::Row(id))
        }
        Job::Tack(id) => {
            let verb = if garment.tack(id).sets.is_some() { Verb::SetNotion } else { Verb::Tack };
            (verb, ActionTarget::Tack(id))
        }
        Job::Turn(id) => (Verb::TurnThroughGap, ActionTarget::Seam(id)),
        Job::Gap(id) => (Verb::SlipstitchGap, ActionTarget::Seam(id)),
    })
}

/// The layer that tells one job from others that a step would name alike.
pub(super) fn layer_of(job: Job, work: &Work) -> Option<LayerId> {
    match job {
        Job::Fuse(layer, _) => Some(layer),
        Job::Strap(id) => work.garment.strap(id).layer,
        job => work.layer_of_job(job),
    }
}
