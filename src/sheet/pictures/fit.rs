//! Laying flat pieces to one another: the nearest fit of points onto points, and room between outlines.

use crate::shape::{Affine, Point, Rect, Vec2};

/// The movement that brings the first point of each pair as near as can be to the second (least squares): turned and
/// moved, and turned over if `reflect`. With it how far off they are, the root of the mean square, in millimetres.
///
/// The angle is that of the sum of products of both sets about their centres (Kabsch 1976, in the plane).
pub fn rigid(pairs: &[(Point, Point)], reflect: bool) -> Option<(Affine, f64)> {
    if pairs.is_empty() {
        return None;
    }
    let flip = if reflect { Affine::FLIP_X } else { Affine::IDENTITY };
    let count = pairs.len() as f64;
    let sum = |of: &dyn Fn(&(Point, Point)) -> Vec2| {
        pairs.iter().map(of).fold(Vec2::ZERO, |all, one| all + one) / count
    };
    let (from, to) = (sum(&|pair| (flip * pair.0).to_vec2()), sum(&|pair| pair.1.to_vec2()));
    let (mut along, mut across) = (0.0, 0.0);
    for (one, other) in pairs {
        let (one, other) = ((flip * *one).to_vec2() - from, other.to_vec2() - to);
        along += one.dot(other);
        across += one.cross(other);
    }
    let (sine, cosine) = match libm::hypot(along, across) {
        long if long > 1e-9 => (across / long, along / long),
        _ => (0.0, 1.0),
    };
    let turned = Affine::new([cosine, sine, -sine, cosine, 0.0, 0.0]);
    let centre = turned * from.to_point();
    let by = Affine::translate(to - centre.to_vec2()) * turned * flip;
    let off = pairs.iter().map(|(one, other)| (by * *one).distance_squared(*other)).sum::<f64>() / count;
    let off = libm::sqrt(off);
    (off.is_finite() && by.is_finite()).then_some((by, off))
}

/// How far a point that is moved so lies off where it belongs, at most.
pub fn farthest(pairs: &[(Point, Point)], by: Affine) -> f64 {
    pairs.iter().map(|(one, other)| (by * *one).distance(*other)).fold(0.0, f64::max)
}

/// Twice the signed area halved: positive of an outline that goes anticlockwise.
pub fn area(ring: &[Point]) -> f64 {
    let next = ring.iter().cycle().skip(1);
    ring.iter().zip(next).map(|(one, other)| one.to_vec2().cross(other.to_vec2())).sum::<f64>() / 2.0
}

/// The middle of the cloth inside an outline; of one without area that of its corners.
pub fn centroid(ring: &[Point]) -> Point {
    let Some(first) = ring.first() else { return Point::ZERO };
    let (mut sum, mut whole) = (Vec2::ZERO, 0.0);
    let next = ring.iter().cycle().skip(1);
    for (one, other) in ring.iter().zip(next) {
        let (one, other) = (*one - *first, *other - *first);
        let cross = one.cross(other);
        sum += (one + other) * cross;
        whole += cross;
    }
    if whole.abs() < 1e-6 {
        let all = ring.iter().fold(Vec2::ZERO, |all, one| all + one.to_vec2());
        return (all / ring.len() as f64).to_point();
    }
    *first + sum / (3.0 * whole)
}

/// Whether a point lies inside an outline.
pub fn contains(ring: &[Point], at: Point) -> bool {
    let next = ring.iter().cycle().skip(1);
    let crossings = ring.iter().zip(next).filter(|(one, other)| {
        (one.y > at.y) != (other.y > at.y)
            && at.x < one.x + (at.y - one.y) / (other.y - one.y) * (other.x - one.x)
    });
    crossings.count() % 2 == 1
}

/// Whether two outlines lie apart by at least so much.
pub fn apart(one: &[Point], other: &[Point], by: f64) -> bool {
    let (Some(first), Some(second)) = (bounds(one), bounds(other)) else { return true };
    let wide = first.inflate(by, by);
    if wide.x0 > second.x1 || second.x0 > wide.x1 || wide.y0 > second.y1 || second.y0 > wide.y1 {
        return true;
    }
    if one.first().is_some_and(|at| contains(other, *at))
        || other.first().is_some_and(|at| contains(one, *at))
    {
        return false;
    }
    let sides = |ring: &'_ [Point]| -> Vec<(Point, Point)> {
        ring.iter().copied().zip(ring.iter().copied().cycle().skip(1)).collect()
    };
    let near = |rect: Rect, (from, to): &(Point, Point)| {
        let own = Rect::from_points(*from, *to).inflate(by, by);
        own.x0 <= rect.x1 && rect.x0 <= own.x1 && own.y0 <= rect.y1 && rect.y0 <= own.y1
    };
    let mine: Vec<_> = sides(one).into_iter().filter(|side| near(second, side)).collect();
    let theirs: Vec<_> = sides(other).into_iter().filter(|side| near(first, side)).collect();
    mine.iter().all(|own| {
        let rect = Rect::from_points(own.0, own.1);
        theirs.iter().filter(|side| near(rect, side)).all(|side| between(*own, *side) >= by)
    })
}

