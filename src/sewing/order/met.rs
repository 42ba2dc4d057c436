//! When seams bring two corners together.

use super::meeting::{Corner, Meeting};
use super::reach::Reach;
use crate::id_hash::IdSet;
use crate::sewing::surface::{Join, JoinedBy, StretchId};
use smallvec::{SmallVec, smallvec};
use std::cell::RefCell;
use std::collections::BTreeSet;

/// When the last of the seams to a corner is sewn, and its place; none where none has to be.
type Last<At> = Option<(At, usize)>;

/// So many corners that lie in one place are compared one by one; only more are hashed.
const MET: usize = 16;

impl Reach<'_> {
    /// Whether the two corners are brought together by seams of which `sewn` says when they are sewn, by their
    /// places among the stitchings; and the last of them that is sewn, if any has to be.
    pub fn meet<At: Ord + Copy>(
        &self,
        meeting: &Meeting,
        sewn: &dyn Fn(usize) -> Option<At>,
    ) -> Option<Option<(At, usize)>> {
        let &Meeting { start, goal, own } = meeting;
        // All corners that were met, those that are still to be looked from after those that were.
        let mut met: SmallVec<[(Corner, Last<At>); MET]> = smallvec![(start, None)];
        let mut beyond: IdSet<Corner> = IdSet::default();
        let mut next = 0;
        while let Some(&(corner, last)) = met.get(next) {
            next += 1;
            if corner == goal {
                return Some(last);
            }
            for (stretch, at_end) in [(corner, false), (self.surface.before(corner), true)] {
                let Some((join, at)) = self.joined_by(stretch, own) else { continue };
                let Some(when) = sewn(at) else { continue };
                let Some(ply) = join.plies.iter().find(|ply| ply.stretch == stretch) else { continue };
                for other in join.plies.iter().filter(|other| other.stretch != stretch) {
                    let there = self.corner(other.stretch, (at_end != ply.against) != other.against);
                    let is_met = met.iter().take(MET).any(|(corner, _)| *corner == there);
                    if !is_met && (met.len() < MET || beyond.insert(there)) {
                        met.push((there, last.max(Some((when, at)))));
                    }
                }
            }
        }
        None
    }

    /// The seams that may bring the two corners together, by their places among the stitchings.
    pub(super) fn seams_round(&self, meeting: &Meeting) -> Vec<usize> {
        let found = RefCell::new(BTreeSet::new());
        // A goal that no corner is: all that hangs on the start is looked at.
        let all = Meeting { goal: Corner::from_index(self.surface.stretches.len()), ..*meeting };
        self.meet(&all, &|at| {
            found.borrow_mut().insert(at);
            Some(())
        });
        found.into_inner().into_iter().collect()
    }

    /// The join of a stretch, and its seam among the stitchings, unless it is that seam itself, in whatever layer.
    fn joined_by(&self, stretch: StretchId, own: usize) -> Option<(&Join, usize)> {
        let join = self.surface.join(self.surface.stretch(stretch).join?);
        let JoinedBy::Seam { seam, sewn, .. } = join.by else { return None };
        // Neither does the same seam in another layer: of two layers that are sewn together at a zip, each would wait for
        // the other.
        let is_same = self.work.sewing.seams.get(own).is_some_and(|own| own.seam == seam);
        let at = self.seams.get(sewn).copied().flatten().filter(|_| !is_same)?;
        Some((join, at))
    }

    /// The corner where a stretch begins or ends.
    pub(super) fn corner(&self, stretch: StretchId, at_end: bool) -> Corner {
        if at_end { self.surface.next(stretch) } else { stretch }
    }
}
