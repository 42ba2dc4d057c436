//! Walking a closed outline from one place to another.

use super::outline::next;
use super::path::{Path, Position};
use super::tolerance::SAME_POINT;

/// A part of an edge that a walk passes.
#[derive(Debug, Clone)]
pub(super) struct Stretch {
    /// Index of the edge.
    pub edge: usize,
    /// The part.
    pub path: Path,
    /// Length along the edge where it begins, mm.
    pub from: f64,
    /// Length along the edge where it ends, mm.
    pub to: f64,
    /// Whether it is the whole edge.
    pub whole: bool,
}

/// The parts of edges passed in walking round the ring from one place (edge, place on it) to another; parts without
/// length are left out. From a place to itself is once round.
pub(super) fn stretch(ring: &[Path], from: (usize, Position), to: (usize, Position)) -> Vec<Stretch> {
    let mut found = Vec::new();
    let same_edge_ahead = from.0 == to.0 && from.1 < to.1;
    let mut push = |edge: usize, start: Option<Position>, end: Option<Position>| {
        let Some(path) = ring.get(edge) else { return };
        let (start_place, end_place) =
            (start.unwrap_or(path.first_position()), end.unwrap_or(path.last_position()));
        let (at_start, at_end) = (path.length_to(start_place), path.length_to(end_place));
        if at_end - at_start <= SAME_POINT {
            return;
        }
        let length = path.length();
        let whole = at_start <= SAME_POINT && at_end >= length - SAME_POINT;
        if whole {
            found.push(Stretch { edge, path: path.clone(), from: 0.0, to: length, whole });
        } else {
            found.push(Stretch {
                edge,
                path: path.between(start_place, end_place),
                from: at_start,
                to: at_end,
                whole,
            });
        }
    };
    if same_edge_ahead {
        push(from.0, Some(from.1), Some(to.1));
        return found;
    }
    push(from.0, Some(from.1), None);
    let mut edge = next(from.0, ring.len());
    // No more steps than there are edges, whatever the indices.
    for _ in 0..ring.len() {
        if edge == to.0 {
            break;
        }
        push(edge, None, None);
        edge = next(edge, ring.len());
    }
    push(to.0, None, Some(to.1));
    found
}
