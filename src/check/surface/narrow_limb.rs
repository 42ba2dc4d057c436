//! `opening/narrow`: cuffs, leg hems and armholes of which nothing is said, and through which no hand, foot or arm goes.

use super::rim_words::RimWords;
use super::trunk::drawn_to_any;
use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, PieceId, Seam, Value, ValueId, ValueKind};
use crate::once_each::once_each;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::surface::Surface;
use crate::sewing::{GarmentRim, PartId};
use indexmap::IndexMap;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::OPENING_NARROW], run: Run::PerSize(run) };

/// What goes through the end of a sleeve or of a leg.
struct Limb {
    name: &'static str,
    /// What is drawn to one of these covers the limb.
    drawn_to: &'static [&'static str],
    /// Girths of what must pass.
    passes: &'static [&'static str],
    /// Girths that lie before it, and by how much larger that which must pass is at the least.
    before: &'static [(&'static str, f64)],
    /// The least that a grown-up's passes, in millimetres (common practice: a hand with its thumb laid in, a heel).
    grown_up: f64,
}

const LIMBS: [Limb; 2] = [
    Limb {
        name: "foot",
        drawn_to: &[
            "leg",
            "inside_leg",
            "inleg",
            "inseam",
            "outleg",
            "outside_leg",
            "rise",
            "crotch",
            "thigh",
            "knee",
            "ankle",
        ],
        passes: &["heel", "foot"],
        before: &[("ankle", 1.2)],
        grown_up: 300.0,
    },
    Limb {
        name: "hand",
        drawn_to: &["arm", "sleeve", "upper_arm", "elbow", "wrist"],
        passes: &["hand", "palm"],
        before: &[("wrist", 1.15)],
        grown_up: 190.0,
    },
];

/// What a body is drawn to round the arms, …
pub(super) const ROUND_THE_ARMS: [&str; 2] = ["chest", "bust"];
/// … and the share of it that an upper arm has at the least (common proportions: of a grown-up 0.3, of a baby more); an armhole
/// is half as large again.
const ARM: f64 = 0.3;
/// A grown-up's limb goes by those figures from this age on, in years.
const GROWN_UP: f64 = 14.0;
/// Narrower than this, in millimetres, it is no end of a sleeve or leg but an eyelet.
const EYELET: f64 = 30.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let is_body = |name: &str| {
        garment.values.iter().any(|value| matches!(value.kind, ValueKind::Body(_)) && *value.name == *name)
    };
    let limbs: Vec<&Limb> =
        LIMBS.iter().filter(|limb| limb.drawn_to.iter().any(|name| is_body(name))).collect();
    let arm = arm(garment, size);
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let Some(surface) = surface.filter(|_| !limbs.is_empty() || arm.is_some()) else { return };
    let Some(rims) = size.rims(garment) else { return };
    let words = RimWords { garment, size, surface };
    let mut named: IndexMap<String, (usize, &GarmentRim)> = IndexMap::new();
    // What opens wider than any limb needs is not looked at further.
    let most = limbs.iter().filter_map(|limb| needed(garment, size, limb)).map(|(needed, _)| needed);
    let most = most.chain(arm.as_ref().map(|(needed, _)| *needed));
    let most = most.fold(0.0, f64::max) + garment.tolerance;
    let is_silent = |rim: &&GarmentRim| rim.openings.is_empty() && rim.ring.closures.is_empty();
    if !rims.iter().filter(is_silent).any(|rim| rim.ring.opens() < most) {
        return;
    }
    for rim in rims.iter().filter(is_silent) {
        named.entry(words.words(rim)).or_insert((0, rim)).0 += 1;
    }
    // They come in pairs, a left one and a right one.
    for (name, (_, rim)) in named.into_iter().filter(|(_, (times, _))| times.is_multiple_of(2)) {
        let opens = rim.ring.opens();
        if !opens.is_finite() || opens < EYELET {
            continue;
        }
        let pieces = pieces(garment, size, surface, rim);
        let limb = limbs.iter().find(|limb| !drawn_to_any(garment, &pieces, limb.drawn_to).is_empty());
        let passes = match limb {
            Some(limb) => needed(garment, size, limb).map(|needed| (limb.name, needed)),
            None if is_armhole(garment, size, surface, rim) => arm.clone().map(|needed| ("arm", needed)),
            None => None,
        };
        if let Some((limb, (needed, why))) = passes
            && opens < needed - garment.tolerance
        {
            findings.push(reported(garment, size, (&name, rim, &words), limb, (needed, &why)));
        }
    }
}

/// How large an arm is at the least, and by what.
pub(super) fn arm(garment: &Garment, size: &WorkedSize) -> Option<(f64, String)> {
    let girth = |wanted: &[&str]| {
        let mut all = ValueId::enumerate(&garment.values);
        let is_it =
            |value: &Value| matches!(value.kind, ValueKind::Body(_)) && wanted.contains(&&*value.name);
        let (id, value) = all.find(|(_, value)| is_it(value))?;
        Some((&value.name, size.drawn.scalar(id).filter(|girth| *girth > 0.0)?))
    };
    let shown = |mm: f64| amount(mm, garment.unit);
    if let Some((_, round)) = girth(&["upper_arm"]) {
        return Some((round, format!("the upper arm is {}", shown(round))));
    }
    let (name, round) = girth(&ROUND_THE_ARMS)?;
    let why = format!(
        "to a {name} of {} goes an arm of {} at the least (common practice)",
        shown(round),
        shown(round * ARM)
    );
    Some((round * ARM, why))
}

