//! The faces of a surface: every copy of every sewn part, halves on the fold opened out, and pieces
//! that are folded over a seam taken as the one ply that they are.

use super::model::{Face, FaceId, Side, SideId};
use crate::garment::{CutHow, FoldOver, Garment, SeamId};
use crate::once_each::once_each;
use crate::resolve::{DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::sewing::copies::times;
use crate::sewing::lengths::Lengths;
use crate::sewing::model::{PartId, SewnPart, SewnSeam, TakenBy};
use crate::sewing::reach::Reach;
use crate::sewing::seam_kinds::BY_HAND;
use crate::syntax::tree::Hand;
use std::collections::BTreeMap;

/// The faces of one part, which are all alike.
#[derive(Clone, Copy, Debug)]
pub(super) struct Copies {
    pub(super) cut: CutHow,
    /// The side of the body that the part is, where left and right are told apart.
    pub(super) hand: Option<Hand>,
    /// How often an edge of it is there.
    pub(super) times: u32,
    /// The first of its faces.
    first: u32,
    /// The first side of its first face, and how many sides each has.
    first_side: u32,
    sides: u32,
    /// Where in [`Faces::rings`] the place in the ring of its first edge is.
    ring: u32,
    /// How many edges it has.
    edges: u32,
    /// How many of them are its outline.
    pub(super) outline: u32,
}

/// Where in the ring of its part's faces an edge is.
#[derive(Clone, Copy, Debug)]
struct InRing {
    at: u32,
    /// Between the folded edge and the fold of a flap: whether the ring runs along it to the fold.
    to_fold: Option<bool>,
}

/// One side of a part's faces.
#[derive(Clone, Copy, Debug)]
struct Outline {
    edge: DrawnEdgeId,
    fold: bool,
    mirrored: bool,
    on_itself: bool,
    /// Which slit inside it is a side of, from 1.
    hole: u16,
    length: f64,
    /// Between the folded edge and the fold of a flap: whether the ring runs along it to the fold.
    to_fold: Option<bool>,
}

/// An edge of a part where it is on one of its faces.
#[derive(Clone, Copy, Debug)]
pub(super) struct Found {
    pub(super) side: SideId,
    pub(super) mirrored: bool,
    /// Of a side between the folded edge and the fold of a flap: the ring runs along it to the fold.
    pub(super) to_fold: Option<bool>,
}

/// All faces and their sides, and where each part's are; fused parts have none.
#[derive(Default)]
pub(super) struct Faces {
    pub(super) faces: Vec<Face>,
    pub(super) sides: Vec<Side>,
    of_part: Vec<Option<Copies>>,
    /// The places of each part's edges: on the drawn half one after the other, then on the other.
    rings: Vec<Option<InRing>>,
}

impl Copies {
    /// The face and the half of the `nth` time that an edge is there, as seams count them: of pairs and
    /// halves left and right in turn.
    fn nth(&self, nth: u32) -> (u32, bool) {
        match (self.cut, self.hand) {
            (CutHow::OnFold(_), Some(hand)) => (nth, hand == Hand::Right),
            (CutHow::OnFold(_), None) => (nth / 2, nth % 2 == 1),
            (CutHow::Alike | CutHow::Mirrored, _) => (nth, false),
        }
    }

    /// Whether there is a left and a right one of each edge, as seams count them.
    pub(super) fn handed(&self) -> bool {
        self.cut != CutHow::Alike && self.hand.is_none()
    }

    /// The face of the `nth` time that its edges are there.
    pub(super) fn face(&self, nth: u32) -> FaceId {
        FaceId::from_index((self.first + self.nth(nth).0) as usize)
    }
}

impl Faces {
    /// The side that an edge of a part is, the `nth` time that it is there. None also of an edge that
    /// is left out, because a flap folds it onto another.
    pub(super) fn side(&self, part: PartId, edge: DrawnEdgeId, nth: u32) -> Option<Found> {
        let copies = self.copies(part)?;
        if nth >= copies.times || edge.index() >= copies.edges as usize {
            return None;
        }
        let (face, mirrored) = copies.nth(nth);
        let half = if mirrored { copies.edges } else { 0 };
        let InRing { at, to_fold } = (*self.rings.get((copies.ring + half) as usize + edge.index())?)?;
        let side = copies.first_side + face * copies.sides + at;
        Some(Found { side: SideId::from_index(side as usize), mirrored, to_fold })
    }

    /// The `nth` time that an edge of a part is there for a seam or closure, as all times of it are counted.
    pub(super) fn nth_on(&self, part: PartId, nth: u32, reach: Reach) -> u32 {
        let (Reach::On { hand, of_two }, Some(copies)) = (reach, self.copies(part)) else { return nth };
        let is_right = u32::from(hand == Hand::Right);
        if copies.handed() {
            2 * nth + is_right
        } else if of_two && copies.hand.is_none() {
            nth + is_right * (copies.times / 2)
        } else {
            nth
        }
    }

    /// The faces of a part.
    pub(super) fn copies(&self, part: PartId) -> Option<&Copies> {
        self.of_part.get(part.index())?.as_ref()
    }
}

/// All faces of a garment; none where a length or the place of a fold is unknown.
pub(super) fn faces(
    garment: &Garment,
    sized: &SizedGarment,
    parts: &[SewnPart],
    seams: &[SewnSeam],
    lengths: &mut Lengths,
) -> Option<Faces> {
    let flaps = flaps(garment, sized, parts, seams);
    let mut all = Faces::default();
    let count = |sewn: &SewnPart| if sewn.fused { 0 } else { drawn(sized, sewn).map_or(0, times) as usize };
    all.faces.reserve(parts.iter().map(count).sum());
    all.sides.reserve(parts.iter().map(|sewn| count(sewn) * sewn.edges.len()).sum());
    all.rings.reserve(parts.iter().map(|sewn| 2 * sewn.edges.len()).sum());
    all.of_part.reserve(parts.len());
    let mut sides: Vec<Outline> = Vec::new();
    let no_side = pairs_of_no_side(sized, parts, seams);
    for (id, sewn) in PartId::enumerate(parts) {
        if sewn.fused {
            all.of_part.push(None);
            continue;
        }
        let drawn = drawn(sized, sewn)?;
        let is_half = matches!(drawn.cut, CutHow::OnFold(_));
        // A left and a right piece are cut alike, each by itself.
        let told_apart = sewn.hand.filter(|_| drawn.cut != CutHow::Alike);
        if let (true, Some(Hand::Right), Some(Some(left))) = (is_half, sewn.hand, all.of_part.last()) {
            let right = Copies { hand: sewn.hand, ..*left };
            all.of_part.push(Some(right));
            continue;
        }
        outline(garment, drawn, flaps.get(&id), &mut |edge| lengths.of(id, edge), &mut sides)?;
        let flap = sides.iter().any(|side| side.fold);
        let (first, first_side) = (all.faces.len() as u32, all.sides.len() as u32);
        let count = match drawn.cut {
            CutHow::OnFold(_) | CutHow::Alike => drawn.count,
            CutHow::Mirrored if sewn.hand.is_some() => drawn.count / 2,
            CutHow::Mirrored => drawn.count / 2 * 2,
        };
        // The right one of two comes straight behind the left one.
        let before =
            id.index().checked_sub(1).filter(|_| told_apart == Some(Hand::Right)).map(PartId::from_index);
        let twin = before.filter(|left| parts.get(left.index()).is_some_and(|own| own.part == sewn.part));
        let pair = twin.unwrap_or(id);
        let beyond = if is_half && sewn.hand.is_some() { PartId::from_index(id.index() + 1) } else { id };
        for copy in 0..count {
            let face = FaceId::from_index(all.faces.len());
            let (copy, hand) = match drawn.cut {
                CutHow::Mirrored if sewn.hand.is_some() => (copy, sewn.hand),
                CutHow::Mirrored if no_side.contains(&id) => (copy, None),
                CutHow::Mirrored => (copy / 2, Some(if copy % 2 == 0 { Hand::Left } else { Hand::Right })),
                _ => (copy, None),
            };
            let own = (all.sides.len() as u32, sides.len() as u32);
            all.sides.extend(sides.iter().map(|side| Side {
                face,
                part: if side.mirrored { beyond } else { id },
                edge: side.edge,
                fold: side.fold,
                mirrored: side.mirrored,
                on_itself: side.on_itself,
                across: if side.on_itself { across_fold(garment, sewn, side.edge) } else { None },
                hole: side.hole,
                length: side.length,
                stretches: (0, 0),
            }));
            let layer = sewn.part.layer;
            all.faces.push(Face {
                part: id,
                pair,
                copy,
                hand,
                layer,
                flap,
                turned: false,
                sides: own,
                stretches: (0, 0),
            });
        }
        let (ring, edges) = (all.rings.len(), drawn.edges.len());
        let halves = if matches!(drawn.cut, CutHow::OnFold(_)) { 2 } else { 1 };
        all.rings.resize(ring + halves * edges, None);
        for (at, side) in sides.iter().enumerate().filter(|(_, side)| !side.fold) {
            let half = if side.mirrored { edges } else { 0 };
            let place = InRing { at: at as u32, to_fold: side.to_fold };
            all.rings[ring + half + side.edge.index()] = Some(place);
        }
        all.of_part.push(Some(Copies {
            cut: drawn.cut,
            hand: told_apart,
            times: if told_apart.is_some() { times(drawn) / 2 } else { times(drawn) },
            first,
            first_side,
            sides: sides.len() as u32,
            ring: ring as u32,
            edges: edges as u32,
            outline: drawn.outline().len() as u32,
        }));
    }
    Some(all)
}

/// The pairs of which the two copies lie on one another in a seam, an upper and an under one: its runs are of no hand.
fn pairs_of_no_side(sized: &SizedGarment, parts: &[SewnPart], seams: &[SewnSeam]) -> Vec<PartId> {
    let stacks = seams.iter().filter(|sewn| sewn.first.plies.len() + sewn.second.plies.len() > 2);
    let plies = stacks.flat_map(|sewn| sewn.first.plies.iter().chain(&sewn.second.plies));
    let runs = plies.flat_map(|ply| &ply.runs).filter(|run| run.hand.is_none());
    let is_pair = |part: &PartId| {
        let drawn = parts.get(part.index()).and_then(|sewn| drawn(sized, sewn));
        drawn.is_some_and(|drawn| drawn.cut == CutHow::Mirrored)
    };
    let mut found: Vec<PartId> = runs.map(|run| run.part).filter(is_pair).collect();
    once_each(&mut found);
    found
}

pub(super) fn drawn<'a>(sized: &'a SizedGarment, part: &SewnPart) -> Option<&'a DrawnPiece> {
    sized.paper(part.part.paper)
}

