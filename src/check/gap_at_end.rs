//! `gap/end`: a gap for turning that runs out to the end of its seam, where another seam is sewn across.

use super::surface::is_caught;
use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, SeamId};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::surface::{Join, JoinedBy, StretchId, Surface};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::GAP_END], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref() else { return };
    for (id, seam) in SeamId::enumerate(&garment.seams) {
        let is_placed = seam.gaps.iter().all(|gap| gap.at.is_some());
        let Some(gap) = seam.gaps.first().filter(|_| is_placed && lies_where_it_is_said(garment, size, id))
        else {
            continue;
        };
        // What is caught in the seam has other edges of its own beside it.
        let is_of_seam = |stretch: StretchId| {
            let piece = size.sewn.part(surface.face(surface.face_of(stretch)).part).part.piece;
            !is_caught(garment, surface, stretch, piece)
        };
        let mut crossed = open(surface, id).filter_map(|join| crossed_by(surface, id, join, &is_of_seam));
        let Some(other) = crossed.next() else { continue };
        let across = garment.seam(other);
        let title =
            format!("the gap in {} runs out to its end, where {} crosses it", seam.words(), across.words());
        let advice = Diagnostic::new(&catalogue::GAP_END, gap.span, title)
            .label("open to the very end")
            .also(across.name_span, "sewn across there")
            .help("let it begin 2 to 3 cm further in, and sew these first: leaving gap 3..15 from the same point");
        findings.push(Finding::new(size.id(), 0.0, advice).about(&*seam.name));
    }
}

/// Whether all gaps of a seam lie where they are said to; of others that is told. Where its sides do not match, which is told too,
/// nobody knows where on them a gap comes to lie.
pub(super) fn lies_where_it_is_said(garment: &Garment, size: &WorkedSize, seam: SeamId) -> bool {
    let mut own = size.sewn.seams.iter().filter(|sewn| sewn.seam == seam);
    own.all(|sewn| {
        let [first, second] =
            [&sewn.first, &sewn.second].map(|side| side.plies.first().map_or(0.0, |ply| ply.length));
        let matches = sewn.fit.is_some() || (first - second).abs() <= garment.tolerance;
        matches && sewn.gaps.iter().all(|gap| gap.at.is_ok())
    })
}

/// Where a seam is left open.
pub(super) fn open(surface: &Surface, wanted: SeamId) -> impl Iterator<Item = &Join> {
    let is_own = move |join: &&Join| matches!(join.by, JoinedBy::Seam { seam, .. } if seam == wanted);
    surface.joins.iter().filter(|join| join.gap).filter(is_own)
}

/// The seam that takes the next edge at an end of a stretch that is left open.
fn crossed_by(
    surface: &Surface,
    own: SeamId,
    join: &Join,
    is_of_seam: &dyn Fn(StretchId) -> bool,
) -> Option<SeamId> {
    let mut beside = join
        .plies
        .iter()
        .filter(|ply| is_of_seam(ply.stretch))
        .flat_map(|ply| [surface.before(ply.stretch), surface.next(ply.stretch)].map(|next| (ply, next)))
        .filter(|(ply, next)| surface.stretch(*next).side != surface.stretch(ply.stretch).side);
    beside.find_map(|(_, next)| match surface.join(surface.stretch(next).join?).by {
        JoinedBy::Seam { seam, .. } if seam != own => Some(seam),
        _ => None,
    })
}
