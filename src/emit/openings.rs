//! Openings and rims in the document.

use super::documents::{
    HeldDocument, HeldWay, OpenClosureDocument, OpeningDocument, RimDocument, RingDocument, RingEdgeDocument,
};
use super::number::Figure;
use super::seams::hand;
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, FinishId, Garment, Opening, SewnEdge};
use crate::resolve::SizedGarment;
use crate::sewing::surface::{StretchId, Surface};
use crate::sewing::{GarmentRim, Holder, PassedRing, Sewing};
use crate::syntax::tree::Hand;

/// Every opening, as it is said and as far as its rings are known.
pub(super) fn openings(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<OpeningDocument> {
    let known = |at: usize| sewing.openings.get(at).and_then(Option::as_ref);
    let of = |(at, opening): (usize, &Opening)| {
        let rings = known(at).filter(|found| found.breaks.is_empty() && found.line_breaks.is_empty());
        let ring = |ring: &PassedRing| self::ring(garment, sized, sewing, sewing.surface.as_ref()?, ring);
        OpeningDocument {
            name: said(garment, &opening.ring.edges, " + "),
            passes: garment.value(opening.passes).name.to_string(),
            needs: sized.scalar(opening.passes).map(Figure),
            opens: rings.and_then(|found| found.narrowest()).map(|ring| Figure(ring.opens())),
            rings: rings.into_iter().flat_map(|found| &found.rings).filter_map(ring).collect(),
        }
    };
    garment.openings.iter().enumerate().map(of).collect()
}

/// Every rim; none where the surface is not known.
pub(super) fn rims(garment: &Garment, size: &WorkedSize) -> Option<Vec<RimDocument>> {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let surface = sewing.surface.as_ref()?;
    let rims = size.rims(garment)?;
    let rim = |rim: &GarmentRim| {
        let ring = ring(garment, sized, sewing, surface, &rim.ring)?;
        let mut names: Vec<String> = Vec::new();
        for edge in &ring.edges {
            let name = match edge.fold {
                true => format!("fold of {}", edge.edge.rsplit_once('.').map_or("", |(part, _)| part)),
                false => edge.edge.clone(),
            };
            if !names.contains(&name) {
                names.push(name);
            }
        }
        let passes =
            rim.openings.iter().map(|&id| garment.value(garment.opening(id).passes).name.to_string());
        Some(RimDocument { name: names.join(" + "), passes: passes.collect(), ring })
    };
    Some(rims.iter().filter_map(rim).collect())
}

fn ring(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    surface: &Surface,
    ring: &PassedRing,
) -> Option<RingDocument> {
    let mut edges: Vec<RingEdgeDocument> = Vec::new();
    for part in &ring.parts {
        let edge = RingEdgeDocument {
            edge: edge_name(garment, sized, sewing, surface, part.stretch)?,
            hand: hand_of(sized, sewing, surface, part.stretch).map(hand),
            fold: surface.side_of(part.stretch).fold,
        };
        if !edges.contains(&edge) {
            edges.push(edge);
        }
    }
    for line in &ring.lines {
        let part = sewing.part(line.part).part;
        let name =
            format!("{}.{}", garment.part_name(Some(part.layer), part.piece), garment.edge(line.line).name);
        edges.push(RingEdgeDocument { edge: name, hand: line.hand.map(hand), fold: false });
    }
    Some(RingDocument {
        edges,
        length: Figure(ring.length),
        stretched: Figure(ring.stretched),
        opens: Figure(ring.opens()),
        held_by: ring.held_by.map(|by| held(garment, sewing, by)),
        closures: ring
            .closures
            .iter()
            .map(|&(id, adds)| OpenClosureDocument {
                closure: garment.closure(id).name.to_string(),
                adds: Figure(adds),
            })
            .collect(),
    })
}

fn held(garment: &Garment, sewing: &Sewing, by: Holder) -> HeldDocument {
    let finished = |id: FinishId| said(garment, &garment.finish(id).edges, ", ");
    let (by, what) = match by {
        Holder::Elastic(id) => (HeldWay::Elastic, finished(id)),
        Holder::Binding(id) => (HeldWay::Binding, finished(id)),
        Holder::Tape(id) => (HeldWay::Tape, finished(id)),
        Holder::FinishStitch(id) => (HeldWay::Stitch, finished(id)),
        Holder::RowStitch(id) => (HeldWay::Stitch, garment.row(id).name.to_string()),
        Holder::SeamStitch(id) => (HeldWay::Stitch, garment.seam(id).name.to_string()),
        Holder::SeamTape(id) => (HeldWay::Tape, garment.seam(id).name.to_string()),
        Holder::Fused(id) => (HeldWay::Fused, garment.layer(id).name.to_string()),
        Holder::Ply(id) => {
            let part = sewing.part(id).part;
            (HeldWay::Part, garment.part_name(Some(part.layer), part.piece))
        }
    };
    HeldDocument { by, what }
}

/// Edges as they are said.
pub(super) fn said(garment: &Garment, edges: &[SewnEdge], between: &str) -> String {
    let edges = edges.iter().map(|sewn| {
        format!("{}.{}", garment.part_name(sewn.layer, sewn.piece), garment.edge(sewn.edge).name)
    });
    edges.collect::<Vec<_>>().join(between)
}

/// "outer.front.neckline".
pub(super) fn edge_name(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    surface: &Surface,
    stretch: StretchId,
) -> Option<String> {
    let (part, edge) = sewing.edge_of(sized, surface, stretch)?;
    Some(format!("{}.{}", garment.part_name(Some(part.layer), part.piece), garment.edge(edge).name))
}

/// The side of the body that a stretch is worn on; of a half on the fold the drawn half is the left one.
pub(super) fn hand_of(
    sized: &SizedGarment,
    sewing: &Sewing,
    surface: &Surface,
    stretch: StretchId,
) -> Option<Hand> {
    let side = surface.side_of(stretch);
    let face = surface.face(side.face);
    let drawn = sized.paper(sewing.part(face.part).part.paper)?;
    match drawn.cut {
        CutHow::OnFold(_) => Some(if side.mirrored { Hand::Right } else { Hand::Left }),
        CutHow::Alike | CutHow::Mirrored => face.hand,
    }
}
