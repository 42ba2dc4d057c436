//! Corners moved after a copy.

use crate::garment::Piece;
use crate::resolve::drawn_piece::CornerName;
use crate::resolve::sketch::Sketch;
use crate::resolve::sketch::ring;
use crate::resolve::work::Work;
use crate::shape::Vec2;
use crate::shape::place::move_ends;

/// Moves points in the order written; the edges at a corner follow it, and keep their directions
/// as far as they can. Notches stay as near as the edge lets them.
pub(in crate::resolve) fn move_corners(work: &Work, piece: &Piece, sketch: &mut Sketch) -> Option<()> {
    for moved in &piece.drawing.moves {
        let way = work.place(&moved.by, Some(sketch))?.to_vec2();
        let drawn = sketch.drawn.as_mut()?;
        for spot in drawn.spots.iter_mut().filter(|spot| spot.point == moved.point) {
            spot.at += way;
        }
        let old = ring(drawn);
        let count = drawn.edges.len();
        let corner = drawn.edges.iter().position(|edge| edge.corner == CornerName::Named(moved.point));
        let Some(after) = corner else { continue };
        let before = (after + count - 1) % count;
        if before == after {
            drawn.edges[after].path = move_ends(&drawn.edges[after].path, way, way);
        } else {
            drawn.edges[after].path = move_ends(&drawn.edges[after].path, way, Vec2::ZERO);
            drawn.edges[before].path = move_ends(&drawn.edges[before].path, Vec2::ZERO, way);
        }
        let now = ring(drawn);
        for notch in &mut drawn.notches {
            if let Some(edge) = drawn.edges.iter().find(|edge| edge.edge == notch.edge) {
                let nearest = edge.path.nearest(notch.at);
                (notch.along, notch.at) = (nearest.at, nearest.point);
            }
        }
        for line in &mut drawn.lines {
            line.path =
                super::lines::carried_line(&line.path, &old, line.path.start(), line.path.end(), &now);
        }
    }
    Some(())
}
