//! When the steps of a garment do what is to be done.

use super::doing::Doing;
use super::jobs::{Job, Jobs, Work};
use crate::garment::{Action, ActionTarget, Catcher, ClosureId, LayerId, SeamId, StepGroup, TakeUp};
use crate::id_hash::{IdIndexMap, IdMap};
use crate::source::Span;
use crate::syntax::tree::Verb;
use smallvec::smallvec;

/// When something is done: its place in the order of work, and where that is said.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct When {
    /// Counts actions and their targets from the first step on.
    pub at: usize,
    /// The words that name it.
    pub span: Span,
}

/// What is wrong with one action.
#[derive(Clone, Copy, Debug)]
pub enum Slip {
    /// All of it is done already: what, and when it was done first.
    Again(Job, When),
    /// There is nothing of the kind to be done.
    Nothing,
    /// A ring has no joint of that number, but so many.
    NoJoint(u32),
    /// A joint is sewn already: its number, and when.
    JointAgain(u32, When),
}

/// A target of an action that is wrong by itself.
#[derive(Clone, Copy, Debug)]
pub struct SlipOfStep {
    /// What is wrong.
    pub slip: Slip,
    /// What the action is done to.
    pub target: ActionTarget,
    /// What is done to it.
    pub verb: Verb,
    /// The layer that the action names.
    pub layer: Option<LayerId>,
    /// The words that name the target.
    pub span: Span,
}

/// Something that is pressed or basted, which is nothing that has to be done.
#[derive(Clone, Copy, Debug)]
pub struct Noted {
    /// Which of the two.
    pub verb: Verb,
    /// What it is done to.
    pub target: ActionTarget,
    /// The layer that the action names.
    pub layer: Option<LayerId>,
    /// When it is done.
    pub when: When,
}

/// One thing in an order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Item {
    /// A job that is worked out, by its place among the jobs.
    Job(usize),
    /// What the maker says, by its place among [`Schedule::acts`].
    Act(usize),
}

/// One target of one action, and what it does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Act {
    /// The group of steps, its action and the target, by their places.
    pub place: (usize, usize, usize),
    /// What is done by it for the first time.
    pub jobs: Jobs,
    /// What is done before, where no step says when: what is pressed is sewn.
    pub after: Jobs,
    /// What is done only later, where no step says when: what is basted is sewn.
    pub before: Jobs,
    /// What is begun by it, and done only by a later one: a seam in a ring by some of its joints.
    pub begins: Jobs,
}

impl Act {
    pub(super) fn new(place: (usize, usize, usize), jobs: Jobs) -> Act {
        Act { place, jobs, after: Jobs::new(), before: Jobs::new(), begins: Jobs::new() }
    }
}

/// When each job is done.
#[derive(Clone, Debug, Default)]
pub struct Schedule {
    pub(super) done: IdMap<Job, When>,
    /// When the joints of a ring are sewn, by the place of its seam among the stitchings.
    pub(super) joints: IdIndexMap<usize, Vec<Option<When>>>,
    /// When closures were basted or sewn for the first time.
    in_place: IdMap<ClosureId, When>,
    /// When it was turned, and through which seam's gap; none: whichever there is.
    pub turned: Vec<(When, Option<SeamId>)>,
    /// What is pressed and basted, in the order of work.
    pub noted: Vec<Noted>,
    /// Actions that are wrong by themselves.
    pub slips: Vec<SlipOfStep>,
    /// All targets of all actions, in their order.
    pub acts: Vec<Act>,
}

impl Schedule {
    /// Of the steps that the maker says.
    pub fn said(work: &Work) -> Schedule {
        let mut schedule = Schedule::default();
        let groups: &[StepGroup] = &work.garment.steps;
        for (of_group, group) in groups.iter().enumerate() {
            for (of_action, action) in group.actions.iter().enumerate() {
                for (nth, &(target, span)) in action.targets.iter().enumerate() {
                    schedule.act(work, action, target, span, (of_group, of_action, nth));
                }
                // Words alone keep their place too.
                if action.targets.is_empty() {
                    schedule.acts.push(Act::new((of_group, of_action, 0), Jobs::new()));
                }
            }
        }
        schedule
    }

