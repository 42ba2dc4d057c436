//! Notches where a run of an edge that is taken by itself begins and ends: nothing else shows that place on the cloth.

use super::{Notching, ONE_NOTCH};
use crate::garment::{EdgeId, NotchAt, PortionPlace, Seam, SewnPoint, SewnSpot};
use crate::resolve::{DrawnEdgeId, DrawnPiece};
use crate::sewing::amounts::amount_of;
use crate::sewing::model::{PartNotch, SewnPart, SewnSeam, TakenBy, Taker};

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
                let Some((edge, along)) = self.run_end(drawn, part.cloth(), before, after) else { continue };
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
                    let double = self.is_said_double(seam, drawn, after);
                    part.notches.push(PartNotch { edge, along, at, double, seam: Some(sewn.seam) });
                }
            }
        }
    }

    /// Notches the ends of runs that a finish or a closure takes, where no seam ends there and has notched them.
    pub(super) fn notch_finished_runs(&self, parts: &mut [SewnPart]) {
        if self.garment.portions.is_empty() {
            return;
        }
        for part in parts.iter_mut().filter(|part| !part.fused) {
            let Some(drawn) = self.sized.paper(part.part.paper) else { continue };
            let mut ends: Vec<PartNotch> = Vec::new();
            for (id, fate) in DrawnEdgeId::enumerate(&part.edges) {
                let is_finish =
                    |taker: &Taker| matches!(taker.what, TakenBy::Finish(_) | TakenBy::Closure(_));
                if !fate.takers.iter().any(is_finish) {
                    continue;
                }
                for (before, after) in [(drawn.before(id), id), (id, drawn.after(id))] {
                    let Some((edge, along)) = self.run_end(drawn, part.cloth(), before, after) else {
                        continue;
                    };
                    let Some(own) = drawn.edge_at(edge) else { continue };
                    let at = own.path.point_at_length(along);
                    let is_there = part.notches.iter().chain(&ends).any(|notch| {
                        [before, after].contains(&notch.edge) && notch.at.distance(at) <= ONE_NOTCH
                    });
                    if !is_there {
                        ends.push(PartNotch { edge, along, at, double: false, seam: None });
                    }
                }
            }
            part.notches.extend(ends);
        }
    }

    /// Whether a seam says of the end of its run that lies where that edge begins that it is notched twice.
    fn is_said_double(&self, seam: &Seam, drawn: &DrawnPiece, begins: DrawnEdgeId) -> bool {
        seam.notches.iter().filter(|notch| notch.double).any(|notch| match &notch.at {
            NotchAt::From(amount, SewnPoint { point: SewnSpot::RunEnd { run, far }, .. }) => {
                amount_of(self.garment, self.sized, amount) == Some(0.0)
                    && drawn.portion_ends(self.garment, *run, *far).any(|end| end == begins)
            }
            _ => false,
        })
    }

    /// The run that begins or ends in that cloth between these two stretches of one edge, and how far along
    /// it that is.
    fn run_end(
        &self,
        drawn: &DrawnPiece,
        place: PortionPlace,
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
        let [first, second] = [one, other].map(|edge| self.garment.portion_on(edge.edge, place));
        if first == second {
            return None;
        }
        match second {
            Some(_) => Some((after, 0.0)),
            None => Some((before, one.path.length())),
        }
    }

    /// The edge that it is a stretch of.
    fn lies_on(&self, edge: EdgeId) -> EdgeId {
        let name = self.garment.edge(edge);
        name.portion.and(name.part_of).unwrap_or(edge)
    }
}
