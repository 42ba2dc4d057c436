//! An order of work that obeys the rules.
//!
//! What is ready is done, the first of it by its part of the work; what something earlier waits for counts as part
//! of that. Where the maker says some of the steps, each of them is done in its turn, as soon as what it waits for
//! is done.

use super::as_said::{layer_of, step_of};
use super::doing::Doing;
use super::graph::{Given, Graph, Need};
use super::jobs::{Job, Work};
use super::phase::{Phase, Phases};
use super::pivots::pivots;
use super::rule::Needs;
use super::schedule::{Item, Schedule};
use super::why::Why;
use crate::garment::{ActionTarget, FinishId, LayerId};
use crate::sewing::surface::{JoinedBy, PlyAt, Union};
use crate::syntax::tree::Verb;
use indexmap::IndexMap;
use smallvec::SmallVec;
use std::cmp::Reverse;
use std::collections::{BinaryHeap, HashMap};

/// When a job is chosen among those that are ready: by the part of the work, of what lies inside by the part that
/// it would be of outside, and in the order of the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Key {
    /// The part of the work.
    pub phase: Phase,
    /// The part that it would be of outside.
    pub within: Phase,
    /// Its place in the file, among the jobs.
    pub nth: usize,
}

/// An order of work.
#[derive(Clone, Debug, Default)]
pub struct Ordered {
    /// What is done, in order, and for the sake of which part of the work.
    pub items: Vec<(Item, Phase)>,
    /// The jobs that could not be put anywhere.
    pub left: Vec<usize>,
}

/// What an order is found from.
pub struct Solving<'g, 'a> {
    graph: &'g Graph<'a>,
    said: &'g Schedule,
    given: Given,
    keys: Vec<Key>,
    /// Of each job the faces that it joins, two by two.
    joined: Vec<Vec<(usize, usize)>>,
    /// Of each job what, once all of it is done, leaves it to be sewn flat.
    pivots: Vec<Vec<Vec<usize>>>,
    /// The jobs that go round a ring, though what they sew round it lies open still.
    round: Vec<usize>,
    /// Of each job the act that does it.
    acts: Vec<Option<usize>>,
    /// Of each job that is worked out the last act that comes before it: it is basted there.
    basted: Vec<Option<usize>>,
    /// Of each job those that a step cannot tell from it, itself among them: they are done at once.
    alike: Vec<SmallVec<[usize; 1]>>,
    /// Of each job those of the same finish that its edge runs on into.
    runs_on: Vec<Vec<usize>>,
}

impl<'g, 'a> Solving<'g, 'a> {
    /// Of these rules and what the maker says.
    pub fn of(graph: &'g Graph<'a>, said: &'g Schedule, given: Given) -> Self {
        let work = graph.rules.work;
        let mut acts = vec![None; work.jobs.len()];
        for (at, act) in said.acts.iter().enumerate() {
            for job in act.jobs.iter().filter_map(|job| work.jobs.get_index_of(job)) {
                if let Some(own) = acts.get_mut(job) {
                    *own = Some(at);
                }
            }
        }
        let mut basted = vec![None; work.jobs.len()];
        for (at, act) in said.acts.iter().enumerate() {
            for job in act.before.iter().filter_map(|job| work.jobs.get_index_of(job)) {
                if acts.get(job) == Some(&None)
                    && let Some(own) = basted.get_mut(job)
                {
                    *own = Some(at);
                }
            }
        }
        let mut solving = Solving {
            graph,
            said,
            given,
            keys: keys(work),
            joined: joined(graph),
            pivots: pivots(graph),
            round: round(graph),
            acts,
            basted,
            alike: alike(work),
            runs_on: runs_on(graph),
        };
        solving.inherit();
        solving
    }

