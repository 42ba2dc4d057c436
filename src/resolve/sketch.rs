//! A piece while it is being drawn.

use super::drawn_piece::{CornerName, DrawnEdge, DrawnPiece, DrawnSpot};
use super::model::{Missing, Why};
use crate::garment::{CutHow, DrawStep, EdgeId, Piece, PieceId, PointId};
use crate::shape::path::Path;
use crate::shape::{Point, Vec2};
use indexmap::IndexMap;
use std::collections::HashMap;

/// A piece while it is being drawn.
#[derive(Default)]
pub(super) struct Sketch {
    pub(super) spots: HashMap<PointId, Point>,
    /// Edges of a walk, until the outline is closed.
    pub(super) edges: IndexMap<EdgeId, Path>,
    /// The piece, from the step that closes its outline on.
    pub(super) drawn: Option<DrawnPiece>,
}

impl Sketch {
    /// Where a point is, if it was placed.
    pub(super) fn spot(&self, point: PointId) -> Option<Point> {
        self.drawn.as_ref().and_then(|drawn| drawn.spot(point)).or_else(|| self.spots.get(&point).copied())
    }

    /// The way of an edge or a line, if it was drawn.
    pub(super) fn path(&self, edge: EdgeId) -> Option<&Path> {
        let Some(drawn) = &self.drawn else { return self.edges.get(&edge) };
        let line = || drawn.lines.iter().find(|line| line.edge == edge).map(|line| &line.path);
        drawn.edge(edge).map(|edge| &edge.path).or_else(line)
    }

    /// All edges so far.
    pub(super) fn paths(&self) -> impl Iterator<Item = &Path> {
        self.edges.values()
    }

    /// Takes an edge of the walk out.
    pub(super) fn take(&mut self, edge: EdgeId) -> Option<Path> {
        self.edges.swap_remove(&edge)
    }
}

/// A drawn piece with an outline and nothing else yet.
pub(super) fn bare(piece: PieceId, edges: Vec<DrawnEdge>) -> DrawnPiece {
    DrawnPiece {
        piece,
        edges,
        lines: Vec::new(),
        spots: Vec::new(),
        notches: Vec::new(),
        take_ups: Vec::new(),
        slits: Vec::new(),
        kept_back: Vec::new(),
        opened: None,
        cut: CutHow::Alike,
        unfolded: false,
        count: 1,
        grain: Vec2::new(0.0, 1.0),
        missing: Missing::default(),
        counted_back: Vec::new(),
        cutting: Vec::new(),
    }
}

/// The spots that were placed before the outline was closed, in the order of the drawing.
pub(super) fn spots_so_far(piece: &Piece, sketch: &Sketch) -> (Vec<DrawnSpot>, Missing) {
    let (mut spots, mut missing) = (Vec::new(), Missing::default());
    let outline_at = piece.drawing.order.iter().position(|step| *step == DrawStep::Outline);
    let before = piece.drawing.order.get(..outline_at.unwrap_or(0)).unwrap_or_default();
    for step in before {
        let DrawStep::Spot(at) = step else { continue };
        let Some(spot) = piece.drawing.spots.get(*at) else { continue };
        match sketch.spots.get(&spot.point) {
            Some(&at) => spots.push(DrawnSpot { point: spot.point, at }),
            None => missing.points.push((spot.point, Why::Reported)),
        }
    }
    (spots, missing)
}

/// The corner that an edge starts at, and the one that it ends at.
pub(super) fn corners_of(drawn: &DrawnPiece, edge: usize) -> Option<(CornerName, CornerName)> {
    let own = drawn.edges.get(edge)?;
    let next = drawn.edges.get((edge + 1) % drawn.edges.len())?;
    Some((own.corner, next.corner))
}

/// The outline's ways, for the shape room.
pub(super) fn ring(drawn: &DrawnPiece) -> Vec<Path> {
    drawn.edges.iter().map(|edge| edge.path.clone()).collect()
}
