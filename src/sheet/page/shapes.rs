//! Small drawings of the page itself: outlines as SVG path data, and the middle of what they hold.

use crate::emit::rounded_path_data;
use kurbo::{BezPath, Point, Rect};

/// Path data of SVG, to a tenth of a unit, with every point moved by `to`.
pub fn data(path: &BezPath, to: &dyn Fn(Point) -> Point) -> String {
    rounded_path_data(path, to, tenth)
}

/// To a tenth, without needless signs.
pub fn tenth(number: f64) -> f64 {
    (number * 10.0).round() / 10.0 + 0.0
}

/// The points of a closed polygon that the document writes, `M0 0L1 0…Z`.
pub fn polygon(data: &str) -> Vec<Point> {
    let pairs = data.split(['M', 'L', 'Z']).map(str::trim).filter(|pair| !pair.is_empty());
    pairs
        .filter_map(|pair| {
            let (x, y) = pair.split_once(' ')?;
            Some(Point::new(x.trim().parse().ok()?, y.trim().parse().ok()?))
        })
        .collect()
}

/// The same polygon without points that lie within `near` of the line between those beside them (Ramer 1972, Douglas and
/// Peucker 1973).
pub fn thinned(points: &[Point], near: f64) -> Vec<Point> {
    if points.len() < 4 {
        return points.to_vec();
    }
    let mut kept = vec![false; points.len()];
    let last = points.len() - 1;
    (kept[0], kept[last]) = (true, true);
    let mut open = vec![(0, last)];
    while let Some((from, to)) = open.pop() {
        let far = (from + 1..to)
            .map(|at| (at, off(points[at], points[from], points[to])))
            .max_by(|one, other| one.1.total_cmp(&other.1));
        if let Some((at, away)) = far
            && away > near
        {
            kept[at] = true;
            open.push((from, at));
            open.push((at, to));
        }
    }
    points.iter().zip(kept).filter(|(_, kept)| *kept).map(|(point, _)| *point).collect()
}

/// How far a point is from a stretch.
fn off(point: Point, from: Point, to: Point) -> f64 {
    let along = to - from;
    let long = along.hypot2();
    let share = if long > 0.0 { ((point - from).dot(along) / long).clamp(0.0, 1.0) } else { 0.0 };
    point.distance(from + along * share)
}

/// A point well inside a polygon: of a grid over its bounds the one that is farthest from its outline.
pub fn well_inside(points: &[Point]) -> Option<Point> {
    const GRID: usize = 14;
    let bounds = bounds(points)?;
    let at = |step: usize, low: f64, long: f64| low + long * (step as f64 + 0.5) / GRID as f64;
    let places = (0..GRID * GRID).map(|place| {
        Point::new(at(place % GRID, bounds.x0, bounds.width()), at(place / GRID, bounds.y0, bounds.height()))
    });
    let room = |point: Point| {
        let mut best = f64::INFINITY;
        for (at, &from) in points.iter().enumerate() {
            best = best.min(off(point, from, points[(at + 1) % points.len()]));
        }
        best
    };
    places
        .filter(|&place| holds(points, place))
        .map(|place| (place, room(place)))
        .max_by(|one, other| one.1.total_cmp(&other.1))
        .map(|(place, _)| place)
}

/// Whether a point lies inside, by the crossings of a ray.
fn holds(points: &[Point], place: Point) -> bool {
    let mut inside = false;
    for (at, from) in points.iter().enumerate() {
        let to = points[(at + 1) % points.len()];
        if (from.y > place.y) != (to.y > place.y)
            && place.x < (to.x - from.x) * (place.y - from.y) / (to.y - from.y) + from.x
        {
            inside = !inside;
        }
    }
    inside
}

/// What holds all of these points.
pub fn bounds(points: &[Point]) -> Option<Rect> {
    let first = *points.first()?;
    Some(points.iter().fold(Rect::from_points(first, first), |all, &one| all.union_pt(one)))
}