    /// What something waits for is done for its sake.
    fn inherit(&mut self) {
        let mut open: BinaryHeap<Reverse<(Key, usize)>> =
            self.keys.iter().enumerate().map(|(at, &key)| Reverse((key, at))).collect();
        let mut settled = vec![false; self.keys.len()];
        // Of each act the last one before it that does something.
        let mut before: Vec<Option<usize>> = Vec::with_capacity(self.said.acts.len());
        let mut last = None;
        for (at, act) in self.said.acts.iter().enumerate() {
            before.push(last);
            if !act.jobs.is_empty() || !self.waited_for(at).is_empty() {
                last = Some(at);
            }
        }
        while let Some(Reverse((key, at))) = open.pop() {
            match settled.get_mut(at) {
                Some(settled) if !*settled => *settled = true,
                _ => continue,
            }
            let needs = self.graph.needs.get(at).into_iter().flatten();
            let mut needed: Vec<usize> = needs.filter_map(|need| only(&need.by)).collect();
            // One hem over several pieces is turned in one go.
            let is_worked_out = |one: &&usize| self.acts.get(**one) == Some(&None);
            needed.extend(self.runs_on.get(at).into_iter().flatten().filter(is_worked_out));
            if let Some(act) = self.acts.get(at).copied().flatten() {
                for act in [Some(act), before.get(act).copied().flatten()].into_iter().flatten() {
                    needed.extend(self.jobs_of(act));
                    needed.extend(self.waited_for(act));
                }
            }
            for one in needed {
                if let Some(own) = self.keys.get_mut(one).filter(|own| **own > key) {
                    *own = key;
                    open.push(Reverse((key, one)));
                }
            }
        }
    }

    /// The jobs that are worked out before an act that does nothing for good.
    fn waited_for(&self, act: usize) -> Vec<usize> {
        let work = self.graph.rules.work;
        let after = self.said.acts.get(act).map_or(&[][..], |act| &act.after);
        let after = after.iter().filter_map(|job| work.jobs.get_index_of(job));
        // What a seam waits for comes before the first of its joints.
        let begins = self.said.acts.get(act).map_or(&[][..], |act| &act.begins);
        let begins = begins.iter().filter_map(|job| work.jobs.get_index_of(job));
        let needed = begins.filter_map(|at| self.graph.needs.get(at)).flatten();
        let places = after.chain(needed.filter_map(|need| only(&need.by)));
        places.filter(|&at| self.acts.get(at) == Some(&None)).collect()
    }

    fn jobs_of(&self, act: usize) -> Vec<usize> {
        let work = self.graph.rules.work;
        let jobs = self.said.acts.get(act).map_or(&[][..], |act| &act.jobs);
        jobs.iter().filter_map(|job| work.jobs.get_index_of(job)).collect()
    }

    /// The order.
    pub fn order(&self) -> Ordered {
        let work = self.graph.rules.work;
        let mut run = Run {
            // Nothing is done to an edge that is left raw, unless a step says so.
            done: (0..work.jobs.len())
                .map(|at| {
                    self.acts.get(at) == Some(&None)
                        && work.jobs.get_index(at).is_some_and(|&job| !work.is_done(job))
                })
                .collect(),
            together: Union::new(self.faces()),
            items: Vec::with_capacity(work.jobs.len()),
            next: 0,
        };
        let mut ready: Vec<usize> = (0..work.jobs.len()).filter(|&at| self.is_free(&run, at)).collect();
        loop {
            // Words alone, and what is sewn twice, stand where the maker put them: right after the step before.
            let is_on_top = |act: &super::schedule::Act| act.jobs.is_empty();
            while self.said.acts.get(run.next).is_some_and(is_on_top) && self.is_sewn(&run) {
                let phase = run.items.last().map_or(Phase::Fusing, |(_, phase)| *phase);
                run.items.push((Item::Act(run.next), phase));
                run.next += 1;
            }
            let mut best: Option<(Key, Item)> = None;
            let mut offer = |key: Key, item: Item| {
                if best.is_none_or(|(least, _)| key < least) {
                    best = Some((key, item));
                }
            };
            if self.said.acts.get(run.next).is_some_and(|_| self.may_act(&run)) {
                let keys = self.jobs_of(run.next).into_iter().filter_map(|at| self.keys.get(at).copied());
                keys.min().into_iter().for_each(|key| offer(key, Item::Act(run.next)));
            }
            for &at in &ready {
                if let Some(&key) = self.keys.get(at)
                    && !self.is_late(&run, at)
                {
                    offer(self.as_it_lies(key, at, &mut run), Item::Job(at));
                }
            }
            let Some((key, item)) = best.or_else(|| self.forced(&run)) else { break };
            let jobs = match item {
                Item::Job(at) => self.at_once(&run, at),
                Item::Act(act) => {
                    run.next += 1;
                    self.jobs_of(act)
                }
            };
            match item {
                Item::Job(_) => run.items.extend(jobs.iter().map(|&at| (Item::Job(at), key.phase))),
                Item::Act(_) => run.items.push((item, key.phase)),
            }
            for at in jobs {
                self.finish(&mut run, &mut ready, at);
            }
        }
        let left = (0..work.jobs.len()).filter(|&at| !run.done.get(at).copied().unwrap_or(true)).collect();
        Ordered { items: run.items, left }
    }

