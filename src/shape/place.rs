//! Rigid motions that lay one edge on another, and corners moved with what hangs on them.

use crate::shape::outline::{RingError, check_ring, is_anticlockwise, previous};
use crate::shape::path::Path;
use crate::shape::segment;
use crate::shape::tolerance::FLATTEN;
use crate::shape::turn::unit;
use kurbo::{Affine, CubicBez, Line, PathSeg, Vec2};
use thiserror::Error;

/// Why two pieces could not be laid together.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum PlaceError {
    /// The edge's ends are one point, so it has no direction.
    #[error("the ends of an edge are one point")]
    NoDirection,
    /// There is no such edge.
    #[error("there is no such edge")]
    NoSuchEdge,
    /// The paths are no closed outline.
    #[error(transparent)]
    Ring(#[from] RingError),
}

/// How one piece is laid against another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Joining {
    /// The motion of the piece that moves.
    pub motion: Affine,
    /// Whether it was turned over.
    pub flipped: bool,
    /// The largest distance between the two edges after it, mm.
    pub gap: f64,
    /// How much longer the moved edge is than the other, mm.
    pub longer_by: f64,
}

/// Which ends of two edges are to meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meeting {
    /// The start of one with the start of the other.
    StartWithStart,
    /// The start of one with the end of the other.
    StartWithEnd,
}

/// Lay edge `moving_edge` of `moving` on edge `fixed_edge` of `fixed`, with the pieces on opposite sides of it.
///
/// Method: the chords of the two edges are laid on each other, middle on middle, the given ends together. Where the
/// pieces would then lie on the same side, the moving one is turned over first. The gap is the largest distance from
/// a point of one edge to the other, both ways, on points [`FLATTEN`] close to the curves.
///
/// # Errors
/// When an edge's ends are one point, there is no such edge, or a ring is not closed.
pub fn lay_against(
    moving: &[Path],
    moving_edge: usize,
    fixed: &[Path],
    fixed_edge: usize,
    meeting: Meeting,
) -> Result<Joining, PlaceError> {
    check_ring(moving)?;
    check_ring(fixed)?;
    let edge = moving.get(moving_edge).ok_or(PlaceError::NoSuchEdge)?;
    let other = fixed.get(fixed_edge).ok_or(PlaceError::NoSuchEdge)?;
    let target = match meeting {
        Meeting::StartWithStart => other.clone(),
        Meeting::StartWithEnd => other.reversed(),
    };
    let chord = unit(edge.end() - edge.start()).ok_or(PlaceError::NoDirection)?;
    let target_chord = unit(target.end() - target.start()).ok_or(PlaceError::NoDirection)?;
    // On which side of its edge, walked as it will lie, each piece has its inside.
    let own_left = is_anticlockwise(moving);
    let other_left = is_anticlockwise(fixed) == (meeting == Meeting::StartWithStart);
    let flipped = own_left == other_left;
    let middle = edge.start().midpoint(edge.end()).to_vec2();
    let target_middle = target.start().midpoint(target.end()).to_vec2();
    // The chord to the x axis, turned over if need be, and on to the other chord: entries are cosines and sines of the
    // chords themselves, so no angle is ever taken.
    let to_axis = Affine::new([chord.x, -chord.y, chord.y, chord.x, 0.0, 0.0]);
    let over = if flipped { Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, 0.0]) } else { Affine::IDENTITY };
    let from_axis = Affine::new([target_chord.x, target_chord.y, -target_chord.y, target_chord.x, 0.0, 0.0]);
    let motion = Affine::translate(target_middle) * from_axis * over * to_axis * Affine::translate(-middle);
    let laid = edge.transform(motion);
    let gap = farthest(&laid, &target).max(farthest(&target, &laid));
    Ok(Joining { motion, flipped, gap, longer_by: edge.length() - other.length() })
}

/// The largest distance from a point of `path` to `other`, mm.
fn farthest(path: &Path, other: &Path) -> f64 {
    path.flatten(FLATTEN).into_iter().map(|point| other.nearest(point).distance).fold(0.0, f64::max)
}

/// The path with its start moved by `start_shift` and its end by `end_shift`; every node between moves by both in
/// proportion to its length along the path, and each handle with its node, so that the path stays smooth.
pub fn move_ends(path: &Path, start_shift: Vec2, end_shift: Vec2) -> Path {
    let whole = path.length();
    let mut passed = 0.0;
    let mut segments = Vec::with_capacity(path.segments().len());
    let shift = |at: f64| {
        let share = if whole > 0.0 { (at / whole).clamp(0.0, 1.0) } else { 0.0 };
        start_shift * (1.0 - share) + end_shift * share
    };
    let count = path.segments().len();
    for (index, piece) in path.segments().iter().enumerate() {
        let before = if index == 0 { start_shift } else { shift(passed) };
        passed += segment::length(piece);
        let after = if index + 1 == count { end_shift } else { shift(passed) };
        segments.push(match piece {
            PathSeg::Line(line) => PathSeg::Line(Line::new(line.p0 + before, line.p1 + after)),
            other => {
                let c = other.to_cubic();
                PathSeg::Cubic(CubicBez::new(c.p0 + before, c.p1 + before, c.p2 + after, c.p3 + after))
            }
        });
    }
    Path::chain(segments, path.start())
}

