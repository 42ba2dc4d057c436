//! Everything that is to be done, and when the steps do it.

use crate::cutting::WorkedSize;
use crate::garment::{
    Action, ActionTarget, Catcher, ClosureId, ClosureKind, CordId, EdgeId, FinishId, Garment, LayerId,
    PieceId, PlacementId, SeamId, StepGroup, StrapId, TakeUp,
};
use crate::resolve::SizedGarment;
use crate::sewing::{Finder, Place, Stitching};
use crate::source::Span;
use crate::syntax::tree::Verb;
use indexmap::IndexMap;
use std::collections::HashMap;

/// Something that is done for good just once.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Job {
    /// A seam in a layer, by its place among the stitchings.
    Seam(usize),
    /// The finish of one named edge in one layer: the finish, the edge in it, the layer.
    Finish(FinishId, usize, LayerId),
    /// A closure that no seam encloses.
    Closure(ClosureId),
    /// A placement in one layer.
    Place(PlacementId, LayerId),
    /// A dart or another take-up of a part: the layer, and its name on the piece.
    TakeUp(LayerId, EdgeId),
    /// A fused part.
    Fuse(LayerId, PieceId),
    /// A cord that is threaded.
    Cord(CordId),
    /// A strap that is sewn on.
    Strap(StrapId),
    /// The gap of a seam that is closed by hand.
    Gap(SeamId),
}

/// When something is done: its place in the order of work, and where that is said.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::check) struct When {
    /// Counts actions and their targets from the first step on.
    pub at: usize,
    /// The words that name it.
    pub span: Span,
}

/// What is wrong with one action.
#[derive(Clone, Copy, Debug)]
pub(super) enum Slip {
    /// All of it is done already: what, and when it was done first.
    Again(Job, When),
    /// There is nothing of the kind to be done.
    Nothing,
}

/// The work, and when the steps do each part of it.
pub(super) struct Work<'a> {
    pub garment: &'a Garment,
    pub sized: &'a SizedGarment,
    pub finder: Finder<'a>,
    pub stitchings: &'a [Stitching],
    /// Every job, in the order in which the garment declares them.
    pub jobs: IndexMap<Job, Option<When>>,
    /// When closures were basted or sewn for the first time.
    pub in_place: HashMap<ClosureId, When>,
    /// When it was turned, and through which seam's gap; none: whichever there is.
    pub turned: Vec<(When, Option<SeamId>)>,
    /// Actions that are wrong by themselves.
    pub slips: Vec<(Slip, ActionTarget, Verb, Option<LayerId>, Span)>,
    by_seam: HashMap<SeamId, Vec<usize>>,
    finishes_by_edge: IndexMap<EdgeId, Vec<Job>>,
    by_piece: HashMap<PieceId, Vec<Job>>,
    next: usize,
}

impl<'a> Work<'a> {
    /// Lists the jobs and goes through the steps.
    pub(super) fn new(garment: &'a Garment, size: &'a WorkedSize) -> Self {
        let sized = &size.drawn;
        let (finder, stitchings) = (size.finder(garment), &size.sewn.stitchings);
        let mut work = Work {
            garment,
            sized,
            finder,
            stitchings,
            jobs: IndexMap::new(),
            in_place: HashMap::new(),
            turned: Vec::new(),
            slips: Vec::new(),
            by_seam: HashMap::new(),
            finishes_by_edge: IndexMap::new(),
            by_piece: HashMap::new(),
            next: 0,
        };
        work.list_jobs();
        let steps: &[StepGroup] = &garment.steps;
        for action in steps.iter().flat_map(|group| &group.actions) {
            for &(target, span) in &action.targets {
                work.act(action, target, span);
            }
        }
        work
    }

