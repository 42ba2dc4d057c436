//! `opening/narrow`: a sleeve into which no arm goes, where it is set in.

use super::narrow_limb::{ROUND_THE_ARMS, arm};
use super::seam_at_shoulder::Tube;
use super::trunk::drawn_to_any;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, PieceId};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::sewing::give_along;
use crate::sewing::surface::{JoinedBy, StretchId, Surface};
use crate::shape::path::Path;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::OPENING_NARROW], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let (Some(surface), Some((needed, why))) = (surface, arm(garment, size)) else { return };
    let mut told: Vec<PieceId> = Vec::new();
    for face in surface.face_ids() {
        let part = size.sewn.part(surface.face(face).part).part;
        let Some(drawn) = size.drawn.paper(part.paper) else { continue };
        if drawn.cut != CutHow::Mirrored || told.contains(&part.piece) {
            continue;
        }
        let Some(tube) =
            Tube::of(surface, face).filter(|tube| is_set_into_body(garment, size, surface, tube))
        else {
            continue;
        };
        let ends = [tube.round.first(), tube.round.last()];
        let [Some(start), Some(end)] = ends.map(|stretch| stretch.copied()) else { continue };
        let place = |at, share| surface.on_paper(&size.drawn, &size.sewn.parts, at, share);
        let (Some(start), Some(end)) = (place(start, 0.0), place(end, 1.0)) else { continue };
        // What may stretch by nobody knows how much is not held against anything.
        let across = Path::straight(start, end);
        let Some(share) = give_along(garment, &size.drawn, &part, &across).share() else { continue };
        let round = start.distance(end) * (1.0 + share);
        if round <= 0.0 || round >= needed - garment.tolerance {
            continue;
        }
        told.push(part.piece);
        let name = words::piece(garment, part.piece);
        let is = amount(round, garment.unit);
        let title =
            Title::new(format!("{name} is {is} round where it is set in: no arm goes through")).in_sizes();
        let advice = Diagnostic::new(&catalogue::OPENING_NARROW, garment.piece(part.piece).span, title)
            .label(why.clone())
            .help(format!(
                "make it at least {} wider between the ends of its own seam: look at the points that it is drawn to",
                at_least(needed - round, garment.unit)
            ));
        findings.push(Finding::new(size.id(), needed - round, advice).about(name).figure("round", is));
    }
}

/// Whether a tube is sewn to a piece of the body: one that lies across the middle and is drawn round the arms. What is folded
/// flat, or caught in a seam of others, is a strap or a tab.
pub(super) fn is_set_into_body(garment: &Garment, size: &WorkedSize, surface: &Surface, tube: &Tube) -> bool {
    let own = size.sewn.part(surface.face(tube.face).part).part.piece;
    if !garment.piece(own).folds.is_empty() {
        return false;
    }
    tube.round.iter().filter(|&&stretch| !is_caught(garment, surface, stretch, own)).any(|&stretch| {
        let plies = surface.stretch(stretch).join.map(|join| &surface.join(join).plies);
        let others = plies.into_iter().flatten().map(|ply| surface.face_of(ply.stretch));
        others.filter(|face| *face != tube.face).any(|face| {
            let part = size.sewn.part(surface.face(face).part).part;
            let cut = size.drawn.paper(part.paper).map(|drawn| drawn.cut);
            matches!(cut, Some(CutHow::OnFold(_)))
                && !drawn_to_any(garment, &garment.origins(part.piece), &ROUND_THE_ARMS).is_empty()
        })
    })
}

/// Whether a stretch of a piece is only caught in a seam that others are sewn by.
pub(in crate::check) fn is_caught(
    garment: &Garment,
    surface: &Surface,
    stretch: StretchId,
    piece: PieceId,
) -> bool {
    let join = surface.stretch(stretch).join.map(|join| surface.join(join));
    let Some(JoinedBy::Seam { seam, .. }) = join.map(|join| join.by) else { return false };
    let seam = garment.seam(seam);
    let mut caught = seam.first.iter().chain(&seam.second).filter(|chain| chain.over.is_some());
    caught.any(|chain| chain.edges.iter().any(|sewn| sewn.piece == piece))
}