/// The ring with the corner where edge `edge` starts moved by `shift`, and both edges there with it
/// (see [`move_ends`]); none when there is no such edge.
pub fn move_corner(ring: &[Path], edge: usize, shift: Vec2) -> Option<Vec<Path>> {
    let mut edges = ring.to_vec();
    let starting = edges.get_mut(edge)?;
    *starting = move_ends(starting, shift, Vec2::ZERO);
    let ending = edges.get_mut(previous(edge, ring.len()))?;
    *ending = move_ends(ending, Vec2::ZERO, shift);
    Some(edges)
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Point;

    fn polygon(corners: &[(f64, f64)]) -> Vec<Path> {
        let points: Vec<Point> = corners.iter().map(|&c| c.into()).collect();
        let ends = points.iter().cycle().skip(1);
        points.iter().zip(ends).map(|(a, b)| Path::straight(*a, *b)).collect()
    }

    /// Two rectangles joined at upright sides, by hand: bottom with bottom needs no turning over when the right side
    /// of one meets the left side of the other.
    #[test]
    fn side_by_side() {
        let left = polygon(&[(0.0, 0.0), (10.0, 0.0), (10.0, 30.0), (0.0, 30.0)]);
        let right = polygon(&[(100.0, 5.0), (120.0, 5.0), (120.0, 35.0), (100.0, 35.0)]);
        // left's edge 1 goes up; right's edge 3 goes down: its start (top) meets the other's end (top).
        let joined = lay_against(&right, 3, &left, 1, Meeting::StartWithEnd).unwrap();
        assert!(!joined.flipped && joined.gap < 1e-9);
        assert!((joined.motion * Point::new(120.0, 35.0)).distance(Point::new(30.0, 30.0)) < 1e-9);
        // Right side to right side, bottoms together: turned over, and still on the other side.
        let joined = lay_against(&right, 1, &left, 1, Meeting::StartWithStart).unwrap();
        assert!(joined.flipped && joined.gap < 1e-9);
        assert!((joined.motion * Point::new(100.0, 5.0)).distance(Point::new(30.0, 0.0)) < 1e-9);
        // The same with one ring walked the other way round.
        let back: Vec<Path> = left.iter().rev().map(Path::reversed).collect();
        let joined = lay_against(&right, 1, &back, 2, Meeting::StartWithEnd).unwrap();
        assert!(joined.flipped);
        assert!((joined.motion * Point::new(100.0, 5.0)).distance(Point::new(30.0, 0.0)) < 1e-9);
    }

    /// A curve of rise 10 laid on a straight edge gapes by 10·¾ (a cubic with both handles 10 off rises ¾ of it).
    #[test]
    fn a_curve_gapes() {
        let fixed = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (0.0, 50.0)]);
        let p = |x: f64, y: f64| Point::new(x, y);
        let mut moving = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, -50.0), (0.0, -50.0)]);
        moving[0] = Path::cubic(p(0.0, 0.0), p(30.0, 10.0), p(70.0, 10.0), p(100.0, 0.0));
        let joined = lay_against(&moving, 0, &fixed, 0, Meeting::StartWithStart).unwrap();
        assert!((joined.gap - 7.5).abs() < 0.02, "{}", joined.gap);
        assert!(!joined.flipped);
    }

    #[test]
    fn ends_move_and_stay_smooth() {
        let p = |x: f64, y: f64| Point::new(x, y);
        let path =
            crate::shape::curve::smooth_curve(&[p(0.0, 0.0), p(50.0, 20.0), p(100.0, 0.0)], None, None)
                .unwrap();
        let moved = move_ends(&path, Vec2::ZERO, Vec2::new(0.0, 6.0));
        assert_eq!((moved.start(), moved.end()), (p(0.0, 0.0), p(100.0, 6.0)));
        assert!(moved.is_smooth(1e-9));
        // The middle node is half way along by symmetry.
        assert!(moved.nearest(p(50.0, 23.0)).distance < 1e-6);
    }

    /// A square's corner moved 2 to the right and 3 up: the area grows by (2 + 3)·10/2, by hand.
    #[test]
    fn a_corner_moves_with_both_edges() {
        let ring = polygon(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]);
        let moved = move_corner(&ring, 2, Vec2::new(2.0, 3.0)).unwrap();
        assert_eq!(check_ring(&moved), Ok(()));
        assert!((crate::shape::outline::signed_area(&moved) - 125.0).abs() < 1e-9);
        assert_eq!(move_corner(&ring, 9, Vec2::ZERO), None);
    }
}
