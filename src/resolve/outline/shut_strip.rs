//! A piece as a strip is taken from it: with the darts and pleats of its edges shut, as they are when a facing is
//! sewn to them.

use crate::garment::EdgeId;
use crate::resolve::drawn_piece::{DrawnEdge, DrawnNotch, DrawnPiece, DrawnSpot};
use crate::resolve::drawn_take_up::DrawnTakeUp;
use crate::resolve::model::DrawnEdgeId;
use crate::shape::path::Path;
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};
use crate::shape::wedge::Wedge;
use crate::shape::{Affine, Point};

/// A stretch of an outline, and where it comes to lie.
struct Stretch {
    edge: EdgeId,
    path: Path,
    by: Affine,
}

/// The edge before a strip, its edges with all that is folded away from them shut, and the edge after it, closed by
/// a straight line: the place of the first of them is 1. None where the strip leaves no two edges beside it.
pub(super) fn with_edges_shut(from: &DrawnPiece, first: usize, count: usize) -> Option<DrawnPiece> {
    let total = from.edges.len();
    if count + 2 > total {
        return None;
    }
    let edge = |step: usize| from.edges.get((first + step) % total);
    let previous = edge(total - 1)?;
    let mut stretches =
        vec![Stretch { edge: previous.edge, path: previous.path.clone(), by: Affine::IDENTITY }];
    let mut edges = vec![previous.clone()];
    let mut by = Affine::IDENTITY;
    for step in 0..count {
        let own = edge(step)?;
        let id = DrawnEdgeId::from_index((first + step) % total);
        let (mut at, mut made): (f64, Option<Path>) = (0.0, None);
        let mut lay = |path: Path, by: Affine| {
            if path.length() <= SAME_POINT {
                return;
            }
            let laid = path.transform(by);
            made = Some(match made.take() {
                Some(before) => before.then(&laid),
                None => laid,
            });
            stretches.push(Stretch { edge: own.edge, path, by });
        };
        for (placed, mouth) in from.take_ups_on(id) {
            lay(own.path.part(at, mouth.from), by);
            by *= placed.shut().shutting();
            at = mouth.to;
        }
        lay(own.path.part(at, own.path.length()), by);
        edges.push(DrawnEdge { path: made?, ..own.clone() });
    }
    let next = edge(count)?;
    stretches.push(Stretch { edge: next.edge, path: next.path.clone(), by });
    edges.push(DrawnEdge { path: next.path.transform(by), ..next.clone() });
    // What was joined end to end still is: where legs differ, the gap belongs to the later edge.
    for at in 1..edges.len() {
        let end = edges.get(at - 1)?.path.end();
        let own = edges.get_mut(at)?;
        if own.path.start().distance(end) > SAME_POINT {
            own.path = Path::straight(end, own.path.start()).then(&own.path);
        }
    }
    let (start, end) = (edges.first()?.path.start(), edges.last()?.path.end());
    if end.distance(start) > SAME_POINT {
        edges.push(DrawnEdge { path: Path::straight(end, start), ..next.clone() });
    }
    let is_on = |edge: Option<EdgeId>, at: Point| {
        stretches.iter().find(|stretch| {
            edge.is_none_or(|edge| edge == stretch.edge) && stretch.path.nearest(at).distance <= ON_OUTLINE
        })
    };
    let spots = from.spots.iter().filter_map(|spot| {
        let on = is_on(None, spot.at)?;
        Some(DrawnSpot { at: on.by * spot.at, ..*spot })
    });
    let notches = from.notches.iter().filter_map(|notch| {
        let on = is_on(Some(notch.edge), notch.at)?;
        Some(DrawnNotch { at: on.by * notch.at, ..*notch })
    });
    let in_strip = |edge: EdgeId| stretches.iter().skip(1).rev().skip(1).any(|stretch| stretch.edge == edge);
    let others = from.take_ups.iter().filter(|placed| placed.mouth.is_none_or(|mouth| !in_strip(mouth.edge)));
    let moved = |placed: &DrawnTakeUp| {
        let goes_along = placed.mouth.is_some_and(|mouth| mouth.edge == next.edge);
        let by = if goes_along { by } else { Affine::IDENTITY };
        let wedge = Wedge { sides: placed.wedge.sides.map(|side| by * side), point: by * placed.wedge.point };
        DrawnTakeUp { wedge, ..*placed }
    };
    let (spots, notches) = (spots.collect(), notches.collect());
    let take_ups = others.map(moved).collect();
    Some(DrawnPiece { edges, spots, notches, take_ups, ..from.clone() })
}
