//! Placed pieces: which copy lies on which, what of them is stitched down on the face below, and where
//! a seam takes them in.

use super::faces::{Faces, Found, drawn};
use super::model::{FaceId, SideId};
use crate::garment::{Catcher, CutHow, EdgeId, Garment, LayerId, PaperId, PlacementId, SeamId};
use crate::id_hash::IdMap;
use crate::resolve::{DrawnEdgeId, DrawnPiece, PlacedPiece, SizedGarment};
use crate::sewing::model::{PartId, SewnPart, TakenBy};
use crate::sewing::stitching::Finder;
use crate::shape::fold;
use crate::shape::path::Path;
use crate::syntax::tree::Hand;

/// A placed copy.
#[derive(Clone, Debug)]
pub(super) struct Lying {
    pub(super) placement: PlacementId,
    pub(super) placed: FaceId,
    pub(super) host: FaceId,
    /// Sides that are stitched down on the face below.
    pub(super) stitched: Vec<SideId>,
    /// Sides that a seam of the host takes in.
    pub(super) caught: Vec<CaughtSide>,
    /// No side of it is free.
    pub(super) shut: bool,
}

/// A side that is caught in a seam.
#[derive(Clone, Copy, Debug)]
pub(super) struct CaughtSide {
    pub(super) seam: SeamId,
    pub(super) side: SideId,
    /// The side of the host that it lies on, and from where to where along that one's ring.
    pub(super) on: SideId,
    pub(super) from: f64,
    pub(super) to: f64,
    /// From where to where that is along its own ring.
    pub(super) own: (f64, f64),
    /// Its ring goes the other way there.
    pub(super) against: bool,
}

/// How far an edge that is caught may lie from what catches it, in millimetres, before it is taken to
/// lie elsewhere; `place/not-caught` reports what is farther than the tolerance.
const NEAR: f64 = 20.0;
/// A corner of the host nearer to an end of a caught edge than this is that end, in millimetres.
const CORNER: f64 = 0.5;

/// What is placed on what, copy by copy. None where it is not known how.
pub(super) fn lying(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    parts: &[SewnPart],
    faces: &Faces,
) -> Option<Vec<Lying>> {
    // Of a part whose left and right are told apart the left one.
    let by_paper: IdMap<(LayerId, PaperId), PartId> = PartId::enumerate(parts)
        .filter(|(_, part)| !part.fused && part.hand != Some(Hand::Right))
        .map(|(id, part)| ((part.part.layer, part.part.paper), id))
        .collect();
    let mut all = Vec::new();
    for (id, placement) in PlacementId::enumerate(&garment.placements) {
        if placement.poisoned {
            return None;
        }
        let placed = sized.placed(id)?;
        for layer in finder.layers.meant(placement.layer, placement.piece) {
            let own = garment.paper_of(Some(layer), placement.piece)?;
            let &own = by_paper.get(&(layer, own))?;
            let has = |layer| by_paper.contains_key(&(layer, placed.on));
            let host = by_paper.get(&(finder.layers.of_host(placement, layer, has)?, placed.on))?;
            let laying = Laying { garment, sized, parts, faces, placement: id, placed };
            laying.copies(own, *host, placement.hand, &mut all)?;
        }
    }
    Some(all)
}

/// One placement in one layer.
struct Laying<'a> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    parts: &'a [SewnPart],
    faces: &'a Faces,
    placement: PlacementId,
    placed: &'a PlacedPiece,
}

/// One of the times that the edges of a part are there.
#[derive(Clone, Copy, Debug)]
struct Slot {
    part: PartId,
    time: u32,
    /// The side of the body; none of what is cut alike.
    hand: Option<Hand>,
}

