//! How a rim is called, and how an opening says it.

use crate::check::words;
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment};
use crate::report::amount;
use crate::sewing::surface::{RimPart, Surface};
use crate::sewing::{GarmentRim, PartId};
use indexmap::IndexMap;

/// So many rims are listed one by one.
const MOST_LISTED: usize = 6;

/// What rims are called by.
#[derive(Clone, Copy)]
pub(super) struct RimWords<'a> {
    pub(super) garment: &'a Garment,
    pub(super) size: &'a WorkedSize,
    pub(super) surface: &'a Surface,
}

impl RimWords<'_> {
    /// "the hem of Front and Back (110 cm) and the armhole of Front and Back (2 of 44 cm)".
    pub(super) fn listed(&self, rims: &[&GarmentRim]) -> String {
        let garment = self.garment;
        let mut listed: IndexMap<String, (usize, f64)> = IndexMap::new();
        for rim in rims {
            let known = listed.entry(self.words(rim)).or_insert((0, rim.ring.length));
            known.0 += 1;
        }
        let of = |(words, (times, length)): (&String, &(usize, f64))| {
            let round = amount(*length, garment.unit);
            if *times > 1 { format!("{words} ({times} of {round})") } else { format!("{words} ({round})") }
        };
        let mut rims: Vec<String> = listed.iter().take(MOST_LISTED).map(of).collect();
        if listed.len() > MOST_LISTED {
            rims.push(format!("{} more", listed.len() - MOST_LISTED));
        }
        words::listed(&rims)
    }

    /// The edges that a rim runs along, each part's once.
    fn edges(&self, rim: &[RimPart]) -> Vec<(PartId, EdgeId, bool)> {
        let mut found = Vec::new();
        for part in rim {
            let side = self.surface.side_of(part.stretch);
            let at = self.surface.face(self.surface.face_of(part.stretch)).part;
            let drawn = self.size.drawn.paper(self.size.sewn.part(at).part.paper);
            let Some(drawn) = drawn.and_then(|drawn| drawn.edge_at(side.edge)) else { continue };
            // What something else takes a run of is named whole.
            let edge = self.garment.whole_edge(drawn.edge);
            if !found.contains(&(at, edge, side.fold)) {
                found.push((at, edge, side.fold));
            }
        }
        found
    }

    /// "the neckline of Front and Back", "the fold of Collar".
    pub(super) fn words(&self, rim: &GarmentRim) -> String {
        let mut named: IndexMap<String, Vec<String>> = IndexMap::new();
        for (part, edge, fold) in self.edges(&rim.ring.parts) {
            let edge = if fold { "fold".to_owned() } else { self.garment.edge(edge).name.to_string() };
            let piece = words::piece(self.garment, self.size.sewn.part(part).part.piece);
            let of = named.entry(edge).or_default();
            if !of.contains(&piece) {
                of.push(piece);
            }
        }
        let named: Vec<String> =
            named.iter().map(|(edge, of)| format!("the {edge} of {}", words::listed(of))).collect();
        words::listed(&named)
    }

    /// As an opening says it: "front.neckline + back.neckline".
    pub(super) fn chain(&self, rim: &[RimPart]) -> String {
        let mut named: Vec<String> = Vec::new();
        let garment = self.garment;
        for (part, edge, _) in self.edges(rim) {
            let part = self.size.sewn.part(part).part;
            let layers =
                garment.layers.iter().filter(|layer| !layer.fused && layer.pieces.contains(&part.piece));
            let layer = (layers.count() > 1).then_some(part.layer);
            let name = format!("{}.{}", garment.part_name(layer, part.piece), garment.edge(edge).name);
            if !named.contains(&name) {
                named.push(name);
            }
        }
        named.join(" + ")
    }
}
