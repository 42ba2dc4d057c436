//! The cloth that buttons go through is turned in and closed before.
//!
//! Along the edge that a row of buttons is nearest to, a hem is turned before buttonholes are worked through
//! it; and a folded band is closed before, since they go through both its plies.

use super::jobs::Job;
use super::reach::Reach;
use super::rule::Rule;
use super::why::Why;
use crate::garment::{Closure, ClosureKind};
use crate::sewing::surface::{FaceId, StretchId};

impl Reach<'_> {
    /// What buttons go through is finished along them, and its plies lie on one another.
    pub(super) fn buttoned_edges(&self, rules: &mut Vec<Rule>) {
        for line in &self.surface.closures {
            let closure = self.work.garment.closure(line.closure);
            let Some(ClosureKind::Fasteners(row)) = &closure.kind else { continue };
            // Ties, hooks and buckles go through nothing.
            if !row.kind.is_lapped() {
                continue;
            }
            for &face in line.faces.iter().flatten() {
                let sewing = Job::Closure(line.closure);
                if let Some(hem) = self.hem_beside(closure, face) {
                    rules.push(Rule::jobs(sewing, hem, Why::TurnsIn));
                }
                if let Some(at) = self.open_band(face) {
                    rules.push(Rule::jobs(sewing, Job::Seam(at), Why::ClosesBand));
                }
            }
        }
    }

    /// The finish of the edge that a row of buttons inside a piece lies along, if it is turned.
    fn hem_beside(&self, closure: &Closure, face: FaceId) -> Option<Job> {
        let garment = self.work.garment;
        let drawn = self.work.finder.drawn(self.surface.face(face).part)?;
        let named = closure.first.edges.iter().chain(&closure.second.edges);
        let line = named
            .into_iter()
            .find_map(|sewn| drawn.lines.iter().find(|line| garment.is_run_of(line.edge, sewn.edge)))?;
        let middle = line.path.point_at_length(line.path.length() / 2.0);
        let near = |stretch: &StretchId| {
            let edge = drawn.edge_at(self.surface.side_of(*stretch).edge);
            edge.map_or(f64::INFINITY, |edge| edge.path.nearest(middle).distance)
        };
        let edge = self
            .surface
            .stretches_of(face)
            .filter(|&stretch| !self.surface.side_of(stretch).fold)
            .min_by(|one, other| near(one).total_cmp(&near(other)))
            .filter(|&stretch| self.is_turned(stretch))?;
        self.finish(edge)
    }

    /// The seam that closes a folded band.
    fn open_band(&self, face: FaceId) -> Option<usize> {
        self.surface.face(face).flap.then(|| self.shutting(face))?
    }
}
