//! `step/circle`: what waits for one another, so that no order will do.

use super::super::words;
use crate::report::{Diagnostic, catalogue};
use crate::sewing::order::{Doing, Graph, Job, Rules, Why};
use crate::source::Span;
use std::collections::{BTreeSet, HashSet};

/// What waits for one another.
pub(super) struct Circles {
    /// Each in the order of waiting, with why it waits for the next.
    circles: Vec<Vec<(Job, Why)>>,
    members: HashSet<Job>,
}

impl Circles {
    /// All circles of the work, whatever the steps say.
    pub(super) fn of(rules: &Rules) -> Circles {
        let job = |at: usize| rules.work.jobs.get_index(at).copied();
        let why = |rule: usize| rules.all.get(rule).map(|rule| rule.why);
        let circles: Vec<Vec<(Job, Why)>> = Graph::of(rules)
            .circles()
            .iter()
            .map(|circle| circle.iter().filter_map(|&(at, rule)| job(at).zip(why(rule))).collect())
            .collect();
        let members = circles.iter().flatten().map(|(job, _)| *job).collect();
        Circles { circles, members }
    }

    /// None, where it is known that there are none.
    pub(super) fn none() -> Circles {
        Circles { circles: Vec::new(), members: HashSet::new() }
    }

    /// Whether there are any.
    pub(super) fn are_any(&self) -> bool {
        !self.circles.is_empty()
    }

    /// Whether both wait in a circle, so that it helps nobody to do one of them sooner.
    pub(super) fn has(&self, rules: &Rules, one: Doing, other: Doing) -> bool {
        let is_in = |doing: Doing| {
            let has = |job: Job| self.members.contains(&job);
            match doing {
                Doing::Job(job) => has(job),
                Doing::PutIn(id) => has(Job::PutIn(id)) || has(Job::Closure(id)),
                Doing::Begun(id) | Doing::Whole(id) => {
                    rules.work.of_seam(id).iter().any(|&at| has(Job::Seam(at)))
                }
            }
        };
        self.are_any() && is_in(one) && is_in(other)
    }

    /// Each circle once, however many layers it is in.
    pub(super) fn report(&self, rules: &Rules, diagnostics: &mut Vec<Diagnostic>) {
        let mut seen: HashSet<BTreeSet<Span>> = HashSet::new();
        for circle in &self.circles {
            let doings: Vec<(String, Span, bool)> = circle
                .iter()
                .map(|&(job, _)| {
                    let name = match job {
                        Job::Closure(id) => rules.work.doing(Doing::PutIn(id)),
                        job => rules.work.doing(Doing::Job(job)),
                    };
                    (name, rules.work.declared(job), matches!(job, Job::Closure(_) | Job::PutIn(_)))
                })
                .collect();
            if seen.insert(doings.iter().map(|(_, span, _)| *span).collect()) {
                let runs = circle.iter().all(|(_, why)| matches!(why, Why::Crosses | Why::Encloses));
                diagnostics.extend(circular(&doings, runs));
            }
        }
    }
}

fn circular(doings: &[(String, Span, bool)], runs_over: bool) -> Option<Diagnostic> {
    let ((first, place, _), others) = doings.split_first()?;
    let next = |at: usize| doings.get(at + 1).map_or(first.as_str(), |(name, ..)| name.as_str());
    let clauses: Vec<String> = doings
        .iter()
        .enumerate()
        .map(|(at, (name, ..))| match at {
            0 => format!("{name} has to wait for {}", next(at)),
            _ => format!("{name} for {}", next(at)),
        })
        .collect();
    let title = format!("no order of work is possible: {}", words::listed(&clauses));
    let mut diagnostics =
        Diagnostic::new(&catalogue::STEP_CIRCLE, *place, title).label(format!("waits for {}", next(0)));
    for (at, (_, span, _)) in others.iter().enumerate() {
        diagnostics = diagnostics.also(*span, format!("waits for {}", next(at + 1)));
    }
    let has_closure = doings.iter().any(|(.., is_closure)| *is_closure);
    Some(diagnostics.help(match (has_closure, runs_over) {
        (true, true) => "let the closure end where the seam begins, or take it out of what the seam encloses",
        (false, true) => {
            "a seam runs on over another only once that is sewn: divide an edge of one of them where they \
             meet, and sew each run in a seam of its own"
        }
        (_, false) => {
            "sew one of them in two runs: divide its edge where they meet, and give each run its own"
        }
    }))
}
