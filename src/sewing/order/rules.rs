//! All rules of the order of work. Checks hold an order against them; an order is worked out from them.

use super::doing::Doing;
use super::jobs::{Job, Work};
use super::placed;
use super::reach::Reach;
use super::rule::{Needs, Rule};
use super::schedule::{Schedule, When};
use super::{joints, notions, stitched};

/// A rule that an order breaks.
#[derive(Clone, Copy, Debug)]
pub struct Broken<'r> {
    /// The rule.
    pub rule: &'r Rule,
    /// When that is done which waits.
    pub first: When,
    /// What it should have waited for.
    pub later: Doing,
    /// When that is done.
    pub second: When,
}

/// All rules of the work on one size.
pub struct Rules<'a> {
    /// The work.
    pub work: &'a Work<'a>,
    /// The sewn surface, where it is known.
    pub reach: Option<Reach<'a>>,
    /// The rules, in the order in which they are told.
    pub all: Vec<Rule>,
}

impl<'a> Rules<'a> {
    /// Of that work.
    pub fn of(work: &'a Work<'a>) -> Rules<'a> {
        let mut all = Vec::new();
        placed::rules(work, &mut all);
        joints::rules(work, &mut all);
        notions::rules(work, &mut all);
        stitched::rules(work, &mut all);
        let reach = Reach::of(work);
        if let Some(reach) = &reach {
            let before = all.len();
            reach.rules(&mut all);
            all.iter_mut().skip(before).for_each(|rule| rule.by_surface = true);
        }
        Rules { work, reach, all }
    }

    /// How an order breaks a rule; none where it does not, and where not all is done that the rule speaks of.
    pub fn broken<'r>(&self, rule: &'r Rule, schedule: &Schedule) -> Option<Broken<'r>> {
        let first = schedule.begun(self.work, rule.waits)?;
        let broken = |later: Doing, second: When| Broken { rule, first, later, second };
        match &rule.needs {
            Needs::Done(doing) => {
                let second = schedule.at(self.work, *doing).filter(|second| *second > first)?;
                Some(broken(*doing, second))
            }
            Needs::OneOf(seams) => {
                let (at, second) = soonest(seams, schedule, first)?;
                Some(broken(Doing::Job(Job::Seam(at)), second))
            }
            Needs::Met(meeting) => {
                let reach = self.reach.as_ref()?;
                let before = |at: usize| schedule.when(Job::Seam(at)).filter(|when| *when < first);
                let is_given = || rule.given.iter().any(|given| reach.meet(given, &before).is_some());
                if reach.meet(meeting, &before).is_some() || !rule.given.is_empty() && !is_given() {
                    return None;
                }
                let (second, at) = reach.meet(meeting, &|at| schedule.when(Job::Seam(at)))??;
                Some(broken(Doing::Job(Job::Seam(at)), second))
            }
            Needs::LaidOn(seam) => {
                let reach = self.reach.as_ref()?;
                let turns =
                    schedule.turned.iter().filter(|(_, through)| through.is_none_or(|own| own == *seam));
                turns.into_iter().find_map(|&(turn, _)| {
                    let when = |at: usize| schedule.when(Job::Seam(at));
                    let (second, at) = reach
                        .laid_late(*seam, &|at| when(at).is_some_and(|when| when < turn))?
                        .into_iter()
                        .map(|at| Some((when(at)?, at)))
                        .collect::<Option<Vec<_>>>()?
                        .into_iter()
                        .min()?;
                    Some(Broken { rule, first: turn, later: Doing::Job(Job::Seam(at)), second })
                })
            }
        }
    }
}

/// The soonest of these seams, where all of them are sewn, and only after that.
fn soonest(seams: &[usize], schedule: &Schedule, first: When) -> Option<(usize, When)> {
    let mut soonest: Option<(usize, When)> = None;
    for &at in seams {
        let sewn = schedule.when(Job::Seam(at))?;
        if sewn < first {
            return None;
        }
        if soonest.is_none_or(|(_, least)| sewn < least) {
            soonest = Some((at, sewn));
        }
    }
    soonest.filter(|(_, sewn)| *sewn > first)
}
