//! `step/early`: what is closed to a folded ring goes round a ring.
//!
//! Where a folded band is closed to a ring already, a cuff whose ends are sewn, no other ply of its seam may
//! still lie open that another seam closes later, a sleeve before its underarm seam: that seam would end
//! inside the band.
//!
//! What a seam runs over from one edge of a piece to another of the same piece, round a sleeve from the back
//! of its wrist to the front, is joined there before. So is what it runs over from the left copy to the right
//! one, where the other ply is whole already.

use super::jobs::{Job, When};
use super::reach::{Early, Reach};
use crate::sewing::PartId;
use crate::sewing::surface::{JoinedBy, JoinedPly, PlyAt, StretchId};
use indexmap::IndexMap;
use std::collections::{HashSet, VecDeque};

/// One sewing of a seam: its place among the sewn seams, and which time it is.
type Sewing = (usize, u32);

/// A corner of a face, as the stretch that begins there.
type Corner = StretchId;

impl Reach<'_> {
    /// Rings that are sewn to what is closed only later.
    pub(super) fn rings(&self, early: &mut Vec<Early>) {
        for ((sewn, _), plies) in self.plies() {
            let plies: Vec<Vec<JoinedPly>> = plies.into_values().collect();
            let Some(at) = self.seams.get(sewn).copied().flatten() else { continue };
            let Some(first) = self.work.when(Job::Seam(at)).filter(|_| plies.len() > 1) else { continue };
            let mut add = |one: &JoinedPly, next: &JoinedPly, why: &'static str| {
                if self.closing(one, next, sewn, Some(first)).is_none()
                    && let Some(Some((second, later))) = self.closing(one, next, sewn, None)
                {
                    let (sooner, later) = (self.sewing_of(at), self.sewing_of(later));
                    early.push(Early { sooner, first, later, second, why });
                }
            };
            for pair in plies.iter().flat_map(|ply| ply.windows(2)) {
                if let [one, next] = pair
                    && self.part(one) == self.part(next)
                {
                    add(one, next, "which it crosses");
                }
            }
            let ends = |ply: &Vec<JoinedPly>| Some((*ply.last()?, *ply.first()?));
            let is_ring = |(last, start): &(JoinedPly, JoinedPly)| {
                self.closing(last, start, sewn, Some(first)).is_some()
            };
            // Single plies may be closed to a ring round what is closed later: a sleeve is set in flat or round.
            let is_folded = |(last, _): &(JoinedPly, JoinedPly)| {
                self.surface.face(self.surface.face_of(last.stretch)).flap
            };
            if plies.iter().filter_map(ends).any(|ends| is_folded(&ends) && is_ring(&ends)) {
                for (last, start) in plies.iter().filter_map(ends) {
                    add(&last, &start, "which closes the edge that it goes round");
                }
            }
        }
    }

    /// Seams that are sewn on the left and on the right and run on from the one into the other: over plies that
    /// are joined there already, and over others that are joined only later.
    pub(super) fn middles(&self, early: &mut Vec<Early>) {
        let all = self.plies();
        for (&(sewn, sewing), left) in all.iter().filter(|((_, sewing), _)| sewing % 2 == 0) {
            let Some(right) = all.get(&(sewn, sewing + 1)) else { continue };
            let Some(at) = self.seams.get(sewn).copied().flatten() else { continue };
            let Some(first) = self.work.when(Job::Seam(at)) else { continue };
            for at_end in [false, true] {
                let corner = |plies: &Vec<JoinedPly>| {
                    let ply = if at_end { plies.last() } else { plies.first() }?;
                    Some(self.corner(ply.stretch, at_end != ply.against))
                };
                let both =
                    left.iter().filter_map(|(ply, plies)| Some((corner(plies)?, corner(right.get(ply)?)?)));
                let (whole, open): (Vec<_>, Vec<_>) =
                    both.partition(|&(one, other)| self.between(one, other, sewn, Some(first)).is_some());
                let later = open.into_iter().find_map(|(one, other)| self.between(one, other, sewn, None)?);
                if let Some((second, later)) = later.filter(|_| !whole.is_empty()) {
                    let (sooner, later) = (self.sewing_of(at), self.sewing_of(later));
                    early.push(Early { sooner, first, later, second, why: "which it crosses" });
                }
            }
        }
    }

    fn part(&self, ply: &JoinedPly) -> PartId {
        self.surface.face(self.surface.face_of(ply.stretch)).part
    }

    /// The plies of every sewing of every seam, stretch by stretch.
    fn plies(&self) -> IndexMap<Sewing, IndexMap<PlyAt, Vec<JoinedPly>>> {
        let mut all: IndexMap<Sewing, IndexMap<PlyAt, Vec<JoinedPly>>> = IndexMap::new();
        for join in &self.surface.joins {
            let JoinedBy::Seam { sewn, sewing, .. } = join.by else { continue };
            let plies = all.entry((sewn, sewing)).or_default();
            for &ply in join.plies.iter().filter(|ply| ply.at != PlyAt::Caught) {
                plies.entry(ply.at).or_default().push(ply);
            }
        }
        all
    }

    /// Whether the end of one stretch of a ply is brought to the start of the next by other seams than
    /// their own, those that are sewn before `until` or all; and the last of them that is sewn, if any has
    /// to be.
    fn closing(
        &self,
        one: &JoinedPly,
        next: &JoinedPly,
        own: usize,
        until: Option<When>,
    ) -> Option<Option<(When, usize)>> {
        let start = self.corner(next.stretch, next.against);
        self.between(start, self.corner(one.stretch, !one.against), own, until)
    }

    /// The same of two corners.
    fn between(
        &self,
        start: Corner,
        goal: Corner,
        own: usize,
        until: Option<When>,
    ) -> Option<Option<(When, usize)>> {
        let mut seen: HashSet<Corner> = HashSet::from([start]);
        let mut open: VecDeque<(Corner, Option<(When, usize)>)> = VecDeque::from([(start, None)]);
        while let Some((corner, last)) = open.pop_front() {
            if corner == goal {
                return Some(last);
            }
            for (stretch, at_end) in [(corner, false), (self.surface.before(corner), true)] {
                let Some(join) = self.surface.stretch(stretch).join.map(|join| self.surface.join(join))
                else {
                    continue;
                };
                let JoinedBy::Seam { sewn, .. } = join.by else { continue };
                let Some(at) = self.seams.get(sewn).copied().flatten().filter(|_| sewn != own) else {
                    continue;
                };
                let Some(when) = self.work.when(Job::Seam(at)) else { continue };
                if until.is_some_and(|until| when >= until) {
                    continue;
                }
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

    /// The corner where a stretch begins or ends.
    fn corner(&self, stretch: StretchId, at_end: bool) -> Corner {
        if at_end { self.surface.next(stretch) } else { stretch }
    }
}
