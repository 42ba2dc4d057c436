//! `closure/across`: a zip or a row of buttons that ends below a band which goes on over its end in one, so that what it parts
//! stays together.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{ClosureKind, Garment, SeamId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::surface::{ClosureLine, FaceId, Join, JoinedBy, SideId, StretchId, Surface};
use crate::syntax::tree::ZipperKind;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::CLOSURE_ACROSS], run: Run::PerSize(run) };

/// A waistband, a cuff or a collar is no deeper than this, in millimetres; a yoke or a bodice, above which the garment opens
/// otherwise, is.
const BAND: f64 = 100.0;

/// What lies across the end of a closure.
struct Across {
    face: FaceId,
    /// The seam that closes it to a ring.
    closed_by: SeamId,
    /// Its two ends there.
    ends: [SideId; 2],
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    let mut known: IdSet<u32> = IdSet::default();
    for line in &surface.closures {
        let closure = garment.closure(line.closure);
        // A separating zip whose end is held is told by that.
        let is_looked_at = match &closure.kind {
            Some(ClosureKind::Zipper { kind, .. }) => *kind != ZipperKind::Separating,
            Some(ClosureKind::Fasteners(said)) => said.kind.is_lapped(),
            None => false,
        };
        if !is_looked_at {
            continue;
        }
        if let Some(across) = across(surface, line)
            && known.insert(line.closure.index() as u32)
        {
            findings.extend(reported(garment, size, surface, line, &across));
        }
    }
}

/// The stretches beyond the one and the other side of a closure, at its start or its end.
fn beyond(surface: &Surface, line: &ClosureLine, at_start: bool) -> Option<[StretchId; 2]> {
    let beside = |side: &[(StretchId, bool)]| {
        let &(stretch, against) = if at_start { side.first()? } else { side.last()? };
        Some(if at_start == against { surface.next(stretch) } else { surface.before(stretch) })
    };
    let [one, other] = &line.sides;
    Some([beside(one)?, beside(other)?])
}

/// Whether both sides of a closure end in one place.
fn is_shut(surface: &Surface, line: &ClosureLine, at_start: bool) -> bool {
    let end = |side: &[(StretchId, bool)]| {
        let &(stretch, against) = if at_start { side.first()? } else { side.last()? };
        let stretch = surface.stretch(stretch);
        Some(if at_start == against { stretch.end } else { stretch.start })
    };
    let [one, other] = line.sides.each_ref().map(|side| end(side));
    one.is_some() && one == other
}

/// A band that goes on from the one side of a closure to the other, and round to itself.
fn across(surface: &Surface, line: &ClosureLine) -> Option<Across> {
    // What opens at its other end is held at this one, as a zip is that goes from the neck to a band at the hem.
    let bands = [true, false].map(|at_start| at_end(surface, line, at_start));
    match bands {
        // Held at both ends, as a zip between the ends of a bag, it opens as a slit does.
        [Some(_), Some(_)] => None,
        [one, other] => one.or(other),
    }
}

/// The band that goes on over its start, or over its end.
fn at_end(surface: &Surface, line: &ClosureLine, at_start: bool) -> Option<Across> {
    is_shut(surface, line, !at_start).then_some(())?;
    let beyond = beyond(surface, line, at_start)?;
    let joins = beyond.map(|stretch| surface.stretch(stretch).join.map(|join| surface.join(join)));
    let [Some(one), Some(other)] = joins else { return None };
    if std::ptr::eq(one, other) {
        return None;
    }
    let own = |stretch: StretchId| line.faces.iter().flatten().any(|face| *face == surface.face_of(stretch));
    let on = |join: &Join| -> Vec<StretchId> {
        join.plies.iter().map(|ply| ply.stretch).filter(|&stretch| !own(stretch)).collect()
    };
    let others = on(other);
    // Its own seam may lie there as well.
    let is_end = |stretch: StretchId| {
        let mut all = surface.stretches_on(surface.stretch(stretch).side);
        all.next() == Some(stretch) || all.last() == Some(stretch)
    };
    on(one).into_iter().find_map(|stretch| {
        let goes_on = |beside: StretchId| {
            let is_one_side = surface.stretch(beside).side == surface.stretch(stretch).side;
            let follow = surface.next(stretch) == beside || surface.next(beside) == stretch;
            is_one_side && (follow || is_end(stretch) && is_end(beside))
        };
        others.iter().any(|&beside| goes_on(beside)).then(|| ring(surface, stretch))?
    })
}

/// The seam that closes a band to a ring, whose edge that is.
fn ring(surface: &Surface, stretch: StretchId) -> Option<Across> {
    let side = surface.stretch(stretch).side;
    let face = surface.side(side).face;
    let first = surface.stretches_on(side).next()?;
    let last = surface.stretches_on(side).last()?;
    let ends = [surface.before(first), surface.next(last)];
    let [one, other] = ends.map(|end| surface.stretch(end).join);
    let join = one.filter(|join| other == Some(*join))?;
    let JoinedBy::Seam { seam, .. } = surface.join(join).by else { return None };
    let mut ends = ends.map(|end| surface.stretch(end).side);
    let are_short = ends.iter().all(|&end| surface.side(end).length <= BAND);
    // Beyond its other edge nothing goes on.
    let beyond = surface.stretches_on(ends[1]).last().map(|end| surface.next(end))?;
    // The end that lies at the first side of the closure first, where they meet there.
    if stretch == last {
        ends.reverse();
    }
    let is_last = surface.side_of(beyond).fold || surface.stretch(beyond).join.is_none();
    (are_short && is_last).then_some(Across { face, closed_by: seam, ends })
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    line: &ClosureLine,
    across: &Across,
) -> Option<Finding> {
    let closure = garment.closure(line.closure);
    let part = size.sewn.part(surface.face(across.face).part).part;
    let (piece, seam) = (words::piece(garment, part.piece), garment.seam(across.closed_by));
    let drawn = size.drawn.paper(part.paper)?;
    let name = |side: SideId| -> Option<String> {
        let edge = drawn.edge_at(surface.side(side).edge)?.edge;
        Some(format!("{}.{}", garment.piece(part.piece).name, garment.edge(edge).name))
    };
    let [one, other] = across.ends.map(name);
    let (one, other) = (one?, other?);
    let title = format!(
        "{piece} goes on across the end of {}, and is closed to a ring: it does not open there",
        closure.name
    );
    let warning = Diagnostic::new(&catalogue::CLOSURE_ACROSS, closure.name_span, title)
        .label("parts the edges below it alone")
        .also(seam.name_span, format!("closes {piece}"))
        .help(format!(
            "leave {one} and {other} open there: take seam {} out, and let the closure go on along them, closure {} {one} + … to \
             {other} + …, or close them above it, closure {}_hook {one} to {other} {{ hooks 1 }}",
            seam.name,
            closure.name,
            garment.piece(part.piece).name
        ));
    Some(Finding::new(size.drawn.size, 0.0, warning).about(&*closure.name))
}
