//! `seam/matching` of corners that do not come together though they are matched, since another line matches one of them
//! otherwise.

use super::braces::Looking;
use super::matched_off::{self, matched_inside, matched_off};
use super::runs::is_at;
use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::few::Few;
use crate::garment::{Garment, Seam, SewnPoint, SewnSpot};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::SewnSeam;
use crate::sewing::surface::{SideId, Surface};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_MATCHING], run: Run::PerForm(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let Some(surface) = surface else { return };
    for all in size.sewn.seams.chunk_by(|one, other| one.seam == other.seam) {
        let Some(seam) = all.first().map(|sewn| garment.seam(sewn.seam)) else { continue };
        // A corner beside the run on which an edge is caught is told by itself.
        let is_told = || all.iter().any(|sewn| matched_off(garment, size, sewn).is_some());
        let inside = |pair| {
            all.iter()
                .filter(|sewn| !sewn.ring)
                .find_map(|sewn| Some((sewn, matched_inside(garment, size, sewn, pair)?)))
        };
        // Where nothing else is matched, only what lies inside a side can be kept from meeting.
        let may_be_apart = match seam.matching.as_slice() {
            [] => false,
            [only] => inside(only).is_some(),
            _ => true,
        };
        if !may_be_apart || is_told() {
            continue;
        }
        let meets = |pair: &(SewnPoint, SewnPoint)| {
            let each = all.iter().filter(|sewn| !is_caught(sewn)).filter_map(|sewn| {
                let [one, other] =
                    [&pair.0, &pair.1].map(|point| vertices(garment, size, surface, sewn, point));
                let is_there = !one.is_empty() && !other.is_empty();
                is_there.then(|| one.iter().any(|vertex| other.contains(vertex)))
            });
            each.reduce(|one, other| one || other)
        };
        let apart = seam.matching.iter().find(|pair| meets(pair) == Some(false));
        let Some(apart) = apart else { continue };
        let kept = seam.matching.iter().find(|pair| meets(pair) == Some(true));
        let looking = Looking { garment, sized: &size.drawn, sewing: &size.sewn, seam, all };
        match kept {
            Some(kept) => findings.push(reported(garment, size, seam, apart, kept)),
            None if looking.is_told_apart(apart) => {}
            // Nothing else says otherwise, and it is not obeyed: it cannot be.
            None => findings
                .extend(inside(apart).map(|(sewn, off)| matched_off::reported(garment, size, sewn, &off))),
        }
    }
}

/// Whether a ply lies on a part of another one: it goes the way of that, in whose middle its corners may be.
fn is_caught(sewn: &SewnSeam) -> bool {
    let mut runs =
        [&sewn.first, &sewn.second].into_iter().flat_map(|side| &side.plies).flat_map(|ply| &ply.runs);
    runs.any(|run| run.elsewhere)
}

/// The places of the sewn garment where a corner of a seam's edges comes, over all copies.
fn vertices(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    sewn: &SewnSeam,
    point: &SewnPoint,
) -> Few<u32> {
    let mut found = Few::new();
    for run in sewn.first.plies.iter().chain(&sewn.second.plies).flat_map(|ply| &ply.runs) {
        for is_end in [false, true] {
            if !is_at(garment, size, (run, is_end), point) {
                continue;
            }
            let at_end = is_end != run.reversed;
            let own = surface.face_ids().filter(|&face| !surface.face(face).flap);
            let is_own = |side: &SideId| {
                let side = surface.side(*side);
                side.part == run.part && side.edge == run.edge
            };
            for side in own.flat_map(|face| surface.sides_of(face)).filter(is_own) {
                // A ring goes along a mirrored side against its drawing.
                let mut stretches = surface.stretches_on(side);
                let vertex = match at_end != surface.side(side).mirrored {
                    true => stretches.last().map(|stretch| surface.stretch(stretch).end),
                    false => stretches.next().map(|stretch| surface.stretch(stretch).start),
                };
                if let Some(vertex) = vertex {
                    found.push(vertex);
                }
            }
        }
    }
    found
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    seam: &Seam,
    apart: &(SewnPoint, SewnPoint),
    kept: &(SewnPoint, SewnPoint),
) -> Finding {
    let name = |point: &SewnPoint| match point.point {
        SewnSpot::Point(point) => {
            let point = garment.point(point);
            format!("{}.{}", garment.piece(point.piece).name, point.name)
        }
        SewnSpot::RunEnd { run, far } => {
            let edge = garment.edge(run);
            format!("{}.{}.{}", garment.piece(edge.piece).name, edge.name, if far { "far" } else { "near" })
        }
    };
    let word = |(one, other): &(SewnPoint, SewnPoint)| format!("matching {} with {}", name(one), name(other));
    let title = format!(
        "{} and {} do not meet in {} as it is matched otherwise",
        name(&apart.0),
        name(&apart.1),
        seam.words()
    );
    let mistake = Diagnostic::new(&catalogue::SEAM_MATCHING, apart.0.span.to(apart.1.span), title)
        .label("is not so then")
        .also(kept.0.span.to(kept.1.span), "lays the seam another way round")
        .help(format!("keep one of them: {}, or {}", word(kept), word(apart)));
    Finding::new(size.drawn.size, 0.0, mistake).about(&*seam.name)
}
