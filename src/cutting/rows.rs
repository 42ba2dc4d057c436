//! Rows of stitching that show on the right side of a piece, gaps in its seams, and tacks.

use super::model::{CutGap, CutPart, MarkedPlace};
use crate::garment::{Garment, SeamSide};
use crate::resolve::SizedGarment;
use crate::sewing::{SewnPart, TakenBy, seam_making};
use crate::shape::beside::row_beside;
use crate::shape::offset::inner_run;
use crate::shape::path::Path;
use crate::shape::tolerance::SAME_POINT;

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
                let (ring, at) = part.ring_of(at);
                let run = inner_run(ring, at, 1, making.width);
                rows.extend(run.into_iter().flat_map(|run| run.parallels));
            }
        }
    }
    for row in &sewn.rows {
        let (ring, at) = part.ring_of(row.edge.index());
        let path = row_beside(ring, at, row.distance);
        let edge = ring.get(at);
        rows.extend(path.and_then(|path| match (row.along, edge) {
            (Some(along), Some(edge)) => between(path, edge, along),
            _ => Some(path),
        }));
    }
    // What of a line lies on the cloth.
    let lines =
        sewn.line_rows.iter().flat_map(|row| part.lines.iter().filter(move |line| line.edge == row.line));
    rows.extend(lines.map(|line| line.path.clone()));
    part.rows = rows;
    for gap in &sewn.gaps {
        let (ring, at) = part.ring_of(gap.edge.index());
        let path = ring.get(at).map(|edge| edge.part(gap.along.0, gap.along.1));
        let said = garment.seam(gap.seam).gaps.get(gap.gap);
        let hand = said.and_then(|said| said.hand).filter(|_| part.hand.is_none());
        part.gaps.extend(path.map(|path| CutGap { path, hand }));
    }
    for tack in &sewn.tacks {
        // What is set at a mark is read there already.
        let is_mark = |mark: &MarkedPlace| mark.at.distance(tack.at) <= SAME_POINT;
        if garment.tack(tack.tack).sets.is_some() && part.marks.iter().any(is_mark) {
            continue;
        }
        let name = garment.tack(tack.tack).name.replace('_', " ");
        part.marks.push(MarkedPlace { name, at: tack.at, hand: None });
    }
    part
}

/// What of a row lies beside a stretch of its edge.
fn between(row: Path, edge: &Path, (from, to): (f64, f64)) -> Option<Path> {
    let at = |along: f64| row.nearest(edge.point_at_length(along)).at;
    let (start, end) = (at(from).min(at(to)), at(from).max(at(to)));
    (end > start).then(|| row.split_at_length(end).0.split_at_length(start).1)
}
