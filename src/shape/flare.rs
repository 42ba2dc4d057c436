//! Cutting in from one point of an outline to a hinge at another, and turning one half open.

use crate::shape::bridge::bridge_from;
use crate::shape::curve::smooth_curve;
use crate::shape::line::meet_segment;
use crate::shape::outline::{
    RingError, check_ring, contains, contains_strictly, is_anticlockwise, is_on, next,
};
use crate::shape::path::{Path, Position};
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};
use crate::shape::turn::rotation_about;
use crate::shape::walk::{Stretch, stretch};
use kurbo::{Affine, PathSeg, Point, Vec2};
use thiserror::Error;

/// Why a piece could not be flared.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum FlareError {
    /// The point where the cut begins is not on the outline.
    #[error("the cut begins {distance} mm off the outline")]
    OpeningOffOutline {
        /// How far off, mm.
        distance: f64,
    },
    /// The hinge is not on the outline.
    #[error("the hinge is {distance} mm off the outline")]
    HingeOffOutline {
        /// How far off, mm.
        distance: f64,
    },
    /// The cut is too short to open so far, or the opening is negative.
    #[error("a cut of {length} mm cannot open {amount} mm")]
    TooWide {
        /// Length of the cut, mm.
        length: f64,
        /// The opening asked for, mm.
        amount: f64,
    },
    /// The cut leaves the piece between its ends, or runs along an edge.
    #[error("the cut leaves the piece at edge {edge}")]
    LeavesPiece {
        /// Index of the edge it meets.
        edge: usize,
        /// Where.
        point: Point,
    },
    /// The vector that says which half turns lies along the cut.
    #[error("it is not clear which half turns")]
    NoSide,
    /// A number is not finite.
    #[error("a number is not finite")]
    NotFinite,
    /// The paths are no closed outline.
    #[error(transparent)]
    Ring(#[from] RingError),
}

/// A piece that was flared.
#[derive(Debug, Clone, PartialEq)]
pub struct Flare {
    /// The same edges in the same order.
    pub edges: Vec<Path>,
    /// The turn about the hinge that the half beyond made.
    pub turn: Affine,
    /// The angle turned, radians, anticlockwise positive.
    pub angle: f64,
    /// The outline of the half that turned, as it was, open along the cut.
    turned_half: Vec<Path>,
    opening: Point,
    hinge: Point,
}

impl Flare {
    /// Whether a point of the piece as it was turns with the half beyond; a point on the cut does not. A point within
    /// [`ON_OUTLINE`] of the half's outline belongs to it.
    pub fn is_beyond(&self, point: Point) -> bool {
        let cut = Path::straight(self.hinge, self.opening);
        if cut.nearest(point).distance <= SAME_POINT {
            return false;
        }
        let mut half = self.turned_half.clone();
        if is_on(&half, point, ON_OUTLINE) {
            return true;
        }
        if let (Some(first), Some(last)) = (self.turned_half.first(), self.turned_half.last()) {
            half.push(Path::straight(last.end(), first.start()));
        }
        contains(&half, point)
    }

    /// Where a point of the piece as it was ends up.
    pub fn moved(&self, point: Point) -> Point {
        if self.is_beyond(point) { self.turn * point } else { point }
    }
}

