//! What a ring or an edge that is far too short brings about: it is told as that, once.

use super::about::{About, Looking};
use crate::garment::{EdgeId, Garment, Used};
use crate::report::catalogue::{self, Entry};
use crate::report::{Diagnostic, Severity};
use crate::source::Span;

/// What is wrong of an edge from which a dart takes too much: of these the first that is a mistake stays.
const OF_DARTED: [&Entry; 5] = [
    &catalogue::SEAM_GATHER,
    &catalogue::SEAM_UNEQUAL,
    &catalogue::SEAM_EASE,
    &catalogue::OPENING_PASSES,
    &catalogue::CUTTING_TOO_WIDE,
];

/// What only follows from one of them.
pub(super) fn led_to<'a>(looking: &Looking, found: &'a [Diagnostic]) -> Vec<&'a Diagnostic> {
    let mut follows: Vec<&Diagnostic> = Vec::new();
    for one in found {
        if one.is(&catalogue::DART_BLUNT) {
            follows.extend(of_dart(looking, found, one));
        }
        if one.is(&catalogue::OPENING_PASSES) {
            follows.extend(found.iter().filter(|other| is_of_ring(looking.garment, one, other)));
        }
    }
    follows
}

/// A dart that is wider than long takes too much out of its edge: what is too tight for that only follows. One mistake stays, so
/// that the garment does not pass.
fn of_dart<'a>(looking: &Looking, found: &'a [Diagnostic], told: &Diagnostic) -> Vec<&'a Diagnostic> {
    let garment = looking.garment;
    let take_ups = garment.pieces.iter().flat_map(|piece| &piece.drawing.take_ups);
    let Some(edge) = take_ups.filter(|own| own.span == told.span()).find_map(|own| own.edge()) else {
        return Vec::new();
    };
    let is_of = |one: &&Diagnostic| is_about(looking, one, edge);
    let mistakes = OF_DARTED.into_iter().flat_map(|kind| found.iter().filter(move |one| one.is(kind)));
    let mistakes = mistakes.filter(|one| one.severity() == Severity::Mistake).filter(is_of).skip(1);
    let tight = found.iter().filter(|one| one.is(&catalogue::MEASURE_TIGHT)).filter(is_of);
    mistakes.chain(tight).collect()
}

/// Whether a message is about an edge, a seam that takes it, or an opening along it.
fn is_about(looking: &Looking, one: &Diagnostic, edge: EdgeId) -> bool {
    let garment = looking.garment;
    let is_it = |other: EdgeId| garment.whole_edge(other) == garment.whole_edge(edge);
    let place = garment.edge(edge).span;
    one.places().any(|own| own == place)
        || looking
            .about(one)
            .into_iter()
            .filter(|about| matches!(about, About::Seam(_)))
            .any(|about| looking.edges(about).any(|sewn| is_it(sewn.edge)))
        || ring(garment, one.span()).is_some_and(|edges| edges.into_iter().any(is_it))
}

/// The edges of the opening whose ring stands there.
fn ring(garment: &Garment, place: Span) -> Option<Vec<EdgeId>> {
    let opening = garment.openings.iter().find(|opening| opening.ring.span == place)?;
    Some(opening.ring.edges.iter().map(|sewn| sewn.edge).collect())
}

/// Whether a message is about the edges of a ring that is told to be too small: the elastic in it seems too long then, and what is
/// measured along it too tight.
fn is_of_ring(garment: &Garment, told: &Diagnostic, one: &Diagnostic) -> bool {
    let Some(ring) = ring(garment, told.span()) else { return false };
    let is_of = |edge: EdgeId| ring.iter().any(|&own| garment.whole_edge(own) == garment.whole_edge(edge));
    if one.is(&catalogue::ELASTIC_LONG) {
        let mut finishes = garment.finishes.iter();
        return finishes.any(|finish| {
            let place = |span: Span| finish.span.lo <= span.lo && span.hi <= finish.span.hi;
            place(one.span()) && finish.edges.iter().all(|sewn| is_of(sewn.edge))
        });
    }
    if !one.is(&catalogue::MEASURE_TIGHT) {
        return false;
    }
    let measured = garment.values.iter().filter(|value| value.span == one.span());
    let measured: Vec<EdgeId> = measured
        .flat_map(|value| value.kind.expressions())
        .flat_map(|expression| expression.uses())
        .filter_map(|used| if let Used::Edge(used) = used { Some(used.edge) } else { None })
        .collect();
    !measured.is_empty() && measured.into_iter().all(is_of)
}
