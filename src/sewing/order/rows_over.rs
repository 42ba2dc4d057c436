//! Rows of stitching that go over a pocket: which divide it, and which sew it shut where they are stitched once it is placed.
//!
//! A row that runs from the mouth of a pocket inwards divides it, and goes through what carries it too. One from side to side cuts
//! off all that lies beyond it from the mouth; and none goes through a zip.

use super::jobs::Work;
use crate::garment::{ClosureKind, CutHow, EdgeId, LayerId, Placement, PlacementId, RowId};
use crate::id_hash::IdIndexSet;
use crate::resolve::DrawnPiece;
use crate::sewing::patches::Patch;
use crate::sewing::{PartId, PartRow};
use crate::shape::Point;
use crate::shape::beside::row_beside;
use crate::shape::outline::{Region, extents};
use crate::shape::path::Path;

/// A row that ends no further from an edge than this ends on it, in millimetres.
const AT_EDGE: f64 = 2.0;
/// What goes no deeper into a pocket than this runs along its edge, in millimetres.
const ALONG: f64 = 5.0;
/// Places along a row are looked at so far apart, in millimetres.
const APART: f64 = 1.0;
/// The most places that are looked at on one row.
const MOST_PLACES: usize = 1000;
/// A pocket is looked at in so many places across and down.
const PLACES: usize = 32;
/// Rows hold a flap no further down than this share of its height.
const HELD: f64 = 0.6;
/// A row along the bottom of a pocket, beside the hem that it is caught in, takes no more than this share of it.
const MOST_LOST: f64 = 0.25;

/// Where a row lies on each part.
fn paths(work: &Work, id: RowId) -> Vec<(PartId, Path)> {
    let mut found = Vec::new();
    for (part, sewn) in PartId::enumerate(&work.sewing.parts) {
        let Some(drawn) = work.finder.drawn(part) else { continue };
        let rows = sewn.rows.iter().filter(|row| row.row == id);
        found.extend(rows.filter_map(|row| Some((part, beside(drawn, row)?))));
        let lines = sewn.line_rows.iter().filter(|row| row.row == id);
        let lines = lines.filter_map(|row| drawn.lines.iter().find(|line| line.edge == row.line));
        found.extend(lines.map(|line| (part, line.path.clone())));
    }
    found
}

/// A row beside an edge, as far as it goes.
pub fn beside(drawn: &DrawnPiece, row: &PartRow) -> Option<Path> {
    let ring: Vec<Path> = drawn.outline().iter().map(|edge| edge.path.clone()).collect();
    let at = row.edge.index();
    let (path, edge) = (row_beside(&ring, at, row.distance)?, ring.get(at)?);
    let Some((from, to)) = row.along else { return Some(path) };
    let [from, to] = [from, to].map(|along| path.nearest(edge.point_at_length(along)).at);
    let (from, to) = (from.min(to), from.max(to));
    (to > from).then(|| path.split_at_length(to).0.split_at_length(from).1)
}

/// Whether a row on what is placed in that layer divides it: each of its lines runs from an edge that is left open inwards.
pub(super) fn divides(work: &Work, row: RowId, placement: &Placement, layer: LayerId) -> bool {
    let garment = work.garment;
    let own = paths(work, row).into_iter().filter(|(part, _)| {
        let part = work.finder.part(*part);
        part.piece == placement.piece && part.layer == layer
    });
    let own: Vec<(PartId, Path)> = own.collect();
    let is_held = |edge: EdgeId| {
        placement.all_round.is_some()
            || placement.topstitched.iter().any(|(named, _)| garment.is_run_of(edge, *named))
            || placement.caught.iter().any(|caught| garment.is_run_of(edge, caught.edge))
    };
    let divides = |(part, path): &(PartId, Path)| {
        let Some(drawn) = work.finder.drawn(*part) else { return false };
        let open = || {
            let edges = drawn.outline().iter();
            edges.filter(|edge| !is_held(edge.edge) && fold_edge(drawn) != Some(edge.edge))
        };
        let away =
            |at: Point| open().map(|edge| edge.path.nearest(at).distance).fold(f64::INFINITY, f64::min);
        let ends = [away(path.start()), away(path.end())];
        let [least, most] = [ends[0].min(ends[1]), ends[0].max(ends[1])];
        least <= AT_EDGE && most > ALONG && away(path.point_at_length(0.5 * path.length())) > ALONG
    };
    !own.is_empty() && own.iter().all(divides)
}

/// The rows, on what carries a pocket, that would sew it shut or go through its zip, were they stitched once it is placed.
pub fn rows_that_shut(work: &Work) -> Vec<(RowId, PlacementId)> {
    let garment = work.garment;
    if garment.rows.is_empty() || garment.placements.is_empty() {
        return Vec::new();
    }
    let patches = Patch::all(garment, work.sized);
    let mut found: IdIndexSet<(RowId, PlacementId)> = IdIndexSet::default();
    for (id, _) in RowId::enumerate(&garment.rows) {
        for (part, path) in paths(work, id) {
            let is_on = |patch: &&Patch| {
                work.finder.drawn(part).is_some_and(|drawn| std::ptr::eq(drawn, patch.host))
                    && patch.on_layer().is_none_or(|on| on == work.finder.part(part).layer)
            };
            let shut = patches.iter().filter(is_on).filter(|patch| shuts(work, patch, &path));
            found.extend(shut.map(|patch| (id, patch.id)));
        }
    }
    found.into_iter().collect()
}