/// Cut `ring` from `opening` to `hinge`, both on it, and turn the half on the side that `beyond` points to about the
/// hinge, until the two sides of the cut are `amount` mm apart at the opening.
///
/// Method: the opening is a chord of the turn, so the angle is 2·asin(amount / 2·length of the cut). Of the edge that
/// is opened, a straight one becomes one smooth curve that leaves along its first half and arrives along its second; a
/// curved one keeps both halves and is bridged smoothly. At the hinge an edge keeps both halves, and so its length.
/// Where the opening is a corner, the corner stays and the edge that turns is drawn to it.
///
/// # Errors
/// A point off the outline, a cut that leaves the piece, an opening wider than twice the cut or negative.
pub fn flare(
    ring: &[Path],
    opening: Point,
    hinge: Point,
    beyond: Vec2,
    amount: f64,
) -> Result<Flare, FlareError> {
    check_ring(ring)?;
    if !amount.is_finite() || !opening.is_finite() || !hinge.is_finite() {
        return Err(FlareError::NotFinite);
    }
    let (open_at, off) = place_on(ring, opening);
    if off > ON_OUTLINE {
        return Err(FlareError::OpeningOffOutline { distance: off });
    }
    let (hinge_at, off) = place_on(ring, hinge);
    if off > ON_OUTLINE {
        return Err(FlareError::HingeOffOutline { distance: off });
    }
    let (opening, hinge) = (point_at(ring, open_at, opening), point_at(ring, hinge_at, hinge));
    let length = opening.distance(hinge);
    if amount < 0.0 || amount > 2.0 * length || length <= SAME_POINT {
        return Err(FlareError::TooWide { length, amount });
    }
    let way = hinge - opening;
    let left_is_beyond = way.cross(beyond);
    if !left_is_beyond.is_finite() || left_is_beyond == 0.0 {
        return Err(FlareError::NoSide);
    }
    stays_inside(ring, opening, hinge)?;
    // Seen from the hinge, a half to the left of the cut opens clockwise.
    let angle = -left_is_beyond.signum() * 2.0 * libm::asin((amount / (2.0 * length)).min(1.0));
    let turn = rotation_about(hinge, angle);
    let beyond_is_after_hinge = (left_is_beyond > 0.0) == is_anticlockwise(ring);
    let (start, end) = if beyond_is_after_hinge { (hinge_at, open_at) } else { (open_at, hinge_at) };
    let parts = [(stretch(ring, start, end), true), (stretch(ring, end, start), false)];
    let turned_half = parts
        .iter()
        .filter(|(_, turns)| *turns)
        .flat_map(|(half, _)| half.iter().map(|s| s.path.clone()))
        .collect();
    let mut of_edge: Vec<Vec<(Stretch, bool)>> = vec![Vec::new(); ring.len()];
    for (half, turns) in parts {
        for part in half {
            if let Some(list) = of_edge.get_mut(part.edge) {
                list.push((part, turns));
            }
        }
    }
    let edges = ring
        .iter()
        .zip(of_edge)
        .map(|(edge, mut parts)| {
            parts.sort_by(|a, b| a.0.from.total_cmp(&b.0.from));
            opened(edge, &parts, &turn, opening, hinge)
        })
        .collect();
    Ok(Flare { edges, turn, angle, turned_half, opening, hinge })
}

/// An edge after the turn, from its parts in order, each with whether it turns.
fn opened(edge: &Path, parts: &[(Stretch, bool)], turn: &Affine, opening: Point, hinge: Point) -> Path {
    let at = |point: Point, place: Point| point.distance(place) <= SAME_POINT;
    let moved: Vec<Path> = parts
        .iter()
        .map(|(part, turns)| if *turns { part.path.transform(*turn) } else { part.path.clone() })
        .collect();
    let (Some(first), Some(last)) = (moved.first(), moved.last()) else { return edge.clone() };
    // Corners at the opening stay where they are; corners at the hinge have not moved but for rounding.
    let corner = |original: Point, found: Point| {
        if at(original, opening) || at(original, hinge) { original } else { found }
    };
    let (start, end) = (corner(edge.start(), first.start()), corner(edge.end(), last.end()));
    let opens_inside = parts.len() > 1
        && parts.windows(2).any(|two| matches!(two, [a, b] if a.1 != b.1 && at(a.0.path.end(), opening)));
    if edge.is_straight() {
        if opens_inside && moved.len() == 2 {
            return smooth_curve(&[start, end], first.tangent_at_start(), last.tangent_at_end())
                .unwrap_or_else(|_| Path::straight(start, end));
        }
        if moved.len() == 1 {
            return Path::straight(start, end);
        }
    }
    let mut segments: Vec<PathSeg> = Vec::new();
    let mut here = start;
    let mut way = edge.tangent_at_start();
    for part in &moved {
        bridge_from(&mut segments, here, way, part.start(), part.tangent_at_start());
        segments.extend_from_slice(part.segments());
        here = part.end();
        way = part.tangent_at_end();
    }
    bridge_from(&mut segments, here, way, end, edge.tangent_at_end());
    Path::chain(segments, start)
}

