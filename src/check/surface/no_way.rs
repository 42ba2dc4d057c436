//! `opening/no-way`: a garment drawn to the trunk of a body that no rim lets out below, or in.

use super::rim_words::RimWords;
use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, PieceId, Used, ValueId, ValueKind};
use crate::report::{Diagnostic, Finding, amount, catalogue};
use crate::sewing::surface::{FaceId, Gluing, Rim, Surface};
use crate::sewing::{GarmentRim, garment_rims};
use std::collections::HashSet;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::OPENING_NO_WAY], run: Run::PerSize(run) };

/// Girths of the trunk.
const TRUNK: [&str; 9] = ["bust", "chest", "underbust", "waist", "belly", "hip", "hips", "seat", "stomach"];
/// What goes through the other openings of what is worn round the trunk.
const LIMBS: [&str; 6] = ["head", "hand", "foot", "heel", "wrist", "ankle"];
/// Of what the trunk goes through, at least so much is there all round: what stretches more is told by nobody.
const LEAST: f64 = 0.75;
/// A neck or a waist, and four for arms and legs: of what is stepped into by its neck no rim else is wide.
const OVERALL: usize = 5;
/// A neck and two armholes; a thing with fewer openings is no garment for the trunk.
const FEWEST: usize = 3;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let (Some(surface), true) = (surface, knows_trunk(garment)) else { return };
    let largest = surface.components().into_iter().max_by_key(Vec::len);
    let Some(faces) = largest.filter(|faces| !is_loose(garment, size, surface, faces)) else { return };
    let Some((trunk, needed)) = drawn_to(garment, size, surface, &faces) else { return };
    // Most have a wide hem, which is seen at once.
    let is_own =
        |rim: &Rim| rim.parts.first().is_some_and(|part| faces.contains(&surface.face_of(part.stretch)));
    let rims = Gluing::seams(surface).closed(surface).rims(surface);
    if rims.iter().any(|rim| is_own(rim) && rim.is_free(surface) && rim.length(surface) >= needed) {
        return;
    }
    let Some(rims) = garment_rims(garment, &size.drawn, &size.sewn) else { return };
    let is_own = |rim: &&GarmentRim| is_own(&Rim { parts: rim.ring.parts.clone() });
    let own: Vec<&GarmentRim> = rims.iter().filter(is_own).collect();
    if !(FEWEST..OVERALL).contains(&own.len()) {
        return;
    }
    let is_wide = |rim: &&GarmentRim| {
        let mut passes = rim.openings.iter().map(|&id| garment.value(garment.opening(id).passes));
        let is_for_limb = passes.any(|value| LIMBS.contains(&&*value.name));
        rim.ring.length.max(rim.ring.stretched) >= if is_for_limb { needed } else { LEAST * needed }
    };
    if !own.iter().any(is_wide) {
        findings.push(reported(garment, size, surface, &own, &garment.value(trunk).name, needed));
    }
}

fn knows_trunk(garment: &Garment) -> bool {
    garment.values.iter().any(|value| is_trunk(&value.kind, &value.name))
}

fn is_trunk(kind: &ValueKind, name: &str) -> bool {
    matches!(kind, ValueKind::Body(_)) && TRUNK.contains(&name)
}

fn is_loose(garment: &Garment, size: &WorkedSize, surface: &Surface, faces: &[FaceId]) -> bool {
    faces.iter().any(|&face| {
        let part = size.sewn.part(surface.face(face).part).part;
        garment.piece(part.piece).cut.loose
    })
}

/// The least girth of the trunk that pieces of the garment are drawn to.
fn drawn_to(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    faces: &[FaceId],
) -> Option<(ValueId, f64)> {
    let pieces = faces.iter().map(|&face| size.sewn.part(surface.face(face).part).part.piece);
    let mut pieces: Vec<PieceId> = pieces.flat_map(|piece| garment.origins(piece)).collect();
    pieces.sort_unstable();
    pieces.dedup();
    let values = |used: Used| if let Used::Value(value) = used { Some(value) } else { None };
    let drawings = pieces.iter().flat_map(|&piece| garment.piece(piece).drawing.expressions());
    let mut open: Vec<ValueId> =
        drawings.flat_map(|expression| expression.uses()).filter_map(values).collect();
    let mut seen: HashSet<ValueId> = HashSet::new();
    let mut least: Option<(ValueId, f64)> = None;
    while let Some(id) = open.pop() {
        if !seen.insert(id) {
            continue;
        }
        let value = garment.value(id);
        if is_trunk(&value.kind, &value.name) {
            let girth = size.drawn.scalar(id)?;
            if least.is_none_or(|(_, known)| girth < known) {
                least = Some((id, girth));
            }
        }
        let expressions = value.kind.expressions();
        open.extend(expressions.into_iter().flat_map(|expression| expression.uses()).filter_map(values));
    }
    least
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    rims: &[&GarmentRim],
    trunk: &str,
    needed: f64,
) -> Finding {
    let title = format!("it is drawn to the {trunk}, but no opening of it is wide enough for the {trunk}");
    let needs = amount(needed, garment.unit);
    let listed = RimWords { garment, size, surface }.listed(rims);
    let warning = Diagnostic::new(&catalogue::OPENING_NO_WAY, garment.heading, title)
        .label(format!("opens at {listed}; the {trunk} is {needs}"))
        .help(
            "look for a hem that is sewn shut, or for pieces that are closed on themselves instead of on each other",
        );
    Finding::new(size.id(), needed, warning).figure(trunk, needs)
}
