//! The steps of a garment: what the maker says, word for word, and what is worked out between.

use super::as_said::{layer_of, step_of};
use super::found::{Found, Reason, Reasons, broken_by, find};
use super::jobs::{Job, Work};
use super::phase::Phase;
use super::planned::{Plan, PlannedAction, PlannedGroup, PlannedTarget};
use super::rules::{Broken, Rules};
use super::schedule::{Item, Schedule};
use super::titles;
use super::titles::GroupTitle;
use crate::garment::{ActionTarget, Garment, LayerId};
use crate::resolve::SizedGarment;
use crate::sewing::Sewing;
use crate::syntax::tree::Verb;

/// The steps of a garment, with those that are worked out. What is not understood of the garment's steps or seams
/// leaves them as they are said.
pub fn plan(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Plan {
    let work = Work::new(garment, sized, sewing);
    let said = Schedule::said(&work);
    if said.is_whole(&work) || is_unclear(garment) {
        let items: Vec<(Item, Phase)> =
            (0..said.acts.len()).map(|at| (Item::Act(at), Phase::Fusing)).collect();
        return planned(&work, &said, &items, None);
    }
    let rules = Rules::of(&work);
    let found = find(&rules, &said);
    let reasons = Reasons::of(&rules, &found);
    let plan = planned(&work, &said, &found.items, Some(&reasons));
    Plan { left: found.left, worked_out: true, ..plan }
}

/// Whether so much of a garment is not understood that nothing can be worked out of it.
pub fn is_unclear(garment: &Garment) -> bool {
    let lost = garment.incomplete.steps || garment.incomplete.sewing || garment.incomplete.layers;
    lost || garment.seams.iter().any(|seam| seam.poisoned)
}

/// What is worked out of steps that leave something out, and what of the rules that breaks.
pub struct Completion<'r> {
    /// The order.
    pub found: Found,
    /// What is broken by what is worked out, not by the maker.
    pub broken: Vec<Broken<'r>>,
}