    /// A job, those that a step cannot tell from it, and those that are finished in one go with it.
    fn at_once(&self, run: &Run, at: usize) -> Vec<usize> {
        let mut all = self.alike.get(at).map_or_else(|| vec![at], |all| all.to_vec());
        for &next in self.runs_on.get(at).into_iter().flatten() {
            if !all.contains(&next) && self.is_free(run, next) && !self.is_late(run, next) {
                all.extend(self.alike.get(next).into_iter().flatten());
            }
        }
        all
    }

    /// Marks a job as done, and finds what is ready by it.
    fn finish(&self, run: &mut Run, ready: &mut Vec<usize>, at: usize) {
        if let Some(done) = run.done.get_mut(at) {
            *done = true;
        }
        for &(one, other) in self.joined.get(at).into_iter().flatten() {
            run.together.join(one, other);
        }
        ready.retain(|&one| one != at);
        for &waiter in self.graph.waiters.get(at).into_iter().flatten() {
            let Some(&waiter) = self.alike.get(waiter).and_then(|all| all.first()) else { continue };
            if !ready.contains(&waiter) && self.is_free(run, waiter) {
                ready.push(waiter);
            }
        }
    }

    /// Whether what the maker's next step presses is sewn.
    fn is_sewn(&self, run: &Run) -> bool {
        self.waited_for(run.next).iter().all(|&at| run.done.get(at) != Some(&false))
    }

    /// Whether a job is to be worked out, is not done yet, and waits for nothing.
    fn is_free(&self, run: &Run, at: usize) -> bool {
        run.done.get(at) == Some(&false)
            && self.acts.get(at) == Some(&None)
            && self.alike.get(at).is_some_and(|all| {
                all.first() == Some(&at)
                    && all.iter().all(|&one| self.graph.is_ready(one, &run.done, self.given))
            })
    }

    /// Whether it is still to be basted, or a rule that waits only where something else has met asks for more by
    /// now.
    fn is_late(&self, run: &Run, at: usize) -> bool {
        let is_basted = self.basted.get(at).copied().flatten().is_none_or(|act| act < run.next);
        !is_basted || self.given == Given::ByThen && !self.graph.is_ready(at, &run.done, self.given)
    }

    /// Whether the maker's next step waits for nothing that is still to be worked out. What it should have waited
    /// for among the maker's own steps is told by itself.
    fn may_act(&self, run: &Run) -> bool {
        let own = self.jobs_of(run.next);
        let is_open = |&at: &usize| run.done.get(at) == Some(&false);
        let is_worked_out = |&at: &usize| self.acts.get(at) == Some(&None);
        own.iter().flat_map(|&at| self.graph.needs.get(at).into_iter().flatten()).all(|need| {
            let mut open = need.by.iter().filter(|at| is_open(at) && is_worked_out(at));
            open.next().is_none() || self.graph.is_met(need, &run.done, self.given)
        })
    }

    /// The maker's next step, though something that it waits for finds no place before it.
    fn forced(&self, run: &Run) -> Option<(Key, Item)> {
        let keys = self.jobs_of(run.next).into_iter().filter_map(|at| self.keys.get(at).copied());
        let key = keys.min().unwrap_or(Key {
            phase: run.items.last().map_or(Phase::Fusing, |(_, phase)| *phase),
            within: Phase::Fusing,
            nth: 0,
        });
        self.said.acts.get(run.next).map(|_| (key, Item::Act(run.next)))
    }

