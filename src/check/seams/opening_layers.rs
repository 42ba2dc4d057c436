//! An opening whose ring is closed in one layer and open in another, as a lining's is beside a zip in the outside.

use crate::cutting::WorkedSize;
use crate::garment::{ClosureKind, Garment, LayerId, Opening, SewnEdge};
use crate::resolve::DrawnEdgeId;
use crate::sewing::{OpeningRing, RingBreak};

/// The layer whose ring alone is open.
pub(super) struct OpenAlone {
    pub(super) layer: LayerId,
    /// The one that has a ring.
    whole: LayerId,
    /// The edge that lies behind a zip's, and the zip.
    beside: Option<(String, String)>,
}

/// None where the opening names layers itself, or is a ring in no layer.
pub(super) fn open_alone(
    garment: &Garment,
    size: &WorkedSize,
    opening: &Opening,
    found: &OpeningRing,
) -> Option<OpenAlone> {
    if opening.ring.edges.iter().any(|sewn| sewn.layer.is_some()) {
        return None;
    }
    let layer_of = |part| size.sewn.part(part).part.layer;
    let layer = layer_of(found.breaks.first()?.at.part);
    if found.breaks.iter().any(|one| layer_of(one.at.part) != layer) {
        return None;
    }
    let surface = size.sewn.surface.as_ref()?;
    let part = found.rings.iter().flat_map(|ring| &ring.parts).next()?;
    let whole = surface.face(surface.face_of(part.stretch)).layer;
    let beside = found.breaks.iter().find_map(|one| behind_zip(garment, size, one));
    (whole != layer).then_some(OpenAlone { layer, whole, beside })
}

/// The edge that leads on where a ring ends, and the zip that the same edge of another layer has.
fn behind_zip(garment: &Garment, size: &WorkedSize, one: &RingBreak) -> Option<(String, String)> {
    let own = size.sewn.part(one.at.part).part;
    let drawn = size.drawn.paper(own.paper)?;
    let corner = |edge: DrawnEdgeId| drawn.edge_at(edge).map(|edge| edge.corner);
    let next = match corner(one.edge) == Some(one.at.corner) {
        true => drawn.before(one.edge),
        false => drawn.after(one.edge),
    };
    let edge = garment.whole_edge(drawn.edge_at(next)?.edge);
    let is_it = |sewn: &SewnEdge| garment.whole_edge(sewn.edge) == edge && sewn.layer != Some(own.layer);
    let mut zips = garment.closures.iter().filter(|one| matches!(one.kind, Some(ClosureKind::Zipper { .. })));
    let zip = zips.find(|zip| zip.first.edges.iter().chain(&zip.second.edges).any(is_it))?;
    let name = format!("{}.{}", garment.part_name(Some(own.layer), own.piece), garment.edge(edge).name);
    Some((name, zip.name.to_string()))
}

impl OpenAlone {
    pub(super) fn way_out(&self, garment: &Garment, opening: &Opening) -> String {
        let of_one = |sewn: &SewnEdge| {
            let name = garment.part_name(Some(self.whole), sewn.piece);
            format!("{name}.{}", garment.edge(sewn.edge).name)
        };
        let edges: Vec<String> = opening.ring.edges.iter().map(of_one).collect();
        let named = format!(
            "say which layer is to let it through: opening {}  passes {}",
            edges.join(" + "),
            garment.value(opening.passes).name
        );
        match &self.beside {
            Some((edge, zip)) => {
                format!("fell it to the zip as well: finish {edge} turned under onto {zip}; or {named}")
            }
            None => format!("{named}; or sew together the edges that end there"),
        }
    }
}
