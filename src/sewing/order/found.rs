//! The order of work of a garment, what the maker says and what is worked out together.

use super::bags::{Bags, Shutting};
use super::closed_straps::closed_straps;
use super::doing::Doing;
use super::graph::{Given, Graph};
use super::jobs::{Job, Work};
use super::phase::Phase;
use super::rule::Rule;
use super::rules::{Broken, Rules};
use super::schedule::{Item, Schedule};
use super::shut_in::shut_in;
use super::solve::{Ordered, Solving};
use super::timetable::Timetable;
use super::why::Why;

/// An order in which a bag cannot be turned is mended so often.
const MOST_MENDED: usize = 64;

/// An order of work.
#[derive(Clone, Debug, Default)]
pub struct Found {
    /// What is done, in order, and in which part of the work.
    pub items: Vec<(Item, Phase)>,
    /// When each job is done.
    pub schedule: Schedule,
    /// The jobs that find no place.
    pub left: Vec<Job>,
    /// What the bags ask for: which job waits for which.
    pub mended: Vec<(Job, Job)>,
    /// So many bags cannot be turned in it.
    pub unturned: usize,
}

/// Works out what the maker's steps leave out.
pub fn find(rules: &Rules, said: &Schedule) -> Found {
    // What finds no place, whether the rest breaks a rule, what cannot be turned.
    let faults = |found: &Found| (found.left.len(), !is_sound(rules, said, found), found.unturned);
    let strict = attempt(rules, said, Given::Always);
    let of_strict = faults(&strict);
    if of_strict == (0, false, 0) {
        return strict;
    }
    // What waits only where something else is closed already may go before that.
    let other = attempt(rules, said, Given::ByThen);
    if faults(&other) < of_strict { other } else { strict }
}

/// Rules that an order breaks in what is worked out; what the maker's own steps break is left out.
pub fn broken_by<'r>(rules: &'r Rules, said: &Schedule, found: &Found) -> Vec<Broken<'r>> {
    let is_said = |doing: Doing| said.at(rules.work, doing).is_some();
    let all = rules.all.iter().filter_map(|rule| rules.broken(rule, &found.schedule));
    // What it waits for may be said, and closed too early only by what is worked out.
    let is_closed_unsaid = |one: &Broken| closing(rules, said, found, one.rule).next().is_some();
    all.filter(|one| !is_said(one.rule.waits) || !is_said(one.later) || is_closed_unsaid(one)).collect()
}

fn is_sound(rules: &Rules, said: &Schedule, found: &Found) -> bool {
    found.left.is_empty() && broken_by(rules, said, found).is_empty()
}

/// An order in which bags can be turned, as far as one is found.
fn attempt(rules: &Rules, said: &Schedule, given: Given) -> Found {
    let work = rules.work;
    let mut graph = Graph::of(rules);
    let mut mended: Vec<(Job, Job)> = Vec::new();
    let mut found = of_order(work, said, Solving::of(&graph, said, given).order());
    for _ in 0..MOST_MENDED {
        if !found.left.is_empty() {
            break;
        }
        let (unturned, mut wanted) = wanted_by_bags(rules, &found.schedule);
        found.unturned = unturned;
        if given == Given::ByThen {
            wanted.extend(wanted_by_given(rules, said, &found));
        }
        let broken = broken_by(rules, said, &found).len();
        // Of what would mend it the first is taken that still leaves a place for everything.
        let next = wanted.into_iter().find_map(|(waits, needs)| {
            let is_new = !mended.contains(&(waits, needs))
                && (said.when(waits).is_none() || said.when(needs).is_none());
            let (at, by) = (work.jobs.get_index_of(&waits)?, work.jobs.get_index_of(&needs)?);
            if !is_new || !graph.ask(at, by) {
                return None;
            }
            let better = of_order(work, said, Solving::of(&graph, said, given).order());
            // Where the maker's own next step is done though it waits for this, a rule is broken for it.
            if !better.left.is_empty() || broken_by(rules, said, &better).len() > broken {
                graph.take_back(at, by);
                return None;
            }
            Some(((waits, needs), better))
        });
        let Some((pair, better)) = next else { break };
        mended.push(pair);
        found = better;
    }
    found.mended = mended;
    found
}

fn of_order(work: &Work, said: &Schedule, order: Ordered) -> Found {
    let schedule = said.with(work, order.items.iter().map(|(item, _)| *item));
    let job = |at: usize| work.jobs.get_index(at).copied();
    let left = order.left.into_iter().filter_map(job).collect();
    Found { items: order.items, schedule, left, mended: Vec::new(), unturned: 0 }
}

/// How many bags cannot be turned, and which job should wait for which, so that they can: ways to mend it, the best first.
fn wanted_by_bags(rules: &Rules, schedule: &Schedule) -> (usize, Vec<(Job, Job)>) {
    let work = rules.work;
    let Some(mut bags) = Bags::of(work.garment, work.sewing) else { return (0, Vec::new()) };
    if bags.all().is_ok_and(|all| all.is_empty()) {
        return (0, Vec::new());
    }
    bags.timetable = Timetable::of(work, schedule);
    let (Ok(all), Some(reach)) = (bags.all(), &rules.reach) else { return (0, Vec::new()) };
    let seam = |sewn: usize| reach.seams.get(sewn).copied().flatten().map(Job::Seam);
    let mut wanted = Vec::new();
    let mut unturned = 0;
    for shutting in all.iter().filter_map(|bag| bags.judge(bag)) {
        unturned += 1;
        match shutting {
            Shutting::NoWayOut { last, others, .. } => {
                // The latest first: it is least changed by being last.
                let mut others: Vec<usize> = others;
                others.sort_by_key(|&one| std::cmp::Reverse(seam(one).and_then(|job| schedule.when(job))));
                for other in others {
                    wanted.extend(seam(other).zip(seam(last)));
                }
            }
            Shutting::Late { last, .. } => {
                let turns = work.jobs.iter().filter(|job| matches!(job, Job::Turn(_)));
                wanted.extend(turns.filter_map(|&turn| Some((turn, seam(last)?))));
            }
        }
    }
    if let Some(timetable) = &bags.timetable {
        for one in shut_in(work.garment, work.sewing, reach.surface, timetable, &all) {
            unturned += 1;
            wanted.extend(seam(one.closing).zip(seam(one.seam)));
        }
        for strap in closed_straps(work.garment, work.sized, work.sewing, timetable, &all) {
            unturned += 1;
            let mut round = strap.round;
            round.sort_by_key(|&one| std::cmp::Reverse(seam(one).and_then(|job| schedule.when(job))));
            wanted.extend(round.into_iter().filter_map(|one| seam(one).zip(seam(strap.along[1]))));
        }
    }
    (unturned, wanted)
}

