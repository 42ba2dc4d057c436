//! `opening/unsaid`: a garment without a closure, of which no opening is spoken of.

use super::cloth::cloth;
use super::rim_words::RimWords;
use super::runs_on::angle_at;
use super::trunk::drawn_to_any;
use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, PieceId, Value, ValueId, ValueKind};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::surface::{FaceId, Gluing, RimPart, Surface};
use crate::sewing::{GarmentRim, PartId, ring_in_brim};
use indexmap::IndexMap;
use std::f64::consts::PI;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::OPENING_UNSAID], run: Run::PerSize(run) };

/// The measures of what is widest beyond a neck, a waist, a wrist or an ankle.
const PASS: [&str; 7] = ["head", "hip", "hips", "seat", "hand", "foot", "heel"];
/// Of what an opening passes, what is no more than an arm or a leg.
const LIMBS: [&str; 6] = ["hand", "foot", "heel", "wrist", "ankle", "palm"];
/// Other measures of a body. Where a garment knows none of these nor of those by name, its maker writes in
/// another language, and which of its measures must pass where is left open.
const OTHERS: [&str; 30] = [
    "chest",
    "bust",
    "underbust",
    "waist",
    "back_waist",
    "front_waist",
    "neck",
    "shoulder",
    "back",
    "arm",
    "sleeve",
    "upper_arm",
    "elbow",
    "wrist",
    "palm",
    "thigh",
    "knee",
    "calf",
    "ankle",
    "leg",
    "inleg",
    "inseam",
    "outleg",
    "crotch",
    "rise",
    "torso",
    "height",
    "stature",
    "girth",
    "belly",
];
/// A flat thing encloses no more than a circle of its outline's length (the isoperimetric inequality);
/// with so many times that cloth on one rim it is a bag, a hat or a mitten, whatever gathers it has.
const BAG: f64 = 1.5;
/// A rim with corners in which so many pieces end is a front that stays open, a slit or a flat thing's
/// outline.
const CORNERS: usize = 4;
/// A rim that stays open from hem to neck is longer than this many times the side of a square of as much
/// cloth as it bounds; a waist that two legs hang on is shorter than the side.
const OPEN_FRONT: f64 = 1.5;
/// Or it has so many corners: those of both fronts at the hem.
const FRONT_CORNERS: usize = 2;
/// What nothing goes into that is at all as wide as a body's part is not worn round it: elastic and gathers
/// may double a rim.
const ROOM: f64 = 0.5;
/// The same of what is drawn to a hand or a foot.
const ROOM_OF_LIMB: f64 = 0.2;
/// A corner sticks out where the cloth in it has less than this, in degrees.
const CORNER: f64 = 135.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.openings_unread {
        return;
    }
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let (Some(surface), Some(widest)) = (surface, widest(garment, size)) else { return };
    let words = RimWords { garment, size, surface };
    // That a cuff passes the hand says nothing of the neck.
    let (mut spoken, mut of_limbs): (IdSet<PieceId>, IdSet<PieceId>) = (IdSet::default(), IdSet::default());
    for opening in &garment.openings {
        let is_limb = LIMBS.contains(&&*garment.value(opening.passes).name);
        let pieces = opening.ring.edges.iter().map(|sewn| sewn.piece);
        if is_limb { of_limbs.extend(pieces) } else { spoken.extend(pieces) }
    }
    let piece = |part: PartId| size.sewn.part(part).part.piece;
    // A left one and a right one of the same are spoken of together.
    let mut components: IndexMap<Vec<PartId>, (Vec<FaceId>, usize)> = IndexMap::new();
    for component in surface.components() {
        let mut parts: Vec<PartId> = component.iter().map(|&face| surface.face(face).part).collect();
        parts.sort_unstable();
        parts.dedup();
        components.entry(parts).or_insert((component, 0)).1 += 1;
    }
    let closed: IdSet<FaceId> =
        surface.closures.iter().flat_map(|line| line.faces.iter().flatten()).copied().collect();
    let is_among = |parts: &[PartId], pieces: &IdSet<PieceId>| {
        let mut own = parts.iter().map(|&part| piece(part));
        own.any(|piece| {
            pieces.contains(&piece) || garment.origins(piece).iter().any(|one| pieces.contains(one))
        })
    };
    components.retain(|parts, (faces, times)| {
        // Of a left one and a right one nothing goes over the head.
        let is_for_limb = *times > 1 || LIMBS.contains(&widest.0);
        let is_spoken = is_among(parts, &spoken) || is_for_limb && is_among(parts, &of_limbs);
        // What is cut loose is not worn: a strap, a belt.
        let is_loose = parts.iter().any(|&part| garment.piece(piece(part)).cut.loose);
        !is_spoken && !is_loose && !faces.iter().any(|face| closed.contains(face))
    });
    if components.is_empty() {
        return;
    }
    let Some(rims) = size.rims(garment) else { return };
    for (faces, times) in components.values() {
        // Into a left one and a right one goes a hand or a foot.
        let of_limb = || of_limb(garment, size, surface, faces);
        let widest = if *times > 1 { of_limb().unwrap_or(widest) } else { widest };
        let looking = Looking { garment, size, surface, widest, gluing: &size.sewn.gluing, words };
        let within: IdSet<FaceId> = faces.iter().copied().collect();
        let is_own = |rim: &&GarmentRim| {
            rim.ring.parts.first().is_some_and(|part| within.contains(&surface.face_of(part.stretch)))
        };
        let own: Vec<&GarmentRim> = rims.iter().filter(is_own).collect();
        let silent: Vec<&GarmentRim> = own.iter().copied().filter(|rim| rim.openings.is_empty()).collect();
        let is_one_left = silent.len() == own.len() || !looking.single(&silent).is_empty();
        if is_one_left && looking.lets_a_body_in(faces, &own) {
            findings.extend(looking.finding(&silent, silent.len() < own.len()));
        }
    }
}

