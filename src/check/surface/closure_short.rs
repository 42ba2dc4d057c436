//! `opening/no-way` of a garment that a closure opens, but not far enough: a zip of 3 cm in a skirt, one of 25 cm at the neck of
//! what is closed between the legs.
//!
//! It is asked only where no opening says what must pass, which is checked by what it says.

use super::rim_words::RimWords;
use super::trunk::{TRUNK, drawn_to_trunk, knows_trunk};
use super::worn::is_loose;
use crate::check::{Check, Run, words as said};
use crate::cutting::WorkedSize;
use crate::garment::{Closure, ClosureId, ClosureKind, Garment, PieceId, ValueId, ValueKind};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, amount, at_least, catalogue};
use crate::sewing::surface::FaceId;
use crate::sewing::{GarmentRim, opens_within};
use indexmap::IndexMap;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::OPENING_NO_WAY], run: Run::PerSize(run) };

/// What is widest below a waist.
const HIPS: [&str; 3] = ["hip", "hips", "seat"];
/// Narrower than the body where they lie, and gone through by none: a skirt is drawn over hips or bust.
const NARROW: [&str; 3] = ["waist", "underbust", "stomach"];
/// An opening that lets this share of a girth through is let be: a body gives a little, and so do measures.
const LEAST: f64 = 0.95;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let says_trunk = |name: &str| TRUNK.contains(&name);
    let is_said = garment.openings.iter().any(|opening| says_trunk(&garment.value(opening.passes).name));
    let (Some(surface), false, false) = (surface, is_said || garment.openings_unread, !knows_trunk(garment))
    else {
        return;
    };
    if surface.closures.is_empty() {
        return;
    }
    let Some(faces) = surface.components().into_iter().max_by_key(Vec::len) else { return };
    let closed: IdSet<FaceId> =
        surface.closures.iter().flat_map(|line| line.faces.iter().flatten()).copied().collect();
    if is_loose(garment, size, surface, &faces) || !faces.iter().any(|face| closed.contains(face)) {
        return;
    }
    let mut pieces: Vec<PieceId> =
        faces.iter().map(|&face| size.sewn.part(surface.face(face).part).part.piece).collect();
    pieces.sort_unstable();
    pieces.dedup();
    let origins: Vec<PieceId> = pieces.iter().flat_map(|&piece| garment.origins(piece)).collect();
    if drawn_to_trunk(garment, &origins).is_empty() {
        return;
    }
    let Some(rims) = size.rims(garment) else { return };
    let is_own = |rim: &&GarmentRim| {
        rim.ring.parts.first().is_some_and(|part| faces.contains(&surface.face_of(part.stretch)))
    };
    // A zip that opens onto no rim is behind something, as a fly behind its shield: what it adds is not known.
    let is_zip =
        |closure: ClosureId| matches!(garment.closure(closure).kind, Some(ClosureKind::Zipper { .. }));
    let opens =
        |closure: ClosureId| rims.iter().any(|rim| rim.ring.closures.iter().any(|(id, _)| *id == closure));
    if surface.closures.iter().any(|line| is_zip(line.closure) && !opens(line.closure)) {
        return;
    }
    let words = RimWords { garment, size, surface };
    let mut by_words: IndexMap<String, (usize, &GarmentRim)> = IndexMap::new();
    for rim in rims.iter().filter(is_own) {
        by_words.entry(words.words(rim)).or_insert((0, rim)).0 += 1;
    }
    let are_limbs = by_words.values().any(|(times, _)| *times > 1);
    let single: Vec<&GarmentRim> =
        by_words.into_values().filter(|(times, _)| *times == 1).map(|(_, rim)| rim).collect();
    let needed = match (single.as_slice(), are_limbs) {
        // Closed between the legs, or round both arms and nothing else: all of the trunk goes in there.
        ([_], true) => girths(garment, size, &HIPS).max_by(|one, other| one.1.total_cmp(&other.1)),
        // A skirt: over the hips, or over the bust.
        ([_, _, ..], false) => {
            let wide: Vec<&str> = TRUNK.iter().copied().filter(|name| !NARROW.contains(name)).collect();
            girths(garment, size, &wide).min_by(|one, other| one.1.total_cmp(&other.1))
        }
        // A head goes in at the neck of what has arms and a hem.
        _ => None,
    };
    let Some((id, girth)) = needed else { return };
    let closed = single.iter().filter(|rim| !rim.ring.closures.is_empty());
    let opens = |rim: &GarmentRim| opens_within(garment, &size.drawn, &size.sewn, surface, rim);
    if let Some((rim, opens)) = closed.map(|&rim| (rim, opens(rim))).find(|(_, opens)| *opens < LEAST * girth)
    {
        findings.push(reported(garment, size, (rim, opens), &words, (id, girth)));
    }
}

/// What the body measures by those names.
fn girths<'a>(
    garment: &'a Garment,
    size: &'a WorkedSize,
    names: &'a [&str],
) -> impl Iterator<Item = (ValueId, f64)> {
    let body = ValueId::enumerate(&garment.values)
        .filter(|(_, value)| matches!(value.kind, ValueKind::Body(_)) && names.contains(&&*value.name));
    body.filter_map(|(id, _)| Some((id, size.drawn.scalar(id)?)))
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    (rim, opens): (&GarmentRim, f64),
    words: &RimWords,
    (id, girth): (ValueId, f64),
) -> Finding {
    let name = &garment.value(id).name;
    let wanting = girth - opens;
    let (opens, has) = (amount(opens, garment.unit), amount(girth, garment.unit));
    let mut closures: Vec<&Closure> = rim.ring.closures.iter().map(|(id, _)| garment.closure(*id)).collect();
    closures.dedup_by_key(|one| one.name_span);
    let is_zip = |one: &&&Closure| matches!(one.kind, Some(ClosureKind::Zipper { .. }));
    let longest = closures.iter().find(is_zip).or(closures.first());
    let span = longest.map_or(garment.heading, |one| one.name_span);
    let called = said::listed(&closures.iter().map(|one| one.name.to_string()).collect::<Vec<_>>());
    let title = format!("with {called} open no {name} goes through {}", words.words(rim));
    let warning = Diagnostic::new(&catalogue::OPENING_NO_WAY, span, title)
        .label(format!("{opens} all round with it open; the {name} is {has}"))
        .help(format!(
            "make it at least {} longer; or say what must pass there, and it is checked by that: opening {}  passes {name}",
            at_least(0.5 * wanting, garment.unit),
            words.chain(&rim.ring.parts)
        ));
    Finding::new(size.id(), wanting, warning).figure("opens", opens).figure(name, has)
}
