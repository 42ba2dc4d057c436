//! Every sewing of every seam: which sides of which faces lie in it, and which way round.

use super::faces::{Faces, Found};
use super::fold_ends::Folds;
use super::model::{PlyAt, SideId};
use crate::few::Few;
use crate::garment::CutHow;
use crate::resolve::DrawnEdgeId;
use crate::sewing::model::{PartId, SewnPly, SewnRun, SewnSeam};
use crate::sewing::reach::Reach;
use crate::syntax::tree::Hand;
use std::collections::BTreeMap;
use std::ops::Range;

/// Every seam, as often as it is sewn.
#[derive(Debug, Default)]
pub(super) struct Sewings {
    pub(super) all: Vec<Sewn>,
    plies: Vec<Ply>,
}

/// A seam, one of the times that it is sewn.
#[derive(Clone, Debug)]
pub(super) struct Sewn {
    /// Its place in [`crate::sewing::Sewing::seams`].
    pub(super) seam: usize,
    pub(super) sewing: u32,
    /// Where its plies are among those of all.
    plies: Range<usize>,
}

impl Sewings {
    /// The plies of one of them.
    pub(super) fn plies(&self, sewn: &Sewn) -> &[Ply] {
        self.plies.get(sewn.plies.clone()).unwrap_or_default()
    }

    /// Every side that lies in a seam, as often as it does.
    pub(super) fn sides(&self) -> impl Iterator<Item = SideId> {
        self.plies.iter().flat_map(|ply| &ply.runs).map(|run| run.side)
    }
}

/// One ply of it: sides end to end.
#[derive(Clone, Debug)]
pub(super) struct Ply {
    pub(super) at: PlyAt,
    pub(super) runs: Few<Run>,
}

/// A side as a seam takes it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Run {
    pub(super) side: SideId,
    /// The ring of its face goes the other way.
    pub(super) against: bool,
    pub(super) length: f64,
    /// It lies in another ply.
    pub(super) elsewhere: bool,
}

impl Ply {
    pub(super) fn length(&self) -> f64 {
        self.runs.iter().map(|run| run.length).sum()
    }
}

/// How the copies in seams are told apart.
pub(super) struct Pairing<'a> {
    faces: &'a Faces,
    folds: Folds<'a>,
    /// Of parts whose copies make a ring: the edges that meet the next copy's, and those that they
    /// meet.
    rings: BTreeMap<PartId, (Vec<DrawnEdgeId>, Vec<DrawnEdgeId>)>,
}

impl<'a> Pairing<'a> {
    pub(super) fn new(faces: &'a Faces, folds: Folds<'a>, seams: &[SewnSeam]) -> Self {
        let mut pairing = Pairing { faces, folds, rings: BTreeMap::new() };
        pairing.find_rings(seams);
        pairing
    }

    /// Copies cut alike of which a seam joins two edges make a ring, each sewn to the next, where that is said, where a seam
    /// takes all of them end to end, or where there are three or more and no seam takes them one by
    /// one: else each is a tube by itself.
    fn find_rings(&mut self, seams: &[SewnSeam]) {
        let mut to_self: BTreeMap<PartId, (Vec<DrawnEdgeId>, Vec<DrawnEdgeId>)> = BTreeMap::new();
        let (mut in_a_row, mut singly): (Vec<PartId>, Vec<PartId>) = (Vec::new(), Vec::new());
        let mut said: Vec<PartId> = Vec::new();
        for sewn in seams {
            let [first, second] = [&sewn.first, &sewn.second]
                .map(|side| side.plies.iter().flat_map(|ply| &ply.runs).map(|run| (run.part, run.edge)));
            let Some((part, _)) = first.clone().next() else { continue };
            let mut parts = first.clone().chain(second.clone()).map(|(part, _)| part);
            let alike = |part: PartId| {
                self.faces.copies(part).is_some_and(|copies| copies.cut == CutHow::Alike && copies.times > 1)
            };
            let is_own = parts.clone().all(|other| other == part);
            if is_own && alike(part) && sewn.sewings > 1 && !first.clone().eq(second.clone()) {
                if sewn.each_to_the_next {
                    said.push(part);
                } else if self.folds.closes_by_itself(sewn) {
                    singly.push(part);
                    continue;
                }
                to_self.insert(
                    part,
                    (first.map(|(_, edge)| edge).collect(), second.map(|(_, edge)| edge).collect()),
                );
                continue;
            }
            let in_plies = |part: PartId| {
                let takes = |ply: &&SewnPly| ply.runs.iter().any(|run| run.part == part && !run.elsewhere);
                [&sewn.first, &sewn.second].iter().any(|side| side.plies.iter().filter(takes).count() > 1)
            };
            while let Some(part) = parts.find(|part| alike(*part)) {
                match sewn.sewings {
                    1 if !in_plies(part) => in_a_row.push(part),
                    _ => singly.push(part),
                }
            }
        }
        to_self.retain(|part, _| {
            let many = self.faces.copies(*part).is_some_and(|copies| copies.times > 2);
            said.contains(part) || in_a_row.contains(part) || (many && !singly.contains(part))
        });
        self.rings = to_self;
    }

