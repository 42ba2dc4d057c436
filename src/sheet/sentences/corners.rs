//! Corners that point into the cloth: their allowance is clipped before what lies round them is sewn.

use super::sides::Sides;
use super::teller::{Teller, Way, fit};
use super::turning::{CLIPPED, angle};
use super::{Step, StepText};
use crate::garment::Part;
use crate::resolve::{CornerName, DrawnEdgeId, DrawnPiece};
use crate::sewing::{PartId, SewnSeam};
use crate::shape::outline::is_anticlockwise;
use crate::sheet::Text;

impl Teller<'_> {
    /// Says of each inward corner whose second edge is sewn now that its allowance is clipped first.
    pub(super) fn say_inward_corners(&self, step: &Step, groups: &[Sides], text: &mut StepText) {
        let sewn = groups.iter().flat_map(|sides| &sides.sewn).filter_map(|&nth| self.sewn(nth));
        let mut before = self.sewn_until(step);
        before.extend(step.jobs().filter_map(super::openings::seam_of));
        let mut told: Vec<(Part, DrawnEdgeId)> = Vec::new();
        for sewn in sewn.filter(|sewn| !self.lies_turned(sewn)) {
            for (part, edges) in self.inward_corners(sewn, &before) {
                let Some(work) = self.work() else { continue };
                let own = work.finder.part(part);
                if told.contains(&(own, edges[1])) {
                    continue;
                }
                told.push((own, edges[1]));
                let Some(drawn) = work.finder.drawn(part) else { continue };
                if let Some(corner) = self.inward_corner(drawn, edges) {
                    let say = |way: Way| self.forms().clip_into(self.piece(own, None, way), corner.clone());
                    let full = say(Way::default());
                    text.say(if fit(std::slice::from_ref(&full)) {
                        full
                    } else {
                        say(Way { short: true, layered: false })
                    });
                }
            }
        }
    }

    /// The corners of a seam's edges that point into the cloth and of which both edges are sewn by then: the part, and the edges
    /// before and behind each.
    fn inward_corners(&self, sewn: &SewnSeam, before: &[usize]) -> Vec<(PartId, [DrawnEdgeId; 2])> {
        let Some(work) = self.work() else { return Vec::new() };
        let mut found = Vec::new();
        let plies = sewn.first.plies.iter().chain(&sewn.second.plies);
        for run in plies.flat_map(|ply| &ply.runs).filter(|run| !run.elsewhere) {
            let Some(drawn) = work.finder.drawn(run.part) else { continue };
            let (last, next) = (drawn.before(run.edge), drawn.after(run.edge));
            for (edges, other) in [([last, run.edge], last), ([run.edge, next], next)] {
                if self.turns_inward(drawn, edges) && self.is_sewn_in(run.part, other, before) {
                    found.push((run.part, edges));
                }
            }
        }
        found
    }

    /// Whether a piece's outline turns into its cloth between two edges. Of a slit that is told where it is cut.
    fn turns_inward(&self, drawn: &DrawnPiece, edges: [DrawnEdgeId; 2]) -> bool {
        let out = if is_anticlockwise(drawn.outline().iter().map(|edge| &edge.path)) { 1.0 } else { -1.0 };
        let [one, other] = edges.map(|id| drawn.edge_at(id));
        let ways = one
            .zip(other)
            .and_then(|(one, other)| one.path.tangent_at_end().zip(other.path.tangent_at_start()));
        let Some((from, to)) = ways else { return false };
        let turn = out * angle(from, to);
        let is_of_slit = |id: DrawnEdgeId| {
            let edge = drawn.edge_at(id).map(|edge| self.garment.whole_edge(edge.edge));
            edge.is_some_and(|edge| self.garment.edge(edge).side_of.is_some())
        };
        turn < -CLIPPED && !edges.iter().any(|id| is_of_slit(*id))
    }

    /// Whether one of these stitchings sews an edge.
    fn is_sewn_in(&self, part: PartId, edge: DrawnEdgeId, stitchings: &[usize]) -> bool {
        self.sewn_in(0, stitchings).into_iter().filter_map(|nth| self.sewn(nth)).any(|sewn| {
            let plies = sewn.first.plies.iter().chain(&sewn.second.plies);
            plies.flat_map(|ply| &ply.runs).any(|run| !run.elsewhere && (run.part, run.edge) == (part, edge))
        })
    }

    /// What a corner is called.
    fn inward_corner(&self, drawn: &DrawnPiece, [before, behind]: [DrawnEdgeId; 2]) -> Option<Text> {
        let (before, behind) = (drawn.edge_at(before)?, drawn.edge_at(behind)?);
        Some(match behind.corner {
            CornerName::Named(point) => {
                self.forms().corner_called(self.name(&self.garment.point_words(point)))
            }
            CornerName::Between(..) => {
                let edge = |edge| self.name(&self.edge_words(edge));
                self.forms().corner_of(edge(before.edge), edge(behind.edge))
            }
        })
    }
}
