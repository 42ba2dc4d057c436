//! Steps of files that are combined, none of which knows the others' steps: an order of them that obeys every rule.
//!
//! Each file says beside which step of the base its own stands, and where several stand beside one step, only the rules
//! of order tell which of them comes first. So the steps as they were merged are held against the rules; of each rule
//! that is broken two steps are learnt that stand the wrong way round, and the steps are put in order again. What
//! one file says of its own steps holds throughout; beside which step of another file they stand is a wish.

use super::jobs::{Job, Work};
use super::rules::Rules;
use super::schedule::{Schedule, When};
use crate::garment::{Garment, StepGroup};
use crate::resolve::SizedGarment;
use crate::sewing::Sewing;
use indexmap::IndexSet;

/// One step before another, by their places as they were merged.
type Before = (usize, usize);

/// The steps of a garment in an order that breaks no rule, by their places; none where they stand in one, where there
/// is none, and where all of them are of one file.
pub fn arranged(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Option<Vec<usize>> {
    if !garment.steps.iter().any(|step| step.beside.is_some()) {
        return None;
    }
    let count = garment.steps.len();
    let merged: Vec<usize> = (0..count).collect();
    let (firm, wishes) = (firm(&garment.steps), wishes(&garment.steps));
    let mut order = merged.clone();
    let mut learnt: IndexSet<Before> = IndexSet::new();
    // Each time round two steps more are known to stand in one way.
    for _ in 0..=count * count {
        let steps = order.iter().filter_map(|&at| garment.steps.get(at).cloned()).collect();
        let tried = Garment { steps, ..garment.clone() };
        let work = Work::new(&tried, sized, sewing);
        let wrong: Vec<Before> = wrong(&work)?
            .into_iter()
            .map(|(one, other)| Some((*order.get(one)?, *order.get(other)?)))
            .collect::<Option<_>>()?;
        if wrong.is_empty() {
            return (order != merged).then_some(order);
        }
        let before = learnt.len();
        learnt.extend(wrong);
        if learnt.len() == before {
            return None;
        }
        let must: Vec<Before> = firm.iter().chain(&learnt).copied().collect();
        // The wish that was said last is given up first.
        order = (0..=wishes.len())
            .rev()
            .find_map(|kept| sorted(count, must.iter().chain(wishes.iter().take(kept))))?;
    }
    None
}

/// The order of the steps that are not put beside another file's.
fn firm(steps: &[StepGroup]) -> Vec<Before> {
    let firm =
        steps.iter().enumerate().filter(|(_, step)| step.beside.as_ref().is_none_or(|beside| beside.firm));
    let firm: Vec<usize> = firm.map(|(at, _)| at).collect();
    firm.windows(2).filter_map(|pair| Some((*pair.first()?, *pair.last()?))).collect()
}

/// What is said of each step that is put beside another.
fn wishes(steps: &[StepGroup]) -> Vec<Before> {
    let wish = |(at, step): (usize, &StepGroup)| {
        let beside = step.beside.as_ref()?;
        let anchor = steps.iter().position(|one| one.title == beside.title)?;
        Some(if beside.after { (anchor, at) } else { (at, anchor) })
    };
    steps.iter().enumerate().filter_map(wish).collect()
}

/// The steps that stand the wrong way round: which has to come first, and before which. None where a step would have to
/// come before itself.
fn wrong(work: &Work) -> Option<Vec<Before>> {
    let schedule = Schedule::said(work);
    let rules = Rules::of(work);
    let group = |when: When| schedule.acts.get(when.at).map(|act| act.place.0);
    let mut found: Vec<(When, When)> = Vec::new();
    let mut told: IndexSet<usize> = IndexSet::new();
    for broken in rules.all.iter().filter_map(|rule| rules.broken(rule, &schedule)) {
        // Of rules of which any one will do the first is obeyed.
        if broken.rule.one_of.is_none_or(|one_of| told.insert(one_of)) {
            found.push((broken.second, broken.first));
        }
    }
    let late = rules.reach.iter().flat_map(|reach| reach.fused_late(&schedule));
    found.extend(late.map(|(_, first, _, second)| (second, first)));
    let mut wrong: Vec<Before> = Vec::new();
    for (one, other) in found {
        wrong.push((group(one)?, group(other)?));
    }
    // What is pressed is sewn before, and what is basted only after.
    for (at, act) in schedule.acts.iter().enumerate() {
        let of = |job: &Job| Some((schedule.when(*job)?.at, group(schedule.when(*job)?)?));
        let sewn_later = act.after.iter().filter_map(of).filter(|(when, _)| *when > at);
        wrong.extend(sewn_later.map(|(_, own)| (own, act.place.0)));
        let sewn_sooner = act.before.iter().filter_map(of).filter(|(when, _)| *when < at);
        wrong.extend(sewn_sooner.map(|(_, own)| (act.place.0, own)));
    }
    wrong.iter().all(|(one, other)| one != other).then_some(wrong)
}

/// The steps in that order, of those that may come next always the one that was merged first; none where some wait for
/// one another.
fn sorted<'b>(count: usize, before: impl Iterator<Item = &'b Before>) -> Option<Vec<usize>> {
    let before: IndexSet<Before> = before.copied().collect();
    let mut order: Vec<usize> = Vec::with_capacity(count);
    while order.len() < count {
        let is_free = |at: &usize| {
            !order.contains(at) && before.iter().all(|(one, other)| other != at || order.contains(one))
        };
        let next = (0..count).find(is_free)?;
        order.push(next);
    }
    Some(order)
}
