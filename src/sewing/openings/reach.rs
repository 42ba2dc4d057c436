//! What else a ring leads through: bands that are sewn to it, and what is sewn to these.

use super::ways::Ways;
use crate::garment::PieceId;
use crate::id_hash::IdSet;
use crate::sewing::model::SewnPart;
use crate::sewing::surface::{FaceId, PlyAt, Rim, RimPart, StretchId};
use std::f64::consts::PI;

/// How far from an opening something still is at the opening, in millimetres: the hips, which a waist
/// must let through, lie some 20 cm below it (common practice).
const AT_THE_OPENING: f64 = 200.0;

/// A band whose rims differ by more than this share of what a flat ring's do lies out from the ring inside it,
/// as a brim does: what is between an upright tube and a brim that slopes by some 20 degrees.
const FLARE: f64 = 1.0 / 3.0;
/// A flat thing has no more cloth on a ring than a circle of its length (the isoperimetric inequality); so many
/// times that goes over a head.
const BAG: f64 = 1.5;

/// A ring as one of the plies sewn together there goes along it.
struct Ply {
    stretches: Vec<StretchId>,
    faces: Vec<FaceId>,
    area: f64,
}

/// The rings that must also be passed where this one is: across each band that hangs on it, to that
/// band's other rim, and on.
///
/// A band is cloth with two rims of which the one is the ring. From a seam it goes out across what
/// has less cloth than what it is sewn to, to its free rim, fold or edge (a waistband, a collar); from
/// a free rim it goes in to the first seam that holds more cloth than all that was crossed (the garment
/// itself). What leads to neither is no way through: the crown of a hat, a gaiter's other end. But what is
/// worn inside a brim goes through the ring that the brim is sewn to.
pub(super) fn reached(ways: &Ways, parts: &[SewnPart], ring: &[RimPart]) -> Vec<Vec<RimPart>> {
    let own: Vec<StretchId> = ring.iter().map(|part| part.stretch).collect();
    let mut plies = vec![ply(ways, parts, own.clone())];
    plies.extend(all_round(ways, parts, &own));
    // A brim or a collar of two layers, or of two copies, sewn together at its edge, hangs on nothing there.
    let is_doubled = match plies.as_slice() {
        [one, other] => one.faces != other.faces && pieces(ways, parts, one) == pieces(ways, parts, other),
        _ => false,
    };
    let mut all = Vec::new();
    for (at, one) in plies.iter().enumerate() {
        if is_doubled {
            all.extend(chain(ways, parts, one, None));
            continue;
        }
        let beside = plies.iter().enumerate().filter(|(other, _)| *other != at);
        let opposite = beside.map(|(_, other)| other.area).max_by(f64::total_cmp);
        all.extend(chain(ways, parts, one, opposite));
    }
    all
}

/// The narrowest ring inside a free one that a bag hangs on: that is the edge of a hat's brim.
pub(super) fn in_brim(ways: &Ways, parts: &[SewnPart], ring: &[RimPart]) -> Option<Vec<RimPart>> {
    let from = ply(ways, parts, ring.iter().map(|part| part.stretch).collect());
    let mut brims = Vec::new();
    chain_past(ways, parts, &from, None, &mut brims);
    brims.pop()
}

fn ply(ways: &Ways, parts: &[SewnPart], stretches: Vec<StretchId>) -> Ply {
    let mut faces: Vec<FaceId> = stretches.iter().map(|&stretch| ways.surface.face_of(stretch)).collect();
    faces.sort_unstable();
    faces.dedup();
    let area = faces.iter().map(|&face| ways.area(face, parts)).sum();
    Ply { stretches, faces, area }
}

/// The pieces of a ply.
fn pieces(ways: &Ways, parts: &[SewnPart], ply: &Ply) -> Vec<PieceId> {
    let part = |face: &FaceId| parts.get(ways.surface.face(*face).part.index());
    let mut pieces: Vec<PieceId> = ply.faces.iter().filter_map(part).map(|sewn| sewn.part.piece).collect();
    pieces.sort_unstable();
    pieces.dedup();
    pieces
}

/// What lies in the same seams as a ring, ply by ply.
fn others(ways: &Ways, parts: &[SewnPart], ring: &[StretchId]) -> Vec<Ply> {
    let mut found: Vec<((bool, u32), Vec<StretchId>)> = Vec::new();
    for &stretch in ring {
        let Some(join) = ways.surface.stretch(stretch).join.map(|join| ways.surface.join(join)) else {
            continue;
        };
        let side = |at: PlyAt| match at {
            PlyAt::First(ply) => Some((false, ply)),
            PlyAt::Second(ply) => Some((true, ply)),
            PlyAt::Caught => None,
        };
        let own = join.plies.iter().find(|ply| ply.stretch == stretch).and_then(|ply| side(ply.at));
        let Some((own_second, _)) = own else { continue };
        for other in join.plies.iter().filter(|ply| ply.stretch != stretch) {
            let Some((second, ply)) = side(other.at) else { continue };
            let key = (second != own_second, ply);
            match found.iter_mut().find(|(known, _)| *known == key) {
                Some((_, of)) => of.push(other.stretch),
                None => found.push((key, vec![other.stretch])),
            }
        }
    }
    found.into_iter().map(|(_, stretches)| ply(ways, parts, stretches)).collect()
}

/// Those that go along the whole ring: what lies along some of it, like a peak on the front of a cap, is
/// no band.
fn all_round(ways: &Ways, parts: &[SewnPart], ring: &[StretchId]) -> Vec<Ply> {
    let mut plies = others(ways, parts, ring);
    plies.retain(|ply| ply.stretches.len() >= ring.len());
    plies
}

