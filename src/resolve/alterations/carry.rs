//! What hangs on a piece goes with its paper.

use super::Step;
use crate::garment::PointId;
use crate::resolve::drawn_piece::{CornerName, DrawnEdge, DrawnLine, DrawnNotch, DrawnPiece, DrawnSpot};
use crate::resolve::outline::lines::carried_line;
use crate::resolve::sketch::ring;
use crate::resolve::take_ups::carry::carried_take_ups;
use crate::resolve::take_ups::carry_slits::{carried_slits, follow_edges};
use crate::resolve::take_ups::true_edges;
use crate::resolve::work::Work;
use crate::shape::Point;
use crate::shape::path::Path;

/// The piece with the same edges going new ways. `moved` tells where the paper at a place goes;
/// points in `kept` stay. Corners are where the edges now meet; a notch goes with its paper and
/// then to the nearest place on its edge; a line that reached the outline still does. None where a take-up
/// is torn, which is reported.
pub(super) fn carried(
    work: &Work,
    drawn: &DrawnPiece,
    now: &[Path],
    step: &Step,
    moved: impl Fn(Point) -> Point,
    kept: &[PointId],
) -> Option<DrawnPiece> {
    let mut after = carried_over(work, drawn, now, step, moved, kept)?;
    true_reshaped(work, drawn, &mut after).then_some(after)
}

/// Trues every edge that goes another way now than before; reported where that cannot be done.
pub(super) fn true_reshaped(work: &Work, before: &DrawnPiece, after: &mut DrawnPiece) -> bool {
    let reshaped = |edge: &DrawnEdge| {
        let mut was = before.edges.iter().filter(|old| old.edge == edge.edge);
        !was.any(|old| is_same_shape(&old.path, &edge.path))
    };
    let is_trued = true_edges(work, after, reshaped);
    follow_edges(after);
    is_trued
}

/// The same as [`carried`], with no edge trued yet.
pub(super) fn carried_over(
    work: &Work,
    drawn: &DrawnPiece,
    now: &[Path],
    step: &Step,
    moved: impl Fn(Point) -> Point,
    kept: &[PointId],
) -> Option<DrawnPiece> {
    let old = ring(drawn);
    let edges = drawn.edges.iter().zip(now).map(|(edge, path)| {
        let mut touched = edge.touched.clone();
        if !is_same_shape(&edge.path, path) {
            touched.push(step.id);
        }
        DrawnEdge { edge: edge.edge, path: path.clone(), corner: edge.corner, touched }
    });
    let edges: Vec<DrawnEdge> = edges.collect();
    let corner = |point: PointId| {
        let mut found = edges.iter().filter(|edge| edge.corner == CornerName::Named(point));
        found.next().map(|edge| edge.path.start())
    };
    let spots = drawn.spots.iter().map(|spot| {
        let at = match corner(spot.point) {
            Some(corner) => corner,
            None if kept.contains(&spot.point) => spot.at,
            None => moved(spot.at),
        };
        DrawnSpot { point: spot.point, at }
    });
    let lines = drawn.lines.iter().map(|line| {
        let (start, end) = (moved(line.path.start()), moved(line.path.end()));
        DrawnLine { edge: line.edge, path: carried_line(&line.path, &old, start, end, now) }
    });
    let notches = drawn.notches.iter().map(|notch| {
        let runs = edges.iter().filter(|edge| edge.edge == notch.edge);
        let nearest = runs.map(|edge| edge.path.nearest(moved(notch.at)));
        match nearest.min_by(|a, b| a.distance.total_cmp(&b.distance)) {
            Some(nearest) => DrawnNotch { along: nearest.at, at: nearest.point, ..*notch },
            None => *notch,
        }
    });
    let (spots, lines, notches) = (spots.collect(), lines.collect(), notches.collect());
    let take_ups = carried_take_ups(work, drawn, &edges, &moved, step.alteration.span)?;
    let slits = carried_slits(work, drawn, &edges, &moved, step.alteration.span)?;
    let missing = drawn.missing.clone();
    let (cutting, opened, counted_back) = (Vec::new(), None, Vec::new());
    let kept_back = drawn.kept_back.clone();
    Some(DrawnPiece {
        edges,
        spots,
        lines,
        notches,
        take_ups,
        slits,
        missing,
        cutting,
        opened,
        counted_back,
        kept_back,
        ..*drawn
    })
}

/// Whether one way is the other moved or turned: all sides of their control polygons and their
/// chords are equally long.
pub(super) fn is_same_shape(before: &Path, after: &Path) -> bool {
    let same = |a: f64, b: f64| (a - b).abs() <= 1e-6;
    if before == after {
        return true;
    }
    before.segments().len() == after.segments().len()
        && same(before.start().distance(before.end()), after.start().distance(after.end()))
        && before.segments().iter().zip(after.segments()).all(|(a, b)| {
            let (a, b) = (a.to_cubic(), b.to_cubic());
            same(a.p0.distance(a.p1), b.p0.distance(b.p1))
                && same(a.p1.distance(a.p2), b.p1.distance(b.p2))
                && same(a.p2.distance(a.p3), b.p2.distance(b.p3))
                && same(a.p0.distance(a.p3), b.p0.distance(b.p3))
        })
}
