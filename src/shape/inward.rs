//! From a cutting line back to the stitching line: every edge moved in by its own width.

use super::crossing::paths_meet;
use super::offset::{OffsetError, SMOOTH_GAP, longer, parallel, straightened};
use super::outline::{RingError, check_ring, crossings, is_anticlockwise, signed_area};
use super::path::{Path, Position};
use super::tolerance::SAME_POINT;
use kurbo::Point;
use thiserror::Error;

/// Why there is no stitching line inside.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum InwardError {
    /// The parallels of edge `before` and of the next do not meet near their corner.
    #[error("the parallels of edge {before} and the next do not meet")]
    Corner {
        /// The edge that ends there.
        before: usize,
    },
    /// Edge `edge` bends too tightly toward the inside.
    #[error("edge {edge} bends with a radius of {radius} mm at {point:?}")]
    TooTight {
        /// The edge.
        edge: usize,
        /// Where.
        point: Point,
        /// The radius there, mm.
        radius: f64,
    },
    /// Nothing is left of edge `edge` between its neighbours, or its parallel crosses another.
    #[error("nothing is left of edge {edge}")]
    NothingLeft {
        /// The edge.
        edge: usize,
    },
    /// A number is not finite.
    #[error("a number is not finite")]
    NotFinite,
    /// The paths are no closed outline.
    #[error(transparent)]
    Ring(#[from] RingError),
}

/// So many times the wider of two widths a corner may lie from the one outside it: at 20° and less they
/// lie further.
const FARTHEST: f64 = 6.0;
/// The cosine of the turn (some 2°) up to which two edges go on in one another.
const GOES_ON: f64 = 0.9994;

/// The ring whose edges lie inside those of `ring`, each by its own width in mm, in the same order and direction.
///
/// Edges are moved in by [`parallel`], to its accuracy; at a corner both go on straight, or are cut, until they meet.
/// Mitred outward again by the same widths, straight corners come back exactly.
///
/// # Errors
/// When a corner has no place, an edge bends too tightly, nothing is left of one, or there is no outline.
pub fn inward(ring: &[Path], widths: &[f64]) -> Result<Vec<Path>, InwardError> {
    check_ring(ring)?;
    let count = ring.len();
    if widths.len() != count || widths.iter().any(|width| !width.is_finite()) {
        return Err(InwardError::NotFinite);
    }
    let side = if is_anticlockwise(ring) { 1.0 } else { -1.0 };
    let mut moved: Vec<Path> = Vec::with_capacity(count);
    for (edge, (path, width)) in ring.iter().zip(widths).enumerate() {
        moved.push(parallel(path, side * width).map_err(|error| match error {
            OffsetError::TooTight { point, radius, .. } => InwardError::TooTight { edge, point, radius },
            OffsetError::NotFinite => InwardError::NotFinite,
            _ => InwardError::NothingLeft { edge },
        })?);
    }
    let widest = widths.iter().copied().fold(0.0, f64::max);
    let reach = FARTHEST * widest + 1.0;
    let whole: Vec<Path> = moved.iter().map(|path| longer(path, reach, reach)).collect();
    let mut starts: Vec<Option<Position>> = vec![None; count];
    let mut ends: Vec<Option<Position>> = vec![None; count];
    for at in 0..count {
        let next = (at + 1) % count;
        let (Some(own), Some(after)) = (moved.get(at), moved.get(next)) else { continue };
        let (on_own, on_after) = match own.end().distance(after.start()) <= SMOOTH_GAP {
            true => (
                whole_position(own, own.last_position(), reach),
                whole_position(after, after.first_position(), reach),
            ),
            false => corner(ring, widths, &whole, at, next).ok_or(InwardError::Corner { before: at })?,
        };
        if let (Some(end), Some(start)) = (ends.get_mut(at), starts.get_mut(next)) {
            (*end, *start) = (Some(on_own), Some(on_after));
        }
    }
    let mut inside: Vec<Path> = Vec::with_capacity(count);
    for (edge, path) in whole.iter().enumerate() {
        let (Some(Some(start)), Some(Some(end))) = (starts.get(edge), ends.get(edge)) else {
            return Err(InwardError::NothingLeft { edge });
        };
        let part = straightened(path.between(*start, *end));
        if part.length() <= SAME_POINT {
            return Err(InwardError::NothingLeft { edge });
        }
        inside.push(part);
    }
    close(&mut inside);
    check_ring(&inside)?;
    if let Some(crossing) = crossings(&inside) {
        return Err(InwardError::NothingLeft { edge: crossing.first });
    }
    let (outer, inner) = (signed_area(ring), signed_area(&inside));
    if outer * inner <= 0.0 || inner.abs() > outer.abs() + 1e-3 {
        return Err(InwardError::NothingLeft { edge: 0 });
    }
    Ok(inside)
}

/// The place of a moved edge on the same edge going on at both ends: one segment is put before it.
fn whole_position(path: &Path, position: Position, reach: f64) -> Position {
    let before = usize::from(reach > 0.0 && path.tangent_at_start().is_some());
    Position { segment: position.segment + before, t: position.t }
}