/// The first of the measures that must usually pass somewhere, as far as the garment has one, and what it
/// is: it is made for a body of which that is known.
fn widest<'a>(garment: &'a Garment, size: &WorkedSize) -> Option<(&'a str, f64)> {
    let is_body = |value: &Value| matches!(value.kind, ValueKind::Body(_));
    let body = || ValueId::enumerate(&garment.values).filter(|(_, value)| is_body(value));
    let known = PASS.iter().find_map(|wanted| {
        let (id, value) = body().find(|(_, value)| &*value.name == *wanted)?;
        Some((&*value.name, size.drawn.scalar(id)?))
    });
    known.or_else(|| {
        let is_english = body().any(|(_, value)| OTHERS.contains(&&*value.name));
        let least = || {
            let all = body().filter_map(|(id, _)| size.drawn.scalar(id));
            all.min_by(f64::total_cmp)
        };
        if is_english { None } else { least().map(|least| (OPEN, least)) }
    })
}

/// The limb that a pair of things is drawn to, and what it measures; none where they are drawn to none.
fn of_limb<'a>(
    garment: &'a Garment,
    size: &WorkedSize,
    surface: &Surface,
    faces: &[FaceId],
) -> Option<(&'a str, f64)> {
    let pieces = faces.iter().map(|&face| size.sewn.part(surface.face(face).part).part.piece);
    let mut pieces: Vec<PieceId> = pieces.flat_map(|piece| garment.origins(piece)).collect();
    pieces.sort_unstable();
    pieces.dedup();
    let limbs = drawn_to_any(garment, &pieces, &LIMBS);
    let girths = limbs.iter().filter_map(|&id| Some((&*garment.value(id).name, size.drawn.scalar(id)?)));
    girths.max_by(|one, other| one.1.total_cmp(&other.1))
}

/// In the place of a measure that is not known.
const OPEN: &str = "…";

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    surface: &'a Surface,
    gluing: &'a Gluing,
    words: RimWords<'a>,
    widest: (&'a str, f64),
}

