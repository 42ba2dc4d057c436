//! `step/early` of zips: a zip is set in before a folded band lies over its end on both sides.

use super::jobs::Job;
use super::reach::{Early, Reach};
use crate::garment::ClosureKind;

impl Reach<'_> {
    /// Bands that shut the end of a zip which is set in only later.
    pub(super) fn zips(&self, early: &mut Vec<Early>) {
        let garment = self.work.garment;
        for line in &self.surface.closures {
            let closure = garment.closure(line.closure);
            let Some(ClosureKind::Zipper { .. }) = &closure.kind else { continue };
            let Some(second) = self.work.when(Job::Closure(line.closure)) else { continue };
            for side in &line.sides {
                let ends = side.first().map(|&(stretch, against)| (stretch, against));
                let ends = ends.into_iter().chain(side.last().map(|&(stretch, against)| (stretch, !against)));
                let band = ends.filter_map(|(stretch, at_end)| self.folded_over(stretch, at_end));
                let band = band.filter_map(|at| Some((at, self.work.when(Job::Seam(at))?)));
                for (at, first) in band.filter(|(_, first)| *first < second) {
                    let (sooner, later) = (self.sewing_of(at), format!("sewing {}", closure.name));
                    let why = "whose end it lies over on both sides";
                    early.push(Early { sooner, first, later, second, why });
                }
            }
        }
    }
}
