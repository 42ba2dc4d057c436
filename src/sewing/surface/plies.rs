//! Every sewing of every seam: which sides of which faces lie in it, and which way round.

use super::faces::{Faces, Found};
use super::model::{PlyAt, SideId};
use crate::garment::CutHow;
use crate::resolve::DrawnEdgeId;
use crate::sewing::model::{PartId, SewnPart, SewnPly, SewnRun, SewnSeam};
use crate::syntax::tree::Hand;
use std::collections::{BTreeMap, HashMap};

/// A seam, one of the times that it is sewn.
#[derive(Clone, Debug)]
pub(super) struct Sewn {
    pub(super) sewing: u32,
    pub(super) plies: Vec<Ply>,
}

/// One ply of it: sides end to end.
#[derive(Clone, Debug)]
pub(super) struct Ply {
    pub(super) at: PlyAt,
    pub(super) runs: Vec<Run>,
}

/// A side as a seam takes it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Run {
    pub(super) side: SideId,
    /// The ring of its face goes the other way.
    pub(super) against: bool,
    pub(super) length: f64,
}

impl Ply {
    pub(super) fn length(&self) -> f64 {
        self.runs.iter().map(|run| run.length).sum()
    }
}

/// How the copies in seams are told apart.
pub(super) struct Pairing<'a> {
    parts: &'a [SewnPart],
    faces: &'a Faces,
    /// Of parts whose copies make a ring: the edges that meet the next copy's, and those that they
    /// meet.
    rings: BTreeMap<PartId, (Vec<DrawnEdgeId>, Vec<DrawnEdgeId>)>,
}

impl<'a> Pairing<'a> {
    pub(super) fn new(parts: &'a [SewnPart], faces: &'a Faces, seams: &[SewnSeam]) -> Self {
        let mut pairing = Pairing { parts, faces, rings: BTreeMap::new() };
        pairing.find_rings(seams);
        pairing
    }

    /// Copies cut alike of which a seam joins two edges make a ring, each sewn to the next, where a seam
    /// takes all of them end to end, or where there are three or more and no seam takes them one by
    /// one: else each is a tube by itself.
    fn find_rings(&mut self, seams: &[SewnSeam]) {
        let mut to_self: BTreeMap<PartId, (Vec<DrawnEdgeId>, Vec<DrawnEdgeId>)> = BTreeMap::new();
        let (mut in_a_row, mut singly): (Vec<PartId>, Vec<PartId>) = (Vec::new(), Vec::new());
        for sewn in seams {
            let runs = |plies: &[SewnPly]| -> Vec<(PartId, DrawnEdgeId)> {
                plies.iter().flat_map(|ply| &ply.runs).map(|run| (run.part, run.edge)).collect()
            };
            let (first, second) = (runs(&sewn.first.plies), runs(&sewn.second.plies));
            let Some(&(part, _)) = first.first() else { continue };
            let alike = |part: PartId| {
                self.faces.copies(part).is_some_and(|copies| copies.cut == CutHow::Alike && copies.times > 1)
            };
            let is_own = first.iter().chain(&second).all(|(other, _)| *other == part);
            if is_own && alike(part) && sewn.sewings > 1 && first != second {
                let edges =
                    |runs: Vec<(PartId, DrawnEdgeId)>| runs.into_iter().map(|(_, edge)| edge).collect();
                to_self.insert(part, (edges(first), edges(second)));
                continue;
            }
            for part in first.iter().chain(&second).map(|(part, _)| *part).filter(|part| alike(*part)) {
                match sewn.sewings {
                    1 => in_a_row.push(part),
                    _ => singly.push(part),
                }
            }
        }
        to_self.retain(|part, _| {
            let many = self.faces.copies(*part).is_some_and(|copies| copies.times > 2);
            in_a_row.contains(part) || (many && !singly.contains(part))
        });
        self.rings = to_self;
    }

    /// Every sewing of a seam. None where the copies do not come out even.
    pub(super) fn sewings(&self, sewn: &SewnSeam) -> Option<Vec<Sewn>> {
        let sides = [&sewn.first.plies, &sewn.second.plies];
        let edge_to_edge = self.is_edge_to_edge(sewn);
        let mut named: HashMap<(PartId, DrawnEdgeId), Named> = HashMap::new();
        for run in sides.into_iter().flatten().flat_map(|ply| &ply.runs) {
            let known = named.entry((run.part, run.edge)).or_default();
            known.times += 1;
            known.on_left |= run.hand == Some(Hand::Left);
            known.on_right |= run.hand == Some(Hand::Right);
        }
        (0..sewn.sewings.max(1))
            .map(|sewing| {
                let mut seen: HashMap<(PartId, DrawnEdgeId, Option<Hand>), u32> = HashMap::new();
                let mut plies = Vec::new();
                for (second, side) in sides.into_iter().enumerate() {
                    for (at, ply) in side.iter().enumerate() {
                        let at = if second == 1 { PlyAt::Second(at as u32) } else { PlyAt::First(at as u32) };
                        let mut runs = Vec::with_capacity(ply.runs.len());
                        for (place, run) in ply.runs.iter().enumerate() {
                            let named = named.get(&(run.part, run.edge))?;
                            let nth = self.nth(sewn, run, second == 1, named, sewing, &mut seen)?;
                            let found = self.faces.side(run.part, run.edge, nth);
                            // What a flap folds over is left out; a whole ply of it, as flaps are found.
                            let Some(found) = found else { continue };
                            let against = self.against(ply, place, found, edge_to_edge);
                            runs.push(Run { side: found.side, against, length: run.length });
                        }
                        if !runs.is_empty() {
                            plies.push(Ply { at, runs });
                        }
                    }
                }
                Some(Sewn { sewing, plies })
            })
            .collect()
    }

    /// Which time that its edge is there a run means.
    fn nth(
        &self,
        sewn: &SewnSeam,
        run: &SewnRun,
        on_second: bool,
        named: &Named,
        sewing: u32,
        seen: &mut HashMap<(PartId, DrawnEdgeId, Option<Hand>), u32>,
    ) -> Option<u32> {
        let copies = self.faces.copies(run.part)?;
        let both_hands = named.on_left && named.on_right;
        let key = (run.part, run.edge, if both_hands { run.hand } else { None });
        let before = seen.entry(key).or_insert(0);
        let own = *before;
        *before += 1;
        let nth = if copies.handed() && both_hands {
            let of_hand = (named.times / 2) * sewing + own;
            2 * of_hand + u32::from(run.hand == Some(Hand::Right))
        } else {
            named.times * sewing + own
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
        let count = self.parts.get(run.part.index()).map_or(0, |part| part.edges.len()).max(1);
        let on = if run.reversed { count - 1 } else { 1 };
        leaves.contains(&DrawnEdgeId::from_index((run.edge.index() + on) % count))
    }

    /// Whether a ply goes against the ring of a face.
    fn against(&self, ply: &SewnPly, place: usize, found: Found, edge_to_edge: bool) -> bool {
        let Some(run) = ply.runs.get(place) else { return false };
        let as_drawn = run.reversed != found.mirrored;
        // Between a folded edge and its fold: what it runs on into lies at the edge, not at the fold.
        match (found.to_fold, ply.runs.len()) {
            (Some(to_fold), 1) if edge_to_edge => !to_fold,
            (Some(to_fold), 2..) => to_fold != (place > 0),
            _ => as_drawn,
        }
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

/// How often a seam names an edge in one sewing, and for which hands.
#[derive(Clone, Copy, Debug, Default)]
struct Named {
    times: u32,
    on_left: bool,
    on_right: bool,
}
