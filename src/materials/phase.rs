//! Where pieces must lie in the repeat of a design, so that it runs on across seams.
//!
//! One place of every piece is given a place in the repeat. Pieces are reached from one another by
//! the seams between them, those that run along the grain first, and corners that are sewn
//! together get the same place. Along the cloth that matches stripes and checks across a side
//! seam. Across the cloth it takes the design for its own mirror image about the middle of the
//! repeat, which lies on every centre line: on a fold, and on an edge that is sewn or closed left
//! to right.

use crate::cutting::CutPart;
use crate::garment::{EdgeId, Garment, SewnEdge};
use crate::resolve::{DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::sewing::{SeamEnd, Sewing};
use crate::shape::tolerance::FLATTEN;
use kurbo::{Affine, Point, Vec2};

/// A place of a piece and where in the repeat it lies, in millimetres along and across the cloth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Phase {
    pub point: Point,
    pub along: f64,
    pub across: f64,
}

/// The place in the repeat of each of these parts, which are all of one size and cut from one
/// cloth.
pub(super) fn phases(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    parts: &[&CutPart],
) -> Vec<Phase> {
    let mut found: Vec<Option<Phase>> = vec![None; parts.len()];
    let links = links(sized, sewing, parts);
    for start in 0..parts.len() {
        if found.get(start).is_none_or(Option::is_some) {
            continue;
        }
        // Where the design begins is for the cutter to choose: where the first piece begins.
        let point = centre_of(garment, parts[start]);
        let ring = parts[start].cutting_ring();
        let along = |at: Point| at.to_vec2().dot(parts[start].grain);
        let lowest =
            ring.iter().flat_map(|path| path.flatten(FLATTEN)).map(along).fold(along(point), f64::min);
        let root = Phase { point, along: along(point) - lowest, across: 0.0 };
        found[start] = Some(root);
        let mut reached = vec![start];
        // As the trees of garments are small, every link is looked at until none leads further.
        while let Some(link) = links
            .iter()
            .find(|link| reached.contains(&link.one) && found.get(link.other).is_some_and(Option::is_none))
        {
            let Some(Some(from)) = found.get(link.one).copied() else { break };
            let grain = parts[link.one].grain;
            let off = link.one_at - from.point;
            let centre = centre_of(garment, parts[link.other]);
            let centred = is_centred(garment, parts[link.other]);
            let along = from.along + off.dot(grain);
            let across = from.across + off.dot(grain.turn_90());
            let other_grain = parts[link.other].grain;
            let back = centre - link.other_at;
            found[link.other] = Some(Phase {
                point: centre,
                along: along + back.dot(other_grain),
                // A centre line lies on the middle of the design, whatever the seams would say.
                across: if centred { 0.0 } else { across + back.dot(other_grain.turn_90()) },
            });
            reached.push(link.other);
        }
    }
    found.into_iter().flatten().collect()
}

/// Two parts whose corners are sewn together.
struct Link {
    one: usize,
    other: usize,
    one_at: Point,
    other_at: Point,
    /// How much the seam runs along the grain: 1 along it, 0 across.
    steep: f64,
}

fn links(sized: &SizedGarment, sewing: &Sewing, parts: &[&CutPart]) -> Vec<Link> {
    let mut links = Vec::new();
    for seam in sewing.seams.iter().filter(|seam| seam.known && seam.unpaired.is_none()) {
        for (one_end, other_end) in &seam.ends {
            let (Some(one), Some(other)) = (at(sewing, parts, *one_end), at(sewing, parts, *other_end))
            else {
                continue;
            };
            if one == other {
                continue;
            }
            let places = corner(sized, parts[one], *one_end).zip(corner(sized, parts[other], *other_end));
            let Some((one_at, other_at)) = places else { continue };
            let steep = seam
                .first
                .plies
                .first()
                .and_then(|ply| ply.runs.first())
                .and_then(|run| parts[one].stitching.get(run.edge.index()))
                .map_or(0.0, |path| steepness(path.end() - path.start(), parts[one].grain));
            links.push(Link { one, other, one_at, other_at, steep });
            links.push(Link { one: other, other: one, one_at: other_at, other_at: one_at, steep });
        }
    }
    links.sort_by(|a, b| b.steep.total_cmp(&a.steep));
    links
}

fn steepness(chord: Vec2, grain: Vec2) -> f64 {
    let length = chord.hypot();
    if length > 0.0 { (chord.dot(grain) / length).abs() } else { 0.0 }
}

/// Which of the parts an end belongs to.
fn at(sewing: &Sewing, parts: &[&CutPart], end: SeamEnd) -> Option<usize> {
    let sewn = sewing.part(end.part);
    let is_own =
        |cut: &&CutPart| cut.part == sewn.part && cut.hand.is_none_or(|hand| sewn.hand == Some(hand));
    parts.iter().position(is_own)
}

fn drawn<'a>(sized: &'a SizedGarment, part: &CutPart) -> Option<&'a DrawnPiece> {
    sized.paper(part.part.paper)
}

fn corner(sized: &SizedGarment, part: &CutPart, end: SeamEnd) -> Option<Point> {
    let edge = drawn(sized, part)?.edges.iter().find(|edge| edge.corner == end.corner)?;
    let at = edge.path.start();
    Some(if part.mirrored { Affine::FLIP_X * at } else { at })
}

/// The edge that lies on the middle of the body: the fold, or one that is sewn or closed left to
/// right.
fn centre_edge(garment: &Garment, part: &CutPart) -> Option<DrawnEdgeId> {
    if part.fold.is_some() {
        return part.fold;
    }
    let is_both = |edge: EdgeId, first: &[SewnEdge], second: &[SewnEdge]| {
        let is_it = |sewn: &SewnEdge| garment.is_run_of(edge, sewn.edge);
        first.iter().any(is_it) && second.iter().any(is_it)
    };
    let mut edges = DrawnEdgeId::enumerate(&part.edges);
    let found = edges.find(|&(_, &edge)| {
        garment.closures.iter().any(|closure| is_both(edge, &closure.first.edges, &closure.second.edges))
            || garment.seams.iter().any(|seam| {
                seam.first
                    .iter()
                    .any(|one| seam.second.iter().any(|other| is_both(edge, &one.edges, &other.edges)))
            })
    });
    found.map(|(id, _)| id)
}

fn is_centred(garment: &Garment, part: &CutPart) -> bool {
    part.middle.is_some() || centre_edge(garment, part).is_some()
}

/// A place on the centre line, or else where the outline begins.
fn centre_of(garment: &Garment, part: &CutPart) -> Point {
    if let Some((middle, _)) = part.middle {
        return middle;
    }
    let edge = centre_edge(garment, part).unwrap_or(DrawnEdgeId::FIRST);
    part.stitching.get(edge.index()).map_or(Point::ZERO, |path| path.start())
}
