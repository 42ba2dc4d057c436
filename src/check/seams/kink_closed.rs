//! `seam/kink` and `hem/kink` across a closure: an edge that turns where a zip or hooks bring two edges together.

use super::kink::{Corner, MOST_TURN, Meeting, corner_of, edge_of, finding, run_on};
use crate::check::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{ClosureKind, EdgeId, Garment};
use crate::report::{Finding, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::Sewing;
use crate::sewing::surface::{StretchId, Surface};
use crate::syntax::tree::Fastener;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_KINK, &catalogue::HEM_KINK], run: Run::PerSize(run) };

/// A neck or a hem that turns by so much over a zip, in degrees, is cut in a V on purpose.
const ON_PURPOSE: f64 = 45.0;

/// What laps over hides where its edges meet.
fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let Some(surface) = sewing.surface.as_ref().filter(|surface| surface.twists.is_empty()) else { return };
    let mut ways: Vec<Option<bool>> = vec![None; sewing.parts.len()];
    let mut told: Vec<(EdgeId, EdgeId)> = Vec::new();
    for line in &surface.closures {
        let closure = garment.closure(line.closure);
        let is_edge_to_edge = match &closure.kind {
            Some(ClosureKind::Zipper { .. }) => true,
            Some(ClosureKind::Fasteners(said)) => said.kind == Fastener::Hook,
            None => false,
        };
        let [first, second] = &line.sides;
        if !is_edge_to_edge {
            continue;
        }
        // A stretch that begins a side begins where that does, or ends there where the side goes against it.
        let starts = first.first().zip(second.first()).map(|(one, other)| [*one, *other]);
        let turned = |(stretch, against): (StretchId, bool)| (stretch, !against);
        let ends = first.last().zip(second.last()).map(|(one, other)| [turned(*one), turned(*other)]);
        for pair in starts.into_iter().chain(ends) {
            let [Some(one), Some(other)] = pair
                .map(|(stretch, at_end)| beside(garment, sized, sewing, surface, stretch, at_end, &mut ways))
            else {
                continue;
            };
            let edges = [&one, &other].map(|corner| edge_of(sized, sewing, corner));
            let is_one_edge = edges[0] == edges[1];
            let turn = one.angle + other.angle - 180.0;
            let Some(is_hem) = run_on(garment, sewing, &one, &other, is_one_edge) else { continue };
            let [Some(edge), Some(other_edge)] = edges else { continue };
            if turn.abs() <= MOST_TURN || turn.abs() >= ON_PURPOSE || told.contains(&(edge, other_edge)) {
                continue;
            }
            told.push((edge, other_edge));
            let span = closure.first.span;
            let to =
                if matches!(closure.kind, Some(ClosureKind::Zipper { .. })) { "the zip" } else { "the edge" };
            let at = Meeting { name: closure.name.to_string(), span, words: "closed here", to };
            findings.extend(finding(garment, sized, sewing, &at, [&one, &other], turn, is_hem));
        }
    }
}

/// The corner at an end of a stretch, round its ring; none where the edge itself goes on there.
fn beside(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    surface: &Surface,
    stretch: StretchId,
    at_end: bool,
    ways: &mut [Option<bool>],
) -> Option<Corner> {
    let next = if at_end { surface.next(stretch) } else { surface.before(stretch) };
    let side = surface.side_of(stretch);
    if surface.stretch(next).side == surface.stretch(stretch).side || side.fold {
        return None;
    }
    // The ring goes along the mirrored half against its drawing.
    corner_of(garment, sized, sewing, side.part, side.edge, at_end == side.mirrored, ways)
}