    /// These steps and what is worked out between them, in that order.
    pub fn with(&self, work: &Work, items: impl Iterator<Item = Item>) -> Schedule {
        let mut schedule = Schedule::default();
        for (at, item) in items.enumerate() {
            match item {
                Item::Job(job) => {
                    let Some(&job) = work.jobs.get_index(job) else { continue };
                    schedule.finish(job, When { at, span: work.declared(job) });
                }
                Item::Act(act) => {
                    let own = |when: &When| when.at == act;
                    for job in self.acts.get(act).into_iter().flat_map(|act| &act.jobs) {
                        let span = self.when(*job).map_or(work.declared(*job), |when| when.span);
                        schedule.done.insert(*job, When { at, span });
                    }
                    for (stitching, joints) in &self.joints {
                        let count = joints.len();
                        for (nth, when) in joints.iter().enumerate() {
                            let Some(when) = when.filter(|when| own(when)) else { continue };
                            let sewn = schedule.joints.entry(*stitching).or_insert_with(|| vec![None; count]);
                            if let Some(joint) = sewn.get_mut(nth) {
                                *joint = Some(When { at, span: when.span });
                            }
                        }
                    }
                    for (when, through) in self.turned.iter().filter(|(when, _)| own(when)) {
                        schedule.turned.push((When { at, span: when.span }, *through));
                    }
                    for (id, _) in ClosureId::enumerate(&work.garment.closures) {
                        if let Some(when) = self.in_place.get(&id).filter(|when| own(when)) {
                            schedule.in_place.insert(id, When { at, span: when.span });
                        }
                    }
                }
            }
        }
        schedule
    }

    /// Of jobs in that order, each a step of its own.
    pub fn of(work: &Work, order: impl Iterator<Item = Job>) -> Schedule {
        let mut schedule = Schedule::default();
        for (at, job) in order.enumerate() {
            schedule.finish(job, When { at, span: work.declared(job) });
            schedule.acts.push(Act::new((0, 0, at), smallvec![job]));
        }
        schedule
    }

    fn finish(&mut self, job: Job, when: When) {
        self.done.insert(job, when);
        match job {
            Job::Closure(id) | Job::PutIn(id) => {
                self.in_place.entry(id).or_insert(when);
            }
            Job::Turn(id) => self.turned.push((when, Some(id))),
            _ => {}
        }
    }

    fn act(
        &mut self,
        work: &Work,
        action: &Action,
        target: ActionTarget,
        span: Span,
        place: (usize, usize, usize),
    ) {
        let when = When { at: self.acts.len(), span };
        if matches!(action.verb, Verb::Press | Verb::Baste) {
            self.noted.push(Noted { verb: action.verb, target, layer: action.layer, when });
        }
        let slip = |slip: Slip| SlipOfStep { slip, target, verb: action.verb, layer: action.layer, span };
        if let ActionTarget::Joints(id, first, last) = target {
            let (act, wrong) = self.sew_joints(work, action, (id, first, last), place, when);
            self.acts.push(act);
            self.slips.extend(wrong.map(slip));
            return;
        }
        let mut jobs = match self.meant(work, action, target, when) {
            Meant::Done(jobs) => jobs,
            Meant::OnTop => {
                self.acts.push(on_top(work, action, target, place));
                return;
            }
        };
        jobs.retain(|job| work.jobs.contains(job));
        let Some(&first) = jobs.first() else {
            self.acts.push(Act::new(place, Jobs::new()));
            self.slips.push(slip(Slip::Nothing));
            return;
        };
        let mut did = Jobs::new();
        for &job in &jobs {
            self.done.entry(job).or_insert_with(|| {
                did.push(job);
                when
            });
        }
        // It may be turned more than once, and put in its place before it is sewn.
        let may_be_again = matches!(first, Job::Turn(_) | Job::PutIn(_));
        if did.is_empty()
            && !may_be_again
            && let Some(before) = self.when(first)
        {
            self.slips.push(slip(Slip::Again(first, before)));
        }
        self.acts.push(Act::new(place, did));
    }