/// The ring of a part's faces.
fn outline(
    garment: &Garment,
    drawn: &DrawnPiece,
    flap: Option<&FoldOver>,
    length: &mut dyn FnMut(DrawnEdgeId) -> f64,
    ring: &mut Vec<Outline>,
) -> Option<()> {
    let count = drawn.outline().len();
    let is_fold = |edge: usize| match drawn.cut {
        CutHow::OnFold(fold) => drawn.edges.get(edge).is_some_and(|edge| garment.is_run_of(edge.edge, fold)),
        _ => false,
    };
    let folds = &garment.piece(drawn.piece).folds;
    let mut side = |edge: usize, mirrored: bool| -> Option<Outline> {
        let edge = DrawnEdgeId::from_index(edge);
        let named = drawn.edge_at(edge)?.edge;
        let is_folded =
            |over: &FoldOver| [over.edge, over.onto].iter().any(|of| garment.is_run_of(named, *of));
        let on_itself = folds.iter().any(|over| !is_folded(over));
        let length = Some(length(edge)).filter(|length| length.is_finite())?;
        Some(Outline { edge, fold: false, mirrored, on_itself, hole: 0, length, to_fold: None })
    };
    ring.clear();
    match drawn.cut {
        CutHow::Alike | CutHow::Mirrored => {
            for edge in 0..count {
                ring.push(side(edge, false)?);
            }
        }
        CutHow::OnFold(_) => {
            // From the fold's end, once round the drawn half, and back round the other.
            let last = (0..count).find(|&at| is_fold(at) && !is_fold((at + 1) % count.max(1)))?;
            let open: Vec<usize> =
                (1..=count).map(|step| (last + step) % count).filter(|&at| !is_fold(at)).collect();
            for &edge in &open {
                ring.push(side(edge, false)?);
            }
            for &edge in open.iter().rev() {
                ring.push(side(edge, true)?);
            }
        }
    }
    if let Some(folded) = flap.and_then(|over| folded(garment, drawn, ring, over)) {
        *ring = folded;
    }
    let mut nth = 0;
    for &first in drawn.holes() {
        let own = drawn.ring_of(DrawnEdgeId::from_index(first));
        for mirrored in [false, true] {
            if mirrored && !matches!(drawn.cut, CutHow::OnFold(_)) {
                continue;
            }
            nth += 1;
            let from = ring.len();
            for edge in own.clone() {
                ring.push(Outline { hole: nth, ..side(edge, mirrored)? });
            }
            if mirrored {
                ring.get_mut(from..).unwrap_or_default().reverse();
            }
        }
    }
    Some(())
}

