//! `seam/tucks`: tucks that run up to a seam from both sides, and do not meet there, or are laid the other way.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::taken;
use crate::sewing::{SewnRun, SewnSeam};
use crate::source::Span;

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::SEAM_TUCKS], run: Run::PerSize(run) };

/// Tucks further apart than this, in millimetres, are not meant to meet.
const APART: f64 = 60.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if !garment.pieces.iter().flat_map(|piece| &piece.drawing.take_ups).any(|one| one.word() == "tuck") {
        return;
    }
    let known = |sewn: &&SewnSeam| sewn.known && sewn.unpaired.is_none() && sewn.unmet.is_none();
    for sewn in size.sewn.seams.iter().filter(known) {
        let ([first], [second]) = (sewn.first.plies.as_slice(), sewn.second.plies.as_slice()) else {
            continue;
        };
        if first.runs.len() != second.runs.len() || sewn.fit.is_some() {
            continue;
        }
        let runs = first.runs.iter().zip(&second.runs);
        findings.extend(runs.filter_map(|(one, other)| apart(garment, size, sewn, one, other)).take(1));
    }
}

/// A tuck where it comes to lie along a run.
struct Place {
    /// From the run's start as it is sewn, in millimetres.
    at: f64,
    /// It is laid toward the run's end.
    onward: bool,
    said: Span,
}

/// Where tucks come to lie along a run.
fn places(garment: &Garment, size: &WorkedSize, run: &SewnRun) -> Option<Vec<Place>> {
    let drawn = size.drawn.paper(size.sewn.part(run.part).part.paper)?;
    let sewn_as = taken(garment, drawn, run.edge)?;
    let tucks = drawn.take_ups_on(run.edge).into_iter().filter(|(own, _)| own.word() == "tuck");
    let path = &drawn.edge_at(run.edge)?.path;
    let mut places: Vec<Place> = tucks
        .map(|(own, mouth)| {
            let at = sewn_as.as_sewn(f64::midpoint(mouth.from, mouth.to));
            let along = |side: crate::shape::Point| path.nearest(side).at;
            let [one, other] = own.wedge.sides.map(along);
            let onward = (own.pressed == Some(1)) == (one < other);
            let at = if run.reversed { run.length - at } else { at };
            Place { at, onward: onward != run.reversed, said: own.said }
        })
        .collect();
    places.sort_by(|one, other| one.at.total_cmp(&other.at));
    Some(places)
}

fn apart(
    garment: &Garment,
    size: &WorkedSize,
    sewn: &SewnSeam,
    one: &SewnRun,
    other: &SewnRun,
) -> Option<Finding> {
    let (own, beside) = (places(garment, size, one)?, places(garment, size, other)?);
    let same_piece = size.sewn.part(one.part).part.piece == size.sewn.part(other.part).part.piece;
    if own.is_empty() || own.len() != beside.len() || same_piece {
        return None;
    }
    let pairs = || own.iter().zip(&beside);
    let far = |(own, beside): (&Place, &Place)| (own.at - beside.at).abs();
    let by = pairs().map(far).fold(0.0, f64::max);
    if by > APART {
        return None;
    }
    if by <= garment.tolerance {
        let (own, beside) = pairs().find(|(own, beside)| own.onward != beside.onward)?;
        return Some(against(garment, size, sewn, (one, own), (other, beside)));
    }
    let (seam, unit) = (garment.seam(sewn.seam), garment.unit);
    let (said, other_said) =
        pairs().find(|pair| far(*pair) > garment.tolerance).map(|(own, beside)| (own.said, beside.said))?;
    let [piece, beside] = [one, other].map(|run| words::piece(garment, size.sewn.part(run.part).part.piece));
    let far = amount(by, unit);
    let title =
        Title::new(format!("at {} the tucks of {piece} and those of {beside} lie {far} apart", seam.words()))
            .in_sizes();
    let warning = Diagnostic::new(&catalogue::SEAM_TUCKS, said, title)
        .label(format!("of {piece}"))
        .also(other_said, format!("of {beside}"))
        .also(seam.name_span, "sewn together here")
        .help("count both from the same end of the seam, as far from it, so that each runs on over the seam");
    Some(Finding::new(size.id(), by, warning).about(&*seam.name).figure("apart", far))
}

/// Tucks that meet, and of which one is laid up and one down.
fn against(
    garment: &Garment,
    size: &WorkedSize,
    sewn: &SewnSeam,
    (one, own): (&SewnRun, &Place),
    (other, beside): (&SewnRun, &Place),
) -> Finding {
    let seam = garment.seam(sewn.seam);
    let [piece, other] = [one, other].map(|run| words::piece(garment, size.sewn.part(run.part).part.piece));
    let title =
        format!("at {} the tucks of {piece} are laid one way and those of {other} the other", seam.words());
    let warning = Diagnostic::new(&catalogue::SEAM_TUCKS, own.said, title)
        .label(format!("of {piece}"))
        .also(beside.said, format!("of {other}"))
        .also(seam.name_span, "sewn together here")
        .help("lay both the same way, toward the same end of the seam, so that each runs on over it");
    Finding::new(size.id(), 0.0, warning).about(&*seam.name)
}
