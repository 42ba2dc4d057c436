//! Notches where a run of an edge that is taken by itself begins and ends: nothing else shows that place on the cloth.

use super::{Notching, ONE_NOTCH};
use crate::garment::EdgeId;
use crate::resolve::{DrawnEdgeId, DrawnPiece};
use crate::sewing::model::{PartNotch, SewnPart, SewnSeam};

impl Notching<'_, '_> {
    /// Notches every place where an edge of the seam ends beside a run, or as a run, of the same edge.
    pub(super) fn notch_run_ends(&self, sewn: &SewnSeam, parts: &mut [SewnPart]) {
        if self.garment.portions.is_empty() {
            return;
        }
        let seam = self.garment.seam(sewn.seam);
        let plies = sewn.first.plies.iter().chain(&sewn.second.plies);
        for (ply, run) in plies.flat_map(|ply| ply.runs.iter().map(move |run| (ply, run))) {
            let Some(drawn) = self.drawn(run.part) else { continue };
            let Some(part) = parts.get_mut(run.part.index()) else { continue };
            let is_sewn = |edge| {
                let mut runs = ply.runs.iter();
                runs.any(|other| (other.part, other.hand, other.edge) == (run.part, run.hand, edge))
            };
            let ends = [(drawn.before(run.edge), run.edge, true), (run.edge, drawn.after(run.edge), false)];
            for (before, after, is_start) in ends {
                let Some((edge, along)) = self.run_end(drawn, before, after) else { continue };
                let Some(own) = drawn.edge_at(edge) else { continue };
                // In a layer in which nothing takes the run, the seam goes on over its ends.
                let goes_on = is_sewn(if is_start { before } else { after });
                if goes_on && !self.garment.names_run_of(seam, self.garment.whole_edge(own.edge)) {
                    continue;
                }
                let at = own.path.point_at_length(along);
                let is_there = part
                    .notches
                    .iter()
                    .any(|notch| [before, after].contains(&notch.edge) && notch.at.distance(at) <= ONE_NOTCH);
                if !is_there {
                    part.notches.push(PartNotch { edge, along, at, double: false, seam: Some(sewn.seam) });
                }
            }
        }
    }

    /// The run that begins or ends between these two stretches of one edge, and how far along it that is.
    fn run_end(
        &self,
        drawn: &DrawnPiece,
        before: DrawnEdgeId,
        after: DrawnEdgeId,
    ) -> Option<(DrawnEdgeId, f64)> {
        if before == after {
            return None;
        }
        let (one, other) = (drawn.edge_at(before)?, drawn.edge_at(after)?);
        if self.lies_on(one.edge) != self.lies_on(other.edge) {
            return None;
        }
        if self.garment.is_portion(other.edge) {
            return Some((after, 0.0));
        }
        self.garment.is_portion(one.edge).then(|| (before, one.path.length()))
    }

    /// The edge that it is a stretch of.
    fn lies_on(&self, edge: EdgeId) -> EdgeId {
        let name = self.garment.edge(edge);
        name.portion.and(name.part_of).unwrap_or(edge)
    }
}
