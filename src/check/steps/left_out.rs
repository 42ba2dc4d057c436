//! `step/forgotten`, `step/unfused` and `step/unplaced`: what the steps leave out is worked out, and told; where
//! it finds no place among them, that is a mistake.

use super::early::too_early;
use super::words;
use crate::garment::{Garment, LayerId};
use crate::report::{Diagnostic, catalogue};
use crate::sewing::order::{Broken, Called, Completion, Doing, Item, Job, Rules, Schedule, Work};
use crate::source::Span;
use indexmap::IndexMap;

/// So much is told one by one: it may have been forgotten. Who leaves out more means it to be worked out.
const MOST_TOLD: usize = 3;

/// Jobs that no step does, the same in several layers together.
struct LeftOut {
    called: Called,
    /// Those that are left out, in which layers.
    jobs: Vec<(Job, Option<LayerId>)>,
    /// Others that are called alike are in a step.
    partly: bool,
    /// Of a seam in a ring the joints that are left out, where others are in a step.
    joints: Vec<u32>,
}

/// What the steps leave out.
pub(super) fn tell(
    rules: &Rules,
    said: &Schedule,
    completion: Option<&Completion>,
    diagnostics: &mut Vec<Diagnostic>,
) {
    let work = rules.work;
    let mut groups: IndexMap<(Span, String), LeftOut> = IndexMap::new();
    for &job in work.jobs.iter().filter(|&&job| work.is_done(job)) {
        let Some(called) = work.call(job) else { continue };
        let key = (called.declared, called.step.clone());
        let group = groups.entry(key).or_insert(LeftOut {
            called,
            jobs: Vec::new(),
            partly: false,
            joints: Vec::new(),
        });
        if let Job::Seam(at) = job {
            group.joints.extend(said.open_joints(at));
        }
        match said.when(job) {
            Some(_) => group.partly = true,
            None => group.jobs.push((job, work.layer_of_job(job))),
        }
    }
    let broken: Vec<&Broken> = completion.into_iter().flat_map(|completion| &completion.broken).collect();
    let is_unplaced = |job: Job| {
        let own = Doing::Job(job);
        broken.iter().any(|one| one.rule.waits == own || one.later == own)
    };
    let left: Vec<&LeftOut> = groups
        .values()
        .filter(|group| !group.jobs.is_empty() && !group.jobs.iter().any(|(job, _)| is_unplaced(*job)))
        .collect();
    // What is said too early by itself is told so already, and what else it should wait for follows from where it comes then.
    let early: Vec<Doing> =
        rules.all.iter().filter_map(|rule| rules.broken(rule, said)).map(|one| one.rule.waits).collect();
    for one in broken.iter().filter(|one| !early.contains(&one.rule.waits)) {
        diagnostics.push(unplaced(rules, said, one));
    }
    if left.len() > MOST_TOLD {
        diagnostics.extend(work.garment.steps_span.map(|span| together(&left, span)));
        return;
    }
    for group in left {
        let after = completion.and_then(|completion| after(work, said, completion, group.jobs.first()?.0));
        diagnostics.push(no_step(work.garment, group, after));
    }
}

/// What comes right before a job that is worked out.
fn after(work: &Work, said: &Schedule, completion: &Completion, job: Job) -> Option<String> {
    let at = completion.found.schedule.when(job)?.at;
    let before = completion.found.items.iter().take(at).rev();
    let last = before.into_iter().find_map(|(item, _)| match item {
        Item::Act(act) => said.acts.get(*act)?.jobs.first().copied(),
        Item::Job(job) => work.jobs.get_index(*job).copied(),
    });
    last.map(|job| work.doing(Doing::Job(job)))
}

