//! `seam/left-to-right`: the left one of a pair sewn to the right one, where each goes round by itself.

use super::each_by_itself::each_by_itself;
use crate::check::seams::crosswise;
use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, Piece, Seam, SeamId};
use crate::id_hash::{IdMap, IdSet};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::DrawnEdgeId;
use crate::sewing::surface::{Face, FaceId, Join, JoinedBy, SideId, StretchId, Surface};
use crate::sewing::{PartId, seam_edges};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_LEFT_TO_RIGHT, &catalogue::SEAM_RING], run: Run::PerSize(run) };

/// What shows that the two of a pair are not meant to be sewn to each other.
enum Why {
    /// An edge beside goes round by itself, so that both of its ends meet in one place.
    Ring,
    /// Both ends of a folded piece are sewn so, and neither of them lies in the middle of the garment.
    Beside,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    // What is matched end for end brings the wrong places together, and is reported itself.
    if !crosswise::has_any(garment, size) {
        findings.extend(all(garment, size).into_iter().map(|(_, finding)| finding));
    }
}

/// Every such seam, and what is said of it.
pub(super) fn all(garment: &Garment, size: &WorkedSize) -> Vec<(SeamId, Finding)> {
    let mut findings = Vec::new();
    let Some(surface) = size.sewn.surface.as_ref() else { return findings };
    let mut meeting = Meeting { surface, of_vertex: None };
    // Both ends of one piece are one mistake.
    let mut known: IdSet<(PartId, DrawnEdgeId)> = IdSet::default();
    for join in &surface.joins {
        let JoinedBy::Seam { seam, .. } = join.by else { continue };
        let edge_of = |side: SideId| (surface.face(surface.side(side).face).pair, surface.side(side).edge);
        let Some(side) = crossing(surface, join).filter(|&side| !known.contains(&edge_of(side))) else {
            continue;
        };
        let found =
            beyond(surface, side, true).into_iter().chain(beyond(surface, side, false)).find_map(
                |(beside, far)| {
                    let [start, end] = meeting.ends(&beside);
                    if start == end {
                        return Some((Why::Ring, far, beside));
                    }
                    let is_folded = surface.face(surface.side(side).face).flap && is_crossing(surface, far);
                    (is_folded && !meeting.is_middle(start, side) && !meeting.is_middle(end, side))
                        .then_some((Why::Beside, far, beside))
                },
            );
        let Some((why, far, beside)) = found else { continue };
        known.extend([edge_of(side), edge_of(far)]);
        let finding = match &why {
            Why::Ring => each_by_itself(garment, size, surface, &beside).and_then(|alone| {
                let [own, far, round] =
                    [side, far, alone.round].map(|side| name_of(garment, size, surface, side));
                let otherwise = format!("{} to {}", own?, far?);
                alone.reported(garment, size, garment.seam(seam), [&round?, &otherwise])
            }),
            Why::Beside => None,
        };
        let finding =
            finding.or_else(|| reported(garment, size, surface, garment.seam(seam), [side, far], &why));
        findings.extend(finding.map(|finding| (seam, finding)));
    }
    findings
}

/// The edge of a side, as it is written.
fn name_of(garment: &Garment, size: &WorkedSize, surface: &Surface, side: SideId) -> Option<String> {
    let part = size.sewn.part(surface.side(side).part).part;
    let edge = size.drawn.paper(part.paper)?.edge_at(surface.side(side).edge)?.edge;
    Some(format!("{}.{}", garment.piece(part.piece).name, garment.edge(edge).name))
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    seam: &Seam,
    ends: [SideId; 2],
    why: &Why,
) -> Option<Finding> {
    let part = size.sewn.part(surface.side(ends[0]).part).part;
    let piece = garment.piece(part.piece);
    let drawn = size.drawn.paper(part.paper)?;
    let name = |side: SideId| name_of(garment, size, surface, side);
    let (own, far) = (name(ends[0])?, name(ends[1])?);
    let reason = match why {
        Why::Ring => "though each goes round by itself",
        Why::Beside => "though neither end of it lies in the middle of the garment",
    };
    let span = seam.second.first().map_or(seam.name_span, |chain| chain.span);
    if drawn.cut == CutHow::Alike {
        return Some(of_one_hand(garment, size, seam, piece, drawn.count));
    }
    let title = format!("{} sews the left one of {} to the right one, {reason}", seam.words(), piece.title);
    let help = match why {
        Why::Ring => format!("to close each one to a ring, sew its two ends together: {own} to {far}"),
        Why::Beside => format!(
            "{own} to {far} closes each one to a ring; where each stays open, give {own} and {far} a finish"
        ),
    };
    let mistake = Diagnostic::new(&catalogue::SEAM_LEFT_TO_RIGHT, span, title)
        .label("named on both sides: that of the other copy")
        .also(piece.cut.span, "a left and a right one")
        .help(help);
    Some(Finding::new(size.drawn.size, 0.0, mistake).about(seam.name.to_string()))
}

