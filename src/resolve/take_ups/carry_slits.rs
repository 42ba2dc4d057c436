//! Slits go with their paper.

use super::carry::{lies_at, reached, report_through};
use crate::garment::{AlterationId, EdgeId};
use crate::resolve::drawn_piece::{DrawnEdge, DrawnPiece};
use crate::resolve::drawn_take_up::{DrawnSlit, Mouth};
use crate::resolve::model::Why;
use crate::resolve::work::Work;
use crate::shape::outline::is_anticlockwise;
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};
use crate::shape::{Affine, Point};
use crate::source::Span;

/// The slits of a piece whose paper goes where `moved` tells, on its edges as they are now; their sides run on
/// to an edge that moved away from them. None where one is torn, which is reported at `span`.
pub(in crate::resolve) fn carried_slits(
    work: &Work,
    drawn: &DrawnPiece,
    edges: &[DrawnEdge],
    moved: impl Fn(Point) -> Point,
    span: Span,
) -> Option<Vec<DrawnSlit>> {
    let mut all = Vec::with_capacity(drawn.slits.len());
    for slit in &drawn.slits {
        let now = slit.moved(&moved);
        let (before, after) = (slit.corners(), now.corners());
        let is_torn = before != after
            && (0..4).any(|at| {
                (at + 1..4).any(|other| {
                    let apart = before[at].distance(before[other]) - after[at].distance(after[other]);
                    apart.abs() > ON_OUTLINE
                })
            });
        match laid(now, edges).filter(|_| !is_torn) {
            Some(now) => all.push(now),
            None => {
                report_through(work, drawn, slit.name, span);
                return None;
            }
        }
    }
    Some(all)
}

/// A slit on edges as they are now: brought to its own, or inside the piece with its sides in their order.
fn laid(slit: DrawnSlit, edges: &[DrawnEdge]) -> Option<DrawnSlit> {
    match slit.mouth {
        Some(mouth) => on_edge(slit, mouth.edge, edges),
        None => Some(slit.ordered(is_anticlockwise(edges.iter().map(|edge| &edge.path)))),
    }
}

/// A slit whose sides are brought to the edge of that name.
fn on_edge(slit: DrawnSlit, edge: EdgeId, edges: &[DrawnEdge]) -> Option<DrawnSlit> {
    let runs = || edges.iter().filter(|own| own.edge == edge).map(|own| &own.path);
    // Most lie on it already.
    if let Some(mouth) = slit.mouth.filter(|mouth| mouth.edge == edge)
        && runs().any(|path| lies_at(path, &mouth, slit.sides))
    {
        return Some(slit);
    }
    let mut best: Option<(f64, DrawnSlit)> = None;
    for path in runs() {
        let [first, second] = [0, 1].map(|at| reached(path, slit.ends[at], slit.sides[at]));
        let (Some((first, from)), Some((second, to))) = (first, second) else { continue };
        if from > to + SAME_POINT || (slit.window() > SAME_POINT && from >= to) {
            continue;
        }
        let off = first.distance(slit.sides[0]) + second.distance(slit.sides[1]);
        if best.as_ref().is_none_or(|(known, _)| off < *known) {
            let mouth = Some(Mouth { edge, from, to: to.max(from) });
            best = Some((off, DrawnSlit { sides: [first, second], mouth, ..slit }));
        }
    }
    best.map(|(_, slit)| slit)
}

/// Brings the sides of all slits to edges that were drawn anew.
pub(in crate::resolve) fn follow_edges(drawn: &mut DrawnPiece) {
    let slits = std::mem::take(&mut drawn.slits);
    drawn.slits = slits.into_iter().map(|slit| laid(slit, &drawn.edges).unwrap_or(slit)).collect();
}

/// The slits of another piece under other names, with everything moved so; one that is turned over has its
/// sides the other way round along the edge, where that runs the other way.
pub(in crate::resolve) fn renamed_slits(
    from: &[DrawnSlit],
    by: Affine,
    own: &dyn Fn(EdgeId) -> Option<EdgeId>,
    edges: &[DrawnEdge],
) -> Vec<DrawnSlit> {
    let renamed = |slit: &DrawnSlit| {
        let now = DrawnSlit { name: own(slit.name)?, ..slit.moved(|at| by * at) };
        let Some(mouth) = slit.mouth else { return laid(now, edges) };
        let edge = own(mouth.edge)?;
        let runs = edges
            .iter()
            .filter(|one| one.edge == edge)
            .map(|one| (&one.path, one.path.nearest(now.sides[0])));
        let (path, nearest) = runs.min_by(|(_, a), (_, b)| a.distance.total_cmp(&b.distance))?;
        let is_against = path.tangent_at(nearest.position).is_some_and(|way| way.dot(now.along) < 0.0);
        on_edge(if is_against { now.turned() } else { now }, edge, edges)
    };
    from.iter().filter_map(renamed).collect()
}

/// Of the slits of a whole, those on one side of a cut under the side's own names; what is gone is missed. None
/// of them lies across the cut.
pub(in crate::resolve) fn slits_of_half(
    whole: &DrawnPiece,
    drawn: &mut DrawnPiece,
    off: impl Fn(Point) -> f64,
    own: &dyn Fn(EdgeId) -> Option<EdgeId>,
    by: AlterationId,
) {
    for slit in &whole.slits {
        let stays = slit.corners().iter().all(|&corner| off(corner) >= -SAME_POINT);
        let found = match stays {
            true => renamed_slits(std::slice::from_ref(slit), Affine::IDENTITY, own, &drawn.edges),
            false => Vec::new(),
        };
        match found.is_empty() {
            true => drawn.missing.edges.push((own(slit.name).unwrap_or(slit.name), Why::By(by))),
            false => drawn.slits.extend(found),
        }
    }
}