/// The place on the ring nearest to a point, and how far off it is. A place at the end of an edge is given as the
/// start of the next.
fn place_on(ring: &[Path], point: Point) -> ((usize, Position), f64) {
    let mut best = ((0, Position { segment: 0, t: 0.0 }), f64::INFINITY);
    for (edge, path) in ring.iter().enumerate() {
        let nearest = path.nearest(point);
        if nearest.distance >= best.1 {
            continue;
        }
        let place = if nearest.point.distance(path.end()) <= SAME_POINT {
            (next(edge, ring.len()), Position { segment: 0, t: 0.0 })
        } else if nearest.point.distance(path.start()) <= SAME_POINT {
            (edge, path.first_position())
        } else {
            (edge, nearest.position)
        };
        best = (place, nearest.distance);
    }
    best
}

fn point_at(ring: &[Path], place: (usize, Position), otherwise: Point) -> Point {
    ring.get(place.0).map_or(otherwise, |path| path.point_at(place.1))
}

/// Whether the cut lies in the piece between its ends.
fn stays_inside(ring: &[Path], opening: Point, hinge: Point) -> Result<(), FlareError> {
    let far = |point: Point| point.distance(opening) > ON_OUTLINE && point.distance(hinge) > ON_OUTLINE;
    let hit = meet_segment(opening, hinge, ring).into_iter().find(|hit| far(hit.point));
    if let Some(hit) = hit {
        return Err(FlareError::LeavesPiece { edge: hit.edge, point: hit.point });
    }
    let middle = opening.midpoint(hinge);
    if !contains_strictly(ring, middle) {
        let edge = place_on(ring, middle).0.0;
        return Err(FlareError::LeavesPiece { edge, point: middle });
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::arc::{Turning, arc_about};

    fn polygon(corners: &[(f64, f64)]) -> Vec<Path> {
        let points: Vec<Point> = corners.iter().map(|&c| c.into()).collect();
        let ends = points.iter().cycle().skip(1);
        points.iter().zip(ends).map(|(a, b)| Path::straight(*a, *b)).collect()
    }

    const RIGHT: Vec2 = Vec2::new(1.0, 0.0);

    /// By hand: a panel 100 by 60 cut up the middle from the hem and opened 10: the angle is 2·asin(10/120), the two
    /// sides of the cut are 10 apart at the hem, the top keeps its length, the hem becomes one smooth curve.
    #[test]
    fn a_panel_opened_at_the_hem() {
        let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]);
        let (opening, hinge) = (Point::new(50.0, 0.0), Point::new(50.0, 60.0));
        for (ring, hem, top) in
            [(ring.clone(), 0, 2), (ring.iter().rev().map(Path::reversed).collect::<Vec<_>>(), 3, 1)]
        {
            let flared = flare(&ring, opening, hinge, RIGHT, 10.0).unwrap();
            assert_eq!(check_ring(&flared.edges), Ok(()));
            // Anticlockwise about a hinge above moves the lower right half to the right.
            assert!((flared.angle - 2.0 * libm::asin(10.0 / 120.0)).abs() < 1e-12);
            assert!(((flared.turn * opening).distance(opening) - 10.0).abs() < 1e-9);
            assert!((flared.turn * opening).x > 59.0);
            assert!((flared.edges[top].length() - 100.0).abs() < 1e-9);
            assert_eq!(flared.edges[top].segments().len(), 2);
            let curve = &flared.edges[hem];
            assert!(curve.is_smooth(1e-9) && !curve.is_straight());
            assert!(curve.length() > 109.0 && curve.length() < 111.0, "{}", curve.length());
            assert!(flared.is_beyond(Point::new(80.0, 10.0)) && !flared.is_beyond(Point::new(20.0, 10.0)));
            assert!(!flared.is_beyond(Point::new(50.0, 20.0)), "on the cut");
            assert!(flared.is_beyond(Point::new(100.0, 60.0)), "a corner of the half that turns");
        }
        let left = flare(&ring, opening, hinge, -RIGHT, 10.0).unwrap();
        assert!((left.turn * opening).x < 41.0 && left.angle < 0.0);
    }

    /// A hem that is an arc keeps both halves and is joined without a corner.
    #[test]
    fn a_curved_hem() {
        let p = |x: f64, y: f64| Point::new(x, y);
        let hem = arc_about(p(0.0, 300.0), p(-180.0, 60.0), p(180.0, 60.0), Turning::Anticlockwise).unwrap();
        let ring = vec![
            hem.clone(),
            Path::straight(p(180.0, 60.0), p(40.0, 260.0)),
            Path::straight(p(40.0, 260.0), p(-40.0, 260.0)),
            Path::straight(p(-40.0, 260.0), p(-180.0, 60.0)),
        ];
        let flared = flare(&ring, p(0.0, 0.0), p(0.0, 260.0), RIGHT, 40.0).unwrap();
        assert_eq!(check_ring(&flared.edges), Ok(()));
        let new = &flared.edges[0];
        assert!(new.is_smooth(1e-6));
        let grown = new.length() - hem.length();
        assert!(grown > 40.0 - 1e-6 && grown < 42.0, "{grown}");
    }

    /// From one corner to another: nothing is cut, the corner at the opening stays.
    #[test]
    fn from_corner_to_corner() {
        let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]);
        let flared = flare(&ring, Point::new(0.0, 0.0), Point::new(100.0, 60.0), RIGHT, 5.0).unwrap();
        assert_eq!(check_ring(&flared.edges), Ok(()));
        assert_eq!(flared.edges[0].start(), Point::new(0.0, 0.0));
        assert!(flared.edges.iter().all(Path::is_straight));
    }

    #[test]
    fn mistakes_are_values() {
        let ring = polygon(&[
            (0.0, 0.0),
            (30.0, 0.0),
            (30.0, 30.0),
            (20.0, 30.0),
            (20.0, 10.0),
            (10.0, 10.0),
            (10.0, 30.0),
            (0.0, 30.0),
        ]);
        let p = |x: f64, y: f64| Point::new(x, y);
        let cut = |from, to, amount| flare(&ring, from, to, Vec2::new(0.3, 1.0), amount);
        assert!(
            matches!(cut(p(15.0, 3.0), p(15.0, 10.0), 1.0), Err(FlareError::OpeningOffOutline { distance }) if distance == 3.0)
        );
        assert!(matches!(cut(p(15.0, 0.0), p(15.0, 12.0), 1.0), Err(FlareError::HingeOffOutline { .. })));
        assert!(matches!(cut(p(0.0, 20.0), p(30.0, 20.0), 1.0), Err(FlareError::LeavesPiece { .. })));
        assert!(matches!(cut(p(0.0, 0.0), p(30.0, 0.0), 1.0), Err(FlareError::LeavesPiece { .. })));
        assert!(matches!(cut(p(15.0, 0.0), p(15.0, 10.0), 21.0), Err(FlareError::TooWide { .. })));
        assert!(matches!(cut(p(15.0, 0.0), p(15.0, 10.0), f64::NAN), Err(FlareError::NotFinite)));
    }
}
