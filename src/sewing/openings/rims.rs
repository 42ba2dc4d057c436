//! Every closed rim of a garment, and what goes through it.

use super::hold::Holding;
use super::model::PassedRing;
use super::passed::passed;
use super::reach::{in_brim, reached};
use super::ways::Ways;
use crate::garment::{Garment, OpeningId};
use crate::id_hash::{IdMap, IdSet};
use crate::resolve::SizedGarment;
use crate::sewing::channels::elastic_stretches;
use crate::sewing::surface::{JoinedBy, RimPart, StretchId, Surface};
use crate::sewing::whole::Sewing;

/// A rim, closed all round with the closures closed.
#[derive(Clone, Debug, PartialEq)]
pub struct GarmentRim {
    /// Its length, what it stretches to and what opens onto it.
    pub ring: PassedRing,
    /// The openings that lead through it.
    pub openings: Vec<OpeningId>,
}

/// The rims of a garment, in the order of its pieces; none where its surface is not known or is
/// twisted. Where layers that lie on one another are sewn together at a rim, it is listed once.
pub fn garment_rims(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Option<Vec<GarmentRim>> {
    let surface = sewing.surface.as_ref().filter(|surface| surface.twists.is_empty())?;
    let elastic = elastic_stretches(garment, sized, sewing.channels.as_deref().unwrap_or_default());
    let ways = Ways::new(garment, sized, &sewing.parts, surface);
    let mut holding = Holding::new(garment, sized, &sewing.parts, &sewing.seams, surface, &elastic);
    let mut openings: IdMap<StretchId, Vec<OpeningId>> = IdMap::default();
    for (id, opening) in OpeningId::enumerate(&sewing.openings) {
        let rings = opening.iter().flat_map(|opening| &opening.rings);
        for stretch in rings.flat_map(|ring| &ring.parts).map(|part| part.stretch) {
            openings.entry(stretch).or_default().push(id);
        }
    }
    let mut found = Vec::new();
    for rim in ways.closed.rims(surface) {
        if !rim.parts.iter().all(|part| is_outermost(&ways, surface, part.stretch)) {
            continue;
        }
        // Only closures ask which stretches these are.
        let asked = if surface.closures.is_empty() { &[][..] } else { &rim.parts };
        let every: IdSet<StretchId> = asked.iter().map(|part| part.stretch).collect();
        let ring = passed(&ways, &mut holding, &rim.parts, &every, false);
        let led = rim.parts.iter().filter_map(|part| openings.get(&part.stretch)).flatten();
        let mut led: Vec<OpeningId> = led.copied().collect();
        led.sort_unstable();
        led.dedup();
        found.push(GarmentRim { ring, openings: led });
    }
    Some(found)
}

/// The ring into which the head goes where a rim is the edge of a hat's brim: narrower, with a bag that hangs on it; none
/// of other rims.
pub fn ring_in_brim(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    surface: &Surface,
    rim: &GarmentRim,
) -> Option<Vec<RimPart>> {
    in_brim(&Ways::new(garment, sized, &sewing.parts, surface), &sewing.parts, &rim.ring.parts)
}

/// How far the narrowest of the rings opens that must also be passed where a rim is: behind the rim of a collar the neck that
/// it is sewn to. The rim's own where there is no narrower one. In millimetres.
pub fn opens_within(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    surface: &Surface,
    rim: &GarmentRim,
) -> f64 {
    let elastic = elastic_stretches(garment, sized, sewing.channels.as_deref().unwrap_or_default());
    let ways = Ways::new(garment, sized, &sewing.parts, surface);
    let mut holding = Holding::new(garment, sized, &sewing.parts, &sewing.seams, surface, &elastic);
    let rings = reached(&ways, &sewing.parts, &rim.ring.parts);
    let every: IdSet<StretchId> =
        rings.iter().flatten().chain(&rim.ring.parts).map(|part| part.stretch).collect();
    let opens = rings.iter().map(|parts| passed(&ways, &mut holding, parts, &every, true).opens());
    opens.fold(rim.ring.opens(), f64::min)
}

/// Free, or the first of the layers that are sewn together there.
fn is_outermost(ways: &Ways, surface: &Surface, stretch: StretchId) -> bool {
    let Some(join) = surface.stretch(stretch).join.map(|join| surface.join(join)) else { return true };
    let is_rim = |stretch: StretchId| ways.closed.partner(stretch).is_none();
    matches!(join.by, JoinedBy::Seam { .. })
        && join.plies.first().is_some_and(|first| first.stretch == stretch)
        && join.plies.iter().all(|ply| is_rim(ply.stretch))
}
