//! The cloth that buttons go through is turned in and closed before.
//!
//! Along the edge that a row of buttons is nearest to, a hem is turned before buttonholes are worked through
//! it; and a folded band is closed before, since they go through both its plies.

use super::jobs::Job;
use super::reach::Reach;
use super::rule::Rule;
use super::why::Why;
use crate::garment::{Closure, ClosureId, ClosureKind, FinishKind};
use crate::once_each::once_each;
use crate::sewing::surface::{FaceId, StretchId};
use crate::sewing::{TakenBy, amount_of};

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
                for hem in self.hems_below(line.closure, face) {
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

    /// The hems and casings across the row's ends that a button of it goes through.
    fn hems_below(&self, closure: ClosureId, face: FaceId) -> Vec<Job> {
        let work = self.work;
        let part = self.surface.face(face).part;
        let Some(drawn) = work.finder.drawn(part) else { return Vec::new() };
        let sewn = work.sewing.part(part);
        let places = || sewn.fasteners.iter().filter(|place| place.closure == closure);
        let is_below = |stretch: &StretchId| {
            let side = self.surface.side_of(*stretch);
            let Some((fate, edge)) = sewn.fate(side.edge).zip(drawn.edge_at(side.edge)) else { return false };
            let deep = fate.takers.iter().find_map(|taker| match taker.what {
                TakenBy::Finish(id) => match &work.garment.finish(id).kind {
                    FinishKind::Hem(hem) => amount_of(work.garment, work.sized, &hem.depth),
                    FinishKind::Casing(depth, _) => amount_of(work.garment, work.sized, depth),
                    _ => None,
                },
                _ => None,
            });
            deep.is_some_and(|deep| places().any(|place| edge.path.nearest(place.at).distance < deep))
        };
        let mut hems: Vec<Job> = self
            .surface
            .stretches_of(face)
            .filter(|&stretch| !self.surface.side_of(stretch).fold && self.is_turned(stretch))
            .filter(is_below)
            .filter_map(|stretch| self.finish(stretch))
            .collect();
        once_each(&mut hems);
        hems
    }

    /// The seam that closes a folded band.
    fn open_band(&self, face: FaceId) -> Option<usize> {
        self.surface.face(face).flap.then(|| self.shutting(face))?
    }
}