/// Which job should wait for which, so that nothing is closed already that what the maker says goes round while it still lies open: a
/// cuff that is sewn to a flat sleeve is closed after.
fn wanted_by_given(rules: &Rules, said: &Schedule, found: &Found) -> Vec<(Job, Job)> {
    let mut wanted = Vec::new();
    for broken in rules.all.iter().filter_map(|rule| rules.broken(rule, &found.schedule)) {
        let Doing::Job(round) = broken.rule.waits else { continue };
        for pair in closing(rules, said, found, broken.rule).map(|job| (job, round)) {
            if !wanted.contains(&pair) {
                wanted.push(pair);
            }
        }
    }
    wanted
}

/// The seams that no step says and that close, before what waits by a rule is done, what makes it wait.
fn closing(rules: &Rules, said: &Schedule, found: &Found, rule: &Rule) -> impl Iterator<Item = Job> {
    let when = match rule.waits {
        Doing::Job(job) => found.schedule.when(job),
        _ => None,
    };
    let given = rules.reach.iter().flat_map(|reach| {
        rule.given.iter().flat_map(|meeting| reach.seams_round(meeting)).map(Job::Seam).collect::<Vec<Job>>()
    });
    given.filter(move |&job| {
        let closed = found.schedule.when(job);
        let is_early = closed.zip(when).is_some_and(|(closed, when)| closed.at < when.at);
        is_early && said.when(job).is_none()
    })
}

/// Why a job is done where it is: what waits for it, or what it waits for, and the clause that goes with it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reason {
    /// It comes before this, which would follow only later otherwise.
    Before(Doing, Why),
    /// It comes after this.
    After(Doing, Why),
    /// The rules leave it free.
    Free(Phase),
}

impl Reason {
    /// "before sewing side, which runs on over it".
    pub fn words(&self, work: &Work) -> String {
        match self {
            Reason::Before(doing, why) => format!("before {}, {}", work.doing(*doing), why.of_waiting()),
            Reason::After(doing, why) => format!("after {}, {}", work.doing(*doing), why.of_first()),
            Reason::Free(phase) => phase.reason().to_owned(),
        }
    }
}

/// Why each of some jobs is done where it is.
pub struct Reasons {
    all: std::collections::HashMap<Job, Reason>,
}

impl Reasons {
    /// Of the order that was found.
    pub fn of(rules: &Rules, found: &Found) -> Reasons {
        let work = rules.work;
        let graph = Graph::of(rules);
        let phases = super::phase::Phases::of(work);
        let mut all = std::collections::HashMap::new();
        let mended = found.mended.iter().map(|&(waits, needs)| (waits, needs, Why::LastOfBag));
        let mended: Vec<(Job, Job, Why)> = mended.collect();
        let job = |at: usize| work.jobs.get_index(at).copied();
        let at = |job: Job| found.schedule.when(job).map(|when| when.at);
        let mut edges: Vec<(Job, Job, Why)> = mended;
        for (waits, needs) in graph.needs.iter().enumerate() {
            let Some(waits) = job(waits) else { continue };
            for need in needs {
                let Some(rule) = rules.all.get(need.rule) else { continue };
                // Of several the first that is done is the one that is waited for.
                let done = need.by.iter().filter_map(|&by| job(by)).filter(|&by| at(by) < at(waits));
                if let Some(first) = done.min_by_key(|&by| at(by)) {
                    edges.push((waits, first, rule.why));
                }
            }
        }
        let as_done: std::collections::HashMap<Job, Phase> = found
            .items
            .iter()
            .filter_map(|&(item, phase)| match item {
                Item::Job(at) => Some((job(at)?, phase)),
                Item::Act(_) => None,
            })
            .collect();
        for &job in &work.jobs {
            let (own, _) = phases.phase(job);
            // What belongs to an earlier part of the work draws it forward.
            let before = edges
                .iter()
                .filter(|(waits, needs, _)| {
                    *needs == job && phases.phase(*waits).0 < own && at(job) < at(*waits)
                })
                .min_by_key(|(waits, ..)| at(*waits));
            let after = edges.iter().filter(|(waits, needs, _)| *waits == job && at(*needs) < at(job));
            let reason = match (before, after.max_by_key(|(_, needs, _)| at(*needs))) {
                (Some(&(waits, _, why)), _) => Reason::Before(Doing::Job(waits), why),
                (None, Some(&(_, needs, why))) => Reason::After(Doing::Job(needs), why),
                (None, None) => Reason::Free(as_done.get(&job).copied().unwrap_or(own)),
            };
            all.insert(job, reason);
        }
        Reasons { all }
    }

    /// Why a job is done where it is.
    pub fn reason(&self, job: Job) -> Option<&Reason> {
        self.all.get(&job)
    }
}
