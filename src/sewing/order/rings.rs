//! What is closed to a folded ring goes round a ring.
//!
//! Where a folded band is closed to a ring already, a cuff whose ends are sewn, no other ply of its seam may
//! still lie open that another seam closes later, a sleeve before its underarm seam: that seam would end
//! inside the band.
//!
//! What is a ring by then is sewn round a ring: no sleeve whose underarm is closed round an armhole that is open
//! there, and no open sleeve round a closed armhole. Both are sewn flat, or both are closed before.
//!
//! What a seam runs over from one edge of a piece to another of the same piece, round a sleeve from the back
//! of its wrist to the front, is joined there before. So is what it runs over from piece to piece where its other ply is whole: both
//! shoulders under the cap of a sleeve. So is what it runs over from the left copy to the right
//! one, where the other ply is whole already.

use super::doing::Doing;
use super::jobs::Job;
use super::meeting::Meeting;
use super::reach::Reach;
use super::rule::{Needs, Rule};
use super::why::Why;
use crate::garment::LayerId;
use crate::id_hash::{IdIndexMap, IdIndexSet};
use crate::sewing::PartId;
use crate::sewing::surface::{JoinedBy, JoinedPly, PlyAt, StretchId};
use smallvec::{SmallVec, smallvec};

/// A band is less wide than so much of its length: a cuff or a waistband, and no sleeve.
const BAND: f64 = 0.5;

/// One sewing of a seam: its place among the sewn seams, and which time it is.
type Sewing = (usize, u32);

/// A ply of a sewing, stretch by stretch.
type SewnPly = SmallVec<[JoinedPly; 2]>;

/// The plies of each sewing.
pub(super) type Plies = IdIndexMap<Sewing, SmallVec<[(PlyAt, SewnPly); 2]>>;

/// How an edge is a ring.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Ring {
    /// As it is drawn.
    Drawn,
    /// Seams close it.
    Sewn,
}

