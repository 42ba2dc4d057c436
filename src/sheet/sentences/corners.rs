//! Corners that point into the cloth: their allowance is clipped before what lies round them is sewn.

use super::sides::Sides;
use super::teller::{Teller, Way, fit};
use super::turning::{CLIPPED, angle};
use super::{Step, StepText};
use crate::garment::Part;
use crate::once_each::once_each;
use crate::resolve::{CornerName, DrawnEdgeId, DrawnPiece};
use crate::sewing::{PartId, SewnPly, SewnSeam};
use crate::shape::outline::is_anticlockwise;
use crate::sheet::Text;

/// What is straight is sewn round a corner only clipped where that turns by more than this, in degrees.
const SHARP: f64 = 60.0;
/// Nearer to its own corner than this, in millimetres, it turns there too.
const CLEAR: f64 = 5.0;

/// By how much an outline turns between two of its edges, in degrees: more than nothing out of the cloth.
fn turn_between(drawn: &DrawnPiece, edges: [DrawnEdgeId; 2]) -> Option<f64> {
    let out = if is_anticlockwise(drawn.outline().iter().map(|edge| &edge.path)) { 1.0 } else { -1.0 };
    let [one, other] = edges.map(|id| drawn.edge_at(id));
    let (from, to) = one?.path.tangent_at_end().zip(other?.path.tangent_at_start())?;
    Some(out * angle(from, to))
}

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

    /// Says of what goes straight on where the other side has a corner, as the border of a cushion does, that it is clipped there.
    pub(super) fn say_met_corners(&self, groups: &[Sides], text: &mut StepText) {
        let sewn = groups.iter().flat_map(|sides| &sides.sewn).filter_map(|&nth| self.sewn(nth));
        let mut parts: Vec<Part> = Vec::new();
        for sewn in sewn.filter(|sewn| !self.lies_turned(sewn)) {
            parts.extend(self.straight_at_corners(sewn));
        }
        once_each(&mut parts);
        if parts.is_empty() {
            return;
        }
        let say = |way: Way| {
            let pieces = parts.iter().map(|&part| self.piece(part, None, way));
            self.forms().clip_at_corners(self.words.list(pieces))
        };
        let full = say(Way::default());
        text.say(if fit(std::slice::from_ref(&full)) {
            full
        } else {
            say(Way { short: true, layered: false })
        });
    }

    fn straight_at_corners(&self, sewn: &SewnSeam) -> Vec<Part> {
        let Some(work) = self.work() else { return Vec::new() };
        let plies: Vec<&SewnPly> = sewn.first.plies.iter().chain(&sewn.second.plies).collect();
        let whole = |ply: &&&SewnPly| ply.length > 0.0 && ply.runs.iter().all(|run| !run.elsewhere);
        let mut found = Vec::new();
        for (ply, at) in plies
            .iter()
            .filter(whole)
            .flat_map(|ply| self.outward_corners(ply).into_iter().map(move |at| (ply, at / ply.length)))
        {
            for other in plies.iter().filter(whole).filter(|other| !std::ptr::eq(**other, *ply)) {
                let mut from = 0.0;
                for run in &other.runs {
                    let (begin, end) = (from + CLEAR, from + run.length - CLEAR);
                    from += run.length;
                    if (begin..=end).contains(&(at * other.length)) {
                        found.push(work.finder.part(run.part));
                    }
                }
            }
        }
        found
    }

    /// How far along a ply the corners of its piece lie that point out of the cloth.
    fn outward_corners(&self, ply: &SewnPly) -> Vec<f64> {
        let Some(work) = self.work() else { return Vec::new() };
        let mut found = Vec::new();
        let mut at = 0.0;
        for pair in ply.runs.windows(2) {
            let [one, next] = pair else { continue };
            at += one.length;
            let Some(drawn) = work.finder.drawn(one.part).filter(|_| one.part == next.part) else { continue };
            let edges = if one.reversed { [next.edge, one.edge] } else { [one.edge, next.edge] };
            let is_next = drawn.after(edges[0]) == edges[1] && one.reversed == next.reversed;
            if is_next && turn_between(drawn, edges).is_some_and(|turn| turn > SHARP) {
                found.push(at);
            }
        }
        found
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
        let Some(turn) = turn_between(drawn, edges) else { return false };
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
