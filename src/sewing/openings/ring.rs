//! Whether edges are rings: each runs on into the next, back to the first, but for closures.

use super::model::RingBreak;
use super::ways::Ways;
use crate::resolve::{DrawnEdgeId, SizedGarment};
use crate::sewing::model::{PartId, SeamEnd, SewnPart};
use crate::sewing::surface::{RimPart, StretchId, Surface};
use std::collections::HashSet;

/// More edges than so many are not told as what is missing of a ring.
const MOST_MISSING: usize = 8;

/// Stretches as rings, and where they are none.
#[derive(Debug, Default)]
pub(super) struct Rings {
    pub(super) rings: Vec<Vec<RimPart>>,
    pub(super) breaks: Vec<RingBreak>,
}

/// A row of stretches that is broken somewhere.
struct Row {
    parts: Vec<RimPart>,
}

/// Goes along the stretches from each to the next, as if all that they are sewn to were cut off.
pub(super) fn rings(
    ways: &Ways,
    sized: &SizedGarment,
    parts: &[SewnPart],
    wanted: &[StretchId],
    edges: &HashSet<(PartId, DrawnEdgeId)>,
) -> Rings {
    let ring: HashSet<StretchId> = wanted.iter().copied().collect();
    let is_cut = |stretch: StretchId| {
        ring.contains(&stretch)
            || ways.closed.partner(stretch).is_some_and(|partner| ring.contains(&partner.stretch))
    };
    let mut found = Rings::default();
    let mut rows: Vec<Row> = Vec::new();
    let mut seen: HashSet<StretchId> = HashSet::new();
    for &first in wanted {
        if seen.contains(&first) {
            continue;
        }
        let start = RimPart { stretch: first, against: false };
        let mut parts = Vec::new();
        let mut at = start;
        while ring.contains(&at.stretch) && seen.insert(at.stretch) {
            parts.push(at);
            at = ways.next(at, &is_cut);
        }
        if at == start {
            found.rings.push(parts);
            continue;
        }
        // Back from the first, to where the row begins.
        let mut before = Vec::new();
        let turned = |part: RimPart| RimPart { against: !part.against, ..part };
        at = ways.next(turned(start), &is_cut);
        while ring.contains(&at.stretch) && seen.insert(at.stretch) {
            before.push(turned(at));
            at = ways.next(at, &is_cut);
        }
        before.reverse();
        before.extend(parts);
        rows.push(Row { parts: before });
    }
    // Rows that closures join end to end make rings as well.
    while let Some(mut row) = rows.pop() {
        let is_joined = |one: RimPart, other: RimPart| ways.closure_between(one, other, &ring).is_some();
        loop {
            let (Some(&first), Some(&last)) = (row.parts.first(), row.parts.last()) else { break };
            if is_joined(last, first) {
                found.rings.push(row.parts);
                break;
            }
            let turned = |part: &RimPart| RimPart { against: !part.against, ..*part };
            let next = rows.iter().position(|other| {
                let ends = (other.parts.first(), other.parts.last());
                matches!(ends, (Some(&start), Some(end)) if is_joined(last, start) || is_joined(last, turned(end)))
            });
            let Some(next) = next.map(|at| rows.swap_remove(at)) else {
                tell(ways, sized, parts, &row, &ring, edges, &mut found.breaks);
                break;
            };
            match next.parts.first() {
                Some(&start) if is_joined(last, start) => row.parts.extend(next.parts),
                _ => row.parts.extend(next.parts.iter().rev().map(turned)),
            }
        }
    }
    let mut told = HashSet::new();
    found.breaks.retain(|one| told.insert(one.at));
    found.breaks.sort_by_key(|one| (one.at.part, one.edge));
    found
}

/// Both ends of a row, and what would lead on from there to the next row.
fn tell(
    ways: &Ways,
    sized: &SizedGarment,
    parts: &[SewnPart],
    row: &Row,
    ring: &HashSet<StretchId>,
    own: &HashSet<(PartId, DrawnEdgeId)>,
    breaks: &mut Vec<RingBreak>,
) {
    let surface = ways.surface;
    let is_cut = |stretch: StretchId| {
        ring.contains(&stretch)
            || ways.closed.partner(stretch).is_some_and(|partner| ring.contains(&partner.stretch))
    };
    let ends = row.parts.first().map(|part| RimPart { against: !part.against, ..*part });
    for end in ends.into_iter().chain(row.parts.last().copied()) {
        let Some((at, edge)) = corner(surface, sized, parts, end) else { continue };
        let mut missing: Vec<(PartId, DrawnEdgeId)> = Vec::new();
        let mut next = ways.next(end, &is_cut);
        let mut gone = 0;
        while !ring.contains(&next.stretch) && gone <= surface.stretches.len() {
            let side = surface.side_of(next.stretch);
            let named = (surface.face(side.face).part, side.edge);
            if !missing.contains(&named) && !own.contains(&named) {
                missing.push(named);
            }
            if missing.len() > MOST_MISSING || side.fold {
                break;
            }
            gone += 1;
            next = ways.next(next, &is_cut);
        }
        if !ring.contains(&next.stretch) || missing.len() > MOST_MISSING {
            missing.clear();
        }
        breaks.push(RingBreak { at, edge, missing });
    }
}

/// The corner of a piece at the end of a row, and the edge there.
fn corner(
    surface: &Surface,
    sized: &SizedGarment,
    parts: &[SewnPart],
    end: RimPart,
) -> Option<(SeamEnd, DrawnEdgeId)> {
    let side = surface.side_of(end.stretch);
    let part = surface.face(side.face).part;
    let drawn = sized.paper(parts.get(part.index())?.part.paper)?;
    let count = drawn.edges.len().max(1);
    let is_drawn_end = end.against == side.mirrored;
    let at = (side.edge.index() + usize::from(is_drawn_end)) % count;
    let corner = drawn.edge_at(DrawnEdgeId::from_index(at))?.corner;
    Some((SeamEnd { part, corner }, side.edge))
}
