//! `seam/pinched`: a piece that is closed round by itself, taken in a row with others.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, SeamId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::seam_edges;
use crate::sewing::surface::{JoinedBy, PlyAt, StretchId, Surface};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_PINCHED], run: Run::PerForm(run) };

/// Both ends of an edge whose piece is closed beside it lie in one place, so that whatever is sewn along
/// it in a row with other edges would be drawn together there.
fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref() else { return };
    let is_row = |at: usize| {
        let sewn = size.sewn.seams.get(at);
        let plies = sewn.into_iter().flat_map(|sewn| sewn.first.plies.iter().chain(&sewn.second.plies));
        plies.into_iter().any(|ply| ply.runs.len() > 1)
    };
    let mut known: IdSet<(SeamId, SeamId)> = IdSet::default();
    for join in &surface.joins {
        let JoinedBy::Seam { seam, sewn, .. } = join.by else { continue };
        if !is_row(sewn) {
            continue;
        }
        // The end of a turned tube, as of a belt, is laid flat and caught.
        for ply in join.plies.iter().filter(|ply| ply.at != PlyAt::Caught) {
            let Some(closing) = closed_by(surface, ply.stretch).filter(|closing| *closing != seam) else {
                continue;
            };
            let part = size.sewn.part(surface.face(surface.face_of(ply.stretch)).part).part;
            let row = size.sewn.seams.get(sewn).into_iter();
            let mut plies = row.flat_map(|sewn| sewn.first.plies.iter().chain(&sewn.second.plies));
            // Together with others; by itself it is a ring, as a sleeve in its armhole.
            let is_with_others = plies.any(|ply| {
                let own = |run: &crate::sewing::SewnRun| size.sewn.part(run.part).part == part;
                let mut there = ply.runs.iter().filter(|run| !run.elsewhere);
                there.clone().any(own) && !there.all(own)
            });
            if is_with_others && known.insert((seam, closing)) {
                findings.push(reported(garment, size, seam, closing, part.piece));
            }
        }
    }
}

/// The seam that joins what lies on both sides of a stretch's side: its face is closed round there.
fn closed_by(surface: &Surface, stretch: StretchId) -> Option<SeamId> {
    let side = surface.stretch(stretch).side;
    let (first, last) = (surface.stretches_on(side).next()?, surface.stretches_on(side).last()?);
    let (before, after) = (surface.before(first), surface.next(last));
    let join = surface.stretch(before).join.filter(|join| surface.stretch(after).join == Some(*join))?;
    match (surface.join(join).by, surface.join(join).plies.len()) {
        (JoinedBy::Seam { seam, .. }, 2) if before != after => Some(seam),
        _ => None,
    }
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    seam: SeamId,
    closing: SeamId,
    piece: crate::garment::PieceId,
) -> Finding {
    let (seam, closing) = (garment.seam(seam), garment.seam(closing));
    let title = format!(
        "{} takes {} in a row with others, though {} closes each one round by itself",
        seam.words(),
        words::piece(garment, piece),
        closing.name
    );
    let span = seam_edges(seam).find(|sewn| sewn.piece == piece).map_or(seam.name_span, |sewn| sewn.span);
    let mistake = Diagnostic::new(&catalogue::SEAM_PINCHED, span, title)
        .label("both of its ends are one place")
        .also(closing.name_span, "sews its two sides together")
        .help(format!(
            "what lies in a row is joined each to the next: name an edge of its neighbour in {}",
            closing.name
        ));
    Finding::new(size.drawn.size, 0.0, mistake).about(&*seam.name)
}
