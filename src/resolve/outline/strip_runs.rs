//! A strip that begins or ends inside an edge, where the run does that it goes along: it is cut square to the edge there.

use super::strip::{Given, report_broken};
use crate::garment::{EdgeId, PointId, StripRun};
use crate::resolve::drawn_piece::{CornerName, DrawnEdge, DrawnPiece};
use crate::resolve::measures::taken;
use crate::resolve::model::DrawnEdgeId;
use crate::resolve::portions::{SaidRun, lay, report_nowhere, station};
use crate::resolve::sketch::{Sketch, ring};
use crate::resolve::work::Work;
use crate::shape::Point;
use crate::shape::outline::{contains, is_anticlockwise};
use crate::shape::path::Path;
use crate::shape::tolerance::SAME_POINT;

/// How many places of the inside of a strip are looked at, whether they lie in the piece.
const PLACES: u32 = 24;

/// An end of a strip inside an edge.
#[derive(Clone, Copy)]
struct End {
    /// How far along the edge, as sewn and as drawn.
    sewn: f64,
    drawn: f64,
    edge: EdgeId,
    corner: PointId,
}

/// Where a strip ends inside its first and its last edge; none where it goes on to that edge's corner.
pub(super) struct LaidRuns {
    start: Option<End>,
    end: Option<End>,
}

/// Finds the ends of a strip along these edges of the other piece; reported where they are in no place, or where the
/// strip has a gap.
pub(super) fn laid_runs(
    work: &Work,
    sketch: &Sketch,
    given: &Given,
    from: &DrawnPiece,
    (first, many): (usize, usize),
) -> Option<LaidRuns> {
    let mut found = LaidRuns { start: None, end: None };
    for step in 0..many {
        let at = (first + step) % from.edges.len();
        let (id, edge) = (DrawnEdgeId::from_index(at), from.edges.get(at)?.edge);
        let mut own = given.runs.iter().filter(|run| work.garment.is_run_of(edge, run.edge));
        let Some(run) = own.next() else { continue };
        let name = &work.garment.edge(edge).name;
        if own.next().is_some() {
            report_broken(work, given, from, &format!("has two runs of {name} in it"));
            return None;
        }
        let StripRun { from: begins, to, counted, near, far, span, .. } = run;
        let said = SaidRun { from: begins.as_ref(), to, counted: *counted, span: *span };
        let Some(station) = station(work, from, at, *counted) else {
            report_nowhere(work, edge, &said);
            return None;
        };
        let laid = lay(work, from, at, (&said, edge), station, Some(sketch))?;
        let map = taken(work.garment, from, id)?;
        let (low, high) = if laid.back { (far, near) } else { (near, far) };
        let end = |sewn: f64, &(edge, corner): &(EdgeId, PointId)| End {
            sewn,
            drawn: map.as_drawn(sewn),
            edge,
            corner,
        };
        let (start, end) = (
            (laid.from > SAME_POINT).then(|| end(laid.from, low)),
            (laid.to < map.sewn() - SAME_POINT).then(|| end(laid.to, high)),
        );
        if start.is_some() && step > 0 || end.is_some() && step + 1 < many {
            report_broken(work, given, from, &format!("has a part of {name} between them that is left out"));
            return None;
        }
        found.start = found.start.or(start);
        found.end = found.end.or(end);
    }
    Some(found)
}

impl LaidRuns {
    /// Whether the strip goes along whole edges.
    pub(super) fn is_whole(&self) -> bool {
        self.start.is_none() && self.end.is_none()
    }

    /// The place of the strip's first edge on the piece as [`LaidRuns::ended`] gives it.
    pub(super) fn first(&self) -> usize {
        usize::from(self.start.is_some())
    }

    /// The piece with an edge that leads in, square to the strip's edges, where the strip ends inside one. It leads out
    /// again in the same place, so that all of the outline stays where it is.
    pub(super) fn ended(
        &self,
        from: &DrawnPiece,
        (first, many): (usize, usize),
        width: f64,
        is_shut: bool,
    ) -> Option<DrawnPiece> {
        let total = from.edges.len();
        let left = if is_anticlockwise(&ring(from)) { 1.0 } else { -1.0 };
        let edge = |step: usize| from.edges.get((first + step) % total);
        let place = |end: &End| if is_shut { end.sewn } else { end.drawn };
        let inwards = |path: &Path, along: f64| -> Option<[Point; 2]> {
            let (at, way) = (path.point_at_length(along), path.tangent_at_length(along)?.normalize());
            Some([at, at + left * 2.0 * width * crate::shape::Vec2::new(-way.y, way.x)])
        };
        let mut edges: Vec<DrawnEdge> = Vec::new();
        let mut put = |of: &DrawnEdge, path: Path, edge: EdgeId, corner: CornerName| {
            edges.push(DrawnEdge { edge, path, corner, touched: of.touched.clone() });
        };
        let (head, tail) = (edge(0)?, edge(many.checked_sub(1)?)?);
        let begins = self.start.map_or(0.0, |end| place(&end));
        if let Some(end) = &self.start {
            let [at, inside] = inwards(&head.path, begins)?;
            put(head, Path::straight(inside, at), end.edge, CornerName::Between(end.edge, end.edge));
        }
        for step in 0..many {
            let own = edge(step)?;
            let low = if step == 0 { begins } else { 0.0 };
            let high = match (&self.end, step + 1 == many) {
                (Some(end), true) => place(end),
                _ => own.path.length(),
            };
            let corner = match (&self.start, step) {
                (Some(end), 0) => CornerName::Named(end.corner),
                _ => own.corner,
            };
            put(own, own.path.part(low, high), own.edge, corner);
        }
        if let Some(end) = &self.end {
            let [at, inside] = inwards(&tail.path, place(end))?;
            put(tail, Path::straight(at, inside), end.edge, CornerName::Named(end.corner));
            put(tail, Path::straight(inside, at), end.edge, CornerName::Between(end.edge, end.edge));
            let rest = tail.path.part(place(end), tail.path.length());
            put(tail, rest, tail.edge, CornerName::Named(end.corner));
        }
        for step in many..total {
            let own = edge(step)?;
            put(own, own.path.clone(), own.edge, own.corner);
        }
        if let Some(end) = &self.start {
            put(head, head.path.part(0.0, begins), head.edge, head.corner);
            let [at, inside] = inwards(&head.path, begins)?;
            put(head, Path::straight(at, inside), end.edge, CornerName::Named(end.corner));
        }
        Some(DrawnPiece { edges, ..from.clone() })
    }
}

/// Whether the inner side of a strip lies in the piece; reported if not.
pub(super) fn lies_inside(work: &Work, given: &Given, from: &DrawnPiece, inner: &Path, width: f64) -> bool {
    let whole = ring(from);
    let far = inner.length();
    let mut places = (0..=PLACES).map(|at| inner.point_at_length(far * f64::from(at) / f64::from(PLACES)));
    if places.all(|place| contains(&whole, place)) {
        return true;
    }
    report_broken(work, given, from, &format!("is not {} wide all along them", work.amount(width)));
    false
}
