//! On which end of a plain edge the edge of a folded piece comes that is sewn to it by its end alone.
//!
//! A welt that fills a window is folded lengthwise: both corners of its end then lie at its edges, and the
//! fold has no name. What is matched with either corner therefore has the edges there, and the fold comes on
//! the other end; where nothing is matched, the seam of the edges says where they lie.

use super::faces::drawn;
use super::model::PlyAt;
use crate::garment::Garment;
use crate::resolve::{DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::sewing::ends::is_point_at;
use crate::sewing::model::{PartId, SewnPart, SewnPly, SewnRun, SewnSeam};

/// What folds are read from.
#[derive(Clone, Copy)]
pub(super) struct Folds<'a> {
    pub(super) garment: &'a Garment,
    pub(super) sized: &'a SizedGarment,
    pub(super) parts: &'a [SewnPart],
}

/// A corner of a part, as the edge that starts there.
type Spot = (PartId, DrawnEdgeId);

impl<'a> Folds<'a> {
    /// Whether the edges of a folded piece, whose end is one ply of a seam, come at the start of that seam, the fold at its
    /// end; none where neither what is matched nor another seam says so.
    pub(super) fn lies_from_edge(&self, sewn: &SewnSeam, at: PlyAt, seams: &[SewnSeam]) -> Option<bool> {
        let (own, others) = match at {
            PlyAt::First(ply) => (sewn.first.plies.get(ply as usize)?, &sewn.second.plies),
            PlyAt::Second(ply) => (sewn.second.plies.get(ply as usize)?, &sewn.first.plies),
            PlyAt::Caught => return None,
        };
        let others = || others.iter().filter_map(|ply| self.ends(ply));
        let [start, end] = self.ends(own)?;
        let is_matched =
            |own: Spot, is_end: usize| others().any(|other| self.is_matched(sewn, own, other[is_end]));
        let said = [is_matched(start, 0), is_matched(end, 1)];
        if said[0] != said[1] {
            return Some(said[0]);
        }
        // Where another seam, that of its edges, brings them.
        let meets = |ours: &[SewnPly], theirs: &[SewnPly], spot: Spot| {
            let ends = |plies: &[SewnPly]| -> Vec<[Spot; 2]> {
                plies.iter().filter_map(|ply| self.ends(ply)).collect()
            };
            let theirs = ends(theirs);
            ends(ours).iter().any(|ours| {
                let is_own = |at: &usize| ours[*at] == start || ours[*at] == end;
                (0..2).filter(is_own).any(|at| theirs.iter().any(|theirs| theirs[at] == spot))
            })
        };
        let brought = |spot: Spot| {
            seams.iter().filter(|seam| seam.seam != sewn.seam).any(|seam| {
                let (first, second) = (&seam.first.plies, &seam.second.plies);
                meets(first, second, spot) || meets(second, first, spot)
            })
        };
        let mut at_start = others().map(|other| other[0]);
        let mut at_end = others().map(|other| other[1]);
        let found = [at_start.any(brought), at_end.any(brought)];
        (found[0] != found[1]).then_some(found[0])
    }

    /// Whether a seam sews the edges to one another that their piece says are folded onto each other: each copy is
    /// closed by itself then, as a belt of two lengths is along both.
    pub(super) fn closes_by_itself(&self, sewn: &SewnSeam) -> bool {
        let runs = [&sewn.first, &sewn.second].map(|side| side.plies.iter().flat_map(|ply| &ply.runs));
        runs.into_iter().flatten().all(|run| {
            let Some(drawn) = self.drawn(run.part) else { return false };
            let edge = drawn.edge_at(run.edge).map(|edge| edge.edge);
            let folds = &self.garment.piece(drawn.piece).folds;
            edge.is_some_and(|edge| folds.iter().any(|over| over.is_of(self.garment, edge)))
        })
    }

    fn drawn(&self, part: PartId) -> Option<&'a DrawnPiece> {
        drawn(self.sized, self.parts.get(part.index())?)
    }

    /// The corners where a ply begins and ends.
    fn ends(&self, ply: &SewnPly) -> Option<[Spot; 2]> {
        let corner = |run: &SewnRun, is_end: bool| {
            let edge = if is_end != run.reversed { self.drawn(run.part)?.after(run.edge) } else { run.edge };
            Some((run.part, edge))
        };
        Some([corner(ply.runs.first()?, false)?, corner(ply.runs.last()?, true)?])
    }

    fn is_matched(&self, sewn: &SewnSeam, one: Spot, other: Spot) -> bool {
        let is = |spot: Spot, point| {
            let layer = self.parts.get(spot.0.index()).map(|sewn| sewn.part.layer);
            layer
                .zip(self.drawn(spot.0))
                .is_some_and(|(layer, drawn)| is_point_at(self.garment, drawn, layer, spot.1, point))
        };
        let mut matching = self.garment.seam(sewn.seam).matching.iter();
        matching.any(|(a, b)| (is(one, a) && is(other, b)) || (is(one, b) && is(other, a)))
    }
}
