//! `closure/out-of-reach`: the halves of buttons and snaps on a flap that is placed and on what lies under it, which do not lie on one
//! another.

use crate::check::over_cloth::OverCloth;
use crate::check::surface::laps;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, Closure, ClosureId, ClosureKind, Garment, PaperId};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::PartId;
use crate::sewing::patches::Patch;
use crate::sewing::surface::FaceId;
use crate::shape::outline::extents;
use crate::shape::{Affine, Point};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::CLOSURE_OUT_OF_REACH], run: Run::PerSize(run) };

/// What is in a pocket lets its flap hang lower or higher by so much, in millimetres.
const EASE: f64 = 20.0;
/// The same of a flap that is folded double, in millimetres: its fold hangs lower than its edges are stitched.
const EASE_OF_FOLD: f64 = 30.0;
/// Farther from one another over the cloth than this, and twice as long as the flap is, two places never meet, in millimetres.
const REACH: f64 = 150.0;

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
    if let [Some(one), Some(other)] = [one, other]
        && one.placed.on != other.placed.on
    {
        return on_two_pieces(garment, size, (id, closure), [one, other]);
    }
    let is_folded = [one, other].into_iter().flatten().any(Patch::is_folded);
    let on = hung.placed.on;
    let [first, second] = [(chains[0], one), (chains[1], other)].map(|(chain, patch)| {
        places(garment, size, (id, chain), patch, on).filter(|places| !places.is_empty())
    });
    let (first, second) = (first?, second?);
    // Up and down the contents of a pocket make room; to the side nothing does.
    let apart = |one: &Point, other: &Point| {
        let by = *one - *other;
        (by.hypot(), by.y.abs() <= if is_folded { EASE_OF_FOLD } else { EASE } && by.x.abs() <= EASE)
    };
    let nearest = |at: &Point| {
        let all = second.iter().map(|there| apart(at, there));
        all.min_by(|one, other| one.0.total_cmp(&other.0))
    };
    let far = first.iter().filter_map(nearest).filter(|(_, is_near)| !is_near);
    let apart = far.map(|(by, _)| by).max_by(f64::total_cmp).filter(|by| *by > EASE)?;
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
        for at in own.filter(|at| lines().any(|line| line.path.nearest(*at).distance < 1.0)) {
            found.push(match patch {
                Some(patch) => patch.as_folded(garment, to * at)?,
                None => to * at,
            });
        }
    }
    Some(found)
}

/// A flap and what it is to be closed on, which are placed on two pieces: how far these two places are apart over the cloth.
fn on_two_pieces(
    garment: &Garment,
    size: &WorkedSize,
    (id, closure): (ClosureId, &Closure),
    patches: [&Patch; 2],
) -> Option<Finding> {
    let over = OverCloth::new(garment, size, size.sewn.surface.as_ref()?);
    let chains = [&closure.first, &closure.second];
    let [first, second] = [0, 1].map(|side: usize| -> Option<Vec<(FaceId, Point)>> {
        let (patch, chain) = (patches.get(side).copied()?, chains.get(side).copied()?);
        let all = places(garment, size, (id, chain), Some(patch), patch.placed.on)?;
        let wanted = (patch.placement.hand, None);
        Some(all.into_iter().flat_map(|at| over.on_copies(patch.host, at, wanted)).collect())
    });
    let way = over.between([first?, second?])?.length;
    // A flap hangs down over the seam below it, and lies there on the other piece.
    let hung = patches.iter().filter(|patch| patch.hangs());
    let deep = hung.filter_map(|patch| extents(&patch.outline)).map(|own| own.height()).fold(0.0, f64::max);
    if way <= REACH + 2.0 * deep {
        return None;
    }
    let by = amount(way, garment.unit);
    let [(one, on), (other, under)] = patches
        .map(|patch| (words::piece(garment, patch.placement.piece), words::piece(garment, patch.host.piece)));
    let title = Title::new(format!(
        "the two sides of {} lie {by} apart over the cloth: {one} is placed on {on}, and {other} on {under}",
        closure.name
    ))
    .in_sizes();
    let [placed, beside] = patches.map(|patch| patch.placement.span);
    let mistake = Diagnostic::new(&catalogue::CLOSURE_OUT_OF_REACH, placed, title)
        .label(format!("{one} lies here"))
        .also(beside, format!("{other} lies here"))
        .also(closure.kind_span, "is to hold the one on the other")
        .help("place both where the one lies on the other, or name the rows that do");
    Some(Finding::new(size.id(), way, mistake).about(&*closure.name).figure("apart", by))
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
