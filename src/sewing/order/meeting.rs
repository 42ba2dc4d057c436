//! Corners of pieces that seams bring together.

use super::reach::Reach;
use crate::sewing::surface::{JoinedBy, StretchId};
use std::cell::RefCell;
use std::collections::{BTreeSet, HashSet, VecDeque};

/// A corner of a face, as the stretch that begins there.
pub type Corner = StretchId;

/// Two corners that seams bring together, others than the one that runs over both.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Meeting {
    /// One corner.
    pub start: Corner,
    /// The other.
    pub goal: Corner,
    /// The seam that runs over both, by its place in [`crate::sewing::Sewing::seams`].
    pub own: usize,
}

impl Reach<'_> {
    /// Whether the two corners are brought together by seams of which `sewn` says when they are sewn, by their
    /// places among the stitchings; and the last of them that is sewn, if any has to be.
    pub fn meet<At: Ord + Copy>(
        &self,
        meeting: &Meeting,
        sewn: &dyn Fn(usize) -> Option<At>,
    ) -> Option<Option<(At, usize)>> {
        let &Meeting { start, goal, own } = meeting;
        let mut seen: HashSet<Corner> = HashSet::from([start]);
        let mut open: VecDeque<(Corner, Option<(At, usize)>)> = VecDeque::from([(start, None)]);
        while let Some((corner, last)) = open.pop_front() {
            if corner == goal {
                return Some(last);
            }
            for (stretch, at_end) in [(corner, false), (self.surface.before(corner), true)] {
                let Some((join, at)) = self.joined_by(stretch, own) else { continue };
                let Some(when) = sewn(at) else { continue };
                let Some(ply) = join.plies.iter().find(|ply| ply.stretch == stretch) else { continue };
                for other in join.plies.iter().filter(|other| other.stretch != stretch) {
                    let there = self.corner(other.stretch, (at_end != ply.against) != other.against);
                    if seen.insert(there) {
                        open.push_back((there, last.max(Some((when, at)))));
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

    /// The join of a stretch, and its seam among the stitchings, unless it is that seam itself.
    fn joined_by(&self, stretch: StretchId, own: usize) -> Option<(&crate::sewing::surface::Join, usize)> {
        let join = self.surface.join(self.surface.stretch(stretch).join?);
        let JoinedBy::Seam { sewn, .. } = join.by else { return None };
        let at = self.seams.get(sewn).copied().flatten().filter(|_| sewn != own)?;
        Some((join, at))
    }

    /// The corner where a stretch begins or ends.
    pub(super) fn corner(&self, stretch: StretchId, at_end: bool) -> Corner {
        if at_end { self.surface.next(stretch) } else { stretch }
    }
}
