//! `step/fuse-late`: what is fused only once its cloth is sewn to something.

use crate::report::{Diagnostic, catalogue};
use crate::sewing::order::{Doing, Rules, Schedule};

/// Told of each piece once, and not of what a seam covers or what must be fused before something else.
pub(super) fn slips_of_fusing(rules: &Rules, schedule: &Schedule, diagnostics: &mut Vec<Diagnostic>) {
    let Some(reach) = &rules.reach else { return };
    let mut late = reach.fused_sewn(schedule);
    if late.is_empty() {
        return;
    }
    let shut = [reach.fused_late(schedule), reach.fused_turned(schedule)].concat();
    let broken: Vec<Doing> = rules
        .all
        .iter()
        .filter_map(|rule| rules.broken(rule, schedule))
        .flat_map(|broken| [broken.rule.waits, broken.later])
        .collect();
    late.retain(|&(_, _, fused, _)| {
        !shut.iter().any(|&(_, _, known, _)| known == fused) && !broken.contains(&Doing::Job(fused))
    });
    for (seam, sewn, fused, when) in late {
        let [seam, fused] = [seam, fused].map(|job| rules.work.doing(Doing::Job(job)));
        let title = format!("{fused} comes only after {seam}, when it no longer lies flat");
        diagnostics.push(
            Diagnostic::new(&catalogue::STEP_FUSE_LATE, when.span, title)
                .label("fused only here")
                .also(sewn.span, "sewn already here")
                .help(format!("fuse it before it is sewn to anything: move {fused} up, before {seam}")),
        );
    }
}
