//! `gap/place` of a gap in whose stretch something is caught: the seam that is to catch it is not sewn there.

use super::gap_at_end::{lies_where_it_is_said, open};
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Catcher, Garment, Seam, SeamId, StrapEnd};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::strap_place;
use crate::sewing::surface::{Join, StretchId, Surface};
use crate::source::Span;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::GAP_PLACE], run: Run::PerSize(run) };

/// A strap that begins no further than this inside a gap lies at its end, in millimetres.
const AT_END: f64 = 2.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref() else { return };
    for (id, seam) in SeamId::enumerate(&garment.seams) {
        // Where a gap lies that is not said, the sewer chooses: beside what is caught.
        let Some(gap) = seam.gaps.first().filter(|_| seam.gaps.iter().all(|gap| gap.at.is_some())) else {
            continue;
        };
        if !lies_where_it_is_said(garment, size, id) {
            continue;
        }
        let open: Vec<&Join> = open(surface, id).collect();
        let Some((name, by, span)) =
            ply(garment, size, surface, seam, &open).or_else(|| strap(garment, size, surface, id, &open))
        else {
            continue;
        };
        let title = Title::new(match by {
            Some(by) => format!(
                "{name} is caught where {} is left open, along {}",
                seam.words(),
                amount(by, garment.unit)
            ),
            None => format!("{name} is caught where {} is left open", seam.words()),
        });
        let mistake = Diagnostic::new(&catalogue::GAP_PLACE, gap.span, title.in_sizes())
            .label("not sewn here")
            .also(span, "to be caught here")
            .help("leave the gap beside it, or in another seam: what is caught is held by the machine, and not by slipstitches");
        findings.push(Finding::new(size.id(), by.unwrap_or(0.0), mistake).about(&*seam.name));
    }
}

/// A piece that is caught in a stretch that is left open, and along how much of it.
fn ply(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    seam: &Seam,
    open: &[&Join],
) -> Option<(String, Option<f64>, Span)> {
    let caught = || seam.first.iter().chain(&seam.second).filter(|chain| chain.over.is_some());
    for join in open {
        for ply in &join.plies {
            let piece = size.sewn.part(surface.face(surface.face_of(ply.stretch)).part).part.piece;
            let chain = caught().find(|chain| chain.edges.iter().any(|sewn| sewn.piece == piece));
            let long = surface.length(ply.stretch);
            if let Some(chain) = chain.filter(|_| long > AT_END) {
                return Some((words::piece(garment, piece), Some(long), chain.span));
            }
        }
    }
    None
}

/// A strap of which an end is caught there.
fn strap(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    seam: SeamId,
    open: &[&Join],
) -> Option<(String, Option<f64>, Span)> {
    let straps = garment.straps.iter().filter(|strap| !strap.poisoned);
    let ends =
        straps.flat_map(|strap| strap.runs.iter().flat_map(|run| run.ends()).map(move |end| (strap, end)));
    let mut caught = ends.filter(|(_, end)| end.caught == Some(Catcher::Seam(seam)));
    let (strap, end) = caught.find(|(_, end)| {
        open.iter().flat_map(|join| &join.plies).any(|ply| lies_on(garment, size, surface, end, ply.stretch))
    })?;
    Some((strap.name.to_string(), None, end.span))
}

/// Whether an end of a strap lies on a stretch, and not at its ends.
fn lies_on(garment: &Garment, size: &WorkedSize, surface: &Surface, end: &StrapEnd, id: StretchId) -> bool {
    let (own, side) = (surface.stretch(id), surface.side_of(id));
    let face = surface.face(own.face);
    let is_there = end.hand.zip(face.hand).is_none_or(|(one, other)| one == other)
        && end.layer.is_none_or(|layer| layer == face.layer);
    let Some((host, place)) = strap_place(garment, &size.drawn, end.point).filter(|_| is_there) else {
        return false;
    };
    let drawn = size.drawn.paper(size.sewn.part(side.part).part.paper);
    let Some(edge) =
        drawn.filter(|drawn| std::ptr::eq(*drawn, host)).and_then(|drawn| drawn.edge_at(side.edge))
    else {
        return false;
    };
    let near = edge.path.nearest(place);
    let share = near.at / edge.path.length().max(f64::MIN_POSITIVE);
    let along = if side.mirrored { 1.0 - share } else { share } * side.length;
    near.distance <= AT_END && own.from + AT_END < along && along < own.to - AT_END
}