    /// What an action means by its target.
    fn meant(&mut self, work: &Work, action: &Action, target: ActionTarget, when: When) -> Meant {
        let layer = action.layer;
        let jobs = match (action.verb, target) {
            // What hangs open below its edge is basted there.
            (Verb::Baste, ActionTarget::TakeUp(of, name))
                if work.garment.take_up(name).is_some_and(TakeUp::hangs_open) =>
            {
                let jobs = work.take_up_jobs(name, of.or(layer));
                let is_open = |job: &Job| work.jobs.contains(job) && self.when(*job).is_none();
                if jobs.iter().any(|job| !is_open(job)) {
                    return Meant::OnTop;
                }
                jobs
            }
            (Verb::Press, _)
            | (Verb::Baste, ActionTarget::Seam(_) | ActionTarget::TakeUp(..))
            | (Verb::Thread, ActionTarget::Edge(..)) => return Meant::OnTop,
            (Verb::Baste, ActionTarget::Closure(id)) => {
                self.in_place.entry(id).or_insert(when);
                match work.jobs.contains(&Job::PutIn(id)) {
                    true => smallvec![Job::PutIn(id)],
                    false => return Meant::OnTop,
                }
            }
            (Verb::Sew, ActionTarget::Closure(id)) if work.is_enclosed(id) => {
                self.in_place.entry(id).or_insert(when);
                match work.jobs.contains(&Job::PutIn(id)) {
                    true => smallvec![Job::PutIn(id)],
                    false => return Meant::OnTop,
                }
            }
            (Verb::TurnThroughGap, ActionTarget::Seam(id)) => {
                if !work.garment.seam(id).gaps.is_empty() {
                    self.turned.push((when, Some(id)));
                }
                smallvec![Job::Turn(id)]
            }
            (Verb::TurnThroughGap, ActionTarget::AnyGap) => {
                let all: Jobs = work.jobs.iter().filter(|job| matches!(job, Job::Turn(_))).copied().collect();
                if !all.is_empty() {
                    self.turned.push((when, None));
                }
                all
            }
            (Verb::Sew, ActionTarget::Seam(id)) => work.seam_jobs(id, layer),
            (Verb::Sew, ActionTarget::TakeUp(of, name)) => work.take_up_jobs(name, of.or(layer)),
            (Verb::Sew, ActionTarget::Closure(id)) => {
                self.in_place.entry(id).or_insert(when);
                // Before a seam takes its ends in all of it is sewn on; after that what is left. A zip is one thing, and in its
                // place by then.
                match work.is_shut_in(id, |job| self.when(job).is_some()) && !work.goes_on(id) {
                    true => smallvec![Job::Closure(id)],
                    false => smallvec![Job::Closure(id), Job::PutIn(id)],
                }
            }
            (Verb::SlipstitchGap, ActionTarget::Seam(id)) => smallvec![Job::Gap(id)],
            (Verb::SlipstitchGap, ActionTarget::AnyGap) => {
                work.jobs.iter().filter(|job| matches!(job, Job::Gap(_))).copied().collect()
            }
            (Verb::Hem | Verb::Finish, ActionTarget::Edge(of, edge)) => work.finish_jobs(edge, of.or(layer)),
            (Verb::Place, ActionTarget::Piece(of, piece)) => {
                work.piece_jobs(piece, of.or(layer), |job| matches!(job, Job::Place(..) | Job::Strap(_)))
            }
            (Verb::Fuse, ActionTarget::Piece(of, piece)) => {
                work.piece_jobs(piece, of.or(layer), |job| matches!(job, Job::Fuse(..)))
            }
            (_, ActionTarget::Row(id)) => smallvec![Job::Row(id)],
            (_, ActionTarget::Tack(id)) => smallvec![Job::Tack(id)],
            (Verb::Thread, ActionTarget::Cord(at)) => smallvec![Job::Cord(at)],
            _ => Jobs::new(),
        };
        Meant::Done(jobs)
    }

    /// When a job is done.
    pub fn when(&self, job: Job) -> Option<When> {
        self.done.get(&job).copied()
    }

    /// When that is done.
    pub fn at(&self, work: &Work, doing: Doing) -> Option<When> {
        match doing {
            Doing::Job(job) => self.when(job),
            // Of what has ends in a seam these are put in, and the rest is sewn on after it.
            Doing::PutIn(id) if work.jobs.contains(&Job::PutIn(id)) => self.when(Job::PutIn(id)),
            Doing::PutIn(id) => self.in_place.get(&id).copied(),
            Doing::Begun(id) => work.of_seam(id).iter().filter_map(|&at| self.when(Job::Seam(at))).min(),
            Doing::Whole(id) => {
                let mut last = None;
                for &at in work.of_seam(id) {
                    last = last.max(Some(self.when(Job::Seam(at))?));
                }
                last
            }
        }
    }

    /// The jobs that nothing does.
    pub fn left(&self, work: &Work) -> Vec<Job> {
        let open = work.jobs.iter().filter(|&&job| work.is_done(job) && self.when(job).is_none());
        open.copied().collect()
    }

    /// Whether all is done that is to be done.
    pub fn is_whole(&self, work: &Work) -> bool {
        work.jobs.iter().all(|&job| !work.is_done(job) || self.done.contains_key(&job))
    }
}

enum Meant {
    /// Jobs, done for good.
    Done(Jobs),
    /// Nothing that has to be done.
    OnTop,
}

/// What is pressed is sewn before, and what is basted only after.
fn on_top(work: &Work, action: &Action, target: ActionTarget, place: (usize, usize, usize)) -> Act {
    let jobs = match target {
        ActionTarget::Seam(id) => work.seam_jobs(id, action.layer),
        ActionTarget::TakeUp(of, name) => work.take_up_jobs(name, of.or(action.layer)),
        ActionTarget::Closure(id) => smallvec![Job::Closure(id)],
        _ => Jobs::new(),
    };
    let jobs: Jobs = jobs.into_iter().filter(|job| work.jobs.contains(job)).collect();
    match action.verb {
        Verb::Press => Act { after: jobs, ..Act::new(place, Jobs::new()) },
        Verb::Baste => Act { before: jobs, ..Act::new(place, Jobs::new()) },
        _ => Act::new(place, Jobs::new()),
    }
}

/// What catches something: a seam, in the first of its layers, or a closure, when it is put in.
pub(super) fn catching(by: Catcher) -> Doing {
    match by {
        Catcher::Seam(id) => Doing::Begun(id),
        Catcher::Closure(id) => Doing::PutIn(id),
    }
}
