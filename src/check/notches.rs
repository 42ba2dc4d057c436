//! `notch/odd`: one notch against two where they are to meet; `notch/close`: notches that nobody tells apart;
//! `notch/unmet`: one that has none to meet, so that others are moved apart.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, PaperId, Seam};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, Label, Title, amount, catalogue};
use crate::resolve::{DrawnNotch, SizedGarment};
use crate::sewing::{LEAST_APART, SaidNotch, Sewing, SewnSeam, SewnSide, TakenBy};
use crate::source::Span;

pub(super) static CHECK: Check = Check {
    kinds: &[&catalogue::NOTCH_ODD, &catalogue::NOTCH_CLOSE, &catalogue::NOTCH_UNMET],
    run: Run::PerSize(run),
};

/// Notches nearer to each other than this, in millimetres, are to meet: less than a snip is wide
/// (common practice).
const SAME_PLACE: f64 = 0.5;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let mut told = Told { findings, places: Vec::new() };
    for sewn in sewing.seams.iter().filter(|sewn| sewn.known && sewn.said_notches.len() > 1) {
        let seam = garment.seam(sewn.seam);
        for (single, double) in odd(sewn) {
            told.once(seam, finding(garment, sized, sewing, seam, &single, &double));
        }
        let said = &sewn.said_notches;
        let pairs =
            said.iter().enumerate().flat_map(|(at, one)| said.iter().skip(at + 1).map(move |two| (one, two)));
        let near = pairs.filter(|(one, two)| one.span != two.span && is_near((one.at - two.at).abs()));
        for (one, two) in near {
            let place = seam.words();
            let apart = (one.at - two.at).abs();
            let found = match unmet(seam, sewn, [one, two]) {
                Some(lone) => without_partner(garment, size, seam, lone, [one.span, two.span], apart),
                None => close(garment, sized, &place, [one.span, two.span], apart),
            };
            told.once(seam, found);
        }
    }
    on_edges(garment, size, findings);
}

/// What is told, each place once: a shell and its lining are drawn with the same notches.
struct Told<'f> {
    findings: &'f mut Vec<Finding>,
    /// The places of each message, and where it stands.
    places: Vec<(Vec<Span>, usize)>,
}

impl Told<'_> {
    fn once(&mut self, seam: &Seam, found: Finding) {
        let places: Vec<Span> = found.diagnostic.labels.iter().map(|label| label.span).collect();
        let before = self.places.iter().find(|(told, _)| *told == places).map(|(_, at)| *at);
        match before.and_then(|at| self.findings.get_mut(at)) {
            Some(before) => {
                let text = format!("in {} too", seam.words());
                if before.diagnostic.labels.iter().all(|label| label.span != seam.name_span) {
                    before.diagnostic.labels.push(Label { span: seam.name_span, text });
                }
            }
            None => {
                self.places.push((places, self.findings.len()));
                self.findings.push(found);
            }
        }
    }
}

/// A notch that a piece says and none of the other side meets, where two others nearly meet only because of it: what
/// is eased in is spread between notches that meet.
fn unmet<'s>(seam: &Seam, sewn: &'s SewnSeam, near: [&SaidNotch; 2]) -> Option<&'s SaidNotch> {
    seam.fit.as_ref()?;
    let is_second = |notch: &SaidNotch| {
        let part = notch.part?;
        let has = |side: &SewnSide| side.plies.iter().flat_map(|ply| &ply.runs).any(|run| run.part == part);
        match (has(&sewn.first), has(&sewn.second)) {
            (true, false) => Some(false),
            (false, true) => Some(true),
            _ => None,
        }
    };
    let [one, two] = near.map(&is_second);
    if one? == two? {
        return None;
    }
    sewn.said_notches.iter().find(|lone| {
        let Some(own) = is_second(lone) else { return false };
        let mut others = sewn.said_notches.iter();
        near.iter().all(|notch| notch.span != lone.span)
            && !others.any(|other| {
                let is_other = is_second(other).is_none_or(|side| side != own);
                is_other && (other.at - lone.at).abs() < LEAST_APART
            })
    })
}

fn without_partner(
    garment: &Garment,
    size: &WorkedSize,
    seam: &Seam,
    lone: &SaidNotch,
    [one, two]: [Span; 2],
    apart: f64,
) -> Finding {
    let whose = lone.part.map_or_else(String::new, |part| {
        format!(" of {}", words::piece(garment, size.sewn.part(part).part.piece))
    });
    let by = amount(apart, garment.unit);
    let title = Title::new(format!("a notch{whose} meets none in {}", seam.words())).in_sizes();
    let mistake = Diagnostic::new(&catalogue::NOTCH_UNMET, lone.span, title)
        .label("nothing to meet on the other side")
        .also(one, "so this")
        .also(two, format!("and this lie {by} apart"))
        .help(
            "say the notch that it is to meet, or take this one out: what is eased in is spread between notches that \
             meet, so that others move",
        );
    Finding::new(size.id(), apart, mistake).about(seam.words()).figure("apart", by)
}

/// Whether a single notch lies on a double one.
pub(super) fn are_odd(sewn: &SewnSeam) -> bool {
    !odd(sewn).is_empty()
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
