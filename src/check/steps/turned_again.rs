//! `step/early` of a gap that is closed before something is turned through it once more.

use crate::report::{Diagnostic, catalogue};
use crate::sewing::order::{Doing, Job, Schedule, Work};

pub(super) fn slips_of_gaps(work: &Work, schedule: &Schedule, diagnostics: &mut Vec<Diagnostic>) {
    for &job in &work.jobs {
        let Job::Gap(seam) = job else { continue };
        let Some(closed) = schedule.when(job) else { continue };
        let first = schedule.when(Job::Turn(seam));
        let mut later = schedule.turned.iter().filter(|(_, through)| *through == Some(seam));
        // That it is closed before it is turned at all is told.
        let Some((again, _)) =
            later.find(|(when, _)| *when > closed && first.is_some_and(|first| first < closed))
        else {
            continue;
        };
        let closing = work.doing(Doing::Job(job));
        let name = &work.garment.seam(seam).name;
        let title = format!(
            "{closing} comes before turning once more through the gap in {name}, which is closed then"
        );
        diagnostics.push(
            Diagnostic::new(&catalogue::STEP_EARLY, closed.span, title)
                .label("closes it")
                .also(again.span, "turned through it only here")
                .help(format!("close it last: turn through gap in {name}; slipstitch gap in {name}")),
        );
    }
}
