//! `fold/beyond`: a half that goes on beyond the fold that it is cut on, where its other half lies.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, PaperId};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece};
use crate::shape::Point;
use crate::shape::outline::{extents, is_anticlockwise};
use std::collections::HashSet;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::FOLD_BEYOND], run: Run::PerSize(run) };

/// Places along an edge that are looked at.
const PLACES: usize = 64;
/// So far beyond the fold is on it, in millimetres.
const ON_FOLD: f64 = 0.5;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut seen: HashSet<PaperId> = HashSet::new();
    for part in &size.sewn.parts {
        let drawn = size.drawn.paper(part.part.paper).filter(|drawn| matches!(drawn.cut, CutHow::OnFold(_)));
        let Some(drawn) = drawn.filter(|_| seen.insert(part.part.paper)) else { continue };
        let Some((at, beyond)) = beyond(garment, drawn) else { continue };
        let Some(edge) = drawn.edge_at(at) else { continue };
        let (piece, far) = (words::piece(garment, drawn.piece), amount(beyond, garment.unit));
        let named = garment.edge(edge.edge);
        let title = Title::new(format!(
            "the half of {piece} goes {far} beyond its fold at the {}: opened out it would lie on itself",
            garment.edge_words(edge.edge)
        ));
        let mistake = Diagnostic::new(&catalogue::FOLD_BEYOND, named.span, title.in_sizes())
            .label(format!("{far} beyond the fold"))
            .also(garment.piece(drawn.piece).cut.span, "cut on the fold")
            .help("a half lies on one side of its fold alone: turn or make it less, or cut it in two with a seam instead");
        let about = format!("{} {}", garment.piece(drawn.piece).name, named.name);
        findings.push(Finding::new(size.id(), beyond, mistake).about(about).figure("beyond", far));
    }
}

/// The edge that goes farthest beyond the straight line of the fold, and how far.
fn beyond(garment: &Garment, drawn: &DrawnPiece) -> Option<(DrawnEdgeId, f64)> {
    let CutHow::OnFold(fold) = drawn.cut else { return None };
    let fold = &drawn.edges.iter().find(|edge| garment.is_run_of(edge.edge, fold))?.path;
    let (start, way) = (fold.start(), fold.end() - fold.start());
    let long = way.hypot();
    if long <= 0.0 || fold.is_curved() {
        return None;
    }
    // Inside lies on the left of an outline that goes round against the clock.
    let sign = if is_anticlockwise(drawn.edges.iter().map(|edge| &edge.path)) { 1.0 } else { -1.0 };
    let off = |place: Point| -sign * way.cross(place - start) / long;
    let mut farthest: Option<(DrawnEdgeId, f64)> = None;
    for (at, edge) in DrawnEdgeId::enumerate(&drawn.edges) {
        let Some(bounds) = extents(std::slice::from_ref(&edge.path)) else { continue };
        let corners =
            [(bounds.x0, bounds.y0), (bounds.x1, bounds.y0), (bounds.x0, bounds.y1), (bounds.x1, bounds.y1)];
        if corners.into_iter().all(|(x, y)| off(Point::new(x, y)) <= ON_FOLD) {
            continue;
        }
        let length = edge.path.length();
        let places = (0..=PLACES).map(|nth| edge.path.point_at_length(length * nth as f64 / PLACES as f64));
        let most = places.map(off).fold(0.0, f64::max);
        if most > ON_FOLD && farthest.is_none_or(|(_, known)| most > known) {
            farthest = Some((at, most));
        }
    }
    farthest
}
