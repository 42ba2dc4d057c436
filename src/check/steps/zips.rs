//! `step/zip-late`: a concealed zip that is set in once the seam that goes on from its end is sewn, and any zip that is put in once
//! what takes in its ends is sewn over them.

use crate::garment::{ClosureId, ClosureKind};
use crate::report::{Diagnostic, catalogue};
use crate::sewing::order::{Doing, Job, Needs, Rules, Schedule, When, is_band};
use crate::sewing::surface::{JoinedBy, StretchId};
use crate::syntax::tree::ZipperKind;

pub(super) fn slips_of_zips(rules: &Rules, schedule: &Schedule, diagnostics: &mut Vec<Diagnostic>) {
    ends_not_taken_in(rules, schedule, diagnostics);
    let garment = rules.work.garment;
    let is_concealed = |id: ClosureId| {
        matches!(&garment.closure(id).kind, Some(ClosureKind::Zipper { kind: ZipperKind::Concealed, .. }))
    };
    if !ClosureId::enumerate(&garment.closures).any(|(id, _)| is_concealed(id)) {
        return;
    }
    let Some(reach) = &rules.reach else { return };
    let surface = reach.surface;
    let mut told: Vec<(ClosureId, usize)> = Vec::new();
    for line in surface.closures.iter().filter(|line| is_concealed(line.closure)) {
        let Some(zip) = schedule.at(rules.work, Doing::PutIn(line.closure)) else { continue };
        // The seam in which both sides go on into one another.
        let beyond = |side: usize| -> Vec<StretchId> {
            let ends = line.sides.get(side).map_or(&[][..], |all| all);
            let ends = ends
                .first()
                .map(|&(at, against)| (at, against))
                .into_iter()
                .chain(ends.last().map(|&(at, against)| (at, !against)));
            ends.map(|(at, at_end)| if at_end { surface.next(at) } else { surface.before(at) }).collect()
        };
        let (one, other) = (beyond(0), beyond(1));
        let joins = |at: &StretchId| surface.stretch(*at).join;
        for join in
            one.iter().filter_map(joins).filter(|join| other.iter().any(|at| joins(at) == Some(*join)))
        {
            let JoinedBy::Seam { sewn, seam, .. } = surface.join(join).by else { continue };
            let Some(at) = reach.seams.get(sewn).copied().flatten() else { continue };
            let Some(before) = schedule.when(Job::Seam(at)).filter(|when| *when < zip) else { continue };
            if told.contains(&(line.closure, at)) || goes_through_band(rules, line.closure) {
                continue;
            }
            told.push((line.closure, at));
            let (name, seam) = (&garment.closure(line.closure).name, &garment.seam(seam).name);
            let title =
                format!("{name} is a concealed zip, and is set in once {seam} is sewn beyond its end");
            diagnostics.push(
                Diagnostic::new(&catalogue::STEP_ZIP_LATE, zip.span, title)
                    .label("on edges that no longer lie flat")
                    .also(before.span, format!("{seam} is sewn here"))
                    .help(format!("sew {name} first: move it up, or {seam} down")),
            );
        }
    }
}

/// Zips whose ends lie under one piece, a gusset, that is sewn over both their sides before they are put in.
fn ends_not_taken_in(rules: &Rules, schedule: &Schedule, diagnostics: &mut Vec<Diagnostic>) {
    let (Some(reach), garment) = (&rules.reach, rules.work.garment) else { return };
    let surface = reach.surface;
    let mut told: Vec<ClosureId> = Vec::new();
    for line in &surface.closures {
        let Some(ClosureKind::Zipper { .. }) = &garment.closure(line.closure).kind else { continue };
        let Some(zip) = schedule.at(rules.work, Doing::PutIn(line.closure)) else { continue };
        let ends = |side: usize| -> Vec<(StretchId, bool)> {
            let all = line.sides.get(side).map_or(&[][..], |all| all);
            let first = all.first().map(|&(stretch, against)| reach.beyond(stretch, against));
            first
                .into_iter()
                .chain(all.last().map(|&(stretch, against)| reach.beyond(stretch, !against)))
                .collect()
        };
        let (own, facing) = (ends(0), ends(1));
        let pairs = own.iter().flat_map(|one| facing.iter().map(move |other| (*one, *other)));
        let over = pairs.filter_map(|((one, at_end), (other, other_at_end))| {
            let [first, second] = [reach.partner(one, at_end)?, reach.partner(other, other_at_end)?];
            // Both sides end in one corner of one cloth: it runs on over the zip.
            let is_one_face = surface.face_of(first.0) == surface.face_of(second.0);
            let corner = |(stretch, at_end): (StretchId, bool)| {
                if at_end { surface.next(stretch) } else { stretch }
            };
            let is_over = first.0 != second.0 && is_one_face && corner(first) == corner(second);
            reach.seam(one).filter(|at| is_over && reach.seam(other) == Some(*at))
        });
        let mut over: Vec<(When, usize)> =
            over.filter_map(|at| Some((schedule.when(Job::Seam(at))?, at))).collect();
        over.sort_unstable();
        let Some(&(before, at)) = over.first().filter(|(before, _)| *before < zip) else { continue };
        let is_ruled = rules.all.iter().any(|rule| {
            rule.waits == Doing::Job(Job::Seam(at))
                && matches!(rule.needs, Needs::Done(Doing::Job(Job::Closure(id) | Job::PutIn(id))) if id == line.closure)
        });
        if is_ruled || told.contains(&line.closure) {
            continue;
        }
        told.push(line.closure);
        let name = &garment.closure(line.closure).name;
        let sewing = rules.work.doing(Doing::Job(Job::Seam(at)));
        let title =
            format!("{name} is put in only after {sewing}, which no longer takes in the end of its tape");
        diagnostics.push(
            Diagnostic::new(&catalogue::STEP_ZIP_LATE, zip.span, title)
                .label("put in only here")
                .also(before.span, "sewn over its end here")
                .help(format!("put in {name} before {sewing}: move it up, or the seam down")),
        );
    }
}

/// Whether a zip goes up through a band, and so waits for the seam that sews it on: it is then set in late, on what is joined
/// already.
fn goes_through_band(rules: &Rules, zip: ClosureId) -> bool {
    let work = rules.work;
    let own = [Doing::Job(Job::Closure(zip)), Doing::PutIn(zip)];
    let sews_band = |at: usize| {
        work.stitchings.get(at).is_some_and(|one| one.places().any(|place| is_band(work, place.part)))
    };
    rules.all.iter().filter(|rule| own.contains(&rule.waits)).any(|rule| match &rule.needs {
        Needs::Done(Doing::Job(Job::Seam(at))) => sews_band(*at),
        Needs::Done(Doing::Begun(id) | Doing::Whole(id)) => work.of_seam(*id).iter().any(|&at| sews_band(at)),
        Needs::OneOf(seams) => seams.iter().any(|&at| sews_band(at)),
        Needs::Done(_) => false,
        Needs::Met(_) | Needs::LaidOn(_) => true,
    })
}
