//! Placed pieces: which copy lies on which, what of them is stitched down on the face below, and where
//! a seam takes them in.

use super::faces::{Copies, Faces, drawn};
use super::model::{FaceId, SideId};
use crate::garment::{CutHow, Garment, LayerId, PaperId, PlacementId, SeamId};
use crate::resolve::{DrawnEdgeId, PlacedPiece, SizedGarment};
use crate::sewing::model::{PartId, SewnPart, TakenBy};
use crate::sewing::stitching::Finder;
use crate::shape::path::Path;
use std::collections::HashMap;

/// A placed copy.
#[derive(Clone, Debug)]
pub(super) struct Lying {
    pub(super) placement: PlacementId,
    pub(super) placed: FaceId,
    pub(super) host: FaceId,
    /// Sides that are stitched down on the face below.
    pub(super) stitched: Vec<SideId>,
    /// Sides that a seam of the host takes in.
    pub(super) caught: Vec<CaughtSide>,
    /// No side of it is free.
    pub(super) shut: bool,
}

/// A side that is caught in a seam.
#[derive(Clone, Copy, Debug)]
pub(super) struct CaughtSide {
    pub(super) seam: SeamId,
    pub(super) side: SideId,
    /// The side of the host that it lies on, and from where to where along that one's ring.
    pub(super) on: SideId,
    pub(super) from: f64,
    pub(super) to: f64,
    /// Its ring goes the other way there.
    pub(super) against: bool,
}

/// How far an edge that is caught may lie from what catches it, in millimetres, before it is taken to
/// lie elsewhere; `place/not-caught` reports what is farther than the tolerance.
const NEAR: f64 = 20.0;

/// What is placed on what, copy by copy. None where it is not known how.
pub(super) fn lying(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    parts: &[SewnPart],
    faces: &Faces,
) -> Option<Vec<Lying>> {
    let by_paper: HashMap<(LayerId, PaperId), PartId> = PartId::enumerate(parts)
        .filter(|(_, part)| !part.fused)
        .map(|(id, part)| ((part.part.layer, part.part.paper), id))
        .collect();
    let mut all = Vec::new();
    for (id, placement) in PlacementId::enumerate(&garment.placements) {
        if placement.poisoned {
            return None;
        }
        let placed = sized.placed(id)?;
        for layer in finder.layers.meant(placement.layer, placement.piece) {
            let own = garment.paper_of(Some(layer), placement.piece)?;
            let &own = by_paper.get(&(layer, own))?;
            let said = placement.on_layer.or(placement.layer);
            let host = said.into_iter().chain([layer]).chain(finder.layers.layers.iter().copied());
            let host = host.into_iter().find_map(|layer| by_paper.get(&(layer, placed.on)))?;
            let laying = Laying { garment, sized, parts, faces, placement: id, placed, own, host: *host };
            laying.copies(&mut all)?;
        }
    }
    Some(all)
}

/// One placement in one layer.
struct Laying<'a> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    parts: &'a [SewnPart],
    faces: &'a Faces,
    placement: PlacementId,
    placed: &'a PlacedPiece,
    own: PartId,
    host: PartId,
}

impl Laying<'_> {
    fn copies(&self, all: &mut Vec<Lying>) -> Option<()> {
        let (own, host) = (self.faces.copies(self.own)?, self.faces.copies(self.host)?);
        for (own_times, host_times) in pairs(own, host) {
            let Some((&first, &on)) = own_times.first().zip(host_times.first()) else { continue };
            let mut lying = Lying {
                placement: self.placement,
                placed: own.face(first),
                host: host.face(on),
                stitched: Vec::new(),
                caught: Vec::new(),
                shut: true,
            };
            for (place, &time) in own_times.iter().enumerate() {
                let on = host_times.get(place).copied();
                self.edges(time, on, &mut lying)?;
            }
            all.push(lying);
        }
        Some(())
    }

    /// The edges of what is placed, the `time`th time that they are there, over the `on`th of the host's.
    fn edges(&self, time: u32, on: Option<u32>, lying: &mut Lying) -> Option<()> {
        let part = self.parts.get(self.own.index())?;
        for (edge, fate) in DrawnEdgeId::enumerate(&part.edges) {
            let Some(found) = self.faces.side(self.own, edge, time) else { continue };
            let mut takers = fate.takers.iter().map(|taker| taker.what);
            let held = takers.find_map(|what| match what {
                TakenBy::Topstitched(at) if at == self.placement => Some(None),
                TakenBy::Caught(at, by) if at == self.placement => Some(Some(by)),
                _ => None,
            });
            match held {
                None => lying.shut = false,
                Some(Some(crate::garment::Catcher::Seam(seam))) => {
                    lying.caught.push(self.caught(edge, time, on?, seam)?);
                }
                Some(_) => lying.stitched.push(found.side),
            }
        }
        Some(())
    }

    /// Where the seam runs under a caught edge.
    fn caught(&self, edge: DrawnEdgeId, time: u32, on: u32, seam: SeamId) -> Option<CaughtSide> {
        let own = self.faces.side(self.own, edge, time)?;
        let edge = drawn(self.sized, self.parts.get(self.own.index())?)?.edge_at(edge)?.edge;
        let mut lies = self.placed.edges.iter().filter(|(placed, _)| *placed == edge);
        let (_, path) = lies.next()?;
        let host = self.parts.get(self.host.index())?;
        let drawn = drawn(self.sized, host)?;
        let taken = DrawnEdgeId::enumerate(&host.edges).filter(|(_, fate)| {
            fate.takers.iter().any(|taker| matches!(taker.what, TakenBy::Seam(id, _) if id == seam))
        });
        let off = |edge: &Path| edge.nearest(path.start()).distance.max(edge.nearest(path.end()).distance);
        let (at, under) = taken
            .filter_map(|(at, _)| Some((at, &drawn.edge_at(at)?.path)))
            .min_by(|(_, a), (_, b)| off(a).total_cmp(&off(b)))?;
        if off(under) > NEAR.max(self.garment.tolerance) {
            return None;
        }
        let found = self.faces.side(self.host, at, on)?;
        let side = self.faces.sides.get(found.side.index())?;
        let long = under.length();
        let scale = if long > 0.0 { side.length / long } else { 1.0 };
        let along = |point| {
            let at = under.nearest(point).at * scale;
            if found.mirrored { side.length - at } else { at }
        };
        let (start, end) = (along(path.start()), along(path.end()));
        let against = (start > end) != own.mirrored;
        Some(CaughtSide {
            seam,
            side: own.side,
            on: found.side,
            from: start.min(end),
            to: start.max(end),
            against,
        })
    }
}

/// Which times of what is placed lie on which times of the host, copy by copy: halves on halves,
/// left on left, else one after the other.
fn pairs(own: &Copies, host: &Copies) -> Vec<(Vec<u32>, Vec<u32>)> {
    let is_half = |copies: &Copies| matches!(copies.cut, CutHow::OnFold(_));
    let count = |copies: &Copies| if is_half(copies) { copies.times / 2 } else { copies.times };
    let halves = |copy: u32| vec![2 * copy, 2 * copy + 1];
    match (is_half(own), is_half(host)) {
        (true, true) => (0..count(own).min(count(host))).map(|copy| (halves(copy), halves(copy))).collect(),
        (true, false) => (0..count(own).min(host.times)).map(|copy| (halves(copy), vec![copy])).collect(),
        (false, _) => (0..own.times.min(host.times)).map(|time| (vec![time], vec![time])).collect(),
    }
}