    /// A seam that joins what still hangs apart is sewn flat, whatever it may close otherwise.
    fn as_it_lies(&self, key: Key, at: usize, run: &mut Run) -> Key {
        let closes = |phase: Phase| matches!(phase, Phase::Sides | Phase::Round);
        let (outside, inside) = (closes(key.phase), closes(key.within));
        if !outside && !inside || self.round.contains(&at) {
            return key;
        }
        // A sleeve that is closed already hangs apart, and yet is set in round its armhole.
        if self.goes_round_ring(run, at) {
            let round = |phase: Phase| if closes(phase) { Phase::Round } else { phase };
            return Key { phase: round(key.phase), within: round(key.within), ..key };
        }
        let pairs = self.joined.get(at).map_or(&[][..], Vec::as_slice);
        let is_flat = !pairs.is_empty()
            && pairs.iter().all(|&(one, other)| run.together.root(one) != run.together.root(other));
        let is_done = |at: &usize| run.done.get(*at).copied().unwrap_or(false);
        let mut pivots = self.pivots.get(at).into_iter().flatten();
        if !is_flat && outside && pivots.any(|before| before.iter().all(is_done)) {
            // What goes on round a corner is of the part of the work that has just begun there.
            let last = run.items.last().map(|(_, phase)| *phase);
            let phase = last.filter(|last| closes(*last)).unwrap_or(Phase::Flat);
            return Key { phase, within: phase, ..key };
        }
        match (is_flat, outside) {
            (false, _) => key,
            (true, true) => Key { phase: Phase::Flat, within: Phase::Flat, ..key },
            (true, false) => Key { within: Phase::Flat, ..key },
        }
    }

    /// Whether what it sews is closed to rings by now that are sewn round one another.
    fn goes_round_ring(&self, run: &Run, at: usize) -> bool {
        let is_of_ring = |need: &&Need| {
            let rule = self.graph.rules.all.get(need.rule);
            rule.is_some_and(|rule| rule.why == Why::RingRoundRing)
        };
        let mut rings = self.graph.needs.get(at).into_iter().flatten().filter(is_of_ring).peekable();
        rings.peek().is_some() && rings.all(|need| self.graph.is_met(need, &run.done, Given::Always))
    }

    fn faces(&self) -> usize {
        let faces = self.graph.rules.reach.as_ref().map_or(0, |reach| reach.surface.faces.len());
        faces.max(self.graph.rules.work.finder.parts.len())
    }
}

/// How far the work has come.
struct Run {
    done: Vec<bool>,
    /// What hangs together.
    together: Union,
    items: Vec<(Item, Phase)>,
    /// The maker's next step.
    next: usize,
}

fn only(by: &[usize]) -> Option<usize> {
    match by {
        [one] => Some(*one),
        _ => None,
    }
}

/// Of each job when it is chosen by itself.
fn keys(work: &Work) -> Vec<Key> {
    let phases = Phases::of(work);
    let mut in_file: Vec<usize> = (0..work.jobs.len()).collect();
    // Files come in the order in which they are merged, not in that in which they were read: packed, they are one.
    let mut statements: Vec<(u32, usize)> =
        work.garment.statements.iter().enumerate().map(|(nth, span)| (span.lo, nth)).collect();
    statements.sort_unstable();
    let place = |lo: u32| {
        let at = statements.partition_point(|&(begins, _)| begins <= lo);
        (at.checked_sub(1).and_then(|at| statements.get(at)).map(|&(_, nth)| nth), lo)
    };
    let declared: Vec<_> = work.jobs.iter().map(|&job| place(work.declared(job).lo)).collect();
    in_file.sort_by_key(|&at| declared.get(at));
    let mut nth = vec![0; in_file.len()];
    for (place, &at) in in_file.iter().enumerate() {
        if let Some(own) = nth.get_mut(at) {
            *own = place;
        }
    }
    let key = |(&job, nth): (&Job, usize)| {
        let (phase, within) = phases.phase(job);
        Key { phase, within, nth }
    };
    work.jobs.iter().zip(nth).map(key).collect()
}

