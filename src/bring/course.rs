//! A path made fit to be understood: without empty segments, closed ones anticlockwise with y up.

use super::thinned::thinned;
use super::traced::{TracedArc, TracedPath, TracedPoint, TracedSegment};
use kurbo::{ParamCurve, PathSeg, Point, Rect, Shape, Vec2};

/// Two points nearer to each other than this, in millimetres, are one.
pub const SAME: f64 = 0.005;

/// A path of segments that each lead somewhere.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// Each begins where the one before ends.
    pub segments: Vec<TracedSegment>,
    /// Whether the last ends where the first begins.
    pub closed: bool,
}

impl Course {
    /// The path without what leads nowhere; none where nothing is left, or a coordinate is not a number.
    pub fn of(path: &TracedPath) -> Option<Course> {
        let mut segments: Vec<TracedSegment> = Vec::with_capacity(path.segments.len());
        let begin = path.segments.first()?.course.start();
        for segment in &path.segments {
            if !controls(&segment.course).iter().all(|point| point.is_finite()) {
                return None;
            }
            // Many steps that are each too short to lead anywhere may lead far together.
            let from = segments.last().map_or(begin, |last| last.course.end());
            let course = from_there(segment.course, from);
            match is_empty(&course) {
                // What is said of the point that it ends at is said of where it stands.
                true => {
                    if let (Some(last), said) = (segments.last_mut(), segment.ends_at)
                        && said != TracedPoint::Unsaid
                    {
                        last.ends_at = said;
                    }
                }
                false => segments.push(TracedSegment { course, ..*segment }),
            }
        }
        let segments = thinned(segments);
        let (first, last) = (segments.first()?.course.start(), segments.last()?.course.end());
        let mut course = Course { segments, closed: path.closed };
        if course.closed && last != first {
            match last.distance(first) <= SAME {
                true => {
                    if let Some(end) = course.segments.last_mut() {
                        end.course = to_there(end.course, first);
                    }
                }
                false => course.segments.push(straight(last, first)),
            }
        }
        if course.closed && course.area() < 0.0 {
            course = course.reversed();
        }
        Some(course)
    }

    /// How many points it has: as many as segments where it is closed, one more where it is open.
    pub fn nodes(&self) -> usize {
        self.segments.len() + usize::from(!self.closed)
    }

    /// The point where that segment begins; after the last one, where the last ends.
    pub fn node(&self, at: usize) -> Point {
        match self.segments.get(at) {
            Some(segment) => segment.course.start(),
            None => self.segments.last().map_or(Point::ZERO, |last| last.course.end()),
        }
    }

    /// What the drawing says of that point.
    pub fn said(&self, at: usize) -> TracedPoint {
        let before = match (at, self.closed) {
            (0, true) => self.segments.len().checked_sub(1),
            _ => at.checked_sub(1),
        };
        before.and_then(|before| self.segments.get(before)).map_or(TracedPoint::Unsaid, |one| one.ends_at)
    }

    /// By how much the path turns at that point, in radians from 0 to π; at the ends of an open path not at all.
    pub fn turn(&self, at: usize) -> f64 {
        let count = self.segments.len();
        let before = match (at, self.closed) {
            (0, true) => count.checked_sub(1),
            _ => at.checked_sub(1),
        };
        let (Some(before), Some(after)) =
            (before.and_then(|before| self.segments.get(before)), self.segments.get(at))
        else {
            return 0.0;
        };
        angle(leaving_end(&before.course), leaving_start(&after.course))
    }

    /// Its signed area: above 0 where it goes anticlockwise.
    pub fn area(&self) -> f64 {
        self.segments.iter().map(|segment| kurbo::ParamCurveArea::signed_area(&segment.course)).sum()
    }

    /// The rectangle round it.
    pub fn bounds(&self) -> Rect {
        let each = self.segments.iter().map(|segment| segment.course.bounding_box());
        each.reduce(|all, own| all.union(own)).unwrap_or(Rect::ZERO)
    }

    /// The rectangle round all its points and handles.
    pub fn reach(&self) -> Rect {
        let all = self.segments.iter().flat_map(|segment| controls(&segment.course));
        let each = all.map(|point| Rect::from_points(point, point));
        each.reduce(|all, own| all.union(own)).unwrap_or(Rect::ZERO)
    }

    /// The same walked the other way.
    pub fn reversed(&self) -> Course {
        let count = self.segments.len();
        let segments = (0..count).rev().filter_map(|at| {
            let segment = self.segments.get(at)?;
            let ends_at = if at == 0 && !self.closed { TracedPoint::Unsaid } else { self.said(at) };
            let arc = segment.arc.map(|arc| TracedArc { clockwise: !arc.clockwise, ..arc });
            Some(TracedSegment { course: segment.course.reverse(), arc, ends_at })
        });
        Course { segments: segments.collect(), closed: self.closed }
    }

    /// The segments from one point to another, round past the first one where it is closed. From a point to itself
    /// it is the whole way round.
    pub fn between(&self, from: usize, to: usize) -> Vec<TracedSegment> {
        let count = self.segments.len();
        let long = match (self.closed, to > from) {
            (true, false) => count - from + to,
            _ => to.saturating_sub(from),
        };
        (0..long).filter_map(|step| self.segments.get((from + step) % count.max(1)).copied()).collect()
    }
}

/// A straight segment.
pub fn straight(from: Point, to: Point) -> TracedSegment {
    let course = PathSeg::Line(kurbo::Line::new(from, to));
    TracedSegment { course, arc: None, ends_at: TracedPoint::Unsaid }
}

/// The angle between two ways, in radians from 0 to π; 0 where one leads nowhere.
pub fn angle(one: Vec2, other: Vec2) -> f64 {
    if one.hypot2() == 0.0 || other.hypot2() == 0.0 {
        return 0.0;
    }
    libm::atan2(one.cross(other).abs(), one.dot(other))
}

/// Where a segment leads where it begins.
pub fn leaving_start(course: &PathSeg) -> Vec2 {
    let [a, b, c, d] = controls(course);
    let away = |point: Point| (point.distance(a) > SAME * 0.1).then(|| point - a);
    away(b).or_else(|| away(c)).unwrap_or(d - a)
}

/// Where a segment leads where it ends.
pub fn leaving_end(course: &PathSeg) -> Vec2 {
    -leaving_start(&course.reverse())
}

/// Start, handles and end.
pub fn controls(course: &PathSeg) -> [Point; 4] {
    match course {
        PathSeg::Line(line) => {
            [line.p0, line.p0.lerp(line.p1, 1.0 / 3.0), line.p0.lerp(line.p1, 2.0 / 3.0), line.p1]
        }
        PathSeg::Quad(_) | PathSeg::Cubic(_) => {
            let cubic = course.to_cubic();
            [cubic.p0, cubic.p1, cubic.p2, cubic.p3]
        }
    }
}

fn is_empty(course: &PathSeg) -> bool {
    let [a, b, c, d] = controls(course);
    [b, c, d].iter().all(|point| point.distance(a) <= SAME)
}

/// The segment from a point beside its start.
fn from_there(course: PathSeg, from: Point) -> PathSeg {
    match course {
        PathSeg::Line(mut line) => {
            line.p0 = from;
            PathSeg::Line(line)
        }
        PathSeg::Quad(_) | PathSeg::Cubic(_) => {
            let mut cubic = course.to_cubic();
            cubic.p0 = from;
            PathSeg::Cubic(cubic)
        }
    }
}

/// The segment to a point beside its end.
fn to_there(course: PathSeg, to: Point) -> PathSeg {
    from_there(course.reverse(), to).reverse()
}
