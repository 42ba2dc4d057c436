//! The nearest place of a path.

use super::path::{Path, Position};
use super::segment;
use kurbo::{Line, ParamCurve, Point};

/// The point of a path that is nearest to a given point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nearest {
    /// How far away it is, in millimetres.
    pub distance: f64,
    /// Where it is: length along the path from its start, in millimetres.
    pub at: f64,
    /// Where it is, as a place.
    pub position: Position,
    /// The point itself.
    pub point: Point,
}

/// More than rounding may add to a distance, as a share of the numbers that it is of.
const ROUNDING: f64 = 1e-9;

impl Path {
    /// The point of the path nearest to `point`: by samples and bisection, exact to about 1e-9 mm.
    /// Of several equally near, the first. When something is not finite the distance is infinite.
    pub fn nearest(&self, point: Point) -> Nearest {
        let mut best = Nearest {
            distance: f64::INFINITY,
            at: 0.0,
            position: self.first_position(),
            point: self.start(),
        };
        let reach = reach(self, point);
        for (index, piece) in self.segments().iter().enumerate() {
            if segment::least_distance_squared(piece, point) > reach {
                continue;
            }
            let Some(t) = segment::nearest(piece, point) else { continue };
            let found = piece.eval(t);
            let distance = found.distance(point);
            if distance < best.distance {
                best.distance = distance;
                best.position = Position { segment: index, t };
                best.point = found;
            }
        }
        best.at = self.length_to(best.position);
        best
    }
}

impl Path {
    /// Whether the path comes as near to a point as that, in mm.
    pub fn is_near(&self, point: Point, tolerance: f64) -> bool {
        let reach = tolerance + ROUNDING * (1.0 + tolerance + point.x.abs() + point.y.abs());
        self.segments().iter().any(|piece| {
            segment::least_distance_squared(piece, point) <= reach * reach
                && segment::nearest(piece, point).is_some_and(|t| piece.eval(t).distance(point) <= tolerance)
        })
    }
}

/// By how much the path lies nearer to `other` than to `one`, in mm: where that is clearly more than `least`, or
/// clearly less, only as nearly as tells so.
pub fn nearer(path: &Path, [one, other]: [Point; 2], least: f64) -> f64 {
    // The places that lie nearer to the one by so much are the inside of a branch of a hyperbola, which is convex: a
    // path whose controls lie there lies there.
    let mut all = (f64::INFINITY, f64::NEG_INFINITY);
    for control in path.segments().iter().flat_map(segment::controls) {
        let further = one.distance_squared(control).sqrt() - other.distance_squared(control).sqrt();
        all = (all.0.min(further), all.1.max(further));
        if all.0 <= least && all.1 >= -least {
            break;
        }
    }
    if all.0 > least + ROUNDING || all.1 < -least - ROUNDING {
        return if all.0 > least { all.0 } else { all.1 };
    }
    if path.is_curved() {
        let chords = path.flatten(ROUGH);
        let off = |point: Point| {
            let each = chords.windows(2).filter_map(|pair| match pair {
                &[from, to] => Some(segment::distance_to_line(Line::new(from, to), point)),
                _ => None,
            });
            each.fold(f64::INFINITY, f64::min)
        };
        let further = off(one) - off(other);
        // Each of the two is true to ROUGH.
        if (further.abs() - least).abs() > 4.0 * ROUGH {
            return further;
        }
    }
    path.nearest(one).distance - path.nearest(other).distance
}

/// How far chords may lie from a curve of which it is only to be told to which of two places it is nearer, in mm.
const ROUGH: f64 = 0.05;

/// The place that is nearest to `point` lies no farther away than the square root of this, in mm: than the nearest
/// node, and what rounding may add. Of a single segment nothing is known.
fn reach(path: &Path, point: Point) -> f64 {
    if path.segments().len() < 2 {
        return f64::INFINITY;
    }
    let finite = path.segments().iter().filter(|piece| piece.is_finite());
    let nodes = finite.map(ParamCurve::start).chain(path.segments().last().map(ParamCurve::end));
    // What is no number is passed over.
    let node = nodes.map(|node| node.distance_squared(point)).fold(f64::INFINITY, f64::min).sqrt();
    let reach = node + ROUNDING * (1.0 + node + point.x.abs() + point.y.abs());
    reach * reach
}

#[cfg(test)]
mod tests {
    use super::*;

    /// An upright edge 40 to the right: of two places 10 apart the right one is 10 nearer; of one above the other, none.
    #[test]
    fn it_is_told_which_of_two_is_nearer() {
        let edge = Path::straight(Point::new(50.0, -100.0), Point::new(50.0, 100.0));
        let (left, right) = (Point::new(0.0, 0.0), Point::new(10.0, 0.0));
        assert!(nearer(&edge, [left, right], 0.5) > 0.5 && nearer(&edge, [right, left], 0.5) < -0.5);
        assert!(nearer(&edge, [left, Point::new(0.0, 10.0)], 0.5).abs() < 1e-9);
        assert!(edge.is_near(left, 50.0) && !edge.is_near(left, 49.999));
    }

    /// Arches side by side, 20 wide: whatever stands in the way of looking at all of them, the nearest place is that of
    /// the nearest arch looked at by itself.
    #[test]
    fn of_many_segments_the_nearest_is_found() {
        let arch = |at: f64, high: f64| {
            let p = |x: f64, y: f64| Point::new(at + x, y);
            Path::cubic(p(0.0, 0.0), p(5.0, high), p(15.0, high), p(20.0, 0.0))
        };
        let arches: Vec<Path> =
            (0..12).map(|at| arch(20.0 * f64::from(at), if at % 3 == 0 { 40.0 } else { -9.0 })).collect();
        let all = arches.iter().skip(1).fold(arches[0].clone(), |so_far, next| so_far.then(next));
        for step in 0..300 {
            let point = Point::new(f64::from(step) * 0.83 - 5.0, f64::from(step * 37 % 61) - 30.0);
            let alone = arches.iter().map(|arch| arch.nearest(point).distance).fold(f64::INFINITY, f64::min);
            let found = all.nearest(point);
            assert_eq!(found.distance, alone);
            assert!((all.point_at_length(found.at).distance(point) - alone).abs() < 1e-5);
        }
    }
}
