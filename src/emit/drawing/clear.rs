//! What words must keep clear of.

use kurbo::{Point, Rect};

/// Lines on the paper, as short straight ones, and words that are already placed.
#[derive(Clone, Debug, Default)]
pub(super) struct Clear {
    lines: Vec<(Point, Point)>,
    /// Rows of stitching: a label may stand on them where there is no other room.
    rows: Vec<(Point, Point)>,
    /// Where pages join.
    joins: Vec<(Point, Point)>,
    /// Where it is folded in wear: words stand on it only where there is no other room.
    folds: Vec<(Point, Point)>,
}

impl Clear {
    /// With the lines where pages join.
    pub fn of_joins(joins: &[(Point, Point)]) -> Self {
        Clear { joins: joins.to_vec(), ..Clear::default() }
    }

    /// The same without rows of stitching, where there are any.
    pub fn but_rows(&self) -> Option<Self> {
        (!self.rows.is_empty()).then(|| Clear { rows: Vec::new(), ..self.clone() })
    }

    /// The same without where pages join, where they do.
    pub fn but_joins(&self) -> Option<Self> {
        (!self.joins.is_empty()).then(|| Clear { joins: Vec::new(), ..self.clone() })
    }

    /// The same without the lines that it is folded along, where there are any.
    pub fn but_folds(&self) -> Option<Self> {
        (!self.folds.is_empty()).then(|| Clear { folds: Vec::new(), ..self.clone() })
    }

    /// Adds a row of stitching.
    pub fn row(&mut self, points: &[Point]) {
        self.rows.extend(segments(points));
    }

    /// Adds a line that it is folded along in wear.
    pub fn fold(&mut self, points: &[Point]) {
        self.folds.extend(segments(points));
    }

    fn all(&self) -> impl Iterator<Item = &(Point, Point)> {
        self.lines.iter().chain(&self.rows).chain(&self.joins).chain(&self.folds)
    }

    /// Adds a line.
    pub fn line(&mut self, points: &[Point]) {
        self.lines.extend(segments(points));
    }

    /// Adds a closed line.
    pub fn ring(&mut self, points: &[Point]) {
        self.line(points);
        if let (Some(&first), Some(&last)) = (points.first(), points.last()) {
            self.lines.push((last, first));
        }
    }

    /// Adds the four corners of words.
    pub fn words(&mut self, corners: [Point; 4]) {
        self.ring(&corners);
    }

    /// Whether a box with these corners, anticlockwise, has no line in it or across it.
    pub fn free(&self, corners: &[Point; 4]) -> bool {
        let area = area_of(corners);
        self.all().all(|&(from, to)| !may_touch(area, from, to) || !touches(corners, from, to))
    }

    /// How many lines go through a box with these corners, anticlockwise.
    pub fn touched(&self, corners: &[Point; 4]) -> usize {
        let area = area_of(corners);
        let near = self.all().filter(|&&(from, to)| may_touch(area, from, to));
        near.filter(|&&(from, to)| touches(corners, from, to)).count()
    }

    /// How far an upright box is from the nearest line; 0 as soon as it is no better than `bound`.
    pub fn room(&self, area: Rect, bound: f64) -> f64 {
        let mut least = f64::INFINITY;
        for &(from, to) in self.all() {
            let distance = box_to_line(area, from, to, least);
            if distance < least {
                least = distance;
                if least <= bound {
                    return 0.0;
                }
            }
        }
        least
    }
}

/// From point to point of a line.
fn segments(points: &[Point]) -> impl Iterator<Item = (Point, Point)> {
    points.windows(2).filter_map(|pair| match pair {
        &[from, to] => Some((from, to)),
        _ => None,
    })
}

/// The upright rectangle round a box.
fn area_of(corners: &[Point; 4]) -> Rect {
    corners.iter().fold(Rect::from_points(corners[0], corners[2]), |all, &corner| all.union_pt(corner))
}

/// Told at a glance: what lies beside the rectangle touches nothing in it.
fn may_touch(area: Rect, from: Point, to: Point) -> bool {
    from.x.min(to.x) <= area.x1
        && from.x.max(to.x) >= area.x0
        && from.y.min(to.y) <= area.y1
        && from.y.max(to.y) >= area.y0
}

/// Whether a convex quadrilateral, anticlockwise, and a stretch have a point in common: no line
/// along one of their sides parts them (the separating axis theorem).
fn touches(corners: &[Point; 4], from: Point, to: Point) -> bool {
    let ends = corners.iter().cycle().skip(1);
    for (&corner, &next) in corners.iter().zip(ends) {
        let side = next - corner;
        if side.cross(from - corner) < 0.0 && side.cross(to - corner) < 0.0 {
            return false;
        }
    }
    let way = to - from;
    let sides = corners.map(|corner| way.cross(corner - from));
    !(sides.iter().all(|side| *side > 0.0) || sides.iter().all(|side| *side < 0.0))
}

/// The distance of an upright box from a stretch, or something no less than `known` when it is.
fn box_to_line(area: Rect, from: Point, to: Point, known: f64) -> f64 {
    let (low_x, high_x) = (from.x.min(to.x), from.x.max(to.x));
    let (low_y, high_y) = (from.y.min(to.y), from.y.max(to.y));
    let beside = (low_x - area.x1).max(area.x0 - high_x);
    let above = (low_y - area.y1).max(area.y0 - high_y);
    if beside.max(above) >= known {
        return known;
    }
    let corners = [
        Point::new(area.x0, area.y0),
        Point::new(area.x1, area.y0),
        Point::new(area.x1, area.y1),
        Point::new(area.x0, area.y1),
    ];
    if touches(&corners, from, to) {
        return 0.0;
    }
    let to_box = |point: Point| {
        let x = (area.x0 - point.x).max(point.x - area.x1).max(0.0);
        let y = (area.y0 - point.y).max(point.y - area.y1).max(0.0);
        (x * x + y * y).sqrt()
    };
    let ends = to_box(from).min(to_box(to));
    corners.iter().map(|&corner| to_stretch(corner, from, to)).fold(ends, f64::min)
}

fn to_stretch(point: Point, from: Point, to: Point) -> f64 {
    let way = to - from;
    let squared = way.hypot2();
    let share = if squared > 0.0 { ((point - from).dot(way) / squared).clamp(0.0, 1.0) } else { 0.0 };
    point.distance(from + way * share)
}

/// Whether the point is inside the ring: crossings of the ray to the right, counted.
pub(super) fn inside(ring: &[Point], point: Point) -> bool {
    let mut odd = false;
    let ends = ring.iter().cycle().skip(1);
    for (a, b) in ring.iter().zip(ends) {
        if (a.y > point.y) != (b.y > point.y) && point.x < a.x + (b.x - a.x) * (point.y - a.y) / (b.y - a.y) {
            odd = !odd;
        }
    }
    odd
}
