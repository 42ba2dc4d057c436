//! A zip is set in before a folded band lies over its end on both sides.

use super::jobs::Job;
use super::reach::Reach;
use super::rule::Rule;
use super::why::Why;
use crate::garment::ClosureKind;

impl Reach<'_> {
    /// Bands that shut the end of a zip wait for it.
    pub(super) fn zips(&self, rules: &mut Vec<Rule>) {
        let garment = self.work.garment;
        for line in &self.surface.closures {
            let Some(ClosureKind::Zipper { .. }) = &garment.closure(line.closure).kind else { continue };
            for side in &line.sides {
                let ends = side.first().map(|&(stretch, against)| (stretch, against));
                let ends = ends.into_iter().chain(side.last().map(|&(stretch, against)| (stretch, !against)));
                let bands = ends.filter_map(|(stretch, at_end)| self.folded_over(stretch, at_end));
                rules.extend(
                    bands.map(|at| Rule::jobs(Job::Seam(at), Job::Closure(line.closure), Why::OverZip)),
                );
            }
        }
    }
}