    fn list_jobs(&mut self) {
        let garment = self.garment;
        for (at, stitching) in self.stitchings.iter().enumerate() {
            if stitching.places().next().is_some() {
                self.jobs.insert(Job::Seam(at), None);
                self.by_seam.entry(stitching.seam).or_default().push(at);
            }
        }
        for (id, finish) in FinishId::enumerate(&garment.finishes) {
            for (nth, sewn) in finish.edges.iter().enumerate() {
                for layer in self.finder.layers.meant(sewn.layer, sewn.piece) {
                    if self.finder.in_layer(layer, sewn).is_empty() {
                        continue;
                    }
                    let job = Job::Finish(id, nth, layer);
                    self.jobs.insert(job, None);
                    self.finishes_by_edge.entry(garment.whole_edge(sewn.edge)).or_default().push(job);
                }
            }
        }
        for (id, closure) in ClosureId::enumerate(&garment.closures) {
            if closure.kind.is_some() && !self.is_enclosed(id) {
                self.jobs.insert(Job::Closure(id), None);
            }
        }
        for (id, placement) in PlacementId::enumerate(&garment.placements).filter(|(_, one)| !one.poisoned) {
            for layer in self.finder.layers.meant(placement.layer, placement.piece) {
                self.jobs.insert(Job::Place(id, layer), None);
                self.by_piece.entry(placement.piece).or_default().push(Job::Place(id, layer));
            }
        }
        for part in garment.parts().into_iter().filter(|part| !garment.layer(part.layer).fused) {
            let take_ups = self.sized.paper(part.paper).map_or(&[][..], |drawn| &drawn.take_ups);
            for take_up in take_ups {
                self.jobs.insert(Job::TakeUp(part.layer, take_up.name), None);
            }
        }
        for (id, layer) in LayerId::enumerate(&garment.layers).filter(|(_, layer)| layer.fused) {
            for &piece in &layer.pieces {
                let job = Job::Fuse(id, piece);
                self.jobs.insert(job, None);
                self.by_piece.entry(piece).or_default().push(job);
            }
        }
        for (id, _) in CordId::enumerate(&garment.cords) {
            self.jobs.insert(Job::Cord(id), None);
        }
        for (id, strap) in StrapId::enumerate(&garment.straps).filter(|(_, strap)| !strap.poisoned) {
            self.jobs.insert(Job::Strap(id), None);
            self.by_piece.entry(strap.piece).or_default().push(Job::Strap(id));
        }
        for (id, seam) in SeamId::enumerate(&garment.seams) {
            if !seam.gaps.is_empty() {
                self.jobs.insert(Job::Gap(id), None);
            }
        }
    }

    /// Whether a seam encloses the closure, a zip: then the seam's sewing finishes it. Buttons are sewn on
    /// afterwards.
    fn is_enclosed(&self, closure: ClosureId) -> bool {
        if matches!(self.garment.closure(closure).kind, Some(ClosureKind::Fasteners(_))) {
            return false;
        }
        let seams = self.garment.seams.iter();
        seams.flat_map(|seam| &seam.enclosing).any(|&(enclosed, _)| enclosed == closure)
    }

    fn act(&mut self, action: &Action, target: ActionTarget, span: Span) {
        let when = When { at: self.next, span };
        self.next += 1;
        let layer = action.layer;
        let jobs = match (action.verb, target) {
            // What hangs open below its edge is basted there.
            (Verb::Baste, ActionTarget::TakeUp(of, name))
                if self.garment.take_up(name).is_some_and(TakeUp::hangs_open) =>
            {
                let jobs = self.take_up_jobs(name, of.or(layer));
                let is_open = |job: &Job| self.jobs.get(job).is_some_and(Option::is_none);
                if jobs.iter().any(|job| !is_open(job)) { return } else { jobs }
            }
            (Verb::Press, _)
            | (Verb::Baste, ActionTarget::Seam(_) | ActionTarget::TakeUp(..))
            | (Verb::Thread, ActionTarget::Edge(..)) => {
                return;
            }
            (Verb::Baste, ActionTarget::Closure(id)) => {
                self.in_place.entry(id).or_insert(when);
                return;
            }
            (Verb::Sew, ActionTarget::Closure(id)) if self.is_enclosed(id) => {
                self.in_place.entry(id).or_insert(when);
                return;
            }
            (Verb::TurnThroughGap, target) => {
                let seam = match target {
                    ActionTarget::Seam(id) => Some(id),
                    _ => None,
                };
                let has_gap = match target {
                    ActionTarget::Seam(id) => !self.garment.seam(id).gaps.is_empty(),
                    ActionTarget::AnyGap => self.garment.seams.iter().any(|seam| !seam.gaps.is_empty()),
                    _ => false,
                };
                match has_gap {
                    true => self.turned.push((when, seam)),
                    false => self.slip(Slip::Nothing, target, action, span),
                }
                return;
            }
            (Verb::Sew, ActionTarget::Seam(id)) => self.seam_jobs(id, layer),
            (Verb::Sew, ActionTarget::TakeUp(of, name)) => self.take_up_jobs(name, of.or(layer)),
            (Verb::Sew, ActionTarget::Closure(id)) => {
                self.in_place.entry(id).or_insert(when);
                vec![Job::Closure(id)]
            }
            (Verb::SlipstitchGap, ActionTarget::Seam(id)) => vec![Job::Gap(id)],
            (Verb::SlipstitchGap, ActionTarget::AnyGap) => {
                self.jobs.keys().filter(|job| matches!(job, Job::Gap(_))).copied().collect()
            }
            (Verb::Hem | Verb::Finish, ActionTarget::Edge(of, edge)) => self.finish_jobs(edge, of.or(layer)),
            (Verb::Place, ActionTarget::Piece(of, piece)) => {
                self.piece_jobs(piece, of.or(layer), |job| matches!(job, Job::Place(..) | Job::Strap(_)))
            }
            (Verb::Fuse, ActionTarget::Piece(of, piece)) => {
                self.piece_jobs(piece, of.or(layer), |job| matches!(job, Job::Fuse(..)))
            }
            (Verb::Thread, ActionTarget::Cord(at)) => vec![Job::Cord(at)],
            _ => Vec::new(),
        };
        let jobs: Vec<Job> = jobs.into_iter().filter(|job| self.jobs.contains_key(job)).collect();
        let Some(&first) = jobs.first() else {
            self.slip(Slip::Nothing, target, action, span);
            return;
        };
        let mut did = false;
        for job in &jobs {
            if let Some(done) = self.jobs.get_mut(job).filter(|done| done.is_none()) {
                *done = Some(when);
                did = true;
            }
        }
        if !did && let Some(before) = self.when(first) {
            self.slip(Slip::Again(first, before), target, action, span);
        }
    }

