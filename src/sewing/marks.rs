//! Which parts bear a mark.

use crate::garment::{Garment, LayerId, Placement, PointId, SewnLayers, TackEnd, TackSpot};
use crate::resolve::sewn_layer;

/// How far back a mark is followed through copies, splits and joins.
const FOREBEARS: usize = 16;

/// Whether a part in this layer bears a mark of its piece. A mark that something is placed by, or that something bought
/// is set at, is only where that is: not on the lining of a front whose pocket is on the outside, nor on a piece
/// that was copied from that front. Any other mark is on every part.
pub fn bears_mark(garment: &Garment, layer: LayerId, mark: PointId) -> bool {
    let uses = |placement: &&Placement, is: &dyn Fn(PointId) -> bool| {
        placement.corners.iter().any(|corner| is(corner.at))
    };
    let was = forebears(garment, mark);
    let mut known = garment.placements.iter().filter(|one| uses(one, &|at| was.contains(&at))).peekable();
    let sets = garment.tacks.iter().filter(|tack| tack.sets.is_some()).flat_map(|tack| &tack.ends);
    let mut sets =
        sets.filter_map(|end| Some((end, set_at(end)?))).filter(|(_, at)| was.contains(at)).peekable();
    let ends = garment.straps.iter().filter(|strap| !strap.poisoned).flat_map(|strap| &strap.runs);
    let mut straps = ends.flat_map(|run| run.ends()).filter(|end| was.contains(&end.point)).peekable();
    if known.peek().is_none() && sets.peek().is_none() && straps.peek().is_none() {
        return true;
    }
    let layers = SewnLayers::new(garment);
    let is_set = |(end, at): (&TackEnd, PointId)| {
        let own = end.layer.or_else(|| sewn_layer(garment, end.piece));
        garment.is_point_of(mark, at) && own == Some(layer)
    };
    known
        .filter(|one| uses(one, &|at| garment.is_point_of(mark, at)))
        .any(|placement| lies_on(&layers, placement, layer))
        || sets.any(is_set)
        || straps.any(|end| {
            let own = end.layer.or_else(|| sewn_layer(garment, garment.point(end.point).piece));
            garment.is_point_of(mark, end.point) && own == Some(layer)
        })
}

/// The mark or the corner at which something is set; none where it is set on an edge.
fn set_at(end: &TackEnd) -> Option<PointId> {
    match end.spot {
        TackSpot::Point(at) => Some(at),
        TackSpot::Edge(..) => None,
    }
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
