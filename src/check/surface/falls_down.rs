//! `waist/loose`: a waist that the hip goes through, and that nothing draws in.

use super::narrow_limb::ROUND_THE_ARMS;
use super::rim_words::RimWords;
use super::trunk::{drawn_to_any, is_trunk};
use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, FinishKind, Garment, OpeningId, ValueId, ValueKind};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::GarmentRim;
use crate::sewing::surface::Surface;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::WAIST_LOOSE], run: Run::PerSize(run) };

const WAIST: &str = "waist";
/// What goes through a waist that something else does not hold up: over the chest it would hang from the shoulders.
const PASSES: [&str; 3] = ["hip", "hips", "seat"];
/// A rim that has gone so far of the way from the waist to the girth that passes it slides down over that again (craft judgement:
/// waists that sit low lie before it).
const SLIDES: f64 = 0.5;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    // A belt in its loops and braces hold a waist up.
    let Some(surface) = surface.filter(|_| garment.straps.is_empty() && !garment.openings.is_empty()) else {
        return;
    };
    let mut values = ValueId::enumerate(&garment.values);
    let is_waist = |kind: &ValueKind, name: &str| matches!(kind, ValueKind::Body(_)) && name == WAIST;
    let Some((waist, _)) = values.find(|(_, value)| is_waist(&value.kind, &value.name)) else { return };
    let Some(girth) = size.drawn.scalar(waist) else { return };
    for rim in size.rims(garment).unwrap_or_default() {
        let passes = rim.openings.iter().filter_map(|id: &OpeningId| garment.openings.get(id.index()));
        let larger = passes.filter_map(|opening| {
            let value = garment.value(opening.passes);
            let is_larger = is_trunk(&value.kind, &value.name) && PASSES.contains(&&*value.name);
            Some((
                opening.passes,
                size.drawn.scalar(opening.passes).filter(|larger| is_larger && *larger > girth)?,
            ))
        });
        let Some((passed, larger)) = larger.min_by(|one, other| one.1.total_cmp(&other.1)) else { continue };
        let loose = rim.ring.length - girth - SLIDES * (larger - girth);
        if rim.ring.closures.is_empty() && loose >= 0.0 && is_bare_waist(garment, size, surface, rim) {
            findings.push(reported(garment, size, surface, rim, [(waist, girth), (passed, larger)]));
        }
    }
}

/// Whether all of a rim is called after the waist, and nothing is drawn through it.
fn is_bare_waist(garment: &Garment, size: &WorkedSize, surface: &Surface, rim: &GarmentRim) -> bool {
    let drawn_in = |edge: EdgeId| {
        let mut through = garment.cords.iter().flat_map(|cord| &cord.through);
        through.any(|sewn| garment.whole_edge(sewn.edge) == edge)
    };
    !rim.ring.parts.is_empty()
        && rim.ring.parts.iter().all(|part| {
            let stretch = surface.stretch(part.stretch);
            let finish = stretch.finish.map(|finish| &garment.finish(finish).kind);
            let is_elastic =
                finish.is_some_and(|kind| kind.elastic().is_some() || matches!(kind, FinishKind::Casing(..)));
            let edge = size
                .sewn
                .edge_of(&size.drawn, surface, part.stretch)
                .map(|(_, edge)| garment.whole_edge(edge));
            // Below a bodice it is the bodice that hangs.
            let part = surface.face(surface.face_of(part.stretch)).part;
            let pieces = garment.origins(size.sewn.part(part).part.piece);
            let hangs = !drawn_to_any(garment, &pieces, &ROUND_THE_ARMS).is_empty()
                || matches!(finish, Some(FinishKind::TurnedUnderOnto(_)));
            !is_elastic
                && !hangs
                && edge.is_some_and(|edge| {
                    garment.edge(edge).name.split('_').any(|word| word == WAIST) && !drawn_in(edge)
                })
        })
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    rim: &GarmentRim,
    [(waist, girth), (passed, larger)]: [(ValueId, f64); 2],
) -> Finding {
    let shown = |mm: f64| amount(mm, garment.unit);
    let words = RimWords { garment, size, surface }.words(rim);
    let over = &garment.value(passed).name;
    let title =
        Title::new(format!("{words} is {} wider than the waist of the body", shown(rim.ring.length - girth)))
            .in_sizes()
            .then(", and nothing draws it in");
    let first = rim.ring.parts.first().and_then(|part| size.sewn.edge_of(&size.drawn, surface, part.stretch));
    let place = first.map_or(garment.heading, |(_, edge)| garment.edge(garment.whole_edge(edge)).span);
    let advice = Diagnostic::new(&catalogue::WAIST_LOOSE, place, title)
        .label(format!("{} all round", shown(rim.ring.length)))
        .also(garment.value(waist).span, format!("the body has {} there", shown(girth)))
        .help(format!(
            "it goes up over the {over} of {}, and slides down over it again: put elastic into a casing, a cord or a closure there, or \
             braces; if it is meant to sit so low, nothing needs to change",
            shown(larger)
        ));
    Finding::new(size.id(), rim.ring.length - girth, advice)
        .about(&words)
        .figure("round", shown(rim.ring.length))
}