impl<'r> Completion<'r> {
    /// Of these rules and steps.
    pub fn of(rules: &'r Rules, said: &Schedule) -> Completion<'r> {
        let found = find(rules, said);
        let broken = broken_by(rules, said, &found);
        Completion { found, broken }
    }
}

fn in_layer(target: ActionTarget, layer: LayerId) -> ActionTarget {
    match target {
        ActionTarget::Edge(_, edge) => ActionTarget::Edge(Some(layer), edge),
        ActionTarget::Piece(_, piece) => ActionTarget::Piece(Some(layer), piece),
        ActionTarget::TakeUp(_, edge) => ActionTarget::TakeUp(Some(layer), edge),
        other => other,
    }
}

/// Groups of what is done, in that order.
fn planned(work: &Work, said: &Schedule, items: &[(Item, Phase)], reasons: Option<&Reasons>) -> Plan {
    let mut writing = Writing { work, groups: Vec::new() };
    let group_of = |item: &Item| match item {
        Item::Act(at) => said.acts.get(*at).map(|act| act.place.0),
        Item::Job(_) => None,
    };
    let all: Vec<(Job, (Verb, ActionTarget))> =
        work.jobs.iter().filter_map(|&job| Some((job, step_of(work, job)?))).collect();
    let mut done: std::collections::HashSet<Job> = std::collections::HashSet::new();
    let mut at = 0;
    while let Some((item, phase)) = items.get(at) {
        match item {
            Item::Act(act) => {
                at += 1;
                if let Some(act) = said.acts.get(*act) {
                    done.extend(act.jobs.iter().copied());
                    writing.say(act.place, &act.jobs);
                }
            }
            Item::Job(first) => {
                let job = |at: usize| work.jobs.get_index(at).copied();
                let Some(step) = job(*first).and_then(|job| step_of(work, job)) else {
                    at += 1;
                    continue;
                };
                // What follows at once and is called alike is one step.
                let alike = items.iter().skip(at).map_while(|(item, _)| match item {
                    Item::Job(one) => job(*one).filter(|one| step_of(work, *one) == Some(step)),
                    Item::Act(_) => None,
                });
                let run: Vec<Job> = alike.collect();
                let before = items.iter().take(at).rev().find_map(|(item, _)| group_of(item));
                let after = items.iter().skip(at).find_map(|(item, _)| group_of(item));
                let inside = before.filter(|group| Some(*group) == after);
                at += run.len();
                done.extend(run.iter().copied());
                let is_whole = all.iter().filter(|(_, own)| *own == step).all(|(job, _)| done.contains(job));
                let is_only = all.iter().filter(|(_, own)| *own == step).all(|(job, _)| run.contains(job));
                let place = (inside, *phase);
                if is_only || is_whole && run.iter().all(|job| layer_of(*job, work).is_none()) {
                    writing.add(place, step, None, &run, reasons);
                } else {
                    // Several that a step cannot tell apart are one step.
                    let mut layers: Vec<(Option<LayerId>, Vec<Job>)> = Vec::new();
                    for &job in &run {
                        let layer = layer_of(job, work);
                        match layers.iter_mut().find(|(own, _)| *own == layer) {
                            Some((_, jobs)) => jobs.push(job),
                            None => layers.push((layer, vec![job])),
                        }
                    }
                    for (layer, jobs) in layers {
                        writing.add(place, step, layer, &jobs, reasons);
                    }
                }
            }
        }
    }
    let mut groups = writing.groups;
    titles::name(work, &mut groups);
    Plan { groups, left: Vec::new(), worked_out: false }
}

struct Writing<'w, 'a> {
    work: &'w Work<'a>,
    groups: Vec<PlannedGroup>,
}

impl Writing<'_, '_> {
    /// What the maker says.
    fn say(&mut self, (group, action, nth): (usize, usize, usize), jobs: &[Job]) {
        let Some(said) = self.work.garment.steps.get(group) else { return };
        let Some(own) = said.actions.get(action) else { return };
        let groups = &mut self.groups;
        if groups.last().is_none_or(|last| last.said != Some(group)) {
            groups.push(PlannedGroup {
                title: said.title.to_string(),
                said: Some(group),
                actions: Vec::new(),
                phase: None,
                called: None,
            });
        }
        let Some(last) = groups.last_mut() else { return };
        if last.actions.last().is_none_or(|last| last.said != Some(action)) {
            last.actions.push(PlannedAction {
                layer: own.layer,
                verb: own.verb,
                targets: Vec::new(),
                words: own.words.clone(),
                said: Some(action),
            });
        }
        if let (Some(last), Some(&(target, _))) = (last.actions.last_mut(), own.targets.get(nth)) {
            last.targets.push(PlannedTarget { target, nth, jobs: jobs.to_vec(), reason: None });
        }
    }

    /// What is worked out: inside a group of the maker's, or in one of its own.
    fn add(
        &mut self,
        (inside, phase): (Option<usize>, Phase),
        (verb, target): (Verb, ActionTarget),
        layer: Option<LayerId>,
        jobs: &[Job],
        reasons: Option<&Reasons>,
    ) {
        let is_own = |group: &PlannedGroup| match inside {
            Some(_) => group.said == inside,
            None => group.said.is_none() && group.phase == Some(phase),
        };
        if !self.groups.last().is_some_and(is_own) {
            let title = phase.title().to_owned();
            self.groups.push(PlannedGroup {
                title,
                said: None,
                actions: Vec::new(),
                phase: Some(phase),
                called: Some(GroupTitle::Phase(phase)),
            });
        }
        let Some(group) = self.groups.last_mut() else { return };
        let target = layer.map_or(target, |layer| in_layer(target, layer));
        // Edges and pieces name their layer themselves.
        let layer = layer.filter(|_| matches!(target, ActionTarget::Seam(_)));
        let reason = jobs.first().zip(reasons).and_then(|(job, reasons)| reasons.reason(*job));
        let reason = reason.map(|reason: &Reason| reason.words(self.work));
        let planned = PlannedTarget { target, nth: 0, jobs: jobs.to_vec(), reason };
        match group.actions.last_mut() {
            Some(last) if last.said.is_none() && (last.verb, last.layer) == (verb, layer) => {
                last.targets.push(planned);
            }
            _ => group.actions.push(PlannedAction {
                layer,
                verb,
                targets: vec![planned],
                words: None,
                said: None,
            }),
        }
    }
}
