//! `strap/off-edge`: a strap that goes straight along a free edge, with a part of its width beside the cloth.

use super::strap_room::{is_too_wide, whole};
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, StrapRun};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece};
use crate::sewing::{SewnStrap, SewnStrapRun, TakenBy, strap_place, straps};
use crate::shape::Point;
use crate::shape::outline::{Region, is_on};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::STRAP_OFF_EDGE], run: Run::PerSize(run) };

/// So much of a strap's edge may lie beyond the piece, in millimetres: a fold is no sharper.
const BEYOND: f64 = 1.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.straps.is_empty() {
        return;
    }
    for sewn in straps(garment, &size.drawn) {
        if is_too_wide(garment, size, &sewn) {
            continue;
        }
        let runs = garment.strap(sewn.strap).runs.iter().zip(&sewn.runs);
        findings.extend(runs.filter_map(|(run, own)| off_edge(garment, size, &sewn, run, own)).take(1));
    }
}

/// One that has no slack lies straight from the one mark to the other.
fn off_edge(
    garment: &Garment,
    size: &WorkedSize,
    sewn: &SewnStrap,
    run: &StrapRun,
    own: &SewnStrapRun,
) -> Option<Finding> {
    let to = run.to.as_ref().filter(|to| to.hand == run.from.hand)?;
    let is_caught = run.ends().any(|end| end.caught.is_some());
    let long = own.across.filter(|across| *across > 0.0)?;
    if is_caught || sewn.width <= 0.0 || own.free < long || own.free - long > sewn.width {
        return None;
    }
    let (drawn, from) = strap_place(garment, &size.drawn, run.from.point)?;
    let (_, other) = strap_place(garment, &size.drawn, to.point)?;
    let along = (other - from) / long;
    let aside = crate::shape::Vec2::new(-along.y, along.x);
    let outline = whole(drawn)?;
    let region = Region::of(&outline);
    let side = |sign: f64| {
        let at = |share: f64| from + along * (share * long) + aside * (sign * 0.5 * sewn.width);
        let is_off = |place: Point| !region.contains(place) && !is_on(&outline, place, BEYOND);
        let off = [0.0, 0.5, 1.0].map(at).into_iter().filter(|place| is_off(*place));
        let edges: Vec<(EdgeId, f64)> = off.filter_map(|place| free_edge(size, drawn, place)).collect();
        // At one end alone it only ends askew there.
        (edges.len() == 3).then(|| {
            edges
                .into_iter()
                .fold((None, 0.0), |(named, far), (edge, off)| (named.or(Some(edge)), f64::max(far, off)))
        })
    };
    let (edge, off) = [1.0, -1.0].into_iter().find_map(side)?;
    let (strap, unit) = (garment.strap(sewn.strap), garment.unit);
    let (edge, far) = (words::edge(garment, edge?), amount(off, unit));
    let title = Title::new(format!("{} lies {far} beside the cloth, along {edge}", strap.name));
    let mistake = Diagnostic::new(&catalogue::STRAP_OFF_EDGE, run.span, title.in_sizes())
        .label("straight from here to there")
        .also(strap.width.span, format!("{} wide, its marks in the middle", amount(sewn.width, unit)))
        .help(format!(
            "move both marks at least {} further in, or catch its ends in the seam that is sewn there",
            at_least(off, unit)
        ));
    let about = format!("{} {}", strap.name, garment.point(run.from.point).name);
    Some(Finding::new(size.id(), off, mistake).about(about).figure("beside", far))
}

/// The edge of a piece that is nearest to a place, and how far that is; none where a seam joins another piece to it, on
/// which what lies over it goes on.
fn free_edge(size: &WorkedSize, drawn: &DrawnPiece, place: Point) -> Option<(EdgeId, f64)> {
    let edges = DrawnEdgeId::enumerate(&drawn.edges);
    let off = edges.map(|(at, edge)| (at, edge.edge, edge.path.nearest(place).distance));
    let (at, edge, off) = off.min_by(|one, other| one.2.total_cmp(&other.2))?;
    let is_own = |part: &&crate::sewing::SewnPart| {
        size.drawn.paper(part.part.paper).is_some_and(|own| std::ptr::eq(own, drawn))
    };
    let mut fates = size.sewn.parts.iter().filter(is_own).filter_map(|part| part.fate(at));
    let is_sewn = fates.any(|fate| fate.takers.iter().any(|taker| matches!(taker.what, TakenBy::Seam(..))));
    (!is_sewn).then_some((edge, off))
}