impl Looking<'_> {
    /// Whether it is worn round the body, and put on through a rim.
    fn lets_a_body_in(&self, faces: &[FaceId], rims: &[&GarmentRim]) -> bool {
        if rims.iter().any(|rim| self.corners(rim) >= CORNERS) || self.is_open(faces, rims) {
            return false;
        }
        // What is drawn to a limb is worn on it, however narrow it came out.
        let room = if LIMBS.contains(&self.widest.0) { ROOM_OF_LIMB } else { ROOM };
        if rims.iter().all(|rim| rim.ring.opens().max(rim.ring.length) < room * self.widest.1) {
            return false;
        }
        match rims {
            [] => false,
            [only] => {
                let circle = only.ring.length * only.ring.length / (4.0 * PI);
                cloth(self.size, self.surface, faces) > BAG * circle || self.is_edge_of_brim(only)
            }
            _ => true,
        }
    }

    /// A hat with a brim has more cloth in it than its edge could hold, but not by much.
    fn is_edge_of_brim(&self, rim: &GarmentRim) -> bool {
        let WorkedSize { drawn, sewn, .. } = self.size;
        ring_in_brim(self.garment, drawn, sewn, self.surface, rim).is_some()
    }

    /// Whether it is stepped into by an edge that is open from hem to neck: sleeves and the like come in
    /// pairs, and there is but one other rim, a long one.
    fn is_open(&self, faces: &[FaceId], rims: &[&GarmentRim]) -> bool {
        let single = self.single(rims);
        let &[only] = single.as_slice() else { return false };
        rims.len() > 1
            && (self.corners(only) >= FRONT_CORNERS
                || only.ring.length > OPEN_FRONT * cloth(self.size, self.surface, faces).max(0.0).sqrt())
    }

    /// The rims of which there is no other like them: not a left and a right one.
    fn single<'r>(&self, rims: &[&'r GarmentRim]) -> Vec<&'r GarmentRim> {
        let mut words: IndexMap<String, (usize, &'r GarmentRim)> = IndexMap::new();
        for rim in rims {
            words.entry(self.words.words(rim)).or_insert((0, rim)).0 += 1;
        }
        words.into_values().filter(|(times, _)| *times == 1).map(|(_, rim)| rim).collect()
    }

    /// How many corners stick out of a rim.
    fn corners(&self, rim: &GarmentRim) -> usize {
        let parts = rim.ring.parts.iter();
        let sharp = |part: &&RimPart| {
            let angle = angle_at(
                &self.size.drawn,
                &self.size.sewn,
                self.surface,
                self.gluing,
                part.stretch,
                !part.against,
            );
            angle.is_some_and(|angle| angle < CORNER)
        };
        parts.filter(sharp).count()
    }

    /// `others` of them are spoken of.
    fn finding(&self, rims: &[&GarmentRim], others: bool) -> Option<Finding> {
        let garment = self.garment;
        let (passes, needed) = self.widest;
        let off = |rim: &GarmentRim| (rim.ring.opens() - needed).abs();
        // What the body goes through lies in the middle, not on the left and on the right.
        let mut likely = self.single(rims);
        if likely.is_empty() {
            likely = rims.to_vec();
        }
        let nearest = likely.into_iter().min_by(|one, other| off(one).total_cmp(&off(other)))?;
        // Into a hat the head goes where its brim is sewn on.
        let WorkedSize { drawn, sewn, .. } = self.size;
        let inside = ring_in_brim(garment, drawn, sewn, self.surface, nearest);
        let chain = self.words.chain(inside.as_deref().unwrap_or(&nearest.ring.parts));
        let advice = Diagnostic::new(
            &catalogue::OPENING_UNSAID,
            garment.heading,
            match others {
                true => "it has no closure, and nothing is said of what must go through its other openings",
                false => "it has no closure, and nothing is said of what must go through its openings",
            },
        )
        .label(format!("rims: {}", self.words.listed(rims)))
        .help(match passes == OPEN {
            true => format!(
                "say what must pass where, so that it is checked, with the body's measure that goes through: opening \
                 {chain}  passes …"
            ),
            false => {
                format!("say what must pass where, so that it is checked: opening {chain}  passes {passes}")
            }
        });
        Some(Finding::new(self.size.id(), 0.0, advice).about(chain))
    }
}
