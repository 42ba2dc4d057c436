//! Take-ups as they are marked on the cloth: legs, fold, point, the way they are pressed, and a snip where each
//! leg meets the edge (common practice).

use super::allowed::Allowed;
use super::mark::{WITHOUT_ALLOWANCE, words};
use super::model::CutTakeUp;
use crate::garment::Garment;
use crate::resolve::{DrawnEdgeId, DrawnPiece, DrawnTakeUp, TuckEnd};
use crate::shape::line::meet_segment;
use crate::shape::path::Path;
use crate::shape::tolerance::AT_CORNER;
use kurbo::Point;

/// How far in from the mouth, as a share of its depth, the arrow is drawn.
const ARROW_AT: f64 = 0.3;
/// How far in, as a share of its lines, the name of a row of pleats is written.
const NAMED_AT: f64 = 0.6;

/// The take-ups of a piece with that cutting line.
pub(super) fn take_ups(
    garment: &Garment,
    drawn: &DrawnPiece,
    allowed: &[Allowed],
    ring: &[Path],
) -> Vec<CutTakeUp> {
    let cut = |take_up: &DrawnTakeUp| {
        let edges = DrawnEdgeId::enumerate(&drawn.edges).map(|(edge, _)| edge);
        let mut edges = edges.filter(|_| take_up.mouth.is_some());
        let on =
            edges.find(|&edge| drawn.take_ups_on(edge).iter().any(|(one, _)| std::ptr::eq(*one, take_up)));
        let width = on.and_then(|edge| allowed.get(edge.index())).map(|allowed| allowed.width);
        CutTakeUp {
            name: words(&garment.edge(take_up.name).name),
            edge: take_up.name,
            legs: take_up.legs().into_vec(),
            fold: shown(take_up.fold(), take_up, ring),
            placement: shown(take_up.placement(), take_up, ring),
            points: match take_up.pleat {
                None => std::iter::once(take_up.wedge.point).chain(take_up.upper).collect(),
                Some(_) => Vec::new(),
            },
            label: label(take_up),
            pressed: take_up.pressed.and_then(|toward| arrow(take_up, toward)),
            snips: width.map_or_else(Vec::new, |width| snips(take_up, width, ring)),
        }
    };
    drawn.take_ups.iter().map(cut).collect()
}

/// A line of a pleat that is not sewn, as far as it lies on the piece.
fn shown(line: Option<(Point, Point)>, take_up: &DrawnTakeUp, ring: &[Path]) -> Option<(Point, Point)> {
    let (from, to) = line?;
    if take_up.pleat.is_none_or(|pleat| pleat.sewn > 0.0) {
        return Some((from, to));
    }
    let hits = meet_segment(from, to, ring);
    let left = hits.into_iter().find(|hit| hit.along > AT_CORNER);
    Some((from, left.map_or(to, |hit| hit.point)))
}

/// At a dart's point; at the inner end of the first fold of a row.
fn label(take_up: &DrawnTakeUp) -> Option<Point> {
    match take_up.pleat {
        None => Some(take_up.wedge.point),
        Some(pleat) => {
            let is_first = pleat.nth == 0 && pleat.tuck != Some(TuckEnd::Second);
            let at =
                take_up.wedge.sides[0].midpoint(take_up.wedge.sides[1]).lerp(take_up.wedge.point, NAMED_AT);
            is_first.then_some(at)
        }
    }
}

/// From leg to leg, towards the side that it is pressed to; from the fold of a pleat to where it is laid.
fn arrow(take_up: &DrawnTakeUp, toward: usize) -> Option<(Point, Point)> {
    let [one, other] = match take_up.pleat {
        None => take_up.wedge.sides.map(|side| side.lerp(take_up.wedge.point, ARROW_AT)),
        Some(pleat) if pleat.tuck == Some(TuckEnd::Second) => return None,
        Some(pleat) => {
            let down = take_up.wedge.sides[0].distance(pleat.ends[0]) * ARROW_AT;
            take_up.wedge.sides.map(|side| side + pleat.into * down)
        }
    };
    Some(if toward == 0 { (other, one) } else { (one, other) })
}

fn snips(take_up: &DrawnTakeUp, width: f64, ring: &[Path]) -> Vec<(Point, Point)> {
    let snip = |(side, from): (Point, Point)| {
        let leg = side - from;
        let way = leg / leg.hypot().max(f64::MIN_POSITIVE);
        if width <= 0.0 {
            return (side, side - way * WITHOUT_ALLOWANCE);
        }
        let hits = meet_segment(side, side + way * (3.0 * width + 1.0), ring);
        let top = hits.into_iter().find(|hit| hit.along > 1e-6);
        (top.map_or(side + way * width, |hit| hit.point), side)
    };
    let [one, other] = take_up.wedge.sides;
    [(one, take_up.line_from(0)), (other, take_up.line_from(1))].map(snip).to_vec()
}
