//! Closed outlines: slices of paths end to end, the last ending where the first begins.

use super::crossing::{self, Piece};
use super::root::bernstein_roots;
use super::tolerance::{AT_CORNER, NO_AREA, SAME_POINT};
use crate::shape::path::Path;
use kurbo::{ParamCurve, ParamCurveArea, Point, Rect};
use thiserror::Error;

/// Why a slice of paths is no closed outline.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum RingError {
    /// There is no edge.
    #[error("an outline needs at least one edge")]
    Empty,
    /// Edge `edge` holds a number that is not finite.
    #[error("edge {edge} holds a number that is not finite")]
    NotFinite {
        /// Its index.
        edge: usize,
    },
    /// Edge `edge` does not end where the next begins.
    #[error("edge {edge} ends {gap} mm from the start of the next")]
    Open {
        /// Its index.
        edge: usize,
        /// The distance, mm.
        gap: f64,
    },
}

/// A place where an outline crosses itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    /// Index of one edge.
    pub first: usize,
    /// Index of the other edge; equal to `first` when an edge crosses itself.
    pub second: usize,
    /// Where.
    pub point: Point,
}

/// How an outline has collapsed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Collapse {
    /// An edge has no length.
    EdgeWithoutLength {
        /// Its index.
        edge: usize,
    },
    /// The outline holds no area.
    NoArea {
        /// The area, mm².
        area: f64,
    },
}

/// Whether the paths are a closed outline: finite, each ending within [`SAME_POINT`] of where the next begins.
pub fn check_ring(ring: &[Path]) -> Result<(), RingError> {
    let Some(first) = ring.first() else { return Err(RingError::Empty) };
    let nexts = ring.iter().skip(1).chain(std::iter::once(first));
    for (edge, (path, next)) in ring.iter().zip(nexts).enumerate() {
        if !path.is_finite() {
            return Err(RingError::NotFinite { edge });
        }
        let gap = path.end().distance(next.start());
        if next.is_finite() && (gap.is_nan() || gap > SAME_POINT) {
            return Err(RingError::Open { edge, gap });
        }
    }
    Ok(())
}

/// The area inside, mm²: positive when the outline goes anticlockwise. Exact for lines and cubics (Green's theorem;
/// the integral over a cubic is a polynomial in its control points).
pub fn signed_area(ring: &[Path]) -> f64 {
    ring.iter().flat_map(|path| path.segments()).map(ParamCurveArea::signed_area).sum()
}

/// Whether the outline goes anticlockwise.
pub fn is_anticlockwise(ring: &[Path]) -> bool {
    signed_area(ring) > 0.0
}

/// The smallest upright rectangle round the paths, exact; none when there are none.
pub fn extents(paths: &[Path]) -> Option<Rect> {
    paths.iter().map(Path::bounding_box).reduce(|whole, own| whole.union(own))
}

/// The first place where the outline crosses or touches itself, by the indices of the edges; none when it does not.
///
/// Corners shared by neighbours do not count, nor anything nearer to them than [`AT_CORNER`]; edges that lie on each
/// other for a stretch do. An edge that crosses itself gives its index twice. Method: see the crossing module.
/// An outline that is not finite gives none.
pub fn crossings(ring: &[Path]) -> Option<Crossing> {
    if !ring.iter().all(Path::is_finite) {
        return None;
    }
    let pieces: Vec<Piece> =
        ring.iter().enumerate().flat_map(|(edge, path)| crossing::pieces(edge, path)).collect();
    let count = pieces.len();
    let mut order: Vec<(usize, &Piece)> = pieces.iter().enumerate().collect();
    order.sort_by(|a, b| a.1.bounds.x0.total_cmp(&b.1.bounds.x0));
    let mut budget = CROSSING_STEPS;
    let mut best: Option<Crossing> = None;
    for (place, (index, piece)) in order.iter().enumerate() {
        for (other_index, other) in order.iter().skip(place + 1) {
            if other.bounds.x0 > piece.bounds.x1 {
                break;
            }
            let ((low, p), (high, q)) = if index < other_index {
                ((*index, *piece), (*other_index, *other))
            } else {
                ((*other_index, *other), (*index, *piece))
            };
            if best.is_some_and(|known| (known.first, known.second) <= (p.edge, q.edge)) {
                continue;
            }
            for meet in crossing::meets(p, q, &mut budget) {
                let at = |corner: Point| corner.distance(meet.point) <= AT_CORNER;
                let shared =
                    (low + 1 == high && at(p.curve.p3)) || (low == 0 && high + 1 == count && at(p.curve.p0));
                if !shared {
                    best = Some(Crossing { first: p.edge, second: q.edge, point: meet.point });
                    break;
                }
            }
        }
    }
    best
}