/// Whether a rim lies in the body of what is drawn to the chest, from piece to piece: an armhole without a sleeve. A sleeve
/// comes in pairs, and a slit is cut into one piece.
fn is_armhole(garment: &Garment, size: &WorkedSize, surface: &Surface, rim: &GarmentRim) -> bool {
    let mut parts: Vec<_> =
        rim.ring.parts.iter().map(|part| surface.face(surface.face_of(part.stretch)).part).collect();
    parts.sort_unstable();
    parts.dedup();
    let cut = |part: &PartId| size.drawn.paper(size.sewn.part(*part).part.paper).map(|drawn| drawn.cut);
    let is_of_body = parts.iter().any(|part| matches!(cut(part), Some(CutHow::OnFold(_))));
    let pieces = pieces(garment, size, surface, rim);
    parts.len() > 1 && is_of_body && !drawn_to_any(garment, &pieces, &ROUND_THE_ARMS).is_empty()
}

/// The pieces of a rim; of one round a single piece that is drawn to no body, as a band and a cuff are, also those that this is
/// sewn to.
fn pieces(garment: &Garment, size: &WorkedSize, surface: &Surface, rim: &GarmentRim) -> Vec<PieceId> {
    let faces = rim.ring.parts.iter().map(|part| surface.face_of(part.stretch));
    let mut own: Vec<PieceId> =
        faces.map(|face| size.sewn.part(surface.face(face).part).part.piece).collect();
    once_each(&mut own);
    if let [only] = own[..]
        && garment.drawn_to(only).is_empty()
    {
        let sides = |seam: &Seam| -> [Vec<PieceId>; 2] {
            [&seam.first, &seam.second]
                .map(|side| side.iter().flat_map(|chain| &chain.edges).map(|sewn| sewn.piece).collect())
        };
        let beside: Vec<PieceId> = garment
            .seams
            .iter()
            .flat_map(|seam| {
                let [one, other] = sides(seam);
                let has = |side: &[PieceId]| side.iter().any(|piece| own.contains(piece));
                match (has(&one), has(&other)) {
                    (true, false) => other,
                    (false, true) => one,
                    _ => Vec::new(),
                }
            })
            .collect();
        own.extend(beside);
    }
    let mut pieces: Vec<PieceId> = own.into_iter().flat_map(|piece| garment.origins(piece)).collect();
    pieces.sort_unstable();
    pieces.dedup();
    pieces
}

/// How wide it must open at the least, and by what.
fn needed(garment: &Garment, size: &WorkedSize, limb: &Limb) -> Option<(f64, String)> {
    let body = |wanted: &str| {
        let mut all = ValueId::enumerate(&garment.values);
        let (id, _) =
            all.find(|(_, value)| matches!(value.kind, ValueKind::Body(_)) && *value.name == *wanted)?;
        size.drawn.scalar(id).filter(|girth| *girth > 0.0)
    };
    let shown = |mm: f64| amount(mm, garment.unit);
    if let Some((name, girth)) = limb.passes.iter().find_map(|name| Some((name, body(name)?))) {
        return Some((girth, format!("the {name} is {}", shown(girth))));
    }
    if let Some((name, share, girth)) =
        limb.before.iter().find_map(|(name, share)| Some((name, share, body(name)?)))
    {
        let needed = girth * share;
        return Some((
            needed,
            format!(
                "over a {name} of {} goes a {} of {} at the least (common practice)",
                shown(girth),
                limb.name,
                shown(needed)
            ),
        ));
    }
    let is_grown_up = garment.wearer.ages.is_none_or(|(from, _)| from >= GROWN_UP);
    is_grown_up.then(|| {
        (
            limb.grown_up,
            format!("a grown-up's {} needs {} (common practice)", limb.name, shown(limb.grown_up)),
        )
    })
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    (name, rim, words): (&str, &GarmentRim, &RimWords),
    limb: &str,
    (needed, why): (f64, &str),
) -> Finding {
    let (opens, wanted) = (amount(rim.ring.opens(), garment.unit), amount(needed, garment.unit));
    let title = Title::new(format!("{name} opens to {opens}: no {limb} goes through")).in_sizes();
    let first = rim.ring.parts.first().and_then(|part| {
        let surface = size.sewn.surface.as_ref()?;
        size.sewn.edge_of(&size.drawn, surface, part.stretch)
    });
    let span = first.map_or(garment.heading, |(_, edge)| garment.edge(edge).span);
    let by = amount(needed - rim.ring.opens(), garment.unit);
    let advice = Diagnostic::new(&catalogue::OPENING_NARROW, span, title).label(why.to_owned()).help(format!(
        "make it {by} wider, give it a slit or a closure, or say what it is to pass, so that it is checked: opening {}  \
         passes …",
        words.chain(&rim.ring.parts)
    ));
    Finding::new(size.id(), needed - rim.ring.opens(), advice)
        .about(name)
        .figure("opens", opens)
        .figure("needs", wanted)
}