/// A job as a step says it: what is done, to what, and in which layer.
type AsSaid = ((Verb, ActionTarget), Option<LayerId>);

/// Of each job those that a step cannot tell from it.
fn alike(work: &Work) -> Vec<SmallVec<[usize; 1]>> {
    let called = |job: Job| Some((step_of(work, job)?, layer_of(job, work)));
    let mut all: HashMap<AsSaid, SmallVec<[usize; 1]>> = HashMap::new();
    for (at, &job) in work.jobs.iter().enumerate() {
        if let Some(called) = called(job) {
            all.entry(called).or_default().push(at);
        }
    }
    let of = |(at, &job): (usize, &Job)| {
        let own = called(job).and_then(|called| all.get(&called).cloned());
        own.unwrap_or_else(|| SmallVec::from_slice(&[at]))
    };
    work.jobs.iter().enumerate().map(of).collect()
}

/// Of each job those of the same finish that its edge runs on into, over a seam that both wait for.
fn runs_on(graph: &Graph) -> Vec<Vec<usize>> {
    let work = graph.rules.work;
    let mut over: IndexMap<(FinishId, LayerId, usize), Vec<usize>> = IndexMap::new();
    for rule in graph.rules.all.iter().filter(|rule| rule.why == Why::RunsOn) {
        if let (Doing::Job(job @ Job::Finish(id, _, layer)), Needs::Done(Doing::Job(Job::Seam(seam)))) =
            (rule.waits, &rule.needs)
            && let Some(at) = work.jobs.get_index_of(&job)
        {
            over.entry((id, layer, *seam)).or_default().push(at);
        }
    }
    let mut runs_on = vec![Vec::new(); work.jobs.len()];
    for all in over.values() {
        for &at in all {
            if let Some(own) = runs_on.get_mut(at) {
                own.extend(all.iter().copied().filter(|other| *other != at));
            }
        }
    }
    for own in &mut runs_on {
        own.sort_unstable();
        own.dedup();
    }
    runs_on
}

/// The jobs that go round what is a ring as it is drawn.
fn round(graph: &Graph) -> Vec<usize> {
    let stitchings = graph.rules.reach.as_ref().map_or_else(Vec::new, |reach| reach.round_drawn());
    let job = |at: usize| graph.rules.work.jobs.get_index_of(&Job::Seam(at));
    stitchings.into_iter().filter_map(job).collect()
}

/// Of each job the faces, or where the surface is not known the parts, that it joins two by two.
fn joined(graph: &Graph) -> Vec<Vec<(usize, usize)>> {
    let work = graph.rules.work;
    let mut joined = vec![Vec::new(); work.jobs.len()];
    let mut add = |at: usize, all: &[usize]| {
        let Some(own) = work.jobs.get_index_of(&Job::Seam(at)).and_then(|at| joined.get_mut(at)) else {
            return;
        };
        for two in all.windows(2) {
            if let [one, other] = *two {
                own.push((one, other));
            }
        }
    };
    match &graph.rules.reach {
        Some(reach) => {
            for join in &reach.surface.joins {
                let JoinedBy::Seam { sewn, .. } = join.by else { continue };
                let Some(at) = reach.seams.get(sewn).copied().flatten() else { continue };
                // What lies beside it on its own side may hang there already.
                let side = |wanted: fn(PlyAt) -> bool| {
                    let ply = join.plies.iter().find(|ply| wanted(ply.at))?;
                    Some(reach.surface.face_of(ply.stretch).index())
                };
                let sides =
                    side(|at| matches!(at, PlyAt::First(_))).zip(side(|at| matches!(at, PlyAt::Second(_))));
                if let Some((first, second)) = sides {
                    add(at, &[first, second]);
                }
            }
        }
        None => {
            for (at, stitching) in work.stitchings.iter().enumerate() {
                let parts: Vec<usize> = stitching.places().map(|place| place.part.index()).collect();
                add(at, &parts);
            }
        }
    }
    for own in &mut joined {
        own.sort_unstable();
        own.dedup();
    }
    joined
}
