//! A part of a piece that turns about a place: which of two parts it is, and what goes with it.

use super::Step;
use super::carry::{carried_over, true_reshaped};
use crate::garment::CutHow;
use crate::resolve::drawn_piece::{DrawnLine, DrawnPiece};
use crate::resolve::drawn_take_up::DrawnTakeUp;
use crate::resolve::sketch::ring;
use crate::resolve::work::Work;
use crate::shape::Point;
use crate::shape::outline::signed_area;
use crate::shape::path::Path;
use crate::shape::pivot::{Between, Gap, Pivot, Turning, parts};
use crate::shape::tolerance::SAME_POINT;

/// How far from the grain an edge may run that holds it, as the sine of the angle.
const ALONG_GRAIN: f64 = 0.01;
/// By how much one part's edge along the grain must be longer, in millimetres, to hold the paper.
const LONGER: f64 = 1.0;

/// Which part turns. The one with the fold stays; of a piece without one what has the longest straight edge along
/// the grain, a centre line; else the larger.
pub(super) fn turning(drawn: &DrawnPiece, apex: Point, shut: Gap, open: Gap) -> Turning {
    let [after, before] = parts(&ring(drawn), shut, open);
    if let CutHow::OnFold(fold) = drawn.cut {
        let has = |part: &[Between]| {
            part.iter().any(|one| drawn.edges.get(one.edge).is_some_and(|edge| edge.edge == fold))
        };
        match (has(&after), has(&before)) {
            (true, false) => return Turning::BeforeShut,
            (false, true) => return Turning::AfterShut,
            _ => {}
        }
    }
    let along = |part: &[Between]| {
        let straight = part.iter().filter(|one| one.path.is_straight());
        let chords = straight.map(|one| one.path.end() - one.path.start());
        let upright = chords.filter(|chord| chord.cross(drawn.grain).abs() <= ALONG_GRAIN * chord.hypot());
        upright.map(|chord| chord.hypot()).fold(0.0, f64::max)
    };
    let (one, other) = (along(&after), along(&before));
    if (one - other).abs() > LONGER {
        return if one > other { Turning::BeforeShut } else { Turning::AfterShut };
    }
    let area = |part: &[Between]| {
        let mut round: Vec<Path> = part.iter().map(|one| one.path.clone()).collect();
        if let (Some(start), Some(end)) = (round.first().map(Path::start), round.last().map(Path::end)) {
            round.extend([Path::straight(end, apex), Path::straight(apex, start)]);
        }
        signed_area(&round).abs()
    };
    if area(&after) > area(&before) { Turning::BeforeShut } else { Turning::AfterShut }
}

/// The piece with its paper turned, without the take-ups that are to be shut or opened: `drawn` has none of them.
/// Edges are not trued yet.
pub(super) fn turned(work: &Work, drawn: &DrawnPiece, made: &Pivot, step: &Step) -> Option<DrawnPiece> {
    let mut after = carried_over(work, drawn, &made.edges, step, |point| made.moved(point), &[])?;
    let lines = drawn.lines.iter();
    after.lines = lines.map(|line| DrawnLine { edge: line.edge, path: made.line(&line.path) }).collect();
    Some(after)
}

/// Trues the edges that have changed. None where that cannot be done, which is reported.
pub(super) fn trued(work: &Work, before: &DrawnPiece, mut after: DrawnPiece) -> Option<DrawnPiece> {
    true_reshaped(work, before, &mut after).then_some(after)
}

/// Where the mouth of a take-up is on the outline; none of one inside the piece.
pub(super) fn gap(drawn: &DrawnPiece, placed: &DrawnTakeUp) -> Option<Gap> {
    let on_it = |edge: &crate::resolve::drawn_piece::DrawnEdge| {
        drawn.taken_from(edge).iter().any(|(one, _)| one.name == placed.name)
    };
    let (edge, mouth) = (drawn.edges.iter().position(on_it)?, placed.mouth?);
    Some(Gap { edge, from: mouth.from, to: mouth.to })
}

/// How an edge turns where a mouth was shut at `at`, in radians.
pub(super) fn kink_at(path: &Path, at: f64) -> f64 {
    let (before, after) = (path.part(0.0, at), path.part(at, path.length()));
    match (before.tangent_at_end(), after.tangent_at_start()) {
        (Some(one), Some(other)) if before.length() > SAME_POINT && after.length() > SAME_POINT => {
            libm::atan2(one.cross(other), one.dot(other)).abs()
        }
        _ => 0.0,
    }
}
