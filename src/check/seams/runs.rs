//! The edges of a seam as they lie on one another, and what they look like on paper.

use crate::cutting::WorkedSize;
use crate::garment::{Garment, SewnPoint, SewnSpot};
use crate::resolve::{CornerName, DrawnEdgeId, DrawnPiece, is_mirrored_between};
use crate::sewing::{SeamEnd, SewnPly, SewnRun, SewnSeam};
use crate::shape::Point;
use crate::shape::path::Path;
use smallvec::SmallVec;
use std::sync::Arc;

/// Two edges lie on one another where both have more than this share of the seam together.
const OVERLAP: f64 = 0.01;

/// Edges that lie on one another, two by two.
pub(in crate::check) type Facing<'a> = SmallVec<[(&'a SewnRun, &'a SewnRun); 4]>;

/// What a part's paper looks like.
pub(super) fn drawn<'a>(size: &'a WorkedSize, run: &SewnRun) -> Option<&'a DrawnPiece> {
    size.drawn.paper(size.sewn.part(run.part).part.paper)
}

/// The corner where a run starts, as it is sewn, or ends.
pub(super) fn corner_of(size: &WorkedSize, run: &SewnRun, is_end: bool) -> Option<SeamEnd> {
    let drawn = drawn(size, run)?;
    let edge = if is_end != run.reversed { drawn.after(run.edge) } else { run.edge };
    Some(SeamEnd { part: run.part, corner: drawn.edge_at(edge)?.corner })
}

/// Where that corner is on the paper.
pub(super) fn place_of(size: &WorkedSize, run: &SewnRun, is_end: bool) -> Option<Point> {
    let path = &drawn(size, run)?.edge_at(run.edge)?.path;
    Some(if is_end != run.reversed { path.end() } else { path.start() })
}

/// Edges of two plies that lie on one another, each in its share of the whole.
pub(super) fn facing<'a>(one: &'a SewnPly, other: &'a SewnPly) -> Facing<'a> {
    let mut found = Facing::new();
    each_overlap(one, other, &mut |run, other, together, _| {
        if together > OVERLAP {
            found.push((run, other));
        }
    });
    found
}

/// Edges of two plies that have more than half of the longer of the two together.
pub(in crate::check) fn facing_mostly<'a>(one: &'a SewnPly, other: &'a SewnPly) -> Facing<'a> {
    let mut found = Facing::new();
    each_overlap(one, other, &mut |run, other, together, longer| {
        if together > 0.5 * longer {
            found.push((run, other));
        }
    });
    found
}

/// Goes along two plies at once, and gives each two edges that have a place in common: the share of the
/// seam that they have together, and the share of the longer of them.
fn each_overlap<'a>(
    one: &'a SewnPly,
    other: &'a SewnPly,
    give: &mut dyn FnMut(&'a SewnRun, &'a SewnRun, f64, f64),
) {
    let (mut at, mut other_at, mut from, mut end, mut other_end) = (0, 0, 0.0, 0.0, 0.0);
    let share = |ply: &SewnPly, at: usize| ply.runs.get(at).map_or(0.0, |run| run.length / ply.length);
    while let (Some(run), Some(other_run)) = (one.runs.get(at), other.runs.get(other_at)) {
        let (own, others) = (share(one, at), share(other, other_at));
        let (next, other_next) = (end + own, other_end + others);
        let to = f64::min(next, other_next);
        give(run, other_run, to - from, own.max(others));
        from = to;
        // Where lengths are not known, both go on.
        let (is_over, other_is_over) = (next <= to || to.is_nan(), other_next <= to || to.is_nan());
        if is_over {
            (at, end) = (at + 1, next);
        }
        if other_is_over {
            (other_at, other_end) = (other_at + 1, other_next);
        }
    }
}

