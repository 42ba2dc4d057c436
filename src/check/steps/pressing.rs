//! `step/early`: what is pressed is sewn before, and what is basted is sewn only after.

use super::early::too_early;
use crate::check::words;
use crate::garment::{ActionTarget, ClosureKind, FinishKind, TakeUp, TakeUpForm};
use crate::report::Diagnostic;
use crate::sewing::Place;
use crate::sewing::order::{Doing, Job, Jobs, Noted, Schedule, When, Work};
use crate::syntax::tree::{Fastener, Verb};

/// Seams and darts that are pressed flat before they are there, and basting that holds what is sewn already.
pub(super) fn slips_of_pressing(work: &Work, schedule: &Schedule, diagnostics: &mut Vec<Diagnostic>) {
    for noted in &schedule.noted {
        joints_of_pressing(work, schedule, noted, diagnostics);
        diagnostics.extend(loops_too_late(work, schedule, noted));
        let Some((jobs, what)) = jobs(work, noted) else { continue };
        let times: Option<Vec<When>> = jobs.iter().map(|job| schedule.when(*job)).collect();
        let Some(times) = times.filter(|times| !times.is_empty()) else { continue };
        let sewing = format!("sewing {what}");
        let (first, last) = (times.iter().min(), times.iter().max());
        match (noted.verb, first, last) {
            (Verb::Press, Some(&sewn), _) if sewn > noted.when => {
                let pressing = format!("pressing {what}");
                diagnostics.push(too_early(
                    (&pressing, noted.when),
                    (&sewing, sewn),
                    "until which there is nothing to press",
                ));
            }
            (Verb::Baste, _, Some(&sewn)) if sewn < noted.when => {
                let basting = format!("basting {what}");
                let why = "which would hold it as it is sewn";
                diagnostics.push(too_early((&sewing, sewn), (&basting, noted.when), why));
            }
            _ => {}
        }
    }
}

/// Loops and ties are basted so that what is sewn along their edge takes their ends in. What a seam is said to enclose is held to
/// it by a rule of its own.
fn loops_too_late(work: &Work, schedule: &Schedule, noted: &Noted) -> Option<Diagnostic> {
    let ActionTarget::Closure(id) = noted.target else { return None };
    let closure = work.garment.closure(id);
    let Some(ClosureKind::Fasteners(row)) = &closure.kind else { return None };
    let has_ends = matches!(row.kind, Fastener::Toggle | Fastener::Tie) && !row.are_pieces();
    if noted.verb != Verb::Baste || !has_ends || work.jobs.contains(&Job::PutIn(id)) {
        return None;
    }
    let edges = || closure.first.edges.iter().chain(&closure.second.edges);
    let place = |one: &Place| (one.part, one.edge);
    let found: Vec<Place> = edges().flat_map(|sewn| work.finder.everywhere(sewn)).collect();
    let is_beside = |one: &Place| found.iter().any(|own| place(own) == place(one));
    let seams = work.stitchings.iter().enumerate().filter(|(_, own)| own.places().any(is_beside));
    let seams = seams.map(|(at, _)| Job::Seam(at));
    let is_hem = |job: &&Job| match job {
        Job::Finish(finish, nth, layer) => {
            let finish = work.garment.finish(*finish);
            let is_turned = !matches!(finish.kind, FinishKind::Overlocked | FinishKind::Raw);
            let sewn = finish.edges.get(*nth).filter(|_| is_turned);
            sewn.is_some_and(|sewn| work.finder.in_layer(*layer, sewn).iter().any(is_beside))
        }
        _ => false,
    };
    let taking = seams.chain(work.jobs.iter().filter(is_hem).copied());
    let times: Option<Vec<(When, Job)>> = taking.map(|job| Some((schedule.when(job)?, job))).collect();
    let (last, job) = times?.into_iter().max_by_key(|(when, _)| *when)?;
    let basting = format!("basting {}", closure.name);
    (last < noted.when).then(|| {
        too_early((&work.doing(Doing::Job(job)), last), (&basting, noted.when), "whose ends it is to take in")
    })
}

/// Joints of a ring, each by itself.
fn joints_of_pressing(work: &Work, schedule: &Schedule, noted: &Noted, diagnostics: &mut Vec<Diagnostic>) {
    let ActionTarget::Joints(id, first, last) = noted.target else { return };
    for job in work.seam_jobs(id, noted.layer) {
        let Job::Seam(at) = job else { continue };
        for number in first..=last.min(work.joints_of(at)) {
            let Some(sewn) = schedule.joint(at, number) else { continue };
            let what = format!("joint {number} of {}", work.garment.seam(id).name);
            let (sewing, doing) = (format!("sewing {what}"), format!("{} {what}", doing_of(noted.verb)));
            if noted.verb == Verb::Press && sewn > noted.when {
                let why = "until which there is nothing to press";
                diagnostics.push(too_early((&doing, noted.when), (&sewing, sewn), why));
                return;
            }
            if noted.verb == Verb::Baste && sewn < noted.when {
                let why = "which would hold it as it is sewn";
                diagnostics.push(too_early((&sewing, sewn), (&doing, noted.when), why));
                return;
            }
        }
    }
}

fn doing_of(verb: Verb) -> &'static str {
    if verb == Verb::Press { "pressing" } else { "basting" }
}

/// The jobs that sew what is pressed or basted, and what it is called. Folds of pleats are pressed before they are sewn
/// as well as after, and so are hems.
fn jobs(work: &Work, noted: &Noted) -> Option<(Jobs, String)> {
    let garment = work.garment;
    let is_dart = |take_up: &TakeUp| matches!(take_up.form, TakeUpForm::Dart(_));
    match noted.target {
        ActionTarget::Seam(id) => Some((work.seam_jobs(id, noted.layer), garment.seam(id).name.to_string())),
        ActionTarget::TakeUp(of, name) if garment.take_up(name).is_some_and(is_dart) => {
            let dart = garment.edge(name);
            let what = format!("{} of {}", dart.name, words::piece(garment, dart.piece));
            Some((work.take_up_jobs(name, of.or(noted.layer)), what))
        }
        ActionTarget::Closure(id) => {
            let job = Job::Closure(id);
            let jobs = work.jobs.contains(&job).then_some(job).into_iter().collect();
            Some((jobs, garment.closure(id).name.to_string()))
        }
        _ => None,
    }
}
