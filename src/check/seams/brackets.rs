//! How a side of a seam is written whose second ply lies on a part of the first.

use crate::cutting::WorkedSize;
use crate::garment::{Garment, Seam, SewnEdge};
use crate::sewing::SewnSide;

/// With the two plies in brackets, where the second is as long as one edge of the first and as no other.
pub(super) fn written(
    garment: &Garment,
    size: &WorkedSize,
    seam: &Seam,
    is_second: bool,
    side: &SewnSide,
) -> Option<String> {
    let chains = if is_second { &seam.second } else { &seam.first };
    let ([first, other], [long, short]) = (chains.as_slice(), side.plies.as_slice()) else { return None };
    let [below] = other.edges.as_slice() else { return None };
    if first.edges.len() < 2 {
        return None;
    }
    let mut fitting = long.runs.iter().filter(|run| (run.length - short.length).abs() <= garment.tolerance);
    let run = fitting.next().filter(|_| fitting.next().is_none())?;
    let above = size.drawn.paper(size.sewn.part(run.part).part.paper)?.edge_at(run.edge)?.edge;
    let name = |sewn: &SewnEdge| {
        format!("{}.{}", garment.part_name(sewn.layer, sewn.piece), garment.edge(sewn.edge).name)
    };
    let is_above = |sewn: &SewnEdge| garment.is_run_of(above, sewn.edge);
    let said = first.edges.iter().map(|sewn| match is_above(sewn) {
        true => format!("({} and {})", name(sewn), name(below)),
        false => name(sewn),
    });
    let said: Vec<String> = said.collect();
    first.edges.iter().any(is_above).then(|| said.join(" + "))
}
