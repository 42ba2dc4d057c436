//! `hood/small`: a hood into which the head that it is drawn to does not go.

use super::left_to_right::crossing;
use super::trunk::drawn_to_any;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, PieceId};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::surface::{FaceId, SideId, Surface};
use crate::shape::path::Path;
use crate::syntax::tree::Hand;

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::HOOD_SMALL], run: Run::PerSize(run) };

/// From chin to crown a head is at least so long, as a share of the girth round it, and from forehead to the back of it so
/// deep: 0.39 and 0.34 of adults, more of children, whose heads are rounder (common proportions in drawing).
const HIGH: f64 = 0.38;
const DEEP: f64 = 0.3;
/// The edge at the face rises from the neck to the crown by at least this share of the way between its ends; that of a back
/// in two halves, its neckline, does not.
const UPRIGHT: f64 = 0.7;
/// Places looked at on each edge.
const PLACES: usize = 16;

/// One half of a hood.
#[derive(Default)]
struct Half {
    face: Vec<SideId>,
    crown: Vec<SideId>,
    is_sewn_on: bool,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    let mut told: Vec<PieceId> = Vec::new();
    for face in surface.face_ids().filter(|&face| surface.face(face).hand == Some(Hand::Left)) {
        let piece = size.sewn.part(surface.face(face).part).part.piece;
        if told.contains(&piece) {
            continue;
        }
        let head = drawn_to_any(garment, &garment.origins(piece), &["head"]);
        let Some(girth) = head.first().and_then(|&head| size.drawn.scalar(head)) else { continue };
        if let Some(finding) = small(garment, size, surface, face, girth) {
            told.push(piece);
            findings.push(finding);
        }
    }
}

/// Edges that are joined left to right, those that are sewn to other pieces, and those that frame the face.
fn half(surface: &Surface, face: FaceId) -> Half {
    let own = surface.face(face);
    let mut half = Half::default();
    for side in surface.sides_of(face) {
        let joins: Vec<_> = surface
            .stretches_on(side)
            .filter_map(|stretch| Some(surface.join(surface.stretch(stretch).join?)))
            .collect();
        let is_sewn_on = joins.iter().any(|join| {
            let mut others = join.plies.iter().map(|ply| surface.face(surface.face_of(ply.stretch)));
            others.any(|other| other.layer == own.layer && other.pair != own.pair)
        });
        if joins.iter().any(|join| crossing(surface, join).is_some()) {
            half.crown.push(side);
        } else if is_sewn_on {
            half.is_sewn_on = true;
        } else {
            half.face.push(side);
        }
    }
    half
}

/// Whether the one edge that frames the face goes up to the crown.
fn rises(size: &WorkedSize, surface: &Surface, half: &Half) -> bool {
    let [face] = half.face.as_slice() else { return false };
    let side = surface.side(*face);
    let drawn = size.drawn.paper(size.sewn.part(side.part).part.paper);
    let Some(path) = drawn.and_then(|drawn| drawn.edge_at(side.edge)).map(|edge| &edge.path) else {
        return false;
    };
    let after = surface.stretches_on(*face).last().map(|last| surface.stretch(surface.next(last)).side);
    let is_crown_after = after.is_some_and(|after| half.crown.contains(&after));
    let way = path.end() - path.start();
    let up = if is_crown_after != side.mirrored { way.y } else { -way.y };
    up > UPRIGHT * way.hypot()
}

fn small(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    face: FaceId,
    girth: f64,
) -> Option<Finding> {
    let half = half(surface, face);
    let long = |sides: &[SideId]| -> f64 { sides.iter().map(|&side| surface.side(side).length).sum() };
    let (high, round) = (long(&half.face), long(&half.crown));
    // The edge of a collar in two halves is longer than the seam that joins them.
    if !half.is_sewn_on || half.face.is_empty() || high <= 0.0 || round < high {
        return None;
    }
    let part = size.sewn.part(surface.face(face).part).part;
    let drawn = size.drawn.paper(part.paper)?;
    if !rises(size, surface, &half) {
        return None;
    }
    let path = |side: &SideId| drawn.edge_at(surface.side(*side).edge).map(|edge| &edge.path);
    let deep = half.crown.iter().filter_map(path).map(|crown| {
        let far = |along: usize| {
            let at = crown.point_at_length(crown.length() * along as f64 / PLACES as f64);
            let faces = half.face.iter().filter_map(path).map(|face: &Path| face.nearest(at).distance);
            faces.fold(f64::INFINITY, f64::min)
        };
        (0..=PLACES).map(far).fold(0.0, f64::max)
    });
    let deep = deep.fold(0.0, f64::max);
    let unit = garment.unit;
    let (what, is, needed) = match (high < HIGH * girth, deep < DEEP * girth) {
        (true, _) => ("high at the face", high, HIGH * girth),
        (false, true) => ("deep from the face to the back", deep, DEEP * girth),
        (false, false) => return None,
    };
    let name = words::piece(garment, part.piece);
    let title = format!("{name} is {} {what}, for a head of {}", amount(is, unit), amount(girth, unit));
    let advice = Diagnostic::new(&catalogue::HOOD_SMALL, garment.piece(part.piece).span, Title::new(title).in_sizes())
        .label("no head goes in")
        .help(format!(
            "a head of that girth is some {} there, and a hood a good deal more: look at the points that it is drawn to",
            amount(needed, unit)
        ));
    Some(Finding::new(size.drawn.size, needed - is, advice).about(name).figure("is", amount(is, unit)))
}