    /// Every sewing of every seam. None where the copies do not come out even.
    pub(super) fn all(&self, seams: &[SewnSeam]) -> Option<Sewings> {
        let mut found = Sewings::default();
        let mut counted = Counted::default();
        for at in 0..seams.len() {
            self.sewings(at, seams, &mut counted, &mut found)?;
        }
        Some(found)
    }

    fn sewings(
        &self,
        at: usize,
        seams: &[SewnSeam],
        counted: &mut Counted,
        found: &mut Sewings,
    ) -> Option<()> {
        let sewn = seams.get(at)?;
        let sides = [(&sewn.first.plies, false), (&sewn.second.plies, true)];
        let edge_to_edge = self.is_edge_to_edge(sewn);
        counted.named.clear();
        for (place, ply) in sides.iter().flat_map(|(plies, _)| plies.iter()).enumerate() {
            for run in ply.runs.iter().filter(|run| !run.elsewhere) {
                let named = entry(&mut counted.named, (run.part, run.edge));
                named.times += 1;
                named.plies += u32::from(named.last_ply.replace(place) != Some(place));
                named.on_left |= run.hand == Some(Hand::Left);
                named.on_right |= run.hand == Some(Hand::Right);
            }
        }
        for sewing in 0..sewn.sewings.max(1) {
            counted.seen.clear();
            let first_ply = found.plies.len();
            for (side, is_second) in sides {
                let before = side.iter().any(is_partial).then(|| counted.seen.clone());
                for (place, ply) in side.iter().enumerate() {
                    // What lies elsewhere is counted as it is there.
                    let after = before
                        .as_ref()
                        .filter(|_| is_partial(ply))
                        .map(|before| std::mem::replace(&mut counted.seen, before.clone()));
                    if let Some(after) = &after {
                        counted.carry(ply, after);
                    }
                    let at = if is_second { PlyAt::Second(place as u32) } else { PlyAt::First(place as u32) };
                    let mut runs = Few::new();
                    let folds_meet = self.folds_meet(ply, seams);
                    for (place, run) in ply.runs.iter().enumerate() {
                        let nth = self.nth(sewn, run, is_second, sewing, counted)?;
                        let found = self.faces.side(run.part, run.edge, nth);
                        // What a flap folds over is left out; a whole ply of it, as flaps are found.
                        let Some(found) = found else { continue };
                        let from_edge = || self.folds.lies_from_edge(sewn, at, seams);
                        let against = self.against(ply, place, found, [edge_to_edge, folds_meet], &from_edge);
                        let &SewnRun { length, elsewhere, .. } = run;
                        runs.push(Run { side: found.side, against, length, elsewhere });
                    }
                    if !runs.is_empty() {
                        found.plies.push(Ply { at, runs });
                    }
                    if let Some(after) = after {
                        let own = std::mem::replace(&mut counted.seen, after);
                        counted.carry(ply, &own);
                    }
                }
            }
            found.all.push(Sewn { seam: at, sewing, plies: first_ply..found.plies.len() });
        }
        Some(())
    }

    /// Which time that its edge is there a run means.
    fn nth(
        &self,
        sewn: &SewnSeam,
        run: &SewnRun,
        on_second: bool,
        sewing: u32,
        counted: &mut Counted,
    ) -> Option<u32> {
        let copies = self.faces.copies(run.part)?;
        let named = *entry(&mut counted.named, (run.part, run.edge));
        let both_hands = named.on_left && named.on_right;
        let in_row = named.times / named.plies.max(1);
        let is_right = run.hand == Some(Hand::Right);
        let before = entry(&mut counted.seen, (run.part, run.edge, both_hands && is_right));
        // What lies on one another are copies that follow one another, also where each ply takes several end to end.
        let own = match named.plies > 1 && in_row > 1 && !both_hands {
            true => (*before % in_row) * named.plies + *before / in_row,
            false => *before,
        };
        *before += 1;
        let nth = if copies.handed() && both_hands {
            let of_hand = (named.times / 2) * sewing + own;
            2 * of_hand + u32::from(is_right)
        } else {
            named.times * sewing + own
        };
        let nth = match sewn.reach {
            Reach::On { .. } => self.faces.nth_on(run.part, own + named.times * sewing, sewn.reach),
            Reach::Both | Reach::Across | Reach::Round => nth,
        };
        let Some((_, meets)) = self.rings.get(&run.part) else { return (nth < copies.times).then_some(nth) };
        if sewn.sewings > 1 {
            // Each is sewn to the next, the last to the first.
            let is_next = on_second && meets.contains(&run.edge);
            return Some((nth + u32::from(is_next)) % copies.times.max(1));
        }
        let goes_on = self.goes_on(run);
        Some(if goes_on { nth } else { (copies.times - nth % copies.times.max(1)) % copies.times.max(1) })
    }

