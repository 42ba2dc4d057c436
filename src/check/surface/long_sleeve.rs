//! `length/out-of-use`: a sleeve that is far longer than the arm it is drawn to.

use super::narrow_limb::ROUND_THE_ARMS;
use super::narrow_sleeve::is_set_into_body;
use super::seam_at_shoulder::Tube;
use super::trunk::drawn_to_any;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, PieceId, Value, ValueId, ValueKind};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::surface::{FaceId, StretchId, Surface};
use crate::shape::outline::extents;
use crate::shape::path::Path;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::LENGTH_OUT_OF_USE], run: Run::PerSize(run) };

/// What the length of an arm is called, from the shoulder bone to the wrist.
const ARM: [&str; 4] = ["arm", "arm_length", "sleeve", "sleeve_length"];
/// It is at least this share of the girth of the chest; the girth of an upper arm is less (common proportions: 0.6 and 0.3).
const IS_LENGTH: f64 = 0.45;
/// The fullest sleeve that is gathered into a cuff is a fifth longer than the arm (common practice); so many times it none is.
const MOST: f64 = 1.4;
/// Where no row of the body says how long an arm is, it is no longer than this, from the neck to the wrist, in millimetres
/// (common size tables: some 95 cm of the tallest).
const LONGEST: f64 = 1000.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let girth = |wanted: &[&str]| {
        let is_it =
            |value: &Value| matches!(value.kind, ValueKind::Body(_)) && wanted.contains(&&*value.name);
        let (id, value) = ValueId::enumerate(&garment.values).find(|(_, value)| is_it(value))?;
        Some((value, size.drawn.scalar(id).filter(|is| *is > 0.0)?))
    };
    let Some((_, round)) = girth(&ROUND_THE_ARMS) else { return };
    let arm = girth(&ARM).filter(|(_, long)| *long >= IS_LENGTH * round);
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let Some(surface) = surface.filter(|_| arm.is_some() || girth(&ARM).is_none()) else { return };
    let long = arm.map_or(LONGEST, |(_, long)| long);
    let mut told: Vec<PieceId> = Vec::new();
    for face in surface.face_ids() {
        let part = size.sewn.part(surface.face(face).part).part;
        let Some(drawn) = size.drawn.paper(part.paper).filter(|_| !told.contains(&part.piece)) else {
            continue;
        };
        let is_drawn_to = || !drawn_to_any(garment, &garment.origins(part.piece), &ARM).is_empty();
        let paths: Vec<Path> = drawn.edges.iter().map(|edge| edge.path.clone()).collect();
        let Some(height) = extents(&paths).map(|at| at.height()).filter(|height| *height > MOST * long)
        else {
            continue;
        };
        let is_sleeve =
            || Tube::of(surface, face).is_some_and(|tube| is_set_into_body(garment, size, surface, &tube));
        let is_one = match arm {
            Some(_) => is_drawn_to() && is_sleeve(),
            None => is_sleeve() || is_raglan(garment, size, surface, face),
        };
        if !is_one {
            continue;
        }
        told.push(part.piece);
        let name = words::piece(garment, part.piece);
        let [is, has] = [height, long].map(|mm| amount(mm, garment.unit));
        let title = match arm {
            Some(_) => format!("{name} is {is} long, for an arm of {has}"),
            None => format!("{name} is {is} long, and no arm is longer than {has}"),
        };
        let warning = Diagnostic::new(
            &catalogue::LENGTH_OUT_OF_USE,
            garment.piece(part.piece).span,
            Title::new(title).in_sizes(),
        )
        .label(format!("hangs {} beyond the hand or more", amount(height - long, garment.unit)))
        .help("look at the points that it is drawn to, and at their figures: a sleeve set in at the shoulder is about as long as the arm");
        let warning = match arm {
            Some((arm, _)) => warning.also(arm.span, has.clone()),
            None => warning,
        };
        findings.push(
            Finding::new(size.id(), height - long, warning).about(name).figure("long", is).figure("arm", has),
        );
    }
}

/// Whether one of a pair is closed round by a seam of its own, and hangs on the body by more than one seam, as a sleeve does that
/// goes up to the neck.
fn is_raglan(garment: &Garment, size: &WorkedSize, surface: &Surface, face: FaceId) -> bool {
    let partners = |stretch: StretchId| {
        let join = surface.stretch(stretch).join.map(|join| surface.join(join));
        let plies = join.into_iter().flat_map(|join| &join.plies).map(|ply| ply.stretch);
        plies.filter(move |&other| other != stretch)
    };
    let side = |stretch: StretchId| surface.stretch(stretch).side;
    let is_body = |other: StretchId| {
        let part = size.sewn.part(surface.face(surface.face_of(other)).part).part;
        let cut = size.drawn.paper(part.paper).map(|drawn| drawn.cut);
        matches!(cut, Some(CutHow::OnFold(_)))
            && !drawn_to_any(garment, &garment.origins(part.piece), &ROUND_THE_ARMS).is_empty()
    };
    let closes = |own: StretchId| {
        partners(own).any(|other| surface.face_of(other) == face && side(other) != side(own))
    };
    let mut own = surface.stretches_of(face);
    surface.face(face).hand.is_some()
        && surface.stretches_of(face).any(closes)
        && own.any(|stretch| partners(stretch).any(is_body))
}
