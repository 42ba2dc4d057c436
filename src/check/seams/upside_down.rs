//! `seam/upside-down`: a corner matched with another one than its namesake, which the other piece has at
//! the edge's other end.

use super::runs::{corner_of, point_name};
use super::sides::corner;
use crate::check::surface::sews_left_to_right_or_jumps;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, SewnPoint};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::{SeamEnd, SewnRun, SewnSeam};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_UPSIDE_DOWN, &catalogue::SEAM_END_FOR_END], run: Run::PerSize(run) };

/// What the corners of every rectangle are called: that says nothing of how it is meant to lie.
const OF_RECTANGLES: [&str; 4] = ["top_left", "top_right", "bottom_left", "bottom_right"];

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let all = all(garment, size);
    if all.is_empty() {
        return;
    }
    // Where the rest of the garment then does not go together either, it is no way of laying gores.
    let is_mistake = sews_left_to_right_or_jumps(garment, size);
    findings.extend(all.iter().map(|one| reported(garment, size, one, is_mistake)));
}

/// Whether a seam is matched so.
pub(in crate::check) fn has_any(garment: &Garment, size: &WorkedSize) -> bool {
    !all(garment, size).is_empty()
}

/// Two edges that are matched crosswise.
struct Crosswise<'a> {
    sewn: &'a SewnSeam,
    matching: &'a (SewnPoint, SewnPoint),
    runs: [&'a SewnRun; 2],
    /// The corners that are matched.
    ends: [SeamEnd; 2],
    /// The other piece's other end, with the name of the first piece's corner.
    namesake: SeamEnd,
}

fn all<'a>(garment: &'a Garment, size: &'a WorkedSize) -> Vec<Crosswise<'a>> {
    if size.sewn.surface.as_ref().is_none_or(|surface| !surface.twists.is_empty()) {
        return Vec::new();
    }
    let mut found: Vec<Crosswise> = Vec::new();
    for sewn in &size.sewn.seams {
        let seam = garment.seam(sewn.seam);
        let is_known = found.last().is_some_and(|last| last.sewn.seam == sewn.seam);
        let ([first], [second]) = (sewn.first.plies.as_slice(), sewn.second.plies.as_slice()) else {
            continue;
        };
        let ([one], [other]) = (first.runs.as_slice(), second.runs.as_slice()) else { continue };
        // The same edge in two layers is reported by `seam/end-for-end`, left and right of one by
        // `seam/matching`.
        let piece = |run: &SewnRun| size.sewn.part(run.part).part.piece;
        if is_known || seam.matching.is_empty() || piece(one) == piece(other) {
            continue;
        }
        let matched = seam.matching.iter().find_map(|matching| {
            [false, true].into_iter().find_map(|end| {
                let own = corner_of(size, one, end)?;
                let at = corner_of(size, other, end)?;
                let is_named = |end: &SeamEnd| {
                    [matching.0.point, matching.1.point].into_iter().any(|point| {
                        matches!(end.corner, crate::resolve::CornerName::Named(own) if garment.is_point_of(own, point))
                    })
                };
                let name = point_name(garment, &own)?;
                let is_meant = is_named(&own)
                    && is_named(&at)
                    && point_name(garment, &at)? != name
                    && !OF_RECTANGLES.contains(&name.as_str());
                let namesake = corner_of(size, other, !end)?;
                let is_there = is_meant && point_name(garment, &namesake)? == name;
                is_there.then_some(Crosswise { sewn, matching, runs: [one, other], ends: [own, at], namesake })
            })
        });
        found.extend(matched);
    }
    found
}

fn reported(garment: &Garment, size: &WorkedSize, one: &Crosswise, is_mistake: bool) -> Finding {
    let seam = garment.seam(one.sewn.seam);
    let title_of = |run: &SewnRun| words::piece(garment, size.sewn.part(run.part).part.piece);
    let name = point_name(garment, &one.namesake).unwrap_or_default();
    let title = format!(
        "the {} seam {} {} end for end to {}: both have {name}, at the one end and at the other",
        seam.name,
        if is_mistake { "sews" } else { "seems to sew" },
        title_of(one.runs[0]),
        title_of(one.runs[1])
    );
    let says_layer = crate::sewing::seam_edges(seam).any(|sewn| sewn.layer.is_some());
    let word = |end: &SeamEnd| corner(garment, &size.sewn, end, says_layer);
    let entry = if is_mistake { &catalogue::SEAM_END_FOR_END } else { &catalogue::SEAM_UPSIDE_DOWN };
    let mut finding = Diagnostic::new(entry, one.matching.0.span.to(one.matching.1.span), title)
        .also(seam.name_span, "in this seam");
    if let (Some(own), Some(at)) = (word(&one.ends[0]), word(&one.ends[1])) {
        finding = finding.label(format!("{own} on {at}"));
    }
    if let (Some(own), Some(namesake)) = (word(&one.ends[0]), word(&one.namesake)) {
        let otherwise = if is_mistake {
            ""
        } else {
            "; if one of them is meant to lie upside down, name its corners for where they lie"
        };
        finding = finding
            .help(format!("match what bears the same name: matching {own} with {namesake}{otherwise}"));
    }
    Finding::new(size.drawn.size, 0.0, finding).about(&*seam.name)
}
