//! A zip is set in before a band of two plies, or one that is folded, lies over its end on both sides.

use super::jobs::Job;
use super::reach::Reach;
use super::rule::Rule;
use super::why::Why;
use crate::garment::ClosureKind;
use crate::sewing::surface::{PlyAt, StretchId};

impl Reach<'_> {
    /// Bands that shut the end of a zip wait for it.
    pub(super) fn zips(&self, rules: &mut Vec<Rule>) {
        let garment = self.work.garment;
        for line in &self.surface.closures {
            let Some(ClosureKind::Zipper { .. }) = &garment.closure(line.closure).kind else { continue };
            for side in &line.sides {
                let ends = side.first().map(|&(stretch, against)| (stretch, against));
                let ends = ends.into_iter().chain(side.last().map(|&(stretch, against)| (stretch, !against)));
                let bands = ends.filter_map(|(stretch, at_end)| {
                    self.folded_over(stretch, at_end).or_else(|| self.between_plies(stretch, at_end))
                });
                rules.extend(
                    bands.map(|at| Rule::jobs(Job::Seam(at), Job::Closure(line.closure), Why::OverZip)),
                );
            }
        }
    }

    /// The seam beside the end of a stretch, if that lies there between plies of what is sewn on: both halves of a band
    /// that is folded beyond what runs over the end, or its two pieces.
    fn between_plies(&self, stretch: StretchId, at_end: bool) -> Option<usize> {
        let (beside, _) = self.beyond(stretch, at_end);
        let join = self.surface.join(self.surface.stretch(beside).join?);
        let is_first = |at: PlyAt| matches!(at, PlyAt::First(_));
        let own = join.plies.iter().find(|ply| ply.stretch == beside)?.at;
        let sewn = join.plies.iter().filter(|ply| ply.at != PlyAt::Caught);
        let over = sewn.filter(|ply| is_first(ply.at) != is_first(own)).count();
        self.seam(beside).filter(|_| own != PlyAt::Caught && over > 1)
    }
}
