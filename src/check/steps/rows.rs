//! `place/shut` of what a row of stitching goes over once it is placed: a pocket whose mouth is sewn shut, or a zip.

use crate::check::words;
use crate::garment::{PlacementId, RowId};
use crate::id_hash::IdIndexMap;
use crate::report::{Diagnostic, catalogue};
use crate::sewing::order::{Doing, Job, Needs, Rules, Schedule, When, Why, find, is_unclear, rows_that_shut};

/// `said`: what the steps say, if there are any.
pub(super) fn slips_of_rows(rules: &Rules, said: &Schedule, diagnostics: &mut Vec<Diagnostic>) {
    let (work, garment) = (rules.work, rules.work.garment);
    let mut shut = rows_that_shut(work);
    // What a rule of order asks for is told by that.
    shut.retain(|&(row, placement)| {
        !rules.all.iter().any(|rule| {
            rule.why == Why::SewsShut
                && matches!(rule.waits, Doing::Job(Job::Place(id, _)) if id == placement)
                && matches!(rule.needs, Needs::Done(Doing::Job(Job::Row(id))) if id == row)
        })
    });
    if shut.is_empty() {
        return;
    }
    let whole = match said.is_whole(work) || is_unclear(garment) {
        true => said.clone(),
        false => find(rules, said).schedule,
    };
    // Of each row what it sews shut, a pocket or both pieces of one.
    let mut told: IdIndexMap<RowId, (When, Vec<PlacementId>)> = IdIndexMap::default();
    for (id, placement) in shut {
        let places = work.jobs.iter().filter(|job| matches!(job, Job::Place(own, _) if *own == placement));
        let placed = places.filter_map(|&job| whole.when(job)).min();
        let stitched =
            whole.when(Job::Row(id)).filter(|stitched| placed.is_some_and(|placed| placed < *stitched));
        if let Some(stitched) = stitched {
            told.entry(id).or_insert((stitched, Vec::new())).1.push(placement);
        }
    }
    for (id, (stitched, placements)) in told {
        let row = garment.row(id);
        let names: Vec<String> =
            placements.iter().map(|&id| words::piece(garment, garment.placement(id).piece)).collect();
        let (names, is, them) = (
            words::listed(&names),
            if names.len() > 1 { "are" } else { "is" },
            if names.len() > 1 { "them" } else { "it" },
        );
        let title =
            format!("{} goes over {names}, which {is} placed before it, and sews {them} shut", row.name);
        let mut warning =
            Diagnostic::new(&catalogue::PLACE_SHUT, row.name_span, title).label("stitched across");
        if ![row.name_span, row.span].contains(&stitched.span) {
            warning = warning.also(stitched.span, "stitched here");
        }
        for &placement in &placements {
            warning = warning.also(garment.placement(placement).span, "placed before");
        }
        diagnostics.push(warning.help(format!(
            "let {} end beside {names}: say from where to where along its edge; or stitch it in a step before {them}",
            row.name
        )));
    }
}
