//! `seam/upside-down`: a corner matched with another one than its namesake, which the other piece has at
//! the edge's other end.

use super::crosswise::{Crosswise, all};
use super::runs::point_name;
use super::sides::corner;
use crate::check::surface::sews_left_to_right_or_jumps;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::{SeamEnd, SewnRun};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_UPSIDE_DOWN, &catalogue::SEAM_END_FOR_END], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let all = all(garment, size);
    if all.is_empty() {
        return;
    }
    // Where the rest of the garment then does not go together either, it is no way of laying gores.
    let is_mistake = sews_left_to_right_or_jumps(garment, size);
    findings.extend(all.iter().map(|one| reported(garment, size, one, is_mistake)));
}

fn reported(garment: &Garment, size: &WorkedSize, one: &Crosswise, is_mistake: bool) -> Finding {
    let seam = garment.seam(one.sewn.seam);
    let title_of = |run: &SewnRun| words::piece(garment, size.sewn.part(run.part).part.piece);
    let point = |end: &SeamEnd| point_name(garment, end).map_or("", |name| name);
    let name = point(&one.namesake);
    let why = match &one.by_words {
        Some(beyond) => format!(
            "{} meets {}, and {} meets {name}",
            point(&one.ends[0]),
            point(&one.ends[1]),
            point(beyond)
        ),
        None => format!("both have {name}, at the one end and at the other"),
    };
    let title = format!(
        "{} {} {} end for end to {}: {why}",
        seam.words(),
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
        let names = if one.by_words.is_some() { "names that go together" } else { "the same name" };
        finding =
            finding.help(format!("match what bears {names}: matching {own} with {namesake}{otherwise}"));
    }
    Finding::new(size.drawn.size, 0.0, finding).about(&*seam.name)
}
