//! Placed pieces in the document.

use super::documents::{CaughtDocument, PlacedCornerDocument, PlacementDocument};
use super::outline::{path_data, point};
use super::seams::hand;
use crate::garment::{
    Catcher, CutHow, Garment, LayerId, PaperId, PlacedCorner, Placement, PlacementId, PointId,
};
use crate::resolve::{CornerName, PlacedPiece, SizedGarment};
use crate::sewing::{Sewing, as_it_lies};
use crate::shape::Point;

/// What is laid on what, layer by layer.
pub(super) fn placements(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<PlacementDocument> {
    let mut all = Vec::new();
    for (id, placement) in PlacementId::enumerate(&garment.placements).filter(|(_, one)| !one.poisoned) {
        let Some(placed) = sized.placed.get(id.index()).and_then(Option::as_ref) else { continue };
        // Of every pair of layers that it lies in, how many copies.
        let mut layers: Vec<(LayerId, LayerId, u32)> = Vec::new();
        for placing in sewing.surface.iter().flat_map(|surface| &surface.placings) {
            let Some(surface) = sewing.surface.as_ref().filter(|_| placing.placement == id) else { continue };
            let of = (surface.face(placing.placed).layer, surface.face(placing.host).layer);
            match layers.iter_mut().find(|(own, host, _)| (*own, *host) == of) {
                Some((.., copies)) => *copies += 1,
                None => layers.push((of.0, of.1, 1)),
            }
        }
        for (own, host, copies) in layers {
            all.push(document(garment, sized, placement, placed, (own, host), Some(copies)));
        }
        if sewing.surface.is_none() {
            let has = |piece| garment.layers.iter().position(|layer| layer.pieces.contains(&piece));
            let own = placement.layer.or_else(|| has(placement.piece).map(LayerId::from_index));
            let host = placement.on_layer.or_else(|| has(placement.on).map(LayerId::from_index));
            if let (Some(own), Some(host)) = (own, host) {
                all.push(document(garment, sized, placement, placed, (own, host), None));
            }
        }
    }
    all
}

fn document(
    garment: &Garment,
    sized: &SizedGarment,
    placement: &Placement,
    placed: &PlacedPiece,
    (own, host): (LayerId, LayerId),
    copies: Option<u32>,
) -> PlacementDocument {
    let on = placed.on;
    let edge = |edge| garment.edge(edge).name.to_string();
    let corner = |corner: &PlacedCorner| PlacedCornerDocument {
        corner: garment.point(corner.corner).name.to_string(),
        mark: garment.point(corner.at).name.to_string(),
        at: place(garment, sized, on, corner.at).map(point),
    };
    let caught = placement.caught.iter().map(|caught| CaughtDocument {
        edge: edge(caught.edge),
        by: match caught.by {
            Catcher::Seam(id) => garment.seam(id).name.to_string(),
            Catcher::Closure(id) => garment.closure(id).name.to_string(),
        },
    });
    let mut topstitched: Vec<String> = placement.topstitched.iter().map(|&(at, _)| edge(at)).collect();
    if placement.all_round.is_some() {
        let drawn = garment.paper_of(Some(own), placement.piece).and_then(|paper| sized.paper(paper));
        let is_caught = |at| placement.caught.iter().any(|caught| garment.is_run_of(at, caught.edge));
        let is_fold = |at| matches!(drawn.map(|drawn| drawn.cut), Some(CutHow::OnFold(fold)) if garment.is_run_of(at, fold));
        let edges = drawn.iter().flat_map(|drawn| &drawn.edges).map(|own| own.edge);
        topstitched.extend(edges.filter(|&at| !is_caught(at) && !is_fold(at)).map(edge));
    }
    let lying = as_it_lies(garment, sized, placement, placed);
    PlacementDocument {
        name: format!("{} on {}", garment.piece(placement.piece).name, garment.piece(placement.on).name),
        part: garment.part_name(Some(own), placement.piece),
        on: garment.part_name(Some(host), garment.paper(on).piece),
        side: placement.hand.map(hand),
        copies,
        corners: placement.corners.iter().map(corner).collect(),
        outline: (!lying.is_empty()).then(|| path_data(lying.iter().map(|lies| &lies.path), true)),
        topstitched,
        caught: caught.collect(),
    }
}

/// Where a mark or a corner is on a paper.
fn place(garment: &Garment, sized: &SizedGarment, on: PaperId, wanted: PointId) -> Option<Point> {
    let drawn = sized.paper(on)?;
    let spot = drawn.spots.iter().find(|spot| garment.is_point_of(spot.point, wanted)).map(|spot| spot.at);
    let corner = || {
        let named = |corner| matches!(corner, CornerName::Named(own) if garment.is_point_of(own, wanted));
        drawn.edges.iter().find(|edge| named(edge.corner)).map(|edge| edge.path.start())
    };
    spot.or_else(corner)
}
