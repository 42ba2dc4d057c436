//! `step/early` of buttons: the cloth that they go through is turned in and closed before.
//!
//! Along the edge that a row of buttons is nearest to, a hem is turned before buttonholes are worked through
//! it; and a folded band is closed before, since they go through both its plies.

use super::jobs::{Job, When};
use super::reach::{Early, Reach};
use crate::garment::{Closure, ClosureKind};
use crate::sewing::surface::{FaceId, StretchId};

impl Reach<'_> {
    /// What buttons go through is finished along them, and its plies lie on one another.
    pub(super) fn buttoned_edges(&self, early: &mut Vec<Early>) {
        for line in &self.surface.closures {
            let closure = self.work.garment.closure(line.closure);
            let Some(ClosureKind::Fasteners(row)) = &closure.kind else { continue };
            // Ties, hooks and buckles go through nothing.
            if !row.kind.is_lapped() {
                continue;
            }
            let Some(first) = self.work.when(Job::Closure(line.closure)) else { continue };
            let faces = line.faces.iter().flatten();
            let found = faces.flat_map(|&face| [self.hem_beside(closure, face), self.open_band(face)]);
            let late = |(later, second, why): (String, When, &'static str)| {
                let sooner = format!("sewing {}", closure.name);
                (second > first).then_some(Early { sooner, first, later, second, why })
            };
            early.extend(found.flatten().filter_map(late));
        }
    }

    /// The finish of the edge that a row of buttons inside a piece lies along, if it is turned.
    fn hem_beside(&self, closure: &Closure, face: FaceId) -> Option<(String, When, &'static str)> {
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
        let (job, later) = self.finish(edge)?;
        Some((later, self.work.when(job)?, "which turns in the cloth that it goes through"))
    }

    /// The seam that closes a folded band.
    fn open_band(&self, face: FaceId) -> Option<(String, When, &'static str)> {
        let at = self.surface.face(face).flap.then(|| self.shutting(face))??;
        Some((
            self.sewing_of(at),
            self.work.when(Job::Seam(at))?,
            "which closes the band that it goes through",
        ))
    }
}