    fn slip(&mut self, slip: Slip, target: ActionTarget, action: &Action, span: Span) {
        self.slips.push((slip, target, action.verb, action.layer, span));
    }

    fn seam_jobs(&self, id: SeamId, layer: Option<LayerId>) -> Vec<Job> {
        let all = self.by_seam.get(&id).map_or(&[][..], Vec::as_slice);
        let is_meant = |&&at: &&usize| layer.is_none_or(|layer| self.is_in_layer(at, layer));
        all.iter().filter(is_meant).map(|&at| Job::Seam(at)).collect()
    }

    /// Whether a stitching lies, at least on one side, in the layer.
    fn is_in_layer(&self, stitching: usize, layer: LayerId) -> bool {
        let Some(stitching) = self.stitchings.get(stitching) else { return false };
        match stitching.layer {
            Some(own) => own == layer,
            None => stitching.places().any(|place| self.layer_of(place) == layer),
        }
    }

    /// The layer of a place.
    pub(super) fn layer_of(&self, place: &Place) -> LayerId {
        self.finder.part(place.part).layer
    }

    fn finish_jobs(&self, edge: EdgeId, layer: Option<LayerId>) -> Vec<Job> {
        let garment = self.garment;
        let same = |of: EdgeId| of == edge || garment.is_run_of(of, edge) || garment.is_run_of(edge, of);
        let found = match self.finishes_by_edge.get(&edge) {
            Some(jobs) => jobs.clone(),
            None => {
                let others = self.finishes_by_edge.iter().filter(|(of, _)| same(**of));
                let mut jobs: Vec<Job> = others.flat_map(|(_, jobs)| jobs.iter().copied()).collect();
                jobs.sort_by_key(|job| self.jobs.get_index_of(job));
                jobs
            }
        };
        let is_meant = |job: &Job| match job {
            Job::Finish(_, _, own) => layer.is_none_or(|layer| layer == *own),
            _ => false,
        };
        found.into_iter().filter(is_meant).collect()
    }

    /// The take-up of that name, also on what its piece was split or joined into.
    fn take_up_jobs(&self, name: EdgeId, layer: Option<LayerId>) -> Vec<Job> {
        let is_meant = |job: &&Job| match job {
            Job::TakeUp(own, run) => {
                self.garment.is_run_of(*run, name) && layer.is_none_or(|layer| layer == *own)
            }
            _ => false,
        };
        self.jobs.keys().filter(is_meant).copied().collect()
    }

    fn piece_jobs(&self, piece: PieceId, layer: Option<LayerId>, kind: impl Fn(&Job) -> bool) -> Vec<Job> {
        let all = self.by_piece.get(&piece).map_or(&[][..], Vec::as_slice);
        let is_meant = |job: &&Job| match job {
            Job::Place(_, own) | Job::Fuse(own, _) => layer.is_none_or(|layer| layer == *own),
            Job::Strap(id) => layer.is_none() || layer == self.garment.strap(*id).layer,
            _ => false,
        };
        all.iter().filter(|job| kind(job)).filter(is_meant).copied().collect()
    }

    /// When a job is done.
    pub(super) fn when(&self, job: Job) -> Option<When> {
        self.jobs.get(&job).copied().flatten()
    }

    /// When a seam is sewn first, in any layer.
    pub(super) fn seam_when(&self, id: SeamId) -> Option<When> {
        let all = self.by_seam.get(&id).into_iter().flatten();
        all.filter_map(|&at| self.when(Job::Seam(at))).min()
    }

    /// When a seam is sewn in its last layer; none where one is not sewn at all.
    pub(super) fn seam_whole(&self, id: SeamId) -> Option<When> {
        let all = self.by_seam.get(&id)?;
        all.iter().map(|&at| self.when(Job::Seam(at))).collect::<Option<Vec<When>>>()?.into_iter().max()
    }

    /// When what catches an edge is first sewn or put in place.
    pub(super) fn catcher_when(&self, by: Catcher) -> Option<When> {
        match by {
            Catcher::Seam(id) => self.seam_when(id),
            Catcher::Closure(id) => self.in_place.get(&id).copied(),
        }
    }
}
