//! `opening/no-way`: a garment drawn to the trunk of a body that no rim lets out below, or in. Beside it `seam/shuts-body`
//! and `seam/shuts-rim`, which name the seam where one alone does it.

use super::cloth::cloth;
use super::rim_words::RimWords;
use super::shuts_rim;
use super::trunk::{is_trunk, knows_trunk};
use super::worn::{drawn_to, is_loose, passed};
use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, LayerId, ValueId};
use crate::id_hash::{IdIndexMap, IdSet};
use crate::report::{Diagnostic, Finding, amount, catalogue};
use crate::sewing::GarmentRim;
use crate::sewing::surface::{FaceId, Gluing, JoinedPly, Rim, StretchId, Surface};
use std::f64::consts::PI;

pub(in crate::check) static CHECK: Check = Check {
    kinds: &[&catalogue::OPENING_NO_WAY, &catalogue::SEAM_SHUTS_BODY, &catalogue::SEAM_SHUTS_RIM],
    run: Run::PerSize(run),
};

const HEAD: &str = "head";
/// What goes through the other openings of what is worn round the trunk.
const LIMBS: [&str; 6] = ["head", "hand", "foot", "heel", "wrist", "ankle"];
/// Of what the trunk goes through, at least so much is there all round: what stretches more is told by nobody.
const LEAST: f64 = 0.75;
/// A neck or a waist, and four for arms and legs: of what is stepped into by its neck no rim else is wide.
const OVERALL: usize = 5;
/// A neck and two armholes.
const FEWEST: usize = 3;
/// What passes a head and has so many times the cloth of a square on the girth is no hat.
const NO_HAT: f64 = 0.5;
/// A flat thing has no more cloth on its rim than a circle of its length (the isoperimetric inequality); with so
/// many times that cloth on its one rim it is a bag.
const BAG: f64 = 1.5;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.openings_unread {
        return;
    }
    let shuts = shuts_rim::found(garment, size);
    match found(garment, size) {
        // Where what goes in does not come out, that is told, and not which rim is shut, unless that is wide enough.
        Some(no_way) if !shuts.is_all && !shuts.is_wide => findings.push(no_way),
        _ => findings.extend(shuts.findings),
    }
}

/// That no rim lets the trunk out, or in.
fn found(garment: &Garment, size: &WorkedSize) -> Option<Finding> {
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let (Some(surface), true) = (surface, knows_trunk(garment)) else { return None };
    let largest = surface.components().into_iter().max_by_key(Vec::len);
    let faces = largest.filter(|faces| !is_loose(garment, size, surface, faces))?;
    let is_drawn_to = passed(garment, size).or_else(|| drawn_to(garment, size, surface, &faces));
    let (trunk, needed) = is_drawn_to.or_else(|| too_large_for_a_hat(garment, size, surface, &faces))?;
    let is_own =
        |rim: &Rim| rim.parts.first().is_some_and(|part| faces.contains(&surface.face_of(part.stretch)));
    // Most have a wide hem, which is seen at once, layer by layer.
    let layer = |ply: &JoinedPly| surface.face(surface.face_of(ply.stretch)).layer;
    let layers = Gluing::of(surface, |_, one, other| layer(one) == layer(other)).closed(surface);
    let mut own: IdIndexMap<LayerId, usize> = IdIndexMap::default();
    let mut is_any_wide = false;
    for rim in layers.rims(surface).iter().filter(|rim| is_own(rim)) {
        if let Some(first) = rim.parts.first() {
            *own.entry(surface.face(surface.face_of(first.stretch)).layer).or_insert(0) += 1;
        }
        is_any_wide |= rim.length(surface) >= needed;
    }
    if is_any_wide && own.values().any(|rims| *rims > 1) {
        return None;
    }
    let rims = size.rims(garment)?;
    let is_own = |rim: &&GarmentRim| is_own(&Rim { parts: rim.ring.parts.clone() });
    let own: Vec<&GarmentRim> = rims.iter().filter(is_own).collect();
    if let ([only], Some(_)) = (own.as_slice(), is_drawn_to) {
        let circle = only.ring.length * only.ring.length / (4.0 * PI);
        return (cloth(size, surface, &faces) > BAG * circle)
            .then(|| reported(garment, size, surface, &own, &garment.value(trunk).name, needed));
    }
    if !(FEWEST..OVERALL).contains(&own.len()) {
        return None;
    }
    let is_wide = |rim: &&GarmentRim| {
        let mut passes = rim.openings.iter().map(|&id| garment.value(garment.opening(id).passes));
        let is_for_limb = passes.any(|value| LIMBS.contains(&&*value.name));
        rim.ring.length.max(rim.ring.stretched) >= if is_for_limb { needed } else { LEAST * needed }
    };
    (!own.iter().any(is_wide) && !closes_a_rim(surface, &faces, LEAST * needed))
        .then(|| reported(garment, size, surface, &own, &garment.value(trunk).name, needed))
}

/// Whether a wide rim is there that closures close all of: a hem that is snapped together.
fn closes_a_rim(surface: &Surface, faces: &[FaceId], least: f64) -> bool {
    let closed: IdSet<StretchId> =
        surface.closures.iter().flat_map(|line| line.sides.iter().flatten()).map(|(at, _)| *at).collect();
    Gluing::seams(surface).rims(surface).iter().any(|rim| {
        let mut parts = rim.parts.iter().map(|part| part.stretch);
        rim.length(surface) >= least
            && parts.all(|at| closed.contains(&at) && faces.contains(&surface.face_of(at)))
    })
}

/// The least girth of the trunk that is known, of what passes a head and is larger than any hat.
fn too_large_for_a_hat(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    faces: &[FaceId],
) -> Option<(ValueId, f64)> {
    let mut passes = garment.openings.iter().map(|opening| &*garment.value(opening.passes).name);
    passes.any(|name| name == HEAD).then_some(())?;
    let trunk = ValueId::enumerate(&garment.values).filter(|(_, value)| is_trunk(&value.kind, &value.name));
    let girths = trunk.filter_map(|(id, _)| Some((id, size.drawn.scalar(id)?)));
    let least = girths.min_by(|one, other| one.1.total_cmp(&other.1))?;
    (cloth(size, surface, faces) > NO_HAT * least.1 * least.1).then_some(least)
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    rims: &[&GarmentRim],
    trunk: &str,
    needed: f64,
) -> Finding {
    let title = match rims {
        [_] => {
            format!("it goes round a {trunk}, and has one opening alone: nothing comes out at its other end")
        }
        _ => format!("it is made for a {trunk}, but no opening of it is wide enough for the {trunk}"),
    };
    let needs = amount(needed, garment.unit);
    let listed = RimWords { garment, size, surface }.listed(rims);
    let warning = Diagnostic::new(&catalogue::OPENING_NO_WAY, garment.heading, title)
        .label(format!("opens at {listed}; the {trunk} is {needs}"))
        .help(
            "look for a hem that is sewn shut, or for pieces that are closed on themselves instead of on each other",
        );
    Finding::new(size.id(), needed, warning).figure(trunk, needs)
}