impl Laying<'_> {
    fn copies(&self, own: PartId, host: PartId, hand: Option<Hand>, all: &mut Vec<Lying>) -> Option<()> {
        let is_half = |part| Some(matches!(self.faces.copies(part)?.cut, CutHow::OnFold(_)));
        let (own_half, host_half) = (is_half(own)?, is_half(host)?);
        let (own, host) = (self.slots(own)?, self.slots(host)?);
        for (own, host) in pairs((own, own_half), (host, host_half), hand) {
            let Some((&first, &on)) = own.first().zip(host.first()) else { continue };
            let mut lying = Lying {
                placement: self.placement,
                placed: self.faces.copies(first.part)?.face(first.time),
                host: self.faces.copies(on.part)?.face(on.time),
                stitched: Vec::new(),
                caught: Vec::new(),
                shut: true,
            };
            for (place, &slot) in own.iter().enumerate() {
                // Both halves of what is cut on the fold may lie on one whole piece.
                let (on, beyond_fold) = match host.get(place) {
                    Some(&on) => (on, false),
                    None => (on, true),
                };
                self.edges(slot, on, beyond_fold, &mut lying)?;
            }
            all.push(lying);
        }
        Some(())
    }

    /// Every time that the edges of a part are there, left and right in turn where there are both; of a part
    /// whose left and right are told apart, of both.
    fn slots(&self, part: PartId) -> Option<Vec<Slot>> {
        let copies = self.faces.copies(part)?;
        let slot = |part, time, hand| Slot { part, time, hand };
        Some(if copies.hand.is_some() {
            let right = PartId::from_index(part.index() + 1);
            let both = |time| [slot(part, time, Some(Hand::Left)), slot(right, time, Some(Hand::Right))];
            (0..copies.times).flat_map(both).collect()
        } else {
            let hand = |time| Hand::BOTH.get(time as usize % 2).copied().filter(|_| copies.handed());
            (0..copies.times).map(|time| slot(part, time, hand(time))).collect()
        })
    }

    /// The other half of what is cut on the fold.
    fn beyond_fold(&self, slot: Slot) -> Option<Slot> {
        let copies = self.faces.copies(slot.part)?;
        Some(match copies.hand {
            Some(Hand::Left) => Slot { part: PartId::from_index(slot.part.index() + 1), ..slot },
            Some(Hand::Right) => Slot { part: PartId::from_index(slot.part.index() - 1), ..slot },
            None => Slot { time: slot.time ^ 1, ..slot },
        })
    }

    /// The edges of what is placed, at one of the times that they are there, over the host's; `beyond_fold`
    /// where they are drawn on the other half.
    fn edges(&self, own: Slot, on: Slot, beyond_fold: bool, lying: &mut Lying) -> Option<()> {
        let part = self.parts.get(own.part.index())?;
        for (edge, fate) in DrawnEdgeId::enumerate(&part.edges) {
            let Some(found) = self.faces.side(own.part, edge, own.time) else { continue };
            let mut takers = fate.takers.iter().map(|taker| taker.what);
            let held = takers.find_map(|what| match what {
                TakenBy::Topstitched(at) if at == self.placement => Some(None),
                TakenBy::Caught(at, by) if at == self.placement => Some(Some(by)),
                _ => None,
            });
            match held {
                None => lying.shut = false,
                Some(Some(Catcher::Seam(seam))) => {
                    let path = self.path(own.part, edge, beyond_fold)?;
                    lying.caught.extend(self.caught(found, &path, on, seam)?);
                }
                Some(_) => lying.stitched.push(found.side),
            }
        }
        Some(())
    }

    /// Where an edge of what is placed lies on the host.
    fn path(&self, own: PartId, edge: DrawnEdgeId, beyond_fold: bool) -> Option<Path> {
        let own = drawn(self.sized, self.parts.get(own.index())?)?;
        let lies = |edge| self.placed.edges.iter().find(|(placed, _)| *placed == edge).map(|(_, path)| path);
        let path = lies(own.edge_at(edge)?.edge)?;
        match own.cut {
            CutHow::OnFold(_) if beyond_fold => {
                let fold = DrawnEdgeId::enumerate(&own.edges)
                    .find(|(_, edge)| is_fold(self.garment, own, edge.edge));
                Some(path.transform(fold::mirror_across(lies(fold?.1.edge)?).ok()?))
            }
            _ => Some(path.clone()),
        }
    }

    /// The edges of the host that a seam takes, where they lie; of a half on the fold those of both halves.
    fn taken(&self, on: Slot, seam: SeamId) -> Option<Vec<(Found, Path)>> {
        let drawn = drawn(self.sized, self.parts.get(on.part.index())?)?;
        let fold = drawn.edges.iter().find(|edge| is_fold(self.garment, drawn, edge.edge));
        let mirror = fold.and_then(|fold| fold::mirror_across(&fold.path).ok());
        let other = mirror.and_then(|mirror| Some((self.beyond_fold(on)?, Some(mirror))));
        let mut taken = Vec::new();
        for (slot, mirror) in std::iter::once((on, None)).chain(other) {
            for (at, fate) in DrawnEdgeId::enumerate(&self.parts.get(slot.part.index())?.edges) {
                let by_seam = |what| matches!(what, TakenBy::Seam(id, _) if id == seam);
                if !fate.takers.iter().any(|taker| by_seam(taker.what)) {
                    continue;
                }
                let path = &drawn.edge_at(at)?.path;
                let path = mirror.map_or_else(|| path.clone(), |mirror| path.transform(mirror));
                taken.extend(self.faces.side(slot.part, at, slot.time).map(|found| (found, path)));
            }
        }
        Some(taken)
    }

    /// Where the seam runs under a caught edge: under one edge of the host, or under several in a row. None
    /// where it does not.
    fn caught(&self, own: Found, path: &Path, on: Slot, seam: SeamId) -> Option<Vec<CaughtSide>> {
        let taken = self.taken(on, seam)?;
        let (long, own_long) = (path.length(), self.length(own.side)?);
        let mut cuts = vec![0.0, long];
        for corner in taken.iter().flat_map(|(_, under)| [under.start(), under.end()]) {
            let near = path.nearest(corner);
            if near.distance <= NEAR && near.at > CORNER && near.at < long - CORNER {
                cuts.push(near.at);
            }
        }
        cuts.sort_by(f64::total_cmp);
        cuts.dedup_by(|later, earlier| *later - *earlier <= CORNER);
        // From where to where along the edge, and which of the host's it lies on there.
        let mut rows: Vec<(f64, f64, usize)> = Vec::new();
        for cut in cuts.windows(2) {
            let &[from, to] = cut else { continue };
            let places = [from, 0.5 * (from + to), to].map(|at| path.point_at_length(at));
            let off =
                |under: &Path| places.iter().map(|place| under.nearest(*place).distance).fold(0.0, f64::max);
            let offs = taken.iter().enumerate().map(|(at, (_, under))| (at, off(under)));
            let (at, off) = offs.min_by(|(_, one), (_, other)| one.total_cmp(other))?;
            if off > NEAR.max(self.garment.tolerance) {
                return None;
            }
            match rows.last_mut() {
                Some((_, end, last)) if *last == at => *end = to,
                _ => rows.push((from, to, at)),
            }
        }
        let scale = if long > 0.0 { own_long / long } else { 1.0 };
        let mut found = Vec::with_capacity(rows.len());
        for (from, to, at) in rows {
            let (under, lies) = taken.get(at)?;
            let (whole, under_long) = (self.length(under.side)?, lies.length());
            let under_scale = if under_long > 0.0 { whole / under_long } else { 1.0 };
            let along = |at: f64| {
                let at = lies.nearest(path.point_at_length(at)).at * under_scale;
                if under.mirrored { whole - at } else { at }
            };
            let (start, end) = (along(from), along(to));
            let (from, to) = (from * scale, to * scale);
            found.push(CaughtSide {
                seam,
                side: own.side,
                on: under.side,
                from: start.min(end),
                to: start.max(end),
                own: if own.mirrored { (own_long - to, own_long - from) } else { (from, to) },
                against: (start > end) != own.mirrored,
            });
        }
        Some(found)
    }

    fn length(&self, side: SideId) -> Option<f64> {
        self.faces.sides.get(side.index()).map(|side| side.length)
    }
}

/// Whether a piece is cut on the fold at an edge.
fn is_fold(garment: &Garment, drawn: &DrawnPiece, edge: EdgeId) -> bool {
    matches!(drawn.cut, CutHow::OnFold(fold) if garment.is_run_of(edge, fold))
}

/// Which times of what is placed lie on which times of the host, copy by copy: halves on halves,
/// left on left, else one after the other; of what lies on one side of the body those of that side.
fn pairs(
    (mut own, own_half): (Vec<Slot>, bool),
    (mut host, host_half): (Vec<Slot>, bool),
    hand: Option<Hand>,
) -> Vec<(Vec<Slot>, Vec<Slot>)> {
    if let Some(hand) = hand {
        let is_there = |slot: &Slot| slot.hand.is_none_or(|own| own == hand);
        host.retain(is_there);
        if !own_half {
            own.retain(is_there);
        }
    }
    let in_twos = |slots: Vec<Slot>, halves: bool| -> Vec<Vec<Slot>> {
        slots.chunks(if halves { 2 } else { 1 }).map(<[Slot]>::to_vec).collect()
    };
    let (own, host) = (in_twos(own, own_half), in_twos(host, own_half && host_half && hand.is_none()));
    own.into_iter().zip(host).collect()
}