fn shuts(work: &Work, patch: &Patch, row: &Path) -> bool {
    let length = row.length();
    if patch.open.is_empty() || !length.is_finite() || length <= 0.0 {
        return false;
    }
    if patch.hangs() && holds_down(patch, row) {
        return true;
    }
    let region = Region::of(&patch.outline);
    let count = ((length / APART).ceil() as usize).clamp(1, MOST_PLACES);
    let at = |nth: usize| length * nth as f64 / count as f64;
    let is_in = |nth: usize| region.contains(row.point_at_length(at(nth)));
    let mut nth = 0;
    while nth <= count {
        if !is_in(nth) {
            nth += 1;
            continue;
        }
        let first = nth;
        while nth < count && is_in(nth + 1) {
            nth += 1;
        }
        let (from, to) = (at(first), at(nth));
        if to - from > ALONG && is_shut_along(work, patch, row, [from, to]) {
            return true;
        }
        nth += 1;
    }
    false
}

/// Whether a row goes through what hangs down, a flap, below where that is held: it cannot be lifted any more.
fn holds_down(patch: &Patch, row: &Path) -> bool {
    let Some(bounds) = extents(&patch.outline) else { return false };
    let (region, length) = (Region::of(&patch.outline), row.length());
    let count = ((length / APART).ceil() as usize).clamp(1, MOST_PLACES);
    (0..=count).any(|nth| {
        let at = row.point_at_length(length * nth as f64 / count as f64);
        let held = patch.rows.iter().map(|(_, path)| path.nearest(at).distance).fold(f64::INFINITY, f64::min);
        held > HELD * bounds.height() && region.contains(at)
    })
}

/// Whether a stretch of a row that lies over a pocket sews it shut.
fn is_shut_along(work: &Work, patch: &Patch, row: &Path, run: [f64; 2]) -> bool {
    let [from, to] = run.map(|at| row.point_at_length(at));
    let ends_on = |edges: &[(EdgeId, Path)], end: Point| {
        edges.iter().find(|(_, path)| path.nearest(end).distance <= AT_EDGE).map(|(edge, _)| *edge)
    };
    let goes_on = [run[0] > ALONG, run[1] < row.length() - ALONG];
    let through_zip = [from, to]
        .into_iter()
        .zip(goes_on)
        .any(|(end, goes_on)| goes_on && ends_on(&patch.open, end).is_some_and(|edge| is_zipped(work, edge)));
    if through_zip {
        return true;
    }
    // From the mouth inwards it divides, and where it ends inside it cuts nothing off.
    let fold = fold_edge(patch.host).and_then(|fold| patch.host.edges.iter().find(|own| own.edge == fold));
    let is_across = |end: Point| {
        ends_on(&patch.open, end).is_none()
            && (ends_on(&patch.rows, end).is_some()
                || fold.is_some_and(|fold| fold.path.nearest(end).distance <= AT_EDGE))
    };
    is_across(from) && is_across(to) && cut_off(patch, [from, to]) > MOST_LOST
}

/// The share of a pocket that a straight row between two places cuts off from all its mouths.
fn cut_off(patch: &Patch, [from, to]: [Point; 2]) -> f64 {
    let is_left = |at: Point| (to - from).cross(at - from) > 0.0;
    let places = |path: &Path| [0.1, 0.5, 0.9].map(|share| path.point_at_length(share * path.length()));
    let mouths: Vec<bool> = patch.open.iter().flat_map(|(_, path)| places(path)).map(is_left).collect();
    let Some(bounds) = extents(&patch.outline) else { return 0.0 };
    let region = Region::of(&patch.outline);
    let (mut all, mut lost) = (0_usize, 0_usize);
    for across in 0..PLACES {
        for down in 0..PLACES {
            let share = |nth: usize| (nth as f64 + 0.5) / PLACES as f64;
            let at = Point::new(
                bounds.x0 + share(across) * bounds.width(),
                bounds.y0 + share(down) * bounds.height(),
            );
            if region.contains(at) {
                all += 1;
                lost += usize::from(!mouths.contains(&is_left(at)));
            }
        }
    }
    lost as f64 / all.max(1) as f64
}

fn fold_edge(drawn: &DrawnPiece) -> Option<EdgeId> {
    match drawn.cut {
        CutHow::OnFold(edge) => Some(edge),
        CutHow::Alike | CutHow::Mirrored => None,
    }
}

/// Whether a zip lies along an edge.
fn is_zipped(work: &Work, edge: EdgeId) -> bool {
    let garment = work.garment;
    garment.closures.iter().any(|closure| {
        let mut edges = closure.first.edges.iter().chain(&closure.second.edges);
        matches!(closure.kind, Some(ClosureKind::Zipper { .. }))
            && edges.any(|sewn| garment.is_run_of(edge, sewn.edge))
    })
}
