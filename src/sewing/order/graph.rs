//! Which job waits for which, as the rules say.
//!
//! What can be done is done, and then what waited for that; what is left at the end waits for itself (Kahn 1962,
//! with a choice of forerunners). Every rule is one that more work never undoes, so that it does not matter in
//! which order what can be done is done.

use super::doing::Doing;
use super::jobs::Job;
use super::rule::Needs;
use super::rules::Rules;

/// How rules count that wait only where something else has met.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Given {
    /// As if it always had.
    Always,
    /// As it is by then.
    ByThen,
    /// As if it never had.
    Never,
}

/// One thing that a job waits for.
#[derive(Clone, Debug)]
pub struct Need {
    /// The rule, by its place among the rules.
    pub rule: usize,
    /// What may bring it about: any one of these jobs where the rule names them, else all together.
    pub by: Vec<usize>,
}

/// Jobs by their places, and what each waits for.
pub struct Graph<'a> {
    /// The rules.
    pub rules: &'a Rules<'a>,
    /// Of each job all that it waits for.
    pub needs: Vec<Vec<Need>>,
    /// Of each job those that may have waited for it.
    pub waiters: Vec<Vec<usize>>,
}

impl<'a> Graph<'a> {
    /// Of these rules.
    pub fn of(rules: &'a Rules<'a>) -> Graph<'a> {
        let work = rules.work;
        let count = work.jobs.len();
        let mut graph = Graph { rules, needs: vec![Vec::new(); count], waiters: vec![Vec::new(); count] };
        for (at, rule) in rules.all.iter().enumerate() {
            let needed: Vec<Vec<usize>> = match &rule.needs {
                // Each of several jobs is needed.
                Needs::Done(doing) => graph.places(*doing).into_iter().map(|job| vec![job]).collect(),
                Needs::OneOf(seams) => {
                    vec![seams.iter().filter_map(|&seam| work.jobs.get_index_of(&Job::Seam(seam))).collect()]
                }
                Needs::Met(meeting) => {
                    let seams =
                        rules.reach.as_ref().map(|reach| reach.seams_round(meeting)).unwrap_or_default();
                    vec![seams.iter().filter_map(|&seam| work.jobs.get_index_of(&Job::Seam(seam))).collect()]
                }
                Needs::LaidOn(_) => {
                    let seams = work.jobs.iter().enumerate().filter(|(_, job)| matches!(job, Job::Seam(_)));
                    vec![seams.map(|(at, _)| at).collect()]
                }
            };
            for waits in graph.places(rule.waits) {
                for by in needed.iter().filter(|by| !by.is_empty()) {
                    graph.add(waits, at, by);
                }
            }
        }
        for own in &mut graph.waiters {
            own.sort_unstable();
            own.dedup();
        }
        graph
    }

    fn add(&mut self, waits: usize, rule: usize, by: &[usize]) {
        if by == [waits] {
            return;
        }
        if let Some(needs) = self.needs.get_mut(waits) {
            needs.push(Need { rule, by: by.to_vec() });
        }
        for &one in by {
            if let Some(waiters) = self.waiters.get_mut(one) {
                waiters.push(waits);
            }
        }
    }

    /// Lets a job wait for another beyond the rules; whether it did not yet.
    pub fn ask(&mut self, waits: usize, by: usize) -> bool {
        let beyond = self.rules.all.len();
        let has = |need: &Need| need.rule == beyond && need.by == [by];
        if waits == by || self.needs.get(waits).is_none_or(|needs| needs.iter().any(has)) {
            return false;
        }
        self.add(waits, beyond, &[by]);
        true
    }

    /// Takes that back.
    pub fn take_back(&mut self, waits: usize, by: usize) {
        let beyond = self.rules.all.len();
        if let Some(needs) = self.needs.get_mut(waits) {
            needs.retain(|need| need.rule != beyond || need.by != [by]);
        }
    }

    /// The jobs that something speaks of.
    fn places(&self, doing: Doing) -> Vec<usize> {
        let work = self.rules.work;
        let jobs: Vec<Job> = match doing {
            Doing::Job(job) => vec![job],
            Doing::PutIn(id) if work.jobs.contains(&Job::PutIn(id)) => vec![Job::PutIn(id)],
            Doing::PutIn(id) => vec![Job::Closure(id)],
            Doing::Begun(id) | Doing::Whole(id) => work.of_seam(id).iter().map(|&at| Job::Seam(at)).collect(),
        };
        jobs.iter().filter_map(|job| work.jobs.get_index_of(job)).collect()
    }

    /// Whether that has come about by what is done.
    pub fn is_met(&self, need: &Need, done: &[bool], given: Given) -> bool {
        let is_done = |at: usize| done.get(at).copied().unwrap_or(false);
        // What is asked for beyond the rules names one job.
        let Some(rule) = self.rules.all.get(need.rule) else { return need.by.iter().all(|&at| is_done(at)) };
        let seam = |at: usize| {
            let place = self.rules.work.jobs.get_index_of(&Job::Seam(at));
            place.filter(|&place| is_done(place)).map(|_| ())
        };
        match (&rule.needs, &self.rules.reach) {
            (Needs::Done(_) | Needs::OneOf(_), _) => need.by.iter().any(|&at| is_done(at)),
            (Needs::Met(meeting), Some(reach)) => {
                let is_given = || match given {
                    Given::Always => true,
                    Given::ByThen => rule.given.iter().any(|one| reach.meet(one, &seam).is_some()),
                    // What lies together without any seam, as over a fold, is always so.
                    Given::Never => rule.given.iter().any(|one| reach.meet(one, &|_| None::<()>).is_some()),
                };
                !rule.given.is_empty() && !is_given() || reach.meet(meeting, &seam).is_some()
            }
            (Needs::LaidOn(gap), Some(reach)) => reach.laid_late(*gap, &|at| seam(at).is_some()).is_none(),
            (Needs::Met(_) | Needs::LaidOn(_), None) => true,
        }
    }

    /// Whether all that a job waits for has come about.
    pub fn is_ready(&self, job: usize, done: &[bool], given: Given) -> bool {
        self.needs.get(job).is_none_or(|needs| needs.iter().all(|need| self.is_met(need, done, given)))
    }

    /// The jobs that can never be done, whatever the order.
    pub fn stuck(&self) -> Vec<bool> {
        let mut done = vec![false; self.needs.len()];
        let mut open: Vec<usize> = (0..self.needs.len()).collect();
        while let Some(job) = open.pop() {
            if done.get(job).copied().unwrap_or(true) || !self.is_ready(job, &done, Given::Never) {
                continue;
            }
            if let Some(done) = done.get_mut(job) {
                *done = true;
            }
            open.extend(self.waiters.get(job).into_iter().flatten());
        }
        done.into_iter().map(|done| !done).collect()
    }

    /// Jobs that wait for one another, in the order of waiting, each with the rule by which it waits for the next.
    pub fn circles(&self) -> Vec<Vec<(usize, usize)>> {
        let stuck = self.stuck();
        let is_stuck = |at: usize| stuck.get(at).copied().unwrap_or(false);
        let done: Vec<bool> = stuck.iter().map(|stuck| !stuck).collect();
        let next = |at: usize| {
            let needs = self.needs.get(at)?;
            let open = needs.iter().find(|need| !self.is_met(need, &done, Given::Never))?;
            Some((open.rule, open.by.iter().copied().find(|&one| is_stuck(one))?))
        };
        let mut circles: Vec<Vec<(usize, usize)>> = Vec::new();
        let mut seen = vec![false; stuck.len()];
        for start in (0..stuck.len()).filter(|&at| is_stuck(at)) {
            let mut row: Vec<(usize, usize)> = Vec::new();
            let mut at = start;
            while let Some(seen) = seen.get_mut(at).filter(|seen| !**seen) {
                *seen = true;
                let Some((rule, other)) = next(at) else { break };
                row.push((at, rule));
                at = other;
            }
            if let Some(begin) = row.iter().position(|&(one, _)| one == at) {
                circles.push(row.split_off(begin));
            }
        }
        circles
    }
}