impl Reach<'_> {
    /// Rings that are sewn to what is closed only later.
    pub(super) fn rings(&self, all: &Plies, rules: &mut Vec<Rule>) {
        for (&(sewn, _), plies) in all {
            let Some(at) = self.seams.get(sewn).copied().flatten().filter(|_| plies.len() > 1) else {
                continue;
            };
            let waits = Doing::Job(Job::Seam(at));
            let meeting = |one: &JoinedPly, next: &JoinedPly| Meeting {
                start: self.corner(next.stretch, next.against),
                goal: self.corner(one.stretch, !one.against),
                own: sewn,
            };
            for pair in plies.iter().flat_map(|(_, ply)| ply.windows(2)) {
                if let [one, next] = pair
                    && self.part(one) == self.part(next)
                {
                    self.add(rules, waits, meeting(one, next), &[], Why::Crosses, None);
                }
            }
            let ends = |(_, ply): &(PlyAt, SewnPly)| Some((*ply.last()?, *ply.first()?));
            // Single plies are sewn flat, and closed later with what they are sewn to, or are rings both. What is a ring
            // as it is drawn, the tip of a cap, is sewn round by what is no band while that still lies open.
            let is_folded = |(last, _): &(JoinedPly, JoinedPly)| {
                self.surface.face(self.surface.face_of(last.stretch)).flap
            };
            let folded: Vec<Meeting> = plies
                .iter()
                .filter_map(ends)
                .filter(is_folded)
                .map(|(last, start)| meeting(&last, &start))
                .filter(|ring| self.can_meet(ring))
                .collect();
            if !folded.is_empty() {
                for (last, start) in plies.iter().filter_map(ends) {
                    self.add(rules, waits, meeting(&last, &start), &folded, Why::GoesRound, None);
                }
                continue;
            }
            let all: Vec<Option<(Meeting, Ring)>> = plies
                .iter()
                .map(|ply| ends(ply).map(|(last, start)| meeting(&last, &start)))
                .map(|ring| ring.and_then(|ring| Some((ring, self.ring(&ring)?))))
                .collect();
            for (own, ring) in all.iter().enumerate() {
                let Some((ring, Ring::Sewn)) = ring else { continue };
                let is_band = self.is_band(&plies[own].1);
                let others = all.iter().enumerate().filter(|(other, _)| *other != own);
                let given: Vec<Meeting> = others
                    .filter_map(|(_, other)| *other)
                    .filter_map(|(other, how)| (is_band || how == Ring::Sewn).then_some(other))
                    .collect();
                if given.is_empty() {
                    continue;
                }
                // It is a ring once it is joined everywhere: an armhole for a sleeve at the side and at the shoulder. What faces it
                // may be joined at its last end after.
                let is_tube = all.iter().zip(plies.iter()).enumerate().any(|(other, (ring, (_, ply)))| {
                    let is_one = ply
                        .windows(2)
                        .all(|pair| matches!(pair, [one, next] if self.part(one) == self.part(next)));
                    other != own && is_one && matches!(ring, Some((_, Ring::Sewn)))
                });
                let joints = plies[own].1.windows(2).filter(|_| is_tube).filter_map(|pair| match pair {
                    [one, next] if self.part(one) != self.part(next) => Some(meeting(one, next)),
                    _ => None,
                });
                let joints = joints.filter(|joint| self.ring(joint) == Some(Ring::Sewn));
                for met in joints.chain([*ring]) {
                    let rule = Rule::new(waits, Needs::Met(met), Why::RingRoundRing);
                    rules.push(Rule { given: given.clone(), ..rule });
                }
            }
        }
    }

    /// What a seam runs over from piece to piece is joined before where another of its plies is whole there.
    pub(super) fn under_whole(&self, all: &Plies, rules: &mut Vec<Rule>) {
        for (&(sewn, _), plies) in all {
            let Some(at) = self.seams.get(sewn).copied().flatten() else { continue };
            for (own, (_, ply)) in plies.iter().enumerate() {
                for (nth, pair) in ply.windows(2).enumerate() {
                    let [one, next] = pair else { continue };
                    let mut others = plies.iter().enumerate().filter(|(other, _)| *other != own);
                    let meeting = Meeting {
                        start: self.corner(next.stretch, next.against),
                        goal: self.corner(one.stretch, !one.against),
                        own: sewn,
                    };
                    if self.part(one) != self.part(next)
                        && others.any(|(_, (_, other))| self.is_whole(other, nth))
                        && self.can_meet_within(&meeting, at)
                    {
                        self.add(rules, Doing::Job(Job::Seam(at)), meeting, &[], Why::Crosses, None);
                    }
                }
            }
        }
    }

    /// The stitchings that go round a ring which is drawn, the base of a bag, with what seams close to one: these may be sewn before
    /// or after, and are sewn before where nobody says so.
    pub(super) fn round_drawn(&self) -> Vec<usize> {
        let mut found = Vec::new();
        for (&(sewn, _), plies) in &self.plies() {
            let Some(at) = self.seams.get(sewn).copied().flatten() else { continue };
            let ring = |(_, ply): &(PlyAt, SewnPly)| {
                let (last, first) = (ply.last()?, ply.first()?);
                let start = self.corner(first.stretch, first.against);
                let goal = self.corner(last.stretch, !last.against);
                self.ring(&Meeting { start, goal, own: sewn })
            };
            let has = |wanted: Ring| plies.iter().any(|ply| ring(ply) == Some(wanted));
            if has(Ring::Drawn) && has(Ring::Sewn) {
                found.push(at);
            }
        }
        found
    }

    /// Seams that are sewn on the left and on the right and run on from the one into the other: over plies that
    /// are joined there already, and over others that are joined only later.
    pub(super) fn middles(&self, all: &Plies, rules: &mut Vec<Rule>) {
        for (&(sewn, sewing), left) in all.iter().filter(|((_, sewing), _)| sewing % 2 == 0) {
            let Some(right) = all.get(&(sewn, sewing + 1)) else { continue };
            let Some(at) = self.seams.get(sewn).copied().flatten() else { continue };
            for at_end in [false, true] {
                let corner = |plies: &SewnPly| {
                    let ply = if at_end { plies.last() } else { plies.first() }?;
                    Some(self.corner(ply.stretch, at_end != ply.against))
                };
                let both = left.iter().filter_map(|(ply, plies)| {
                    let (_, others) = right.iter().find(|(other, _)| other == ply)?;
                    Some(Meeting { start: corner(plies)?, goal: corner(others)?, own: sewn })
                });
                // What only meets round another layer is not run over: two straps side by side at the fold of a lined front.
                let both: Vec<Meeting> = both.filter(|meeting| self.can_meet_within(meeting, at)).collect();
                let group = Some(rules.len());
                for &meeting in &both {
                    // A ply waits for the others that are whole by then.
                    let others: Vec<Meeting> = both.iter().copied().filter(|one| *one != meeting).collect();
                    if !others.is_empty() {
                        self.add(rules, Doing::Job(Job::Seam(at)), meeting, &others, Why::Crosses, group);
                    }
                }
            }
        }
    }

    /// Adds that a seam waits for a meeting, unless nothing has to be sewn for that or nothing brings it about.
    fn add(
        &self,
        rules: &mut Vec<Rule>,
        waits: Doing,
        meeting: Meeting,
        given: &[Meeting],
        why: Why,
        one_of: Option<usize>,
    ) {
        if self.ring(&meeting) == Some(Ring::Sewn) && !self.is_closed(&meeting) {
            let rule = Rule::new(waits, Needs::Met(meeting), why);
            rules.push(Rule { given: given.to_vec(), one_of, ..rule });
        }
    }

    /// Whether seams bring a meeting about, or it is there as it is drawn; none where neither is so.
    fn ring(&self, meeting: &Meeting) -> Option<Ring> {
        self.meet(meeting, &|_| Some(())).map(|last| if last.is_some() { Ring::Sewn } else { Ring::Drawn })
    }

    /// Whether a closure lies between two corners: sewn in or fastened, it brings them together whatever else does.
    fn is_closed(&self, meeting: &Meeting) -> bool {
        self.surface.closures.iter().any(|line| {
            let corner = |side: &[(StretchId, bool)], at_end: bool| {
                let &(stretch, against) = if at_end { side.last()? } else { side.first()? };
                Some(self.corner(stretch, at_end != against))
            };
            [false, true].into_iter().any(|at_end| {
                let [one, other] = line.sides.each_ref().map(|side| corner(side, at_end));
                let both = [Some(meeting.start), Some(meeting.goal)];
                both == [one, other] || both == [other, one]
            })
        })
    }

    fn can_meet(&self, meeting: &Meeting) -> bool {
        self.ring(meeting).is_some()
    }

    /// The same by seams that lie in no other layers than that one.
    fn can_meet_within(&self, meeting: &Meeting, at: usize) -> bool {
        let layers = |at: usize| -> IdIndexSet<LayerId> {
            let places = self.work.stitchings.get(at).into_iter().flat_map(|one| one.places());
            places.map(|place| self.work.layer_of(place)).collect()
        };
        let own = layers(at);
        self.meet(meeting, &|other| layers(other).is_subset(&own).then_some(())).is_some()
    }

    /// Whether the cloth of a ply runs on from one of its stretches to the next.
    fn is_whole(&self, ply: &SewnPly, nth: usize) -> bool {
        ply.get(nth).zip(ply.get(nth + 1)).is_some_and(|(one, next)| {
            self.part(one) == self.part(next)
                && self.corner(one.stretch, !one.against) == self.corner(next.stretch, next.against)
        })
    }

    /// Whether a ply lies along one piece that is longer than it is wide at its ends.
    fn is_band(&self, ply: &[JoinedPly]) -> bool {
        let surface = self.surface;
        let (Some(first), Some(last)) = (ply.first(), ply.last()) else { return false };
        let long: f64 = ply.iter().map(|one| surface.length(one.stretch)).sum();
        let face = surface.face_of(first.stretch);
        let end = |one: &JoinedPly, at_end: bool| {
            let forwards = at_end != one.against;
            let beside = if forwards { surface.next(one.stretch) } else { surface.before(one.stretch) };
            surface.side_of(beside).length
        };
        ply.iter().all(|one| surface.face_of(one.stretch) == face)
            && end(first, false).max(end(last, true)) < BAND * long
    }

    fn part(&self, ply: &JoinedPly) -> PartId {
        self.surface.face(self.surface.face_of(ply.stretch)).part
    }

    /// The plies of every sewing of every seam, stretch by stretch.
    pub(super) fn plies(&self) -> Plies {
        let mut all = Plies::default();
        for join in &self.surface.joins {
            let JoinedBy::Seam { sewn, sewing, .. } = join.by else { continue };
            let plies = all.entry((sewn, sewing)).or_default();
            for &ply in join.plies.iter().filter(|ply| ply.at != PlyAt::Caught) {
                match plies.iter_mut().find(|(at, _)| *at == ply.at) {
                    Some((_, own)) => own.push(ply),
                    None => plies.push((ply.at, smallvec![ply])),
                }
            }
        }
        all
    }
}