/// How far two straight lines are apart.
fn between((a, b): (Point, Point), (c, d): (Point, Point)) -> f64 {
    let side = |from: Point, to: Point, at: Point| (to - from).cross(at - from);
    let crossed = side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0;
    if crossed {
        return 0.0;
    }
    let near = |at: Point, from: Point, to: Point| {
        let way = to - from;
        let long = way.hypot2();
        let share = if long > 0.0 { ((at - from).dot(way) / long).clamp(0.0, 1.0) } else { 0.0 };
        (from + way * share).distance(at)
    };
    near(a, c, d).min(near(b, c, d)).min(near(c, a, b)).min(near(d, a, b))
}

/// The smallest upright rectangle round points.
pub fn bounds(ring: &[Point]) -> Option<Rect> {
    ring.iter().map(|&at| Rect::from_points(at, at)).reduce(|all, one| all.union(one))
}

/// What of an outline lies to the left of a line through `at` (Sutherland and Hodgman 1974).
pub fn left_of(ring: &[Point], at: Point, along: Vec2) -> Vec<Point> {
    let side = |point: Point| along.cross(point - at);
    let mut kept = Vec::with_capacity(ring.len() + 2);
    let next = ring.iter().cycle().skip(1);
    for (&one, &other) in ring.iter().zip(next) {
        let (here, there) = (side(one), side(other));
        if here >= 0.0 {
            kept.push(one);
        }
        if (here > 0.0 && there < 0.0) || (here < 0.0 && there > 0.0) {
            kept.push(one.lerp(other, here / (here - there)));
        }
    }
    kept
}

/// How wide an outline is at a height, round a place of it.
pub fn width_at(ring: &[Point], at: Point) -> f64 {
    let next = ring.iter().cycle().skip(1);
    let (mut left, mut right) = (f64::NEG_INFINITY, f64::INFINITY);
    for (one, other) in ring.iter().zip(next) {
        if (one.y > at.y) != (other.y > at.y) {
            let x = one.x + (at.y - one.y) / (other.y - one.y) * (other.x - one.x);
            if x <= at.x { left = left.max(x) } else { right = right.min(x) }
        }
    }
    if left.is_finite() && right.is_finite() { right - left } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64, side: f64) -> Vec<Point> {
        vec![
            Point::new(x, y),
            Point::new(x + side, y),
            Point::new(x + side, y + side),
            Point::new(x, y + side),
        ]
    }

    /// A rod from (0, 0) to (10, 0), of which the ends belong at (5, 5) and (5, 15), is turned by a right angle.
    #[test]
    fn a_rod_is_turned_onto_its_place() {
        let pairs =
            [(Point::new(0.0, 0.0), Point::new(5.0, 5.0)), (Point::new(10.0, 0.0), Point::new(5.0, 15.0))];
        for reflect in [false, true] {
            let (by, off) = rigid(&pairs, reflect).unwrap();
            assert!(off < 1e-9);
            assert!((by.determinant() - if reflect { -1.0 } else { 1.0 }).abs() < 1e-9);
            assert!((by * Point::new(10.0, 0.0)).distance(Point::new(5.0, 15.0)) < 1e-9);
        }
        assert_eq!(rigid(&[], false), None);
    }

    /// Squares of 10 whose sides are 5 apart; one inside another; the half of one left of its diagonal has half its area.
    #[test]
    fn outlines_lie_apart_or_not() {
        let (one, beside, inside) = (square(0.0, 0.0, 10.0), square(15.0, 3.0, 10.0), square(2.0, 2.0, 1.0));
        assert!(apart(&one, &beside, 4.9) && !apart(&one, &beside, 5.1));
        assert!(!apart(&one, &inside, 0.1));
        assert_eq!(area(&one), 100.0);
        assert_eq!(centroid(&beside), Point::new(20.0, 8.0));
        assert_eq!(area(&left_of(&one, Point::ZERO, Vec2::new(1.0, 1.0))), 50.0);
        assert_eq!(width_at(&one, Point::new(3.0, 4.0)), 10.0);
    }
}
