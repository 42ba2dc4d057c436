//! `step/zip-late`: a concealed zip that is set in once the seam that goes on from its end is sewn.

use crate::garment::{ClosureId, ClosureKind};
use crate::report::{Diagnostic, catalogue};
use crate::sewing::order::{Doing, Job, Needs, Rules, Schedule};
use crate::sewing::surface::{JoinedBy, StretchId};
use crate::syntax::tree::ZipperKind;

pub(super) fn slips_of_zips(rules: &Rules, schedule: &Schedule, diagnostics: &mut Vec<Diagnostic>) {
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
            if told.contains(&(line.closure, at)) || waits(rules, line.closure) {
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

/// Whether a zip waits for a seam, as one that goes up through a band waits for the band: it is then set in late, on
/// what is joined already.
fn waits(rules: &Rules, zip: ClosureId) -> bool {
    let own = [Doing::Job(Job::Closure(zip)), Doing::PutIn(zip)];
    rules.all.iter().filter(|rule| own.contains(&rule.waits)).any(|rule| match &rule.needs {
        Needs::Done(doing) => matches!(doing, Doing::Job(Job::Seam(_)) | Doing::Begun(_) | Doing::Whole(_)),
        Needs::OneOf(_) | Needs::Met(_) | Needs::LaidOn(_) => true,
    })
}
