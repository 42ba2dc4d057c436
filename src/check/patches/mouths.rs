//! `place/mouth-down`: a pocket whose open edge is its lowest.

use super::put;
use crate::check::pocket_shut::is_called_pocket;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Catcher, ClosureKind, EdgeId, Garment};
use crate::id_hash::IdIndexSet;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::patches::Patch;
use crate::shape::Rect;
use crate::shape::outline::extents;
use crate::shape::path::Path;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::PLACE_MOUTH_DOWN], run: Run::PerSize(run) };

/// A mouth lies in this share of its pocket, from below.
const LOWEST: f64 = 0.25;
/// So much of its height and its width the stitching of a pocket spans; that of a flap does not.
const SPANNED: f64 = 0.9;
/// Nearer than this to the edge of what carries it, in millimetres, an open edge lies along it.
const AT_EDGE: f64 = 2.0;
/// A grain that leads up by more than this is up and down, as its sine.
const UPRIGHT: f64 = 0.9;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if size.drawn.placed.is_empty() {
        return;
    }
    for patch in Patch::all(garment, &size.drawn) {
        findings.extend(finding(garment, size, &patch));
    }
}

/// What of it is left open and no zip closes: from there nothing falls out.
fn unzipped(garment: &Garment, patch: &Patch) -> Vec<(EdgeId, Path)> {
    let zips = garment.closures.iter().filter(|one| matches!(one.kind, Some(ClosureKind::Zipper { .. })));
    let zipped: Vec<EdgeId> =
        zips.flat_map(|zip| zip.first.edges.iter().chain(&zip.second.edges)).map(|sewn| sewn.edge).collect();
    let is_zipped =
        |open: EdgeId| zipped.iter().any(|&zipped| garment.whole_edge(zipped) == garment.whole_edge(open));
    patch.open.iter().filter(|(open, _)| !is_zipped(*open)).cloned().collect()
}

fn finding(garment: &Garment, size: &WorkedSize, patch: &Patch) -> Option<Finding> {
    let open_edges = unzipped(garment, patch);
    if patch.host.grain.y.abs() < UPRIGHT || open_edges.is_empty() {
        return None;
    }
    // What three seams catch is a second ply, as a storm yoke is, and hangs open below on purpose.
    let by: IdIndexSet<Catcher> = patch.placement.caught.iter().map(|caught| caught.by).collect();
    if by.len() > 2 && patch.placement.topstitched.len() <= 1 {
        return None;
    }
    let paths = |of: &[(EdgeId, Path)]| -> Vec<Path> { of.iter().map(|(_, path)| path.clone()).collect() };
    let own = extents(&patch.outline)?;
    let (rows, open) = (extents(&paths(&patch.rows))?, extents(&paths(&open_edges))?);
    let is_pocket = rows.height() > SPANNED * own.height() && rows.width() > SPANNED * own.width();
    let lies_low = |of: &Rect| of.y1 < own.y0 + LOWEST * own.height();
    if !is_pocket {
        return None;
    }
    if !lies_low(&open) {
        return open_below_too(garment, size, patch, &lies_low);
    }
    // A zip shuts what lies behind it.
    let is_closed = |edge: &EdgeId| {
        let named = garment.closures.iter().flat_map(|one| one.first.edges.iter().chain(&one.second.edges));
        named.into_iter().any(|sewn| garment.is_run_of(*edge, sewn.edge))
    };
    if open_edges.iter().all(|(edge, _)| is_closed(edge)) {
        return None;
    }
    let name = |edge: EdgeId| garment.edge(edge).name.to_string();
    let middle = |path: &Path| path.bounding_box().center().y;
    let (top, _) = patch.rows.iter().max_by(|(_, a), (_, b)| middle(a).total_cmp(&middle(b)))?;
    let mut stitched: Vec<String> = Vec::new();
    for (edge, _) in patch.rows.iter().chain(&patch.open).filter(|(edge, _)| edge != top) {
        if !stitched.contains(&name(*edge)) {
            stitched.push(name(*edge));
        }
    }
    let piece = words::piece(garment, patch.placement.piece);
    let (mouth, _) = open_edges.first()?;
    let title = format!("{piece} is open at the bottom: what is put into it falls out");
    let corner = &garment.edge(*mouth).name;
    let advice = Diagnostic::new(&catalogue::PLACE_MOUTH_DOWN, patch.placement.span, title)
        .label(format!("its {corner} is neither stitched down nor caught"))
        .also(put(patch), "placed this way up")
        .help(match open_edges.len() < patch.open.len() {
            true => format!("add {corner} to what is topstitched: a zip is its mouth"),
            false => format!(
                "leave {} open instead: topstitch {}, and finish {} and not {corner}; or turn it with two corners",
                name(*top),
                stitched.join(", "),
                name(*top),
            ),
        });
    Some(Finding::new(size.id(), 0.0, advice).about(piece))
}

/// A pocket that is open above and below. What is not called a pocket may be a tunnel, as for a strap.
fn open_below_too(
    garment: &Garment,
    size: &WorkedSize,
    patch: &Patch,
    lies_low: &dyn Fn(&Rect) -> bool,
) -> Option<Finding> {
    let is_low = |path: &Path| extents(std::slice::from_ref(path)).is_some_and(|own| lies_low(&own));
    let (below, above): (Vec<_>, Vec<_>) =
        unzipped(garment, patch).into_iter().partition(|(_, path)| is_low(path));
    let ((low, _), (high, _)) = (below.first()?, above.first()?);
    // What goes down to the edge of what carries it is shut there by the hem of both.
    let is_at_edge = |path: &Path| {
        let middle = path.point_at_length(0.5 * path.length());
        patch.host.edges.iter().any(|edge| edge.path.is_near(middle, AT_EDGE))
    };
    let is_shut = below.iter().all(|(_, path)| is_at_edge(path));
    if is_shut || !is_called_pocket(garment, patch.placement.piece) {
        return None;
    }
    let piece = words::piece(garment, patch.placement.piece);
    let [low, high] = [low, high].map(|edge| &garment.edge(*edge).name);
    let title = format!("{piece} is open at the bottom, and above too: what is put into it falls out");
    let advice = Diagnostic::new(&catalogue::PLACE_MOUTH_DOWN, patch.placement.span, title)
        .label(format!("its {low} and its {high} are neither stitched down nor caught"))
        .also(put(patch), "placed this way up")
        .help(format!("add {low} to what is topstitched, and finish {high} alone"));
    Some(Finding::new(size.id(), 0.0, advice).about(piece))
}
