//! What only follows from how a flap or its pocket is placed: buttons and buttonholes that do not come to lie on one another.

use super::is_within;
use crate::garment::{Garment, Placement};
use crate::report::Diagnostic;
use crate::report::catalogue::{self, Entry};
use crate::source::Span;

/// What tells that something placed lies elsewhere than it should, or is not as wide as it should be.
const MISPLACED: [&Entry; 3] =
    [&catalogue::PLACE_FLAP, &catalogue::PLACE_OUTSIDE, &catalogue::PLACE_OVER_POCKET];

/// Whether it is told of a closure that its sides do not meet, and of what bears one of them that this is not placed as it should be,
/// or of the sides themselves that they are no pair.
pub(super) fn follows(garment: &Garment, found: &[Diagnostic], one: &Diagnostic) -> bool {
    if !one.is(&catalogue::CLOSURE_OUT_OF_REACH) {
        return false;
    }
    let mut closures = garment.closures.iter();
    let is_shown = |span| one.places().any(|place| place == span);
    let Some(closure) = closures.find(|own| is_shown(own.first.span) || is_shown(own.kind_span)) else {
        return false;
    };
    let bears =
        |piece| closure.first.edges.iter().chain(&closure.second.edges).any(|sewn| sewn.piece == piece);
    let placed: Vec<&Placement> = garment.placements.iter().filter(|placed| bears(placed.piece)).collect();
    let is_of = |at: Span, placed: &Placement| {
        is_within(at, placed.span) || placed.corners.iter().any(|corner| is_within(at, corner.span))
    };
    let is_of_them =
        |other: &Diagnostic| placed.iter().any(|placed| other.places().any(|at| is_of(at, placed)));
    found.iter().any(|other| {
        other.is_any(&MISPLACED) && is_of_them(other)
            || other.is(&catalogue::BUTTON_SIDES) && other.span() == closure.first.span
    })
}
