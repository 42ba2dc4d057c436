//! Which parts bear a mark.

use crate::garment::SewnLayers;
use crate::garment::{Garment, LayerId, Placement, PointId};

/// How far back a mark is followed through copies, splits and joins.
const FOREBEARS: usize = 16;

/// Whether a part in this layer bears a mark of its piece. A mark that something is placed by is only
/// where it is placed: not on the lining of a front whose pocket is on the outside, nor on a piece
/// that was copied from that front. Any other mark is on every part.
pub fn bears_mark(garment: &Garment, layer: LayerId, mark: PointId) -> bool {
    let uses = |placement: &&Placement, is: &dyn Fn(PointId) -> bool| {
        placement.corners.iter().any(|corner| is(corner.at))
    };
    let was = forebears(garment, mark);
    let mut known = garment.placements.iter().filter(|one| uses(one, &|at| was.contains(&at))).peekable();
    if known.peek().is_none() {
        return true;
    }
    let layers = SewnLayers::new(garment);
    known
        .filter(|one| uses(one, &|at| garment.is_point_of(mark, at)))
        .any(|placement| lies_on(&layers, placement, layer))
}

/// Whether something is placed on a part in this layer: not on the lining of a front whose pocket is on the outside.
pub fn is_placed_on(garment: &Garment, placement: &Placement, layer: LayerId) -> bool {
    lies_on(&SewnLayers::new(garment), placement, layer)
}

fn lies_on(layers: &SewnLayers, placement: &Placement, layer: LayerId) -> bool {
    if placement.on_layer.is_some() {
        return placement.on_layer == Some(layer);
    }
    layers.meant(placement.layer, placement.piece).into_iter().any(|own| {
        // Of a piece whose own layer has nothing to carry it, the first that has.
        let there = layers.meant(None, placement.on);
        if there.contains(&own) { own == layer } else { there.first() == Some(&layer) }
    })
}

/// The mark, and those that it was before splits and joins or that it was copied from.
fn forebears(garment: &Garment, mark: PointId) -> Vec<PointId> {
    let mut all = vec![mark];
    let mut at = mark;
    for _ in 0..FOREBEARS {
        let known = garment.point(at);
        let Some(before) = known.same_as.or(known.copied_from) else { break };
        all.push(before);
        at = before;
    }
    all
}