/// Whether a piece is the same when both ends of edges of it, end to end, change places: its outline,
/// its notches, and what is placed on it.
pub(super) fn is_same_from_both_ends(garment: &Garment, size: &WorkedSize, runs: &[SewnRun]) -> bool {
    let (Some(first), Some(last)) = (runs.first(), runs.last()) else { return false };
    let ends = place_of(size, first, false).zip(place_of(size, last, true));
    let (Some((start, end)), Some(drawn)) = (ends, drawn(size, first)) else { return false };
    let paper = size.sewn.part(first.part).part.paper;
    let placed = size.drawn.placed.iter().flatten().filter(|placed| placed.on == paper);
    let lying: Vec<&Path> = placed.flat_map(|placed| placed.edges.iter().map(|(_, path)| path)).collect();
    is_mirrored_between(drawn, [start, end], &lying, garment.tolerance)
}

/// "front.side.near": an end of a run of an edge that is taken by itself; with its layer where the seam says it.
pub(super) fn run_end(garment: &Garment, size: &WorkedSize, end: &SeamEnd, layer: bool) -> Option<String> {
    let part = size.sewn.part(end.part).part;
    let drawn = size.drawn.paper(part.paper)?;
    let (at, _) = DrawnEdgeId::enumerate(&drawn.edges).find(|(_, edge)| edge.corner == end.corner)?;
    [at, drawn.before(at)].into_iter().find_map(|edge| {
        let edge = drawn.edge_at(edge)?.edge;
        let run = garment.portion(garment.portion_on(edge, size.sewn.part(end.part).cloth())?);
        let edge = run.names.first()?.taken;
        let mut ends = [("near", false), ("far", true)].into_iter();
        let (word, _) = ends.find(|(_, far)| drawn.portion_ends(garment, edge, *far).any(|end| end == at))?;
        let whole = garment.edge(run.edge);
        let piece = garment.part_name(layer.then_some(part.layer), whole.piece);
        Some(format!("{piece}.{}.{word}", whole.name))
    })
}

/// The name of a corner that has one.
pub(super) fn point_name<'g>(garment: &'g Garment, end: &SeamEnd) -> Option<&'g Arc<str>> {
    match end.corner {
        CornerName::Named(point) => Some(&garment.point(point).name),
        CornerName::Between(..) => None,
    }
}

/// What a seam catches on a run of one of its edges, and that run.
pub(super) fn caught_runs(sewn: &SewnSeam) -> impl Iterator<Item = (&SewnRun, &SewnRun)> {
    [&sewn.first.plies, &sewn.second.plies].into_iter().flat_map(|plies| {
        plies.iter().filter(|ply| ply.runs.iter().any(|run| run.elsewhere)).flat_map(move |ply| {
            let lies_on = |host: &&SewnPly| {
                let same = |(own, under): (&SewnRun, &SewnRun)| {
                    !own.elsewhere || (own.part, own.edge) == (under.part, under.edge)
                };
                host.runs.len() == ply.runs.len()
                    && host.runs.iter().all(|run| !run.elsewhere)
                    && ply.runs.iter().zip(&host.runs).all(same)
            };
            let host = plies.iter().find(lies_on);
            let pairs = ply.runs.iter().zip(host.into_iter().flat_map(|host| &host.runs));
            pairs.filter(|(own, _)| !own.elsewhere)
        })
    })
}

/// Whether a seam's braces mean that end of a run.
pub(super) fn is_at(
    garment: &Garment,
    size: &WorkedSize,
    (run, is_end): (&SewnRun, bool),
    point: &SewnPoint,
) -> bool {
    let is_layer = point.layer.is_none_or(|wanted| size.sewn.part(run.part).part.layer == wanted);
    let Some(drawn) = drawn(size, run).filter(|_| is_layer) else { return false };
    let at = if is_end != run.reversed { drawn.after(run.edge) } else { run.edge };
    match point.point {
        SewnSpot::Point(point) => {
            let corner = drawn.edge_at(at).map(|edge| edge.corner);
            matches!(corner, Some(CornerName::Named(own)) if garment.is_point_of(own, point))
        }
        SewnSpot::RunEnd { run: of, far } => drawn.portion_ends(garment, of, far).any(|end| end == at),
    }
}
