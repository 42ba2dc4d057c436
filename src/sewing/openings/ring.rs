//! Whether edges are rings: each runs on into the next, back to the first, but for closures.

use super::model::RingBreak;
use super::ways::Ways;
use crate::id_hash::{IdIndexSet, IdMap, IdSet};
use crate::resolve::{DrawnEdgeId, SizedGarment};
use crate::sewing::model::{PartId, SeamEnd, SewnPart};
use crate::sewing::surface::{FaceId, RimPart, StretchId, Surface};

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

/// Where rows end, so that what follows each is found at once.
#[derive(Default)]
struct Ends {
    /// A row by how it begins, from either end.
    at_part: IdMap<RimPart, usize>,
    at_vertex: IdMap<u32, Vec<usize>>,
    at_face: IdMap<FaceId, Vec<usize>>,
}

impl Ends {
    /// The rows that may follow a part: where the rim leads on to, and across closures that begin there.
    fn after(&self, ways: &Ways, last: RimPart, is_cut: &dyn Fn(StretchId) -> bool) -> Vec<usize> {
        let mut found: Vec<usize> = Vec::new();
        for vertex in ways.across(last) {
            found.extend(self.at_vertex.get(&vertex).into_iter().flatten());
        }
        let mut at = ways.next(last, is_cut);
        for _ in 0..ways.surface.stretches.len() {
            if let Some(&row) = self.at_part.get(&at) {
                found.push(row);
                break;
            }
            at = ways.next(at, is_cut);
        }
        for face in ways.buttoned_to(ways.surface.face_of(last.stretch)) {
            found.extend(self.at_face.get(&face).into_iter().flatten());
        }
        found
    }
}

/// The same the other way.
fn turned(part: &RimPart) -> RimPart {
    RimPart { against: !part.against, ..*part }
}

/// Goes along the stretches from each to the next, as if all that they are sewn to were cut off.
pub(super) fn rings(
    ways: &Ways,
    sized: &SizedGarment,
    parts: &[SewnPart],
    wanted: &[StretchId],
    edges: &IdIndexSet<(PartId, DrawnEdgeId)>,
) -> Rings {
    let ring: IdSet<StretchId> = wanted.iter().copied().collect();
    let is_cut = |stretch: StretchId| {
        ring.contains(&stretch)
            || ways.closed.partner(stretch).is_some_and(|partner| ring.contains(&partner.stretch))
    };
    let mut found = Rings::default();
    let mut rows: Vec<Row> = Vec::new();
    let mut seen: IdSet<StretchId> = IdSet::default();
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
        at = ways.next(turned(&start), &is_cut);
        while ring.contains(&at.stretch) && seen.insert(at.stretch) {
            before.push(turned(&at));
            at = ways.next(at, &is_cut);
        }
        before.reverse();
        before.extend(parts);
        rows.push(Row { parts: before });
    }
    // Rows that closures join end to end make rings as well.
    let mut ends = Ends::default();
    for (at, row) in rows.iter().enumerate() {
        for begin in row.parts.first().copied().into_iter().chain(row.parts.last().map(turned)) {
            ends.at_part.insert(begin, at);
            ends.at_vertex.entry(ways.begins_at(begin)).or_default().push(at);
            ends.at_face.entry(ways.surface.face_of(begin.stretch)).or_default().push(at);
        }
    }
    let mut rows: Vec<Option<Row>> = rows.into_iter().map(Some).collect();
    for at in 0..rows.len() {
        let Some(mut row) = rows[at].take() else { continue };
        let mut is_turned = false;
        while let (Some(&first), Some(&last)) = (row.parts.first(), row.parts.last()) {
            let is_joined = |other: RimPart| {
                ways.closed_at(last, other) || ways.closure_between(last, other, &ring).is_some()
            };
            if is_joined(first) {
                found.rings.push(std::mem::take(&mut row.parts));
                break;
            }
            let begins = |row: &Row| -> Option<bool> {
                let (start, end) = (*row.parts.first()?, turned(row.parts.last()?));
                if is_joined(start) { Some(false) } else { is_joined(end).then_some(true) }
            };
            let mut follows = ends.after(ways, last, &is_cut);
            // A row of buttons leads over to another piece that is sewn to the first nowhere.
            if ways.has_rows() {
                follows.extend(0..rows.len());
            }
            let next = follows.into_iter().find_map(|at| {
                let backwards = rows.get(at)?.as_ref().and_then(begins)?;
                Some((rows.get_mut(at)?.take()?, backwards))
            });
            match next {
                Some((next, false)) => row.parts.extend(next.parts),
                Some((next, true)) => row.parts.extend(next.parts.iter().rev().map(turned)),
                None if is_turned => {
                    tell(ways, sized, parts, &row, &ring, edges, &mut found.breaks);
                    break;
                }
                None => {
                    // Nothing follows at this end; something may at the other.
                    is_turned = true;
                    row.parts = row.parts.iter().rev().map(turned).collect();
                }
            }
        }
    }
    let mut told = IdSet::default();
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
    ring: &IdSet<StretchId>,
    own: &IdIndexSet<(PartId, DrawnEdgeId)>,
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
            let named = (side.part, side.edge);
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
    let part = side.part;
    let drawn = sized.paper(parts.get(part.index())?.part.paper)?;
    let is_drawn_end = end.against == side.mirrored;
    let at = if is_drawn_end { drawn.after(side.edge) } else { side.edge };
    let corner = drawn.edge_at(at)?.corner;
    Some((SeamEnd { part, corner }, side.edge))
}
