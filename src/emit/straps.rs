//! Straps in the document.

use super::documents::{StrapDocument, StrapEndDocument, StrapRunDocument};
use super::number::Figure;
use super::seams::hand;
use crate::garment::{Catcher, Garment, StrapEnd};
use crate::resolve::SizedGarment;

/// The straps of a size.
pub(super) fn straps(garment: &Garment, sized: &SizedGarment) -> Vec<StrapDocument> {
    let all = crate::sewing::straps(garment, sized).into_iter();
    all.map(|sewn| {
        let strap = garment.strap(sewn.strap);
        let runs = strap.runs.iter().zip(&sewn.runs);
        StrapDocument {
            name: strap.name.to_string(),
            length: Figure(sewn.length),
            width: Figure(sewn.width),
            folded_in_four: strap.in_four,
            sewn: Figure(sewn.sewn),
            boxed: strap.boxed,
            runs: runs
                .map(|(run, own)| StrapRunDocument {
                    from: end(garment, &run.from),
                    to: run.to.as_ref().map(|to| end(garment, to)),
                    free: Figure(own.free),
                    apart: own.across.map(Figure),
                })
                .collect(),
        }
    })
    .collect()
}

fn end(garment: &Garment, end: &StrapEnd) -> StrapEndDocument {
    let point = garment.point(end.point);
    StrapEndDocument {
        at: format!("{}.{}", garment.part_name(end.layer, point.piece), point.name),
        hand: end.side().map(hand),
        caught_in: end.caught.map(|by| match by {
            Catcher::Seam(id) => garment.seam(id).name.to_string(),
            Catcher::Closure(id) => garment.closure(id).name.to_string(),
        }),
    }
}