/// Where two neighbours meet inside their corner; none where they do not, or where they go on in one another and have
/// widths that differ.
fn corner(
    ring: &[Path],
    widths: &[f64],
    whole: &[Path],
    at: usize,
    next: usize,
) -> Option<(Position, Position)> {
    let (own, after) = (ring.get(at)?, ring.get(next)?);
    if at == next || own.tangent_at_end()?.dot(after.tangent_at_start()?) > GOES_ON {
        return None;
    }
    let outer = own.end();
    let far = FARTHEST * widths.get(at)?.max(*widths.get(next)?);
    let meets = paths_meet(whole.get(at)?, whole.get(next)?);
    let near = meets.into_iter().filter(|meet| meet.2.distance(outer) <= far + SAME_POINT);
    near.min_by(|a, b| a.2.distance(outer).total_cmp(&b.2.distance(outer)))
        .map(|(own, after, _)| (own, after))
}

/// Each edge ends exactly where the next begins: where two lines meet, rounding leaves the last bits.
fn close(ring: &mut [Path]) {
    let starts: Vec<Point> = ring.iter().map(Path::start).collect();
    for (path, next) in ring.iter_mut().zip(starts.iter().cycle().skip(1)) {
        let gap = path.end().distance(*next);
        if gap > 0.0 && gap <= SMOOTH_GAP {
            *path = path.ended_at(*next);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::arc::{Turning, arc_about};

    fn polygon(corners: &[(f64, f64)]) -> Vec<Path> {
        let points: Vec<Point> = corners.iter().map(|&corner| corner.into()).collect();
        let ends = points.iter().cycle().skip(1);
        points.iter().zip(ends).map(|(from, to)| Path::straight(*from, *to)).collect()
    }

    /// A rectangle 100 by 60 with 10 below, 20 to the right, 30 above and none to the left, by hand.
    #[test]
    fn each_edge_by_its_own_width() {
        let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]);
        let inside = inward(&ring, &[10.0, 20.0, 30.0, 0.0]).unwrap();
        for (path, corner) in inside.iter().zip([(0.0, 10.0), (80.0, 10.0), (80.0, 30.0), (0.0, 30.0)]) {
            assert!(path.start().distance(corner.into()) < 1e-9, "{:?}", path.start());
        }
        let back: Vec<Path> = ring.iter().rev().map(Path::reversed).collect();
        let inside = inward(&back, &[0.0, 30.0, 20.0, 10.0]).unwrap();
        assert!(inside[0].start().distance(Point::new(0.0, 10.0)) < 1e-9);
    }

    /// An L: at the corner that turns into the piece both go on, to (30 − 5, 30 − 10) by hand.
    #[test]
    fn a_corner_that_turns_in() {
        let ring =
            polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 30.0), (30.0, 30.0), (30.0, 100.0), (0.0, 100.0)]);
        let inside = inward(&ring, &[5.0, 5.0, 10.0, 5.0, 5.0, 5.0]).unwrap();
        assert!(inside[3].start().distance(Point::new(25.0, 20.0)) < 1e-9, "{:?}", inside[3].start());
    }

    /// A quarter disc of radius 100, 10 inside all round: an arc of radius 90 about the same centre, which the
    /// straight edges, 10 inside their own, cut at √(90² − 10²).
    #[test]
    fn inside_an_arc() {
        let p = |x: f64, y: f64| Point::new(x, y);
        let ring = vec![
            Path::straight(p(0.0, 0.0), p(100.0, 0.0)),
            arc_about(Point::ZERO, p(100.0, 0.0), p(0.0, 100.0), Turning::Anticlockwise).unwrap(),
            Path::straight(p(0.0, 100.0), p(0.0, 0.0)),
        ];
        let inside = inward(&ring, &[10.0; 3]).unwrap();
        assert!(inside[0].start().distance(p(10.0, 10.0)) < 1e-6);
        assert!(inside[0].end().distance(p(8000.0_f64.sqrt(), 10.0)) < 0.02);
        for point in inside[1].flatten(1e-3) {
            assert!((point.to_vec2().hypot() - 90.0).abs() < 0.011, "{point:?}");
        }
    }

    #[test]
    fn where_there_is_no_room() {
        let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]);
        assert!(matches!(inward(&ring, &[30.0, 0.0, 30.0, 0.0]), Err(InwardError::NothingLeft { .. })));
        assert!(inward(&ring, &[40.0, 5.0, 40.0, 5.0]).is_err());
        // Two edges that go on in one another, 10 and 20 wide: a step, which no two lines make.
        let step = polygon(&[(0.0, 0.0), (50.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]);
        assert_eq!(inward(&step, &[10.0, 20.0, 10.0, 10.0, 10.0]), Err(InwardError::Corner { before: 0 }));
        assert!(inward(&step, &[10.0; 5]).is_ok());
        let p = |x: f64, y: f64| Point::new(x, y);
        let hole = vec![
            arc_about(Point::ZERO, p(9.0, 0.0), p(-9.0, 0.0), Turning::Anticlockwise).unwrap(),
            Path::straight(p(-9.0, 0.0), p(9.0, 0.0)),
        ];
        assert!(matches!(inward(&hole, &[10.0, 1.0]), Err(InwardError::TooTight { edge: 0, .. })));
        assert_eq!(inward(&ring, &[f64::NAN; 4]), Err(InwardError::NotFinite));
        assert_eq!(inward(&[], &[]), Err(InwardError::Ring(RingError::Empty)));
    }
}
