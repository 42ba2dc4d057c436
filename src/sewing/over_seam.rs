//! How far apart two places are over the seam that lies between them.

use super::model::{SewnPly, SewnRun, SewnSeam, SewnSide};
use super::straps::strap_place;
use super::whole::Sewing;
use crate::garment::{CutHow, Garment, StrapEnd};
use crate::resolve::{DrawnEdgeId, DrawnPiece, SizedGarment, taken};
use crate::shape::Point;
use crate::syntax::tree::Hand;

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
        // A side is said of what is there twice; of the other, a band that is cut once, it need not be.
        false => from.hand.zip(to.hand).is_none_or(|(one, other)| one == other),
    };
    if !is_over {
        return None;
    }
    let ends = [
        (host, one, nearest(host, one)?, from.hand),
        (other_host, other, nearest(other_host, other)?, to.hand),
    ];
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

/// A place on a paper, the edge next to it, and on which side of the body it is meant.
type End<'d> = (&'d DrawnPiece, Point, DrawnEdgeId, Option<Hand>);

fn over<'s>(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    sewn: &'s SewnSeam,
    [from, to]: &[End; 2],
) -> Option<f64> {
    // What lies on a part of another ply alone is no longer than that; how far along the seam it begins is known of that one.
    let is_whole = |(nth, ply): &(usize, &SewnPly)| *nth == 0 || ply.runs.iter().all(|run| !run.elsewhere);
    let plies = |side: &'s SewnSide| side.plies.iter().enumerate().filter(is_whole).map(|(_, ply)| ply);
    let pairs = plies(&sewn.first).flat_map(|first| plies(&sewn.second).map(move |second| [first, second]));
    let known = pairs.filter(|[first, second]| {
        // Of sides that differ and are not eased, which is told, nobody knows what comes where.
        sewn.fit.is_some() || (first.length - second.length).abs() <= garment.tolerance
    });
    known.filter_map(|pair| over_plies(garment, sized, sewing, pair, [from, to])).min_by(f64::total_cmp)
}

/// The same over two plies of a seam, one of each of its sides.
fn over_plies(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    [first, second]: [&SewnPly; 2],
    [from, to]: [&End; 2],
) -> Option<f64> {
    let find = |ply: &SewnPly, place: f64, end: &End| along(garment, sized, sewing, ply, place, end);
    // Hardly a seam of many lies between them.
    let lies_at = |ply: &SewnPly, (host, _, edge, _): &End| {
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
    (host, _, edge, hand): &End,
) -> Option<Point> {
    // Where a seam takes both halves of what is cut on the fold, or both of a pair, only the one that is meant.
    let is_own = |run: &SewnRun| run.edge == *edge && run.hand.is_some() && run.hand == *hand;
    let takes_own = ply.runs.iter().any(is_own);
    let mut before = 0.0;
    for run in &ply.runs {
        if place > before + run.length {
            before += run.length;
            continue;
        }
        let drawn = sized.paper(sewing.part(run.part).part.paper)?;
        let is_other_hand = takes_own && !is_own(run);
        if run.edge != *edge || is_other_hand || !std::ptr::eq(drawn, *host) {
            return None;
        }
        let at = if run.reversed { run.length - (place - before) } else { place - before };
        let at = taken(garment, drawn, run.edge)?.as_drawn(at);
        return Some(drawn.edge_at(run.edge)?.path.point_at_length(at));
    }
    None
}
