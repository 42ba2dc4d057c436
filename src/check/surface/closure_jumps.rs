//! `closure/jumps`: a zip on one side of the body that goes on from one edge to another that does not begin there.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, ClosureKind, Garment};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::sewing::surface::{StretchId, Surface};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::CLOSURE_JUMPS], run: Run::PerSize(run) };

/// An edge that lies between two of a zip's and is left out may be so long, in millimetres: an allowance that is
/// turned in, a narrow fold.
const LEFT_OUT: f64 = 20.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    for line in &surface.closures {
        let closure = garment.closure(line.closure);
        // Of both sides at once it does not matter which copy is called the left one.
        let mut edges = closure.first.edges.iter().chain(&closure.second.edges);
        let is_one_sided = edges.any(|sewn| sewn.on.is_some());
        if !is_one_sided || !matches!(closure.kind, Some(ClosureKind::Zipper { .. })) {
            continue;
        }
        for (side, chain) in line.sides.iter().zip([&closure.first, &closure.second]) {
            let jump = side.windows(2).find_map(|pair| match pair {
                [one, other] if !runs_on(surface, *one, *other) => Some((one.0, other.0)),
                _ => None,
            });
            let Some((from, to)) = jump else { continue };
            findings.extend(finding(garment, size, surface, &closure.name, chain, from, to));
            break;
        }
    }
}

/// Whether one stretch begins where the other ends, or a short edge lies between them.
fn runs_on(surface: &Surface, one: (StretchId, bool), other: (StretchId, bool)) -> bool {
    let ends = |(id, against): (StretchId, bool)| {
        let stretch = surface.stretch(id);
        if against { [stretch.end, stretch.start] } else { [stretch.start, stretch.end] }
    };
    let ([_, end], [start, _]) = (ends(one), ends(other));
    let is_between = |id: StretchId| {
        let stretch = surface.stretch(id);
        let both = [stretch.start, stretch.end];
        surface.length(id) <= LEFT_OUT && both.contains(&end) && both.contains(&start)
    };
    let beside = [one.0, other.0].map(|id| [surface.next(id), surface.before(id)]);
    end == start
        || surface.face_of(one.0) == surface.face_of(other.0)
        || beside.into_iter().flatten().any(is_between)
}

fn finding(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    name: &str,
    chain: &Chain,
    from: StretchId,
    to: StretchId,
) -> Option<Finding> {
    let edge = |stretch| size.sewn.edge_of(&size.drawn, surface, stretch).map(|(_, edge)| edge);
    let (from, to) = (edge(from)?, edge(to)?);
    let (one, other) = (words::edge(garment, from), words::edge(garment, to));
    let title =
        Title::new(format!("along {name}, {other} does not begin where {one} ends, as they are sewn"))
            .in_sizes();
    let named = |of| {
        let mut edges = chain.edges.iter();
        let own = edges.find(|sewn| garment.is_run_of(sewn.edge, of) || garment.is_run_of(of, sewn.edge));
        own.map_or(chain.span, |sewn| sewn.span)
    };
    let mistake = Diagnostic::new(&catalogue::CLOSURE_JUMPS, named(to), title)
        .label("does not begin there")
        .also(named(from), "goes on from here")
        .help(
            "name the edges as they run on in one another, or say by matching in the seam between them which \
             ends meet",
        );
    Some(Finding::new(size.id(), 0.0, mistake).about(name))
}