    /// Whether a row of copies in a ring goes on from the end of this run to the next copy, not to the
    /// one before.
    fn goes_on(&self, run: &SewnRun) -> bool {
        let Some((leaves, _)) = self.rings.get(&run.part) else { return true };
        let count = self.faces.copies(run.part).map_or(1, |copies| copies.outline.max(1) as usize);
        let on = if run.reversed { count - 1 } else { 1 };
        leaves.contains(&DrawnEdgeId::from_index((run.edge.index() + on) % count))
    }

    /// Whether a ply goes against the ring of a face.
    fn against(
        &self,
        ply: &SewnPly,
        place: usize,
        found: Found,
        [edge_to_edge, folds_meet]: [bool; 2],
        from_edge: &dyn Fn() -> Option<bool>,
    ) -> bool {
        let Some(run) = ply.runs.get(place) else { return false };
        let as_drawn = run.reversed != found.mirrored;
        // Between a folded edge and its fold: what it runs on into lies at the edge, not at the fold.
        match (found.to_fold, ply.runs.len()) {
            (Some(to_fold), 1) if edge_to_edge => !to_fold,
            (Some(to_fold), 2..) => (to_fold != (place > 0)) != folds_meet,
            // By itself on a plain edge: both its corners lie at the edge, and only what meets them says on which
            // end that comes.
            (Some(to_fold), _) => from_edge().map_or(as_drawn, |from_edge| to_fold != from_edge),
            (None, _) => as_drawn,
        }
    }

    /// Whether in a ply of two folded pieces, the jets of a pocket, the fold of the one comes on that of the
    /// other: they do not run on into one another at the edge, as no seam sews the one's to the other's.
    fn folds_meet(&self, ply: &SewnPly, seams: &[SewnSeam]) -> bool {
        let [one, other] = ply.runs.as_slice() else { return false };
        let is_end = |run: &SewnRun| {
            self.faces.side(run.part, run.edge, 0).is_some_and(|found| found.to_fold.is_some())
        };
        if !is_end(one) || !is_end(other) {
            return false;
        }
        let lies_in = |plies: &[SewnPly], part: PartId| {
            plies.iter().flat_map(|ply| &ply.runs).any(|run| run.part == part && !is_end(run))
        };
        !seams.iter().any(|sewn| {
            let (first, second) = (&sewn.first.plies, &sewn.second.plies);
            (lies_in(first, one.part) && lies_in(second, other.part))
                || (lies_in(second, one.part) && lies_in(first, other.part))
        })
    }

    /// Whether a seam only joins what lies between folds: edge comes on edge then and fold on fold,
    /// whichever of the folded edges its ends were told by.
    fn is_edge_to_edge(&self, sewn: &SewnSeam) -> bool {
        let mut plies = sewn.first.plies.iter().chain(&sewn.second.plies);
        plies.all(|ply| match ply.runs.as_slice() {
            [run] => self.faces.side(run.part, run.edge, 0).is_some_and(|found| found.to_fold.is_some()),
            _ => false,
        })
    }
}

/// Whether a ply is no longer than a part of its side.
fn is_partial(ply: &SewnPly) -> bool {
    ply.runs.iter().any(|run| run.elsewhere)
}

/// What is counted of one seam's edges, in order of the edges.
#[derive(Default)]
struct Counted {
    named: Vec<((PartId, DrawnEdgeId), Named)>,
    /// How often each has come in one sewing; of those named for both hands, the right ones apart.
    seen: Vec<((PartId, DrawnEdgeId, bool), u32)>,
}

impl Counted {
    /// Takes over how often a ply's own edges have come: of several copies that are caught each is another one.
    fn carry(&mut self, ply: &SewnPly, from: &[((PartId, DrawnEdgeId, bool), u32)]) {
        for run in ply.runs.iter().filter(|run| !run.elsewhere) {
            for is_right in [false, true] {
                let key = (run.part, run.edge, is_right);
                let known = from.binary_search_by(|(own, _)| own.cmp(&key)).ok();
                if let Some((_, times)) = known.and_then(|at| from.get(at)) {
                    *entry(&mut self.seen, key) = *times;
                }
            }
        }
    }
}

/// What is kept in order under a key, which is new if it was not there.
fn entry<Key: Ord, Value: Default>(all: &mut Vec<(Key, Value)>, key: Key) -> &mut Value {
    let at = all.binary_search_by(|(own, _)| own.cmp(&key)).unwrap_or_else(|at| {
        all.insert(at, (key, Value::default()));
        at
    });
    &mut all[at].1
}

/// How often a seam names an edge in one sewing, and for which hands.
#[derive(Clone, Copy, Debug, Default)]
struct Named {
    times: u32,
    /// In how many plies, and in which as the last.
    plies: u32,
    last_ply: Option<usize>,
    on_left: bool,
    on_right: bool,
}
