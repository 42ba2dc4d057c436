//! What is cut from which cloth.

use super::model::CutRow;
use super::symmetry::is_symmetrical;
use super::work::Work;
use crate::garment::{CutHow, Part};

/// Every part whose paper is known, layer by layer. A piece that is cut alike and is not
/// symmetrical is turned over for its second layer, so that both lie together face to face.
pub(super) fn cut_list(work: &Work) -> Vec<CutRow> {
    let garment = work.garment;
    let parts = garment.parts();
    let is_second =
        |part: &Part| parts.iter().any(|other| other.piece == part.piece && other.layer < part.layer);
    let rows = parts.iter().filter_map(|part| {
        let drawn = work.last(part.paper)?;
        let flipped = drawn.cut == CutHow::Alike && is_second(part) && !is_symmetrical(drawn);
        let fabric = garment.layer(part.layer).fabric;
        Some(CutRow {
            part: *part,
            fabric,
            copies: garment.layer(part.layer).copies_of(drawn.count),
            how: drawn.cut,
            flipped,
            hand: None,
            whole: false,
        })
    });
    rows.collect()
}
