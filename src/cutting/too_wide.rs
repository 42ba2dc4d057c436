//! Allowances that the piece or the cloth has no room for.

use super::part_line::{PartLine, allowed};
use super::size::WorkedSize;
use super::{folded, wide};
use crate::garment::Garment;
use crate::report::Finding;
use crate::sewing::{PartId, SewnPart};

/// Allowances that do not fit, and ends of hems that stick out when they are turned.
pub fn too_wide(garment: &Garment, size: &WorkedSize) -> Vec<Finding> {
    let of_part = |(id, sewn): (PartId, &SewnPart)| -> Vec<Finding> {
        match size.line(id) {
            PartLine::Unknown => Vec::new(),
            PartLine::Cut(_) if !sewn.edges.iter().any(|fate| fate.turned_up) => Vec::new(),
            PartLine::Cut(line) => {
                let known = size.drawn.shared_paper(sewn.part.paper).zip(allowed(sewn));
                known.map_or_else(Vec::new, |(drawn, allowed)| {
                    folded::findings(garment, size.id(), sewn, drawn, &allowed, line, size.memory())
                })
            }
            PartLine::Unfit(unfit) => wide::of_part(garment, &size.drawn, sewn, *unfit).into_iter().collect(),
        }
    };
    PartId::enumerate(&size.sewn.parts).flat_map(of_part).collect()
}
