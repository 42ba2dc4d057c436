//! Take-ups as they are marked on the cloth: legs, fold, point, the way they are pressed, and a snip where each
//! leg meets the edge (common practice).

use super::allowed::Allowed;
use super::mark::{WITHOUT_ALLOWANCE, words};
use super::model::CutTakeUp;
use crate::garment::Garment;
use crate::resolve::{DrawnEdgeId, DrawnPiece, DrawnTakeUp};
use crate::shape::line::meet_segment;
use crate::shape::path::Path;
use kurbo::Point;

/// How far in from the mouth, as a share of its depth, the arrow is drawn.
const ARROW_AT: f64 = 0.3;

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
        let on = edges.find(|&edge| drawn.take_ups_on(edge).iter().any(|(one, _)| one.name == take_up.name));
        let width = on.and_then(|edge| allowed.get(edge.index())).map(|allowed| allowed.width);
        CutTakeUp {
            name: words(&garment.edge(take_up.name).name),
            edge: take_up.name,
            legs: take_up.legs(),
            fold: take_up.fold(),
            points: std::iter::once(take_up.wedge.point).chain(take_up.upper).collect(),
            pressed: take_up.pressed.and_then(|toward| arrow(take_up, toward)),
            snips: width.map_or_else(Vec::new, |width| snips(take_up, width, ring)),
        }
    };
    drawn.take_ups.iter().map(cut).collect()
}

/// From leg to leg, towards the side that it is pressed to.
fn arrow(take_up: &DrawnTakeUp, toward: usize) -> Option<(Point, Point)> {
    let end = take_up.wedge.point;
    let [one, other] = take_up.wedge.sides.map(|side| side.lerp(end, ARROW_AT));
    Some(if toward == 0 { (other, one) } else { (one, other) })
}

fn snips(take_up: &DrawnTakeUp, width: f64, ring: &[Path]) -> Vec<(Point, Point)> {
    let snip = |side: Point| {
        let leg = side - take_up.wedge.point;
        let way = leg / leg.hypot().max(f64::MIN_POSITIVE);
        if width <= 0.0 {
            return (side, side - way * WITHOUT_ALLOWANCE);
        }
        let hits = meet_segment(side, side + way * (3.0 * width + 1.0), ring);
        let top = hits.into_iter().find(|hit| hit.along > 1e-6);
        (top.map_or(side + way * width, |hit| hit.point), side)
    };
    take_up.wedge.sides.map(snip).to_vec()
}
