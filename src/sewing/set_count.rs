//! How many of what is bought and set at marks are set.

use super::model::PartId;
use super::stitched::tacked;
use super::stitching::Finder;
use super::straps::is_on_fold;
use super::surface::{FaceId, SideId, Surface};
use crate::garment::{Garment, Tack, TackEnd, TackSpot};
use crate::resolve::{CornerName, DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::shape::Point;
use crate::shape::tolerance::SAME_POINT;
use std::collections::BTreeSet;

/// How many of what is set are set, over all copies; what lies on a fold is there once, and so is what lies at a corner where copies
/// meet once they are sewn. None where a place is not known.
pub fn set_count(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    surface: Option<&Surface>,
    tack: &Tack,
) -> Option<u32> {
    let mut halves: u32 = 0;
    for end in &tack.ends {
        let mut own: u32 = 0;
        let mut corners: Vec<(PartId, DrawnEdgeId)> = Vec::new();
        let places = tacked(garment, sized, finder, end);
        let many = places.len();
        for (part, at) in places {
            let at = at.ok()?;
            let drawn = finder.drawn(part);
            let on_fold = drawn.is_some_and(|drawn| is_on_fold(drawn, at));
            let one_side = end.hand.is_some();
            // Of both copies, where they are not told apart, the one that is meant; of halves that are, the one stands for the
            // whole on the fold.
            let is_half = on_fold || one_side;
            let each = if is_half && !(one_side && finder.hand(part).is_some()) { 1 } else { 2 };
            own = own.saturating_add(finder.times(part).saturating_mul(each));
            let corner = drawn.and_then(|drawn| corner_at(garment, drawn, end, at));
            corners.extend(corner.map(|corner| (part, corner)));
        }
        if own > 2 && end.hand.is_none() && corners.len() == many {
            own = own.min(joints(surface?, &corners).map_or(own, |joints| joints.saturating_mul(2)));
        }
        halves = halves.saturating_add(own);
    }
    Some(halves / 2)
}

/// The edge of the outline that begins at a corner at which something is set.
fn corner_at(garment: &Garment, drawn: &DrawnPiece, end: &TackEnd, at: Point) -> Option<DrawnEdgeId> {
    let TackSpot::Point(point) = &end.spot else { return None };
    let is_it = |corner| matches!(corner, CornerName::Named(own) if garment.is_point_of(own, *point));
    let mut edges = DrawnEdgeId::enumerate(&drawn.edges);
    let found = edges.find(|(_, edge)| is_it(edge.corner) && edge.path.start().distance(at) <= SAME_POINT);
    found.map(|(edge, _)| edge)
}

/// In how many places of the sewn surface those corners of all copies lie; none where one does not lie on its rim.
fn joints(surface: &Surface, corners: &[(PartId, DrawnEdgeId)]) -> Option<u32> {
    let mut found: BTreeSet<u32> = BTreeSet::new();
    for &(part, edge) in corners {
        let faces: Vec<FaceId> = surface.face_ids().filter(|face| has_part(surface, *face, part)).collect();
        if faces.is_empty() {
            return None;
        }
        for face in faces {
            let sides = surface.sides_of(face).filter(|side| {
                let own = surface.side(*side);
                own.part == part && own.edge == edge && !own.fold
            });
            let mut vertices = sides.filter_map(|side| begins_at(surface, side)).peekable();
            vertices.peek()?;
            found.extend(vertices);
        }
    }
    u32::try_from(found.len()).ok()
}

fn has_part(surface: &Surface, face: FaceId, part: PartId) -> bool {
    surface.sides_of(face).any(|side| surface.side(side).part == part)
}

/// The vertex at which a side begins as it is drawn.
fn begins_at(surface: &Surface, side: SideId) -> Option<u32> {
    let mut stretches = surface.stretches_on(side);
    match surface.side(side).mirrored {
        false => stretches.next().map(|first| surface.stretch(first).start),
        true => stretches.last().map(|last| surface.stretch(last).end),
    }
}
