//! How far apart two places are over the seam that lies between them.

use super::model::{SewnPly, SewnSeam};
use super::straps::strap_place;
use super::whole::Sewing;
use crate::garment::{CutHow, Garment, StrapEnd};
use crate::resolve::{DrawnEdgeId, DrawnPiece, SizedGarment, taken};
use crate::shape::Point;

/// So many places of a seam are looked at, evenly along it: half a stretch beside the shortest way adds to it less than
/// its square, divided by the way.
const LOOKED_AT: usize = 400;

/// The shortest way over the cloth between two places on either side of a seam that is the nearest edge to both: straight
/// to the seam and straight on (laid flat, both pieces meet along it). None where no such seam lies between them; what is
/// sewn on over a rim, as the handles of a bag, may be as short as it likes.
pub fn over_seam(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    from: &StrapEnd,
    to: &StrapEnd,
) -> Option<f64> {
    let (host, one) = strap_place(garment, sized, from.point)?;
    let (other_host, other) = strap_place(garment, sized, to.point)?;
    let is_same = std::ptr::eq(host, other_host);
    let is_over = match is_same {
        true => from.hand != to.hand && host.cut == CutHow::Mirrored,
        false => from.hand == to.hand,
    };
    if !is_over {
        return None;
    }
    let ends = [(host, one, nearest(host, one)?), (other_host, other, nearest(other_host, other)?)];
    let known =
        sewing.seams.iter().filter(|sewn| sewn.known && sewn.unpaired.is_none() && sewn.unmet.is_none());
    let ways = known.filter_map(|sewn| over(garment, sized, sewing, sewn, &ends));
    ways.min_by(f64::total_cmp)
}

fn nearest(drawn: &DrawnPiece, at: Point) -> Option<DrawnEdgeId> {
    let off = |edge: &crate::resolve::DrawnEdge| edge.path.nearest(at).distance;
    let edges = DrawnEdgeId::enumerate(&drawn.edges);
    edges.min_by(|(_, a), (_, b)| off(a).total_cmp(&off(b))).map(|(id, _)| id)
}

type End<'d> = (&'d DrawnPiece, Point, DrawnEdgeId);

fn over(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    sewn: &SewnSeam,
    [from, to]: &[End; 2],
) -> Option<f64> {
    let (first, second) = (sewn.first.plies.first()?, sewn.second.plies.first()?);
    let find = |ply: &SewnPly, place: f64, end: &End| along(garment, sized, sewing, ply, place, end);
    // Hardly a seam of many lies between them.
    let lies_at = |ply: &SewnPly, (host, _, edge): &End| {
        let own = ply.runs.iter().filter(|run| run.edge == *edge);
        own.filter_map(|run| sized.paper(sewing.part(run.part).part.paper))
            .any(|drawn| std::ptr::eq(drawn, *host))
    };
    let is_between = |one: &End, other: &End| lies_at(first, one) && lies_at(second, other);
    if !is_between(from, to) && !is_between(to, from) {
        return None;
    }
    let places = (0..=LOOKED_AT).map(|at| at as f64 / LOOKED_AT as f64);
    let way = |share: f64, one: &End, other: &End| {
        let on_first = find(first, share * first.length, one)?;
        let on_second = find(second, share * second.length, other)?;
        Some(one.1.distance(on_first) + other.1.distance(on_second))
    };
    let ways = places.flat_map(|share| [way(share, from, to), way(share, to, from)]).flatten();
    ways.min_by(f64::total_cmp)
}

/// The place on the paper of one so far along a ply, where that is the edge next to an end.
fn along(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    ply: &SewnPly,
    place: f64,
    (host, _, edge): &End,
) -> Option<Point> {
    let mut before = 0.0;
    for run in &ply.runs {
        if place > before + run.length {
            before += run.length;
            continue;
        }
        let drawn = sized.paper(sewing.part(run.part).part.paper)?;
        if run.edge != *edge || !std::ptr::eq(drawn, *host) {
            return None;
        }
        let at = if run.reversed { run.length - (place - before) } else { place - before };
        let at = taken(garment, drawn, run.edge)?.as_drawn(at);
        return Some(drawn.edge_at(run.edge)?.path.point_at_length(at));
    }
    None
}
