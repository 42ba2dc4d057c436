//! `notch/odd`: one notch against two where they are to meet.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, Seam};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::{SaidNotch, Sewing, SewnSeam};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::NOTCH_ODD], run: Run::PerSize(run) };

/// Notches nearer to each other than this, in millimetres, are to meet: less than a snip is wide
/// (common practice).
const SAME_PLACE: f64 = 0.5;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    for sewn in sewing.seams.iter().filter(|sewn| sewn.known && sewn.said_notches.len() > 1) {
        let seam = garment.seam(sewn.seam);
        for (single, double) in odd(sewn) {
            findings.push(finding(garment, sized, sewing, seam, &single, &double));
        }
    }
}

/// A single notch and a double one at one place, each place once.
fn odd(sewn: &SewnSeam) -> Vec<(SaidNotch, SaidNotch)> {
    let mut found = Vec::new();
    for single in sewn.said_notches.iter().filter(|notch| !notch.double) {
        let is_there = |other: &&SaidNotch| {
            other.double && other.span != single.span && (other.at - single.at).abs() <= SAME_PLACE
        };
        if let Some(double) = sewn.said_notches.iter().find(is_there) {
            found.push((*single, *double));
        }
    }
    found
}

fn finding(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    seam: &Seam,
    single: &SaidNotch,
    double: &SaidNotch,
) -> Finding {
    let whose = |notch: &SaidNotch| match notch.part.map(|part| sewing.part(part)) {
        Some(part) => format!("that of {}", words::piece(garment, part.part.piece)),
        None => "that of the seam".to_owned(),
    };
    let (one, two) = (whose(single), whose(double));
    let title = Title::new(format!("in the {} seam one notch is to meet two", seam.name))
        .in_sizes()
        .then(format!(": {one} is single, {two} is double"));
    let mistake = Diagnostic::new(&catalogue::NOTCH_ODD, single.span, title)
        .label("one")
        .also(double.span, "two, at the same place")
        .help("write double at both or at neither: two notches look different from one, and keep front and back apart");
    Finding::new(sized.size, 0.0, mistake).about(seam.name.to_string())
}