/// The rings on the way from a ring across bands. `opposite` is the most cloth that hangs on its other
/// side; none of a free ring.
fn chain(ways: &Ways, parts: &[SewnPart], from: &Ply, opposite: Option<f64>) -> Vec<Vec<RimPart>> {
    let mut brims = Vec::new();
    let found = chain_past(ways, parts, from, opposite, &mut brims);
    if found.is_empty() { brims } else { found }
}

/// A ring inside a brim: how long it is, and how much cloth lies outside it.
struct Inside {
    rim: Vec<RimPart>,
    long: f64,
    outside: f64,
}

/// The same; `brims` are the rings inside a brim that a bag hangs on.
fn chain_past(
    ways: &Ways,
    parts: &[SewnPart],
    from: &Ply,
    opposite: Option<f64>,
    brims: &mut Vec<Vec<RimPart>>,
) -> Vec<Vec<RimPart>> {
    let surface = ways.surface;
    if opposite.is_some_and(|opposite| from.area >= opposite) {
        return Vec::new();
    }
    let (mut crossed, mut depth) = (0.0, 0.0);
    let mut passed: IdSet<StretchId> = IdSet::default();
    let mut found: Vec<Vec<RimPart>> = Vec::new();
    let mut inside: Vec<Inside> = Vec::new();
    let mut next: Option<Ply> = None;
    loop {
        let at = next.as_ref().unwrap_or(from);
        passed.extend(&at.stretches);
        passed.extend(others(ways, parts, &at.stretches).iter().flat_map(|ply| &ply.stretches));
        let Some(Far { rim: far, touches }) = far_rim(ways, at) else { return found };
        if far.parts.is_empty() {
            // It ends there, like a bag.
            let cloth = crossed + at.area;
            inside.retain(|one| cloth - one.outside > BAG * one.long * one.long / (4.0 * PI));
            brims.extend(inside.into_iter().map(|one| one.rim));
            return Vec::new();
        }
        let near_long: f64 = at.stretches.iter().map(|&stretch| surface.length(stretch)).sum();
        let far_long = far.length(surface);
        crossed += at.area;
        if !touches {
            depth += at.area / near_long.max(far_long).max(1.0);
        }
        let wide = 2.0 * at.area / (near_long + far_long).max(1.0);
        let is_brim = opposite.is_none() && !touches && near_long - far_long > FLARE * 2.0 * PI * wide;
        if is_brim && !far.is_free(surface) {
            inside.push(Inside { rim: far.parts.clone(), long: far_long, outside: crossed });
        }
        if depth > AT_THE_OPENING {
            return found;
        }
        if far.is_free(surface) {
            return match opposite {
                Some(_) => {
                    found.push(far.parts);
                    found
                }
                None => Vec::new(),
            };
        }
        let stretches: Vec<StretchId> = far.parts.iter().map(|part| part.stretch).collect();
        let is_sewn = |stretch: &StretchId| surface.stretch(*stretch).join.is_some();
        if !stretches.iter().all(is_sewn) || stretches.iter().any(|stretch| passed.contains(stretch)) {
            return found;
        }
        found.push(far.parts);
        let on = all_round(ways, parts, &stretches);
        let Some(on) = on.into_iter().max_by(|one, other| one.area.total_cmp(&other.area)) else {
            return found;
        };
        if on.area > crossed {
            return found;
        }
        next = Some(on);
    }
}

/// The other rim of a band.
struct Far {
    /// Empty where there is none.
    rim: Rim,
    /// It touches the ring, as a hood's neck does where its face ends.
    touches: bool,
}

/// The other rim of a band; nothing where it is no band.
fn far_rim(ways: &Ways, band: &Ply) -> Option<Far> {
    let ring: IdSet<StretchId> = band.stretches.iter().copied().collect();
    let is_cut = |stretch: StretchId| {
        ring.contains(&stretch)
            || ways.closed.partner(stretch).is_some_and(|partner| ring.contains(&partner.stretch))
    };
    let mut rims = ways.closed.rims_within(ways.surface, &band.faces, &is_cut);
    let is_near = |part: &RimPart| ring.contains(&part.stretch);
    let near = rims.iter().position(|rim| rim.parts.iter().any(is_near))?;
    let mut near = rims.swap_remove(near).parts;
    if near.iter().filter(|part| is_near(part)).count() != ring.len() {
        return None;
    }
    if near.len() == ring.len() {
        return match rims.len() {
            0 => Some(Far { rim: Rim { parts: Vec::new() }, touches: false }),
            1 => rims.pop().map(|rim| Far { rim, touches: false }),
            _ => None,
        };
    }
    // Pinched to one rim, in two rows of which each is a ring by itself.
    let start = (0..near.len()).find(|&at| {
        let before = near.get((at + near.len() - 1) % near.len());
        near.get(at).is_some_and(is_near) && !before.is_some_and(is_near)
    })?;
    near.rotate_left(start);
    let far = near.split_off(ring.len());
    let (first, last) = (far.first().copied()?, far.last().copied()?);
    let is_apart = near.iter().all(is_near) && rims.is_empty();
    let every: IdSet<StretchId> = near.iter().chain(&far).map(|part| part.stretch).collect();
    let is_ring = ways.meet(last, first) || ways.closure_between(last, first, &every).is_some();
    (is_apart && is_ring).then_some(Far { rim: Rim { parts: far }, touches: true })
}
