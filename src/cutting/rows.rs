//! Rows of stitching that show on the right side of a piece.

use super::model::CutPart;
use crate::garment::{Garment, SeamSide};
use crate::resolve::SizedGarment;
use crate::sewing::{SewnPart, TakenBy, seam_making};
use crate::shape::offset::inner_run;
use crate::shape::path::Path;

/// A part with the rows of its seams. A row for which there is no room is left out: it is sewn all the
/// same, over the seam beside it.
pub(super) fn with_rows(
    mut part: CutPart,
    garment: &Garment,
    sized: &SizedGarment,
    sewn: &SewnPart,
) -> CutPart {
    let mut rows: Vec<Path> = Vec::new();
    for (at, fate) in sewn.edges.iter().enumerate() {
        for taker in &fate.takers {
            let TakenBy::Seam(id, second) = taker.what else { continue };
            let side = if second { SeamSide::Second } else { SeamSide::First };
            let Some(making) = seam_making(garment, sized, garment.seam(id)) else { continue };
            if making.row_on() == Some(side) {
                let run = inner_run(&part.stitching, at, 1, making.width);
                rows.extend(run.into_iter().flat_map(|run| run.parallels));
            }
        }
    }
    part.rows = rows;
    part
}