/// The seam that sews the end of a folded piece to itself, unless it is sewn by hand: from outside.
fn across_fold(garment: &Garment, sewn: &SewnPart, edge: DrawnEdgeId) -> Option<SeamId> {
    sewn.fate(edge)?.takers.iter().find_map(|taker| {
        let TakenBy::Seam(id, _) = taker.what else { return None };
        let seam = garment.seam(id);
        let is_by_hand = seam.stitch.as_ref().is_some_and(|stitch| BY_HAND.contains(&stitch.number));
        (seam.across_fold && !is_by_hand).then_some(id)
    })
}

/// The ring of a piece folded with both edges in one seam: from the edge that is brought over to the
/// fold and back. None where the edges folded onto each other do not run in one piece each.
fn folded(garment: &Garment, drawn: &DrawnPiece, ring: &[Outline], over: &FoldOver) -> Option<Vec<Outline>> {
    let count = ring.len();
    let is = |at: usize, of| ring.get(at).is_some_and(|side| is_edge(garment, drawn, side.edge, of));
    let arc = |of| -> Option<(usize, usize)> {
        let first = (0..count).find(|&at| is(at, of) && !is((at + count - 1) % count, of))?;
        let long = (0..count).take_while(|step| is((first + step) % count, of)).count();
        (long == (0..count).filter(|&at| is(at, of)).count()).then_some((first, long))
    };
    let ((kept, kept_long), (gone, gone_long)) = (arc(over.edge)?, arc(over.onto)?);
    let whole = |first: usize, long: usize| -> f64 {
        (0..long).filter_map(|step| ring.get((first + step) % count)).map(|side| side.length).sum()
    };
    let length = 0.5 * (whole(kept, kept_long) + whole(gone, gone_long));
    let mut folded: Vec<Outline> = Vec::with_capacity(count);
    let mut past_fold = false;
    let mut at = kept;
    while folded.len() < count {
        let side = *ring.get(at % count)?;
        if at % count == gone {
            folded.push(Outline { fold: true, length, ..side });
            past_fold = true;
            at += gone_long;
        } else {
            let is_kept = is(at % count, over.edge);
            folded.push(Outline { to_fold: (!is_kept).then_some(!past_fold), ..side });
            at += 1;
        }
        if at >= kept + count {
            break;
        }
    }
    Some(folded)
}

