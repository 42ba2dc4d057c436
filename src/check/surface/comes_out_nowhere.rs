//! `opening/no-way` of what a head goes into and does not come out of: a hood that is sewn shut at the face.

use super::trunk::knows_trunk;
use super::worn::drawn_to;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, Opening};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::sewing::surface::{FaceId, Gluing, JoinId, JoinedPly, StretchId, Surface};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::OPENING_NO_WAY], run: Run::PerForm(run) };

const HEAD: &str = "head";

/// What of a garment for the trunk lies beyond the opening for the head is a collar or a hood, and both are open.
fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let (Some(surface), true) = (surface, knows_trunk(garment)) else { return };
    for opening in garment.openings.iter().filter(|opening| *garment.value(opening.passes).name == *HEAD) {
        findings.extend(beyond(garment, size, surface, opening));
    }
}

fn beyond(garment: &Garment, size: &WorkedSize, surface: &Surface, opening: &Opening) -> Option<Finding> {
    let is_ring = |stretch: StretchId| {
        let edge = size.sewn.edge_of(&size.drawn, surface, stretch);
        edge.is_some_and(|(part, edge)| {
            let mut named = opening.ring.edges.iter();
            named.any(|own| {
                garment.is_run_of(edge, own.edge) && own.layer.is_none_or(|layer| layer == part.layer)
            })
        })
    };
    let (mut ring, mut body, mut open): (IdSet<JoinId>, Vec<FaceId>, Vec<FaceId>) =
        (IdSet::default(), Vec::new(), Vec::new());
    for stretch in surface.stretch_ids().filter(|&stretch| is_ring(stretch)) {
        let id = surface.stretch(stretch).join?;
        let [one, other] = surface.join(id).plies.as_slice() else { return None };
        let there = if one.stretch == stretch { other } else { one };
        if is_ring(there.stretch) || !ring.insert(id) {
            return None;
        }
        body.push(surface.face_of(stretch));
        open.push(surface.face_of(there.stretch));
    }
    open.sort_unstable();
    open.dedup();
    let first = *open.first()?;
    drawn_to(garment, size, surface, &body)?;
    let layer = |ply: &JoinedPly| surface.face(surface.face_of(ply.stretch)).layer;
    // A lining that is sewn to its shell all round leaves the rim between them.
    let in_layer = Gluing::of(surface, |_, one, other| layer(one) == layer(other));
    let mut seen: IdSet<FaceId> = open.iter().copied().collect();
    let mut met: IdSet<JoinId> = IdSet::default();
    while let Some(face) = open.pop() {
        for stretch in surface.stretches_of(face) {
            let join = surface.stretch(stretch).join;
            if let Some(own) = join.filter(|join| ring.contains(join)) {
                // Both plies of a doubled collar lie in the ring.
                if !met.insert(own) {
                    return None;
                }
                continue;
            }
            let next = surface.face_of(in_layer.partner(stretch)?.stretch);
            if body.contains(&next) {
                return None;
            }
            if seen.insert(next) {
                open.push(next);
            }
        }
    }
    let part = size.sewn.part(surface.face(first).part).part;
    let piece = words::piece(garment, part.piece);
    let title =
        Title::new(format!("a head goes into {piece} and does not come out: it is sewn shut all round"));
    let warning = Diagnostic::new(&catalogue::OPENING_NO_WAY, opening.span, title.in_sizes())
        .label("the head goes in here")
        .also(garment.piece(part.piece).span, "no edge of it is left open")
        .help("leave an edge of it open for the face: finish it, and take it out of the seam that closes it");
    Some(Finding::new(size.id(), 0.0, warning))
}
