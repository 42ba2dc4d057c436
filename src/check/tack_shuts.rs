//! `tack/shuts`: a tack at the end of a zip or of a row of buttons that has to open, or across a zip on the way there.

use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{ClosureKind, Garment, PointId, Tack, TackId, TackSpot};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::CornerName;
use crate::sewing::surface::{ClosureLine, StretchId, Surface};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::TACK_SHUTS], run: Run::PerSize(run) };

/// A tack no further than this from the end of a closure holds it, in millimetres.
const NEAR: f64 = 5.0;
/// No further than this from an end of a zip a bar holds that end, in millimetres: it lies over the stop, or below it.
const AT_END: f64 = 25.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref().filter(|_| !garment.tacks.is_empty()) else { return };
    for (id, tack) in TackId::enumerate(&garment.tacks).filter(|(_, tack)| tack.sets.is_none()) {
        if let Some(across) = across_zip(garment, size, surface, (id, tack)) {
            findings.push(across);
            continue;
        }
        let [end] = tack.ends.as_slice() else { continue };
        let shut = surface.closures.iter().find_map(|line| {
            let open = opens_at(surface, line)?;
            let is_there =
                open.iter().any(|&(stretch, at_end)| is_tacked(size, surface, id, stretch, at_end));
            is_there.then_some(line)
        });
        let Some(line) = shut else { continue };
        let closure = garment.closure(line.closure);
        let place = match &end.spot {
            TackSpot::Point(point) => garment.point(*point).name.to_string(),
            TackSpot::Edge(edge, _) => garment.edge(*edge).name.to_string(),
        };
        let title = Title::new(format!("{} lies at {place}, where {} has to open", tack.name, closure.name))
            .in_sizes();
        let foot = foot(garment, size, surface, line);
        let warning = Diagnostic::new(&catalogue::TACK_SHUTS, end.span, title)
            .label("holds shut what is to open")
            .also(closure.name_span, "opens there, and is sewn shut below its other end")
            .help(match foot {
                Some(foot) => format!(
                    "the strain is at its other end, where the seam begins: tack {} {foot}",
                    tack.name
                ),
                None => "the strain is at its other end, where the seam begins: put it there".to_owned(),
            });
        findings.push(Finding::new(size.id(), 0.0, warning).about(&*tack.name));
    }
}

/// A tack on the teeth of a zip, between its ends: where its slider runs. It is of one place, or from one place of a piece to
/// another; from piece to piece a facing is held to the tape.
fn across_zip(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    (id, tack): (TackId, &Tack),
) -> Option<Finding> {
    let first = tack.ends.first()?;
    if tack.ends.iter().any(|end| end.piece != first.piece) {
        return None;
    }
    let is_zip =
        |line: &&ClosureLine| matches!(garment.closure(line.closure).kind, Some(ClosureKind::Zipper { .. }));
    let (line, along) = surface.closures.iter().filter(is_zip).find_map(|line| {
        let side = line.sides.iter().find_map(|side| tacked_at(size, surface, id, side));
        Some((line, side?))
    })?;
    let long = line.lengths.iter().copied().fold(f64::INFINITY, f64::min);
    let from_end = along.min(long - along);
    if from_end <= AT_END {
        return None;
    }
    let (closure, unit) = (garment.closure(line.closure), garment.unit);
    let by = amount(from_end, unit);
    let title = Title::new(format!(
        "{} lies on {}, {by} from its end, and its slider stops there",
        tack.name, closure.name
    ));
    let warning = Diagnostic::new(&catalogue::TACK_SHUTS, first.span, title.in_sizes())
        .label("where the slider runs")
        .also(closure.name_span, "opens along here")
        .help(match foot(garment, size, surface, line) {
            Some(foot) => format!(
                "the strain is at its end, where the seam begins: tack {} {foot}; or move it off the edge that the zip lies on",
                tack.name
            ),
            None => "move it off the edge that the zip lies on".to_owned(),
        });
    Some(Finding::new(size.id(), from_end, warning).about(&*tack.name))
}

/// How far along a side of a closure a tack lies on it.
fn tacked_at(
    size: &WorkedSize,
    surface: &Surface,
    tack: TackId,
    stretches: &[(StretchId, bool)],
) -> Option<f64> {
    let mut before = 0.0;
    for &(stretch, against) in stretches {
        let (own, side) = (surface.stretch(stretch), surface.side_of(stretch));
        let part = size.sewn.part(side.part);
        let path = &size.drawn.paper(part.part.paper)?.edge_at(side.edge)?.path;
        for at in part.tacks.iter().filter(|own| own.tack == tack).map(|own| path.nearest(own.at)) {
            let share = at.at / path.length().max(f64::MIN_POSITIVE);
            let along = if side.mirrored { 1.0 - share } else { share } * side.length;
            if at.distance <= NEAR && own.from - NEAR <= along && along <= own.to + NEAR {
                return Some(before + if against { own.to - along } else { along - own.from });
            }
        }
        before += surface.length(stretch);
    }
    None
}

/// The first or the last stretches of both sides of a closure, each with its outer end.
fn ends(line: &ClosureLine, last: bool) -> Option<[(StretchId, bool); 2]> {
    let end = |side: &[(StretchId, bool)]| {
        let &(stretch, against) = if last { side.last()? } else { side.first()? };
        Some((stretch, last != against))
    };
    let [one, other] = &line.sides;
    Some([end(one)?, end(other)?])
}

/// Whether both sides of a closure are sewn together from an end on.
fn is_shut(surface: &Surface, [one, other]: [(StretchId, bool); 2]) -> bool {
    let vertex = |(stretch, at_end): (StretchId, bool)| {
        let own = surface.stretch(stretch);
        if at_end { own.end } else { own.start }
    };
    vertex(one) == vertex(other)
}

/// The end that opens, of what opens at one end alone.
fn opens_at(surface: &Surface, line: &ClosureLine) -> Option<[(StretchId, bool); 2]> {
    let (first, last) = (ends(line, false)?, ends(line, true)?);
    match (is_shut(surface, first), is_shut(surface, last)) {
        (true, false) => Some(last),
        (false, true) => Some(first),
        _ => None,
    }
}

fn is_tacked(size: &WorkedSize, surface: &Surface, tack: TackId, stretch: StretchId, at_end: bool) -> bool {
    let side = surface.side_of(stretch);
    let part = size.sewn.part(side.part);
    let Some(drawn) = size.drawn.paper(part.part.paper) else { return false };
    let Some(edge) = drawn.edge_at(side.edge) else { return false };
    let corner = if at_end == side.mirrored { edge.path.start() } else { edge.path.end() };
    part.tacks.iter().any(|own| own.tack == tack && own.at.distance(corner) <= NEAR)
}

/// The corner at the other end, as it is written.
fn foot(garment: &Garment, size: &WorkedSize, surface: &Surface, line: &ClosureLine) -> Option<String> {
    let (first, last) = (ends(line, false)?, ends(line, true)?);
    let (stretch, at_end) = if is_shut(surface, first) { first[0] } else { last[0] };
    let side = surface.side_of(stretch);
    let drawn = size.drawn.paper(size.sewn.part(side.part).part.paper)?;
    let corner = if at_end == side.mirrored { side.edge } else { drawn.after(side.edge) };
    let CornerName::Named(point) = drawn.edge_at(corner)?.corner else { return None };
    Some(named(garment, point))
}

fn named(garment: &Garment, point: PointId) -> String {
    let point = garment.point(point);
    format!("{}.{}", garment.piece(point.piece).name, point.name)
}
