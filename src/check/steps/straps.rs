//! `strap/before-hem`: straps that are sewn on before the hem that lies behind their ends is turned.

use crate::check::words;
use crate::garment::{FinishId, FinishKind, StrapEnd, StrapId};
use crate::report::{Diagnostic, catalogue};
use crate::sewing::order::{Doing, Job, Schedule, Work};
use crate::sewing::{TakenBy, amount_of, strap_place};

pub(super) fn slips_of_straps(work: &Work, schedule: &Schedule, diagnostics: &mut Vec<Diagnostic>) {
    for &job in &work.jobs {
        let Job::Strap(id) = job else { continue };
        let Some(sewn_on) = schedule.when(job) else { continue };
        let ends = work.garment.strap(id).runs.iter().flat_map(|run| run.ends());
        let late = ends.filter(|end| end.caught.is_none()).find_map(|end| {
            let hem = hem_behind(work, end)?;
            let jobs = work.jobs.iter().filter(|other| matches!(other, Job::Finish(of, ..) if *of == hem));
            let when = jobs.filter_map(|&hem| Some((hem, schedule.when(hem)?)));
            when.filter(|(_, when)| *when > sewn_on).min_by_key(|(_, when)| *when)
        });
        if let Some((hem, when)) = late {
            diagnostics.push(told(work, id, hem, [sewn_on.span, when.span]));
        }
    }
}

/// The hem or casing that is turned up behind a strap's end.
fn hem_behind(work: &Work, end: &StrapEnd) -> Option<FinishId> {
    let (garment, sized) = (work.garment, work.sized);
    let (drawn, at) = strap_place(garment, sized, end.point)?;
    let parts = work.sewing.parts.iter().filter(|part| {
        let own = sized.paper(part.part.paper);
        own.is_some_and(|own| std::ptr::eq(own, drawn))
            && end.layer.is_none_or(|layer| layer == part.part.layer)
    });
    for part in parts {
        for (edge, fate) in drawn.edges.iter().zip(&part.edges) {
            for taker in &fate.takers {
                let TakenBy::Finish(id) = taker.what else { continue };
                let depth = match &garment.finish(id).kind {
                    FinishKind::Hem(hem) => &hem.depth,
                    FinishKind::Casing(depth, _) => depth,
                    _ => continue,
                };
                let deep = amount_of(garment, sized, depth)?;
                if edge.path.nearest(at).distance <= deep {
                    return Some(id);
                }
            }
        }
    }
    None
}

fn told(work: &Work, id: StrapId, hem: Job, [placed, turned]: [crate::source::Span; 2]) -> Diagnostic {
    let strap = work.garment.strap(id);
    let hemming = work.doing(Doing::Job(hem));
    let title =
        format!("{} is sewn on before {hemming}, which turns the cloth up behind its end", strap.name);
    Diagnostic::new(&catalogue::STRAP_BEFORE_HEM, placed, title)
        .label("the hem's row goes through it later")
        .also(turned, "turned only here")
        .help(format!(
            "place {} in a step after {hemming}; or, if the hem is to take its end in, nothing needs to change",
            words::listed(&[strap.name.to_string()])
        ))
}
