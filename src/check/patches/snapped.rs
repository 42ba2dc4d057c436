//! `closure/out-of-reach`: the halves of buttons and snaps on a flap that is placed and on what lies under it, which do not lie on one
//! another.

use crate::check::surface::laps;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, Closure, ClosureId, ClosureKind, Garment, PaperId};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::PartId;
use crate::sewing::patches::Patch;
use crate::shape::{Affine, Point};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::CLOSURE_OUT_OF_REACH], run: Run::PerSize(run) };

/// What is in a pocket lets its flap hang lower or higher by so much, in millimetres.
const EASE: f64 = 20.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if size.drawn.placed.is_empty() || garment.closures.is_empty() {
        return;
    }
    let patches = Patch::all(garment, &size.drawn);
    if !patches.iter().any(Patch::hangs) {
        return;
    }
    for (id, closure) in ClosureId::enumerate(&garment.closures) {
        let Some(ClosureKind::Fasteners(said)) = &closure.kind else { continue };
        if laps(said) {
            findings.extend(of_flap(garment, size, &patches, (id, closure)));
        }
    }
}

fn of_flap(
    garment: &Garment,
    size: &WorkedSize,
    patches: &[Patch],
    (id, closure): (ClosureId, &Closure),
) -> Option<Finding> {
    let chains = [&closure.first, &closure.second];
    let own = |chain: &Chain| {
        let piece = chain.edges.first()?.piece;
        let mut alike = patches.iter().filter(|patch| patch.placement.piece == piece);
        // Of what is placed in several places nobody knows which is meant.
        alike.next().filter(|_| alike.next().is_none())
    };
    let [one, other] = chains.map(own);
    let hung = [one, other].into_iter().flatten().find(|patch| patch.hangs())?;
    let is_flat = |patch: Option<&Patch>| {
        patch.is_none_or(|patch| garment.piece(patch.placement.piece).folds.is_empty())
    };
    if !is_flat(one) || !is_flat(other) {
        return None;
    }
    let on = hung.placed.on;
    let [first, second] = [(chains[0], one), (chains[1], other)].map(|(chain, patch)| {
        places(garment, size, (id, chain), patch, on).filter(|places| !places.is_empty())
    });
    let (first, second) = (first?, second?);
    let away =
        |at: &Point, all: &[Point]| all.iter().map(|there| there.distance(*at)).fold(f64::INFINITY, f64::min);
    let apart = first.iter().map(|at| away(at, &second)).fold(0.0, f64::max);
    if apart <= EASE {
        return None;
    }
    let by = amount(apart, garment.unit);
    let [flap, under] = match one.is_some_and(|patch| patch.id == hung.id) {
        true => [chains[0], chains[1]],
        false => [chains[1], chains[0]],
    };
    let name =
        |chain: &Chain| chain.edges.first().map_or(String::new(), |sewn| words::piece(garment, sewn.piece));
    let title = Title::new(format!(
        "the two sides of {} lie {by} apart where {} hangs over {}",
        closure.name,
        name(flap),
        name(under)
    ))
    .in_sizes();
    let mistake = Diagnostic::new(&catalogue::CLOSURE_OUT_OF_REACH, flap.span, title)
        .label("on the flap")
        .also(under.span, format!("{by} from there"))
        .also(hung.placement.span, "where it hangs")
        .help(format!(
            "move one of the rows by {by}, so that both lie on one another where the flap hangs down"
        ));
    Some(Finding::new(size.id(), apart, mistake).about(&*closure.name).figure("apart", by))
}

/// Where the fasteners of one side of a closure lie on a paper, as what bears them is placed there.
fn places(
    garment: &Garment,
    size: &WorkedSize,
    (closure, chain): (ClosureId, &Chain),
    patch: Option<&Patch>,
    on: PaperId,
) -> Option<Vec<Point>> {
    let to = match patch {
        Some(patch) => Some(patch).filter(|patch| patch.placed.on == on).and_then(moved)?,
        None => Affine::IDENTITY,
    };
    let is_named = |edge| chain.edges.iter().any(|sewn| garment.is_run_of(edge, sewn.edge));
    let mut found = Vec::new();
    for (_, sewn) in PartId::enumerate(&size.sewn.parts).filter(|(_, part)| !part.fused) {
        if patch.is_none() && sewn.part.paper != on {
            continue;
        }
        let Some(drawn) = size.drawn.paper(sewn.part.paper) else { continue };
        let lines = || drawn.lines.iter().filter(|line| is_named(line.edge));
        let own = sewn.fasteners.iter().filter(|place| place.closure == closure).map(|place| place.at);
        found.extend(
            own.filter(|at| lines().any(|line| line.path.nearest(*at).distance < 1.0)).map(|at| to * at),
        );
    }
    Some(found)
}

/// How a patch is moved and turned from its own paper onto the other.
fn moved(patch: &Patch) -> Option<Affine> {
    let (edge, placed) = patch.placed.edges.first()?;
    let own = &patch.own.edge(*edge)?.path;
    let (before, after) = (own.end() - own.start(), placed.end() - placed.start());
    let angle = libm::atan2(before.cross(after), before.dot(after));
    let (sine, cosine) = libm::sincos(angle);
    let turn = Affine::new([cosine, sine, -sine, cosine, 0.0, 0.0]);
    Some(Affine::translate(placed.start().to_vec2()) * turn * Affine::translate(-own.start().to_vec2()))
}