/// Whether the outline has collapsed: an edge without length, or no area ([`NO_AREA`]).
pub fn collapse(ring: &[Path]) -> Option<Collapse> {
    if let Some(edge) = ring.iter().position(|path| path.length() <= SAME_POINT) {
        return Some(Collapse::EdgeWithoutLength { edge });
    }
    let area = signed_area(ring);
    (area.abs() <= NO_AREA).then_some(Collapse::NoArea { area })
}

/// Whether `after` goes round the other way than `before`.
pub fn turned_inside_out(before: &[Path], after: &[Path]) -> bool {
    signed_area(before) * signed_area(after) < 0.0
}

/// Whether the point is inside the outline; a point within [`SAME_POINT`] of it counts.
pub fn contains(ring: &[Path], point: Point) -> bool {
    is_on(ring, point, SAME_POINT) || winding(ring, point) != 0
}

/// Whether the point is inside the outline and not on it.
pub fn contains_strictly(ring: &[Path], point: Point) -> bool {
    winding(ring, point) != 0 && !is_on(ring, point, SAME_POINT)
}

/// Whether the point lies within `tolerance` mm of one of the paths.
pub fn is_on(paths: &[Path], point: Point, tolerance: f64) -> bool {
    paths.iter().any(|path| {
        let bounds = path.bounding_box().inflate(tolerance, tolerance);
        bounds.contains_or_touches(point) && path.nearest(point).distance <= tolerance
    })
}

/// How many times the outline goes round the point, anticlockwise counted positive: crossings of the ray to the
/// right, each piece counted with its lower end and without its upper.
pub fn winding(ring: &[Path], point: Point) -> i32 {
    if !point.is_finite() || !ring.iter().all(Path::is_finite) {
        return 0;
    }
    let mut turns = 0;
    for piece in ring.iter().enumerate().flat_map(|(edge, path)| crossing::pieces(edge, path)) {
        let (start, end) = (piece.curve.p0, piece.curve.p3);
        let (below, ends_below) = (start.y <= point.y, end.y <= point.y);
        if below == ends_below || point.x > piece.bounds.x1 {
            continue;
        }
        let right = point.x < piece.bounds.x0 || {
            let heights =
                [piece.curve.p0, piece.curve.p1, piece.curve.p2, piece.curve.p3].map(|p| p.y - point.y);
            let t = bernstein_roots(heights, 0.0).first().copied().unwrap_or(0.5);
            piece.curve.eval(t).x > point.x
        };
        if right {
            turns += if below { 1 } else { -1 };
        }
    }
    turns
}

/// Whether a rectangle holds a point, its sides counted.
trait Touches {
    fn contains_or_touches(&self, point: Point) -> bool;
}

impl Touches for Rect {
    fn contains_or_touches(&self, point: Point) -> bool {
        point.x >= self.x0 && point.x <= self.x1 && point.y >= self.y0 && point.y <= self.y1
    }
}

/// The edge before `edge` in a ring of `count` edges.
pub(super) fn previous(edge: usize, count: usize) -> usize {
    if edge == 0 { count.saturating_sub(1) } else { edge - 1 }
}

/// The edge after `edge` in a ring of `count` edges.
pub(super) fn next(edge: usize, count: usize) -> usize {
    if edge + 1 >= count { 0 } else { edge + 1 }
}

/// The most halvings spent on one outline when its crossings are looked for.
const CROSSING_STEPS: usize = 2_000_000;
