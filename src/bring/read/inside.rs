//! Which closed line holds what.

use crate::bring::course::Course;
use crate::bring::length::length;
use crate::bring::traced::TracedPath;
use kurbo::{BezPath, Point, Rect};

/// How far the polygon of a closed line may lie from it, mm: only what is inside is asked of it.
const POLYGON: f64 = 0.2;

/// Lines that lie no farther apart than this, mm, are one drawn twice.
const TWIN: f64 = 0.05;

/// About how many points stand for the whole of a line.
const SAMPLES: usize = 24;

/// The farthest that a sew line lies within an outline, mm, on any of its four sides.
const WIDEST_ALLOWANCE: f64 = 80.0;
/// The same on one of the sides, where a hem or a turn-up is folded.
const DEEPEST_HEM: f64 = 300.0;

/// Whether what has the one bounds may go round inside what has the other as its sew line does.
pub(super) fn follows(outer: &Rect, inner: &Rect) -> bool {
    let sides = [inner.x0 - outer.x0, inner.y0 - outer.y0, outer.x1 - inner.x1, outer.y1 - inner.y1];
    let within = |most: f64| sides.iter().filter(|side| side.abs() <= most).count();
    within(WIDEST_ALLOWANCE) >= 3 && within(DEEPEST_HEM) == 4
}

/// Farther away than this, in millimetres, nothing is looked at: a thousand kilometres.
const FAR: f64 = 1e9;

/// A closed line as a polygon, to be asked what lies in it.
#[derive(Debug, Clone)]
pub(super) struct Inside {
    corners: Vec<Point>,
    bounds: Rect,
    area: f64,
}

impl Inside {
    /// Of a closed line.
    pub fn of(path: &TracedPath) -> Self {
        let mut bez = BezPath::new();
        for (index, segment) in path.segments.iter().enumerate() {
            if index == 0 {
                bez.move_to(kurbo::ParamCurve::start(&segment.course));
            }
            bez.push(segment.course.as_path_el());
        }
        let mut corners: Vec<Point> = Vec::new();
        let reach = bez.control_box().abs();
        // What reaches so far is no piece, and is told as that: its curves would be parted without end.
        let is_near = [reach.x0, reach.y0, reach.x1, reach.y1].iter().all(|at| at.abs() < FAR);
        match is_near {
            true => kurbo::flatten(bez, POLYGON, |element| match element {
                kurbo::PathEl::MoveTo(at) | kurbo::PathEl::LineTo(at) => corners.push(at),
                _ => {}
            }),
            false => corners.extend(path.segments.iter().map(|one| kurbo::ParamCurve::start(&one.course))),
        }
        let first = corners.first().copied().unwrap_or_default();
        let bounds = corners.iter().fold(Rect::from_points(first, first), |all, &at| all.union_pt(at));
        let nexts = corners.iter().cycle().skip(1);
        let twice: f64 = corners.iter().zip(nexts).map(|(a, b)| a.to_vec2().cross(b.to_vec2())).sum();
        Inside { area: (twice / 2.0).abs(), corners, bounds }
    }

    /// Its area, mm².
    pub fn area(&self) -> f64 {
        self.area
    }

    /// The smallest upright rectangle round it.
    pub fn bounds(&self) -> Rect {
        self.bounds
    }

    /// Its larger side, mm.
    pub fn size(&self) -> f64 {
        self.bounds.width().max(self.bounds.height())
    }

    /// Whether it is the other line once more: both cover the same.
    pub fn is_same(&self, other: &Inside) -> bool {
        let sides = |of: &Rect| [of.x0, of.y0, of.x1, of.y1];
        let is_near = |(one, other): (f64, f64)| (one - other).abs() <= TWIN;
        let mut pairs = sides(&self.bounds).into_iter().zip(sides(&other.bounds));
        pairs.all(is_near)
            && (self.area - other.area).abs() <= TWIN * (self.bounds.width() + self.bounds.height())
            && self.samples().iter().all(|at| other.nearest(*at).0 <= TWIN + 0.02 * self.size())
    }

    /// How many corners it is asked with: what asking costs.
    pub fn cost(&self) -> usize {
        self.corners.len()
    }

    /// Points a little inside its corners and sides, spread over the whole of it.
    pub fn samples(&self) -> Vec<Point> {
        let middle = self.bounds.center();
        let step = self.corners.len().div_ceil(SAMPLES).max(1);
        self.corners.iter().step_by(step).map(|&at| at + (middle - at) * 0.02).collect()
    }

    /// Whether a point lies in it: a ray to the right crosses it an odd number of times.
    pub fn holds(&self, at: Point) -> bool {
        if !self.bounds.contains(at) {
            return false;
        }
        let nexts = self.corners.iter().cycle().skip(1);
        let crossed = self.corners.iter().zip(nexts).filter(|(a, b)| {
            (a.y > at.y) != (b.y > at.y) && at.x < a.x + (b.x - a.x) * (at.y - a.y) / (b.y - a.y)
        });
        crossed.count() % 2 == 1
    }

    /// How far a point lies from the line, and the place on it that is nearest.
    pub fn nearest(&self, at: Point) -> (f64, Point) {
        let nexts = self.corners.iter().cycle().skip(1);
        let mut best = (f64::INFINITY, at);
        for (a, b) in self.corners.iter().zip(nexts) {
            let along = *b - *a;
            let share = if along.hypot2() > 0.0 {
                ((at - *a).dot(along) / along.hypot2()).clamp(0.0, 1.0)
            } else {
                0.0
            };
            let place = *a + along * share;
            let distance = place.distance(at);
            if distance < best.0 {
                best = (distance, place);
            }
        }
        best
    }
}

/// By how much a path misses being closed, in millimetres, if it goes round something: what it encloses once it is closed
/// is no sliver.
pub(super) fn goes_round(path: &TracedPath) -> Option<f64> {
    if path.closed || path.segments.len() < 3 {
        return None;
    }
    let (first, last) = (path.segments.first()?, path.segments.last()?);
    let gap = kurbo::ParamCurve::start(&first.course).distance(kurbo::ParamCurve::end(&last.course));
    let closed = Course::of(&TracedPath { closed: true, ..path.clone() })?;
    // What reaches so far is not measured: its curves would be parted without end.
    let reach = closed.reach();
    if reach.width().max(reach.height()) > FAR {
        return None;
    }
    let round: f64 = closed.segments.iter().map(|one| length(&one.course, 0.1)).sum();
    // Of a circle it is 1, of a rectangle one by ten 0.26 (the isoperimetric quotient).
    let full = 4.0 * std::f64::consts::PI * closed.area() / (round * round);
    (closed.area() > 2_500.0 && full > 0.1).then_some(gap)
}