fn is_edge(garment: &Garment, drawn: &DrawnPiece, edge: DrawnEdgeId, of: crate::garment::EdgeId) -> bool {
    let edge = drawn.edge_at(edge).map(|edge| edge.edge);
    edge.is_some_and(|edge| garment.is_run_of(edge, of) || garment.is_run_of(of, edge))
}

/// Parts that are folded with both edges in one seam, each with that fold: the edges are plies of
/// their own, and something else lies in the seam.
fn flaps(
    garment: &Garment,
    sized: &SizedGarment,
    parts: &[SewnPart],
    seams: &[SewnSeam],
) -> BTreeMap<PartId, FoldOver> {
    let mut found: BTreeMap<PartId, FoldOver> = BTreeMap::new();
    let on = |part: PartId| -> Option<(&DrawnPiece, &[FoldOver])> {
        let sewn = parts.get(part.index())?;
        Some((drawn(sized, sewn)?, &garment.piece(sewn.part.piece).folds))
    };
    for sewn in seams {
        if sewn.first.plies.len() + sewn.second.plies.len() < 3 {
            continue;
        }
        let plies = sewn.first.plies.iter().chain(&sewn.second.plies);
        // Each part of the seam with the plies that it lies in.
        let mut of_part: Vec<(PartId, usize, DrawnEdgeId)> = Vec::new();
        for (ply, runs) in plies.enumerate() {
            let own = runs.runs.iter().filter(|run| !run.elsewhere);
            of_part.extend(own.map(|run| (run.part, ply, run.edge)));
        }
        of_part.sort_unstable();
        of_part.dedup();
        for group in of_part.chunk_by(|one, other| one.0 == other.0) {
            let Some(&(part, ..)) = group.first() else { continue };
            let Some((drawn, folds)) = on(part) else { continue };
            let fold = folds.iter().find(|over| {
                let of = |edge| group.iter().filter(move |(_, _, own)| is_edge(garment, drawn, *own, edge));
                let all = |edge| {
                    let named = DrawnEdgeId::enumerate(&drawn.edges);
                    let named = named.filter(|(own, _)| is_edge(garment, drawn, *own, edge));
                    named.count() == of(edge).count()
                };
                let apart = |edge| of(edge).map(|(_, ply, _)| *ply).collect::<Vec<usize>>();
                let (one, other) = (apart(over.edge), apart(over.onto));
                !one.is_empty()
                    && !other.is_empty()
                    && one.iter().all(|ply| !other.contains(ply))
                    && all(over.edge)
                    && all(over.onto)
            });
            if let Some(&over) = fold {
                found.insert(part, over);
            }
        }
    }
    whole_plies(garment, seams, &on, &mut found);
    found
}

/// A ply may be left out only as a whole: where a folded edge runs on into something else, the piece is
/// no flap.
fn whole_plies<'a>(
    garment: &Garment,
    seams: &[SewnSeam],
    on: &dyn Fn(PartId) -> Option<(&'a DrawnPiece, &'a [FoldOver])>,
    found: &mut BTreeMap<PartId, FoldOver>,
) {
    if found.is_empty() {
        return;
    }
    for ply in seams.iter().flat_map(|sewn| sewn.first.plies.iter().chain(&sewn.second.plies)) {
        let is_gone = |part: PartId, edge: DrawnEdgeId| match (found.get(&part), on(part)) {
            (Some(over), Some((drawn, _))) => is_edge(garment, drawn, edge, over.onto),
            _ => false,
        };
        let gone = ply.runs.iter().filter(|run| is_gone(run.part, run.edge)).count();
        if gone > 0 && gone < ply.runs.len() {
            let mixed: Vec<PartId> = ply.runs.iter().map(|run| run.part).collect();
            found.retain(|part, _| !mixed.contains(part));
        }
    }
}
