//! What is set in one layer of a bag alone is set while the space behind that is still open.

use super::jobs::Job;
use super::reach::Reach;
use super::rule::Rule;
use super::why::Why;
use crate::garment::{LayerId, PieceId, SeamId, TackId};
use crate::id_hash::IdIndexSet;
use crate::sewing::surface::{FaceId, JoinedBy};

impl Reach<'_> {
    /// The gap of a bag is closed once all is set that goes through one of its layers and not through what lies behind that.
    pub(super) fn set_within(&self, rules: &mut Vec<Rule>) {
        let garment = self.work.garment;
        let is_set = |job: &Job| matches!(job, Job::Tack(id) if garment.tack(*id).sets.is_some());
        let is_gap = |job: &Job| matches!(job, Job::Gap(_));
        if !self.work.jobs.iter().any(is_set) || !self.work.jobs.iter().any(is_gap) {
            return;
        }
        for bag in self.surface.bags(&self.surface.shutting(), |_| 0).unwrap_or_default() {
            let stretches = bag.faces.iter().flat_map(|&face| self.surface.stretches_of(face));
            let joins = stretches.filter_map(|stretch| self.surface.stretch(stretch).join);
            let left_open = joins.map(|join| self.surface.join(join)).filter(|join| join.gap);
            let gaps: IdIndexSet<SeamId> = left_open
                .filter_map(|join| match join.by {
                    JoinedBy::Seam { seam, .. } => Some(seam),
                    JoinedBy::Placing(_) => None,
                })
                .collect();
            // Through either of two it can be reached.
            let (Some(&gap), 1) = (gaps.first(), gaps.len()) else { continue };
            for job in self.work.jobs.iter().copied().filter(is_set) {
                let Job::Tack(id) = job else { continue };
                if self.is_set_within(id, &bag.faces) {
                    rules.push(Rule::jobs(Job::Gap(gap), job, Why::Reaches));
                }
            }
        }
    }

    /// Whether all places lie on layers that are named and behind which another one of the bag lies.
    fn is_set_within(&self, id: TackId, bag: &[FaceId]) -> bool {
        let part = |face: FaceId| self.work.sewing.part(self.surface.face(face).part).part;
        let is_one = |piece: PieceId, layer: LayerId| {
            let own = |face: &&FaceId| part(**face).piece == piece && part(**face).layer == layer;
            let other = |face: &&FaceId| part(**face).piece == piece && part(**face).layer != layer;
            bag.iter().any(|face| own(&face)) && bag.iter().any(|face| other(&face))
        };
        let ends = &self.work.garment.tack(id).ends;
        !ends.is_empty() && ends.iter().all(|end| end.layer.is_some_and(|layer| is_one(end.piece, layer)))
    }
}