fn no_step(garment: &Garment, group: &LeftOut, after: Option<String>) -> Diagnostic {
    let layers = group.jobs.iter().filter_map(|(_, layer)| *layer).filter(|_| group.partly);
    let names: Vec<String> = layers.map(|id| garment.layer(id).name.to_string()).collect();
    let (place, step) = match names.first() {
        Some(first) => {
            (format!(" in {}", words::listed(&names)), format!("in {first} {}", group.called.step))
        }
        None => (String::new(), group.called.step.clone()),
    };
    let title = match group.joints.as_slice() {
        [] => format!("no step says when {} is {}{place}", group.called.what, group.called.done),
        [one] => format!("no step says when joint {one} of {} is sewn", group.called.what),
        many => {
            let many: Vec<String> = many.iter().map(u32::to_string).collect();
            format!("no step says when joints {} of {} are sewn", words::listed(&many), group.called.what)
        }
    };
    let is_fused = matches!(group.jobs.first(), Some((Job::Fuse(..), _)));
    let kind = if is_fused { &catalogue::STEP_UNFUSED } else { &catalogue::STEP_FORGOTTEN };
    let mistake = Diagnostic::new(kind, group.called.declared, title).label("in no step");
    let mistake = match garment.steps.last().map(|group| group.span) {
        Some(last) => mistake.also(last, "the last of the steps"),
        None => mistake,
    };
    mistake.help(match after {
        Some(after) => {
            format!("worked out, it comes after {after}; where you do it elsewhere, say so: {step}")
        }
        None => format!("worked out, it comes first; where you do it elsewhere, say so: {step}"),
    })
}

/// What is left out on purpose, as one.
fn together(left: &[&LeftOut], steps: Span) -> Diagnostic {
    let mut names: Vec<String> = left.iter().take(MOST_TOLD).map(|group| group.called.what.clone()).collect();
    names.push(format!("{} more", left.len() - MOST_TOLD));
    let title = format!("the steps leave out {}: they are worked out", words::listed(&names));
    Diagnostic::new(&catalogue::STEP_FORGOTTEN, steps, title)
        .label("completed")
        .help("read the whole order before you sew, and say what you do otherwise")
}

/// Something that waits for what no step says, and what that waits for comes later.
fn unplaced(rules: &Rules, said: &Schedule, one: &Broken) -> Diagnostic {
    let work = rules.work;
    let is_said = |doing: Doing| said.at(work, doing);
    // Both are said, and what no step says has to come before the first of them, and makes it wait for the other.
    if let (Some(first), Some(second)) = (said.begun(work, one.rule.waits), is_said(one.later)) {
        let [sooner, later] = [one.rule.waits, one.later].map(|doing| work.doing(doing));
        return too_early((&sooner, first), (&later, second), one.rule.why.of_first());
    }
    // The one of both that is in no step, and the one that is.
    let why = one.rule.why;
    let (open, waits, must) = match is_said(one.later) {
        None => {
            let waits = one.rule.waits;
            (one.later, waits, format!("before {}, {}", work.doing(waits), why.of_waiting()))
        }
        Some(_) => {
            (one.rule.waits, one.later, format!("after {}, {}", work.doing(one.later), why.of_first()))
        }
    };
    let title = format!("no place is left among the steps for {}: it has to come {must}", work.doing(open));
    let (first, second) = (one.first.span, one.second.span);
    let place = if waits == one.rule.waits { first } else { second };
    let mistake = Diagnostic::new(&catalogue::STEP_UNPLACED, place, title).label("in this order");
    let mistake = mistake.also(if place == first { second } else { first }, "in no step");
    let is_open = |waits: Doing| match (waits, open) {
        (Doing::Begun(id), Doing::Job(Job::Seam(at))) => work.of_seam(id).contains(&at),
        _ => waits == open,
    };
    let needed = rules.all.iter().filter(|rule| is_open(rule.waits)).find_map(|rule| match rule.needs {
        crate::sewing::order::Needs::Done(doing) => {
            let when = is_said(doing).filter(|when| when.span != place)?;
            Some((doing, when, rule.why))
        }
        _ => None,
    });
    match needed {
        Some((doing, when, why)) => mistake.also(when.span, "waited for").help(format!(
            "{} waits for {}, {}: move that up, or {} down",
            work.doing(open),
            work.doing(doing),
            why.of_first(),
            work.doing(waits)
        )),
        None => mistake
            .help(format!("say when: put {} where it belongs, and order the rest by it", work.doing(open))),
    }
}