/// Two copies that are cut the same way round, sewn to each other by one edge.
fn of_one_hand(garment: &Garment, size: &WorkedSize, seam: &Seam, piece: &Piece, count: u32) -> Finding {
    let title = format!(
        "{} sews {} to itself, left to right, but all {count} of it are cut the same way round",
        seam.words(),
        piece.title
    );
    let even = count - count % 2;
    let mut edges = seam_edges(seam).filter(|sewn| garment.piece(sewn.piece).span == piece.span);
    let edge = edges.next().map_or(String::new(), |sewn| garment.edge(sewn.edge).name.to_string());
    let mistake = Diagnostic::new(&catalogue::SEAM_LEFT_TO_RIGHT, piece.cut.span, title)
        .label("no left and right")
        .also(
            seam.second.first().map_or(seam.name_span, |chain| chain.span),
            "named on both sides: that of the other copy",
        )
        .help(format!(
            "write cut {} mirrored, so that half of them are turned over; or, if each goes round by itself, name \
             the edge that {edge} meets",
            even.max(2)
        ));
    Finding::new(size.drawn.size, 0.0, mistake).about(seam.name.to_string())
}

/// A side that a seam joins to the same side of another copy.
pub(super) fn crossing(surface: &Surface, join: &Join) -> Option<SideId> {
    let [one, other] = join.plies.as_slice() else { return None };
    let (side, other) = (surface.side_of(one.stretch), surface.side_of(other.stretch));
    let pair = |face: FaceId| surface.face(face).pair;
    let is_same = side.edge == other.edge && pair(side.face) == pair(other.face);
    (is_same && side.face != other.face).then(|| surface.stretch(one.stretch).side)
}

/// Whether that side is sewn so.
fn is_crossing(surface: &Surface, side: SideId) -> bool {
    let mut joins = surface.stretches_on(side).filter_map(|stretch| surface.stretch(stretch).join);
    joins.any(|join| crossing(surface, surface.join(join)).is_some())
}

/// Whether a seam takes the same side of another copy at the same place: sewn to it, or as another ply, as the upper and the
/// under one of two collars that lie in the neck together.
fn lies_on_its_copy(surface: &Surface, side: SideId) -> bool {
    let own = surface.side(side);
    let pair = |face: FaceId| surface.face(face).pair;
    let is_copy = |other: SideId| {
        let other = surface.side(other);
        other.face != own.face && (pair(other.face), other.edge) == (pair(own.face), own.edge)
    };
    let mut joins = surface.stretches_on(side).filter_map(|stretch| surface.stretch(stretch).join);
    joins.any(|join| surface.join(join).plies.iter().any(|ply| is_copy(surface.stretch(ply.stretch).side)))
}

/// The sides beside one that one seam takes, in the order of the ring, and the side beyond them; none
/// where nothing sews them, or they too are sewn to their other copy.
fn beyond(surface: &Surface, side: SideId, forwards: bool) -> Option<(Vec<SideId>, SideId)> {
    let of_ring = |other: &SideId| surface.side(*other).hole == surface.side(side).hole;
    let all: Vec<SideId> = surface.sides_of(surface.side(side).face).filter(of_ring).collect();
    let at = all.iter().position(|&one| one == side)?;
    let step = |by: usize| {
        let count = all.len();
        all.get(if forwards { (at + by) % count } else { (at + count - by % count) % count }).copied()
    };
    let seam = |side: SideId| {
        let join = surface.stretches_on(side).find_map(|stretch| surface.stretch(stretch).join)?;
        match surface.join(join).by {
            JoinedBy::Seam { sewn, .. } => Some(sewn),
            JoinedBy::Placing(_) => None,
        }
    };
    let taken = seam(step(1)?)?;
    let mut beside = Vec::new();
    for by in 1..all.len() {
        let next = step(by)?;
        if seam(next) != Some(taken) || surface.side(next).fold {
            let lies_on_copy = beside.iter().any(|&one| lies_on_its_copy(surface, one));
            return (!beside.is_empty() && !lies_on_copy).then(|| {
                if !forwards {
                    beside.reverse();
                }
                (beside, next)
            });
        }
        beside.push(next);
    }
    None
}

struct Meeting<'a> {
    surface: &'a Surface,
    /// The stretches that begin or end at each vertex; worked out when it is first asked for.
    of_vertex: Option<IdMap<u32, Vec<StretchId>>>,
}

impl Meeting<'_> {
    /// The vertices where sides in a row begin and end.
    fn ends(&self, sides: &[SideId]) -> [Option<u32>; 2] {
        let first = sides.first().and_then(|&side| self.surface.stretches_on(side).next());
        let last = sides.last().and_then(|&side| self.surface.stretches_on(side).last());
        [
            first.map(|stretch| self.surface.stretch(stretch).start),
            last.map(|stretch| self.surface.stretch(stretch).end),
        ]
    }

    /// Whether left and right of something else meet there as well: on a fold, in a seam, or in a piece
    /// that is there once.
    fn is_middle(&mut self, vertex: Option<u32>, side: SideId) -> bool {
        let surface = self.surface;
        let Some(vertex) = vertex else { return true };
        let own = surface.face(surface.side(side).face).pair;
        let of_vertex = self.of_vertex.get_or_insert_with(|| {
            let mut found: IdMap<u32, Vec<StretchId>> = IdMap::default();
            for id in surface.stretch_ids() {
                let stretch = surface.stretch(id);
                for vertex in [stretch.start, stretch.end] {
                    found.entry(vertex).or_default().push(id);
                }
            }
            found
        });
        let mut there = of_vertex.get(&vertex).into_iter().flatten();
        there.any(|&stretch| {
            let face: &Face = surface.face(surface.face_of(stretch));
            let sewn = surface.stretch(stretch).join.map(|join| surface.join(join));
            face.pair != own
                && (face.hand.is_none() || sewn.is_some_and(|join| crossing(surface, join).is_some()))
        })
    }
}
