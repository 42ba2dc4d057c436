//! `finish/runs-on`: a finished edge that runs on over a seam into one that is finished otherwise.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Catcher, FinishId, FinishKind, Garment, HemEdge};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, amount, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::surface::{Gluing, RimPart, StretchId, Surface};
use crate::sewing::{Sewing, amount_of};
use crate::shape::outline::is_anticlockwise;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::FINISH_RUNS_ON], run: Run::PerSize(run) };

/// An edge that turns by no more than this over a seam, in degrees, runs on; by more it is a corner.
pub(super) const RUNS_ON: f64 = 45.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    // Where the cloth is twisted, so are its rims.
    let Some(surface) = sewing.surface.as_ref().filter(|surface| surface.twists.is_empty()) else { return };
    let gluing = &size.sewn.gluing;
    let mut reported: IdSet<(FinishId, FinishId)> = IdSet::default();
    for rim in gluing.rims(surface) {
        for (at, part) in rim.parts.iter().enumerate() {
            let Some(next) = rim.parts.get((at + 1) % rim.parts.len()) else { continue };
            let (one, other) = (surface.stretch(part.stretch), surface.stretch(next.stretch));
            let (Some(first), Some(second)) = (one.finish, other.finish) else { continue };
            if first == second || surface.face_of(part.stretch) == surface.face_of(next.stretch) {
                continue;
            }
            // A folded band has ends of its own: a slit's hem stops at its cuff.
            if surface.face(one.face).flap != surface.face(other.face).flap {
                continue;
            }
            let (in_one_layer, of_one_drawing) = together(sewing, garment, surface, [part, next]);
            // A lining is hemmed shorter than the facing beside it, which lies in the layer of what both lie on.
            let hemmed = |at: FinishId| matches!(garment.finish(at).kind, FinishKind::Hem(_));
            if hemmed(first) && hemmed(second) && !in_one_layer && of_one_drawing {
                continue;
            }
            let (Some((word, depths)), Some((other_word, other_depths))) =
                (finish(garment, sized, first), finish(garment, sized, second))
            else {
                continue;
            };
            // A flat edge runs on into a turned one where the cloth bends round: a facing's into the hem.
            let flat =
                |at: FinishId| matches!(garment.finish(at).kind, FinishKind::Overlocked | FinishKind::Raw);
            let meets_flat = flat(first) || flat(second);
            let is_told = (hemmed(first) || hemmed(second)) && in_one_layer && !of_one_drawing;
            if meets_flat && !is_told {
                continue;
            }
            let same = depths.len() == other_depths.len()
                && depths
                    .iter()
                    .zip(&other_depths)
                    .all(|(one, other)| (one - other).abs() <= garment.tolerance);
            if (word == other_word && same)
                || !is_run_on(sized, sewing, surface, gluing, part.stretch, !part.against)
                || !reported.insert((first.min(second), first.max(second)))
            {
                continue;
            }
            let edges = [part.stretch, next.stretch]
                .map(|stretch| edge_words(garment, sized, sewing, surface, stretch));
            let said = |word: &str, depths: &[f64]| {
                let depths: Vec<String> = depths.iter().map(|&depth| amount(depth, garment.unit)).collect();
                if depths.is_empty() {
                    word.to_owned()
                } else {
                    format!("{word} of {}", depths.join(" and "))
                }
            };
            let (one_said, other_said) = (said(word, &depths), said(other_word, &other_depths));
            let [Some(one_edge), Some(other_edge)] = edges else { continue };
            let title =
                format!("{one_edge} has {one_said}, and runs on into {other_edge}, which has {other_said}");
            let (first, second) = (garment.finish(first), garment.finish(second));
            let warning = Diagnostic::new(&catalogue::FINISH_RUNS_ON, second.kind_span, title)
                .label(other_said)
                .also(first.kind_span, one_said)
                .help("finish an edge in one way all along, over the seams that cross it");
            findings.push(Finding::new(sized.size, 0.0, warning));
        }
    }
}

/// Whether two stretches of a rim lie in one layer, and whether on pieces that were drawn as one.
fn together(sewing: &Sewing, garment: &Garment, surface: &Surface, parts: [&RimPart; 2]) -> (bool, bool) {
    let [one, next] = parts.map(|part| surface.face(surface.face_of(part.stretch)));
    let origins = |part| garment.origins(sewing.part(part).part.piece);
    let others = origins(next.part);
    (one.layer == next.layer, origins(one.part).iter().any(|origin| others.contains(origin)))
}

