//! `notch/odd`: one notch against two where they are to meet; `notch/close`: notches that nobody tells apart.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, PaperId, Seam};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnNotch, SizedGarment};
use crate::sewing::{LEAST_APART, SaidNotch, Sewing, SewnSeam, TakenBy};
use crate::source::Span;

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::NOTCH_ODD, &catalogue::NOTCH_CLOSE], run: Run::PerSize(run) };

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
        let said = &sewn.said_notches;
        let pairs =
            said.iter().enumerate().flat_map(|(at, one)| said.iter().skip(at + 1).map(move |two| (one, two)));
        let near = pairs.filter(|(one, two)| one.span != two.span && is_near((one.at - two.at).abs()));
        for (one, two) in near {
            let place = seam.words();
            findings.push(close(garment, sized, &place, [one.span, two.span], (one.at - two.at).abs()));
        }
    }
    on_edges(garment, size, findings);
}

fn is_near(apart: f64) -> bool {
    apart > SAME_PLACE && apart < LEAST_APART
}

/// Notches of edges that no seam takes.
fn on_edges(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut seen: IdSet<PaperId> = IdSet::default();
    for part in &size.sewn.parts {
        let Some(drawn) = size.drawn.paper(part.part.paper).filter(|drawn| drawn.notches.len() > 1) else {
            continue;
        };
        if !seen.insert(part.part.paper) {
            continue;
        }
        let is_sewn = |edge: EdgeId| {
            let own = drawn.edges.iter().zip(&part.edges).filter(|(drawn, _)| drawn.edge == edge);
            let mut takers = own.flat_map(|(_, fate)| &fate.takers);
            takers.any(|taker| matches!(taker.what, TakenBy::Seam(..)))
        };
        let said = &garment.piece(drawn.piece).drawing.notches;
        let spans = |notch: &DrawnNotch| said.get(notch.declared).map(|said| said.span);
        for (at, one) in drawn.notches.iter().enumerate() {
            for two in
                drawn.notches.iter().skip(at + 1).filter(|two| two.edge == one.edge && !is_sewn(one.edge))
            {
                let apart = (one.along - two.along).abs();
                if let (true, Some(first), Some(second)) = (is_near(apart), spans(one), spans(two)) {
                    let place = words::edge(garment, one.edge);
                    findings.push(close(garment, &size.drawn, &place, [first, second], apart));
                }
            }
        }
    }
}

fn close(garment: &Garment, sized: &SizedGarment, place: &str, [one, two]: [Span; 2], apart: f64) -> Finding {
    let unit = garment.unit;
    let by = amount(apart, unit);
    let title = Title::new(format!("two notches of {place} are {by} apart")).in_sizes();
    let mistake = Diagnostic::new(&catalogue::NOTCH_CLOSE, one, title)
        .label("this")
        .also(two, "and this")
        .help(format!(
            "move them at least {} apart; or, if they are to be at one place, measure both from the same end",
            amount(LEAST_APART, unit)
        ));
    Finding::new(sized.size, LEAST_APART - apart, mistake).about(place).figure("apart", by)
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
    let title = Title::new(format!("in {} one notch is to meet two", seam.words()))
        .in_sizes()
        .then(format!(": {one} is single, {two} is double"));
    let mistake = Diagnostic::new(&catalogue::NOTCH_ODD, single.span, title)
        .label("one")
        .also(double.span, "two, at the same place")
        .help("write double at both or at neither: two notches look different from one, and keep front and back apart");
    Finding::new(sized.size, 0.0, mistake).about(seam.name.to_string())
}
