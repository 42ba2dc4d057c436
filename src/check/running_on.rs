//! `bind/runs-on`: bindings that run on, or make a loop, where they cannot.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Binding, Finish, FinishId, FinishKind, Garment};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::sewing::{RunsThrough, strap_place};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::BIND_RUNS_ON], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for (id, finish) in FinishId::enumerate(&garment.finishes) {
        let FinishKind::Bound(binding) = &finish.kind else { continue };
        if !binding.running_on.is_empty() {
            findings.extend(ring(garment, size, id, finish, binding));
        }
        if !binding.loops.is_empty() {
            findings.extend(no_corner(garment, size, finish, binding));
        }
    }
}

/// A ring has no end that a binding could run on beyond.
fn ring(
    garment: &Garment,
    size: &WorkedSize,
    id: FinishId,
    finish: &Finish,
    binding: &Binding,
) -> Option<Finding> {
    let channels = size.sewn.channels.as_ref()?;
    channels.iter().find(|channel| channel.of == RunsThrough::Binding(id) && channel.ring)?;
    let first = binding.running_on.first()?;
    let edges: Vec<String> = finish.edges.iter().map(|sewn| words::edge(garment, sewn.edge)).collect();
    let title =
        Title::new(format!("{} is bound all round, and has no end to run on from", words::listed(&edges)));
    let mistake = Diagnostic::new(&catalogue::BIND_RUNS_ON, first.length.span, title.in_sizes())
        .label("beyond which end?")
        .also(finish.span, "its edges meet in a ring")
        .help("leave running on out, or open the ring: name in it only the edges up to where the ties begin");
    Some(Finding::new(size.drawn.size, 1.0, mistake))
}

/// A loop is made at a corner of what is bound, or at a place on it.
fn no_corner(garment: &Garment, size: &WorkedSize, finish: &Finish, binding: &Binding) -> Vec<Finding> {
    let at_end = |at: &crate::garment::BindingLoop| {
        let (drawn, place) = strap_place(garment, &size.drawn, at.at)?;
        let bound = drawn
            .edges
            .iter()
            .filter(|edge| finish.edges.iter().any(|sewn| garment.is_run_of(edge.edge, sewn.edge)));
        if garment.is_placed_point(at.at) {
            return Some(bound.into_iter().any(|edge| edge.path.nearest(place).distance <= AT_CORNER));
        }
        let ends = bound.flat_map(|edge| [edge.path.start(), edge.path.end()]);
        Some(ends.into_iter().any(|end| end.distance(place) <= AT_CORNER))
    };
    let lost = binding.loops.iter().filter(|one| at_end(one) == Some(false));
    lost.map(|one| {
        let point = garment.point(one.at);
        let title = match garment.is_placed_point(one.at) {
            true => format!("the place {} is on no edge that is bound here", point.name),
            false => format!("no edge that is bound here ends at {}", point.name),
        };
        let title = Title::new(title);
        let mistake = Diagnostic::new(&catalogue::BIND_RUNS_ON, one.span, title.in_sizes())
            .label("no loop can be made here")
            .also(point.span, "this place")
            .help("name a corner at which one of the bound edges ends, or a place on one of them");
        Finding::new(size.drawn.size, 1.0, mistake).about(&*point.name)
    })
    .collect()
}

/// A place no further from a corner than this is there, in millimetres.
const AT_CORNER: f64 = 0.5;