/// What a finish is called, and how deep or wide it is.
fn finish(garment: &Garment, sized: &SizedGarment, at: FinishId) -> Option<(&'static str, Vec<f64>)> {
    let depths = |all: &[&crate::garment::Expression]| -> Option<Vec<f64>> {
        all.iter().map(|depth| amount_of(garment, sized, depth)).collect()
    };
    Some(match &garment.finish(at).kind {
        FinishKind::Hem(hem) => {
            let word = match (&hem.raw_edge, &hem.turn_up) {
                (HemEdge::TurnedOnce, None) => "a hem",
                (HemEdge::TurnedUnder(_), None) => "a hem turned under",
                (HemEdge::TurnedTwice, None) => "a hem turned twice",
                (HemEdge::TurnedOnce, Some(_)) => "a hem with a turn-up",
                (HemEdge::TurnedUnder(_), Some(_)) => "a hem turned under with a turn-up",
                (HemEdge::TurnedTwice, Some(_)) => "a hem turned twice with a turn-up",
            };
            (word, depths(&hem.amounts().collect::<Vec<_>>())?)
        }
        FinishKind::Bound(binding) => ("a binding", depths(&[&binding.width])?),
        FinishKind::Casing(depth, _) => ("a casing", depths(&[depth])?),
        FinishKind::Elastic(width, _) => ("elastic", depths(&[width])?),
        FinishKind::Tape(width) => ("tape", depths(&width.iter().collect::<Vec<_>>())?),
        FinishKind::TurnedUnderOnto(Catcher::Seam(_)) => ("an edge turned under onto a seam", Vec::new()),
        FinishKind::TurnedUnderOnto(Catcher::Closure(_)) => ("an edge turned under onto a zip", Vec::new()),
        FinishKind::Overlocked => ("an overlocked edge", Vec::new()),
        FinishKind::Raw => ("a raw edge", Vec::new()),
        FinishKind::Poison => return None,
    })
}

/// Whether the rim goes straight on there: the cloth's angles round the vertex add up to a half turn.
fn is_run_on(
    sized: &SizedGarment,
    sewing: &Sewing,
    surface: &Surface,
    gluing: &Gluing,
    stretch: StretchId,
    at_end: bool,
) -> bool {
    let angle = angle_at(sized, sewing, surface, gluing, stretch, at_end);
    angle.is_some_and(|sum| (sum - 180.0).abs() <= RUNS_ON)
}

/// The angle of all the cloth round an end of a rim's stretch, in degrees; none at a fold.
pub(super) fn angle_at(
    sized: &SizedGarment,
    sewing: &Sewing,
    surface: &Surface,
    gluing: &Gluing,
    stretch: StretchId,
    at_end: bool,
) -> Option<f64> {
    let corners = gluing.corners(surface, stretch, at_end);
    corners.iter().map(|&corner| angle(sized, sewing, surface, corner)).sum()
}

/// The angle of the cloth where a stretch begins, in degrees.
pub(in crate::check) fn angle(
    sized: &SizedGarment,
    sewing: &Sewing,
    surface: &Surface,
    stretch: StretchId,
) -> Option<f64> {
    let (own, before) = (surface.stretch(stretch), surface.before(stretch));
    if own.side == surface.stretch(before).side && own.from > 0.0 {
        return Some(180.0);
    }
    let (side, before) = (surface.side_of(stretch), surface.side_of(before));
    if side.fold || before.fold {
        return None;
    }
    let part = sewing.part(side.part).part;
    let drawn = sized.papers.get(part.paper.index()).and_then(Option::as_deref)?;
    // The drawn corner at the end of the side before, along the ring.
    let after = if before.mirrored { before.edge } else { drawn.after(before.edge) };
    let arriving = drawn.edge_at(drawn.before(after))?.path.tangent_at_end()?;
    let leaving = drawn.edge_at(after)?.path.tangent_at_start()?;
    let turn = libm::atan2(arriving.cross(leaving), arriving.dot(leaving)).to_degrees();
    let is_left = is_anticlockwise(drawn.edges.iter().map(|edge| &edge.path));
    let angle = 180.0 - if is_left { turn } else { -turn };
    // Over the fold of a half it is there twice.
    Some(if side.mirrored == before.mirrored { angle } else { 2.0 * angle })
}

fn edge_words(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    surface: &Surface,
    stretch: StretchId,
) -> Option<String> {
    sewing.edge_of(sized, surface, stretch).map(|(_, edge)| words::edge(garment, edge))
}
