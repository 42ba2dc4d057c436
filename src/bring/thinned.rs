//! Lines of far more points than anybody sees: those between which they go straight on are left out.
//!
//! A curve of a hundred thousand points on a few centimetres is no finer than one of a hundred, and where its coordinates are
//! rounded it goes in steps, each of which would be a corner.

use super::course::angle;
use super::traced::{TracedPoint, TracedSegment};
use kurbo::{Line, ParamCurve, PathSeg, Point, Vec2};

/// Fewer straight steps than this are looked at as they are.
const MANY: usize = 1_000;
/// So short, in millimetres, is the middle one of the steps of a line that is far too fine.
const FINE: f64 = 0.12;
/// How far a point may lie from the line that goes on without it, as a share of a step: where coordinates are rounded, a step
/// is the last figure of them, and points lie up to 0.71 of it from where they were.
const SHARE: f64 = 1.0;
/// And in millimetres: no less than is written of a point, and half of what a fitted curve may miss.
const LEAST: f64 = 0.01;
/// See [`LEAST`].
const MOST: f64 = 0.1;

/// A turn that is known to so little, in radians, is a corner or none by itself.
const SURE: f64 = 0.02;
/// What turns less than this, in radians (25°), and than is unsure, is no corner.
const CORNER: f64 = 0.436;

/// The same segments, those of rows of very short ones put together.
pub fn thinned(segments: Vec<TracedSegment>) -> Vec<TracedSegment> {
    let mut steps: Vec<f64> = segments.iter().filter_map(step).collect();
    if steps.len() <= MANY {
        return segments;
    }
    steps.sort_by(f64::total_cmp);
    let usual = steps.get(steps.len() / 2).copied().unwrap_or(f64::INFINITY);
    if usual >= FINE {
        return segments;
    }
    let most = (SHARE * usual).clamp(LEAST, MOST);
    let mut found: Vec<TracedSegment> = Vec::new();
    let mut row: Option<Row> = None;
    for segment in segments {
        let (to, ends_at) = (segment.course.end(), segment.ends_at);
        if step(&segment).is_none() {
            found.extend(row.take().map(|row| row.told()));
            found.push(segment);
            continue;
        }
        if !row.as_mut().is_some_and(|row| row.takes(to, most)) {
            found.extend(row.take().map(|row| row.told()));
            let from = segment.course.start();
            let mut next = Row { from, to: from, far: 0.0, cone: None, ends_at };
            next.takes(to, most);
            row = Some(next);
        }
        if let Some(row) = &mut row {
            row.ends_at = ends_at;
        }
        if ends_at == TracedPoint::Corner {
            found.extend(row.take().map(|row| row.told()));
        }
    }
    found.extend(row.map(|row| row.told()));
    curved(&mut found, most);
    found
}

/// Says of what are no corners that they are none: between short steps the turn is known the worse the shorter they are.
fn curved(segments: &mut [TracedSegment], most: f64) {
    let steps: Vec<Option<(f64, Vec2)>> =
        segments.iter().map(|one| Some((step(one)?, one.course.end() - one.course.start()))).collect();
    let nexts = steps.iter().skip(1).chain(steps.first());
    for ((segment, own), next) in segments.iter_mut().zip(&steps).zip(nexts) {
        let (Some((long, way)), Some((next, on))) = (own, next) else { continue };
        let unsure = 2.0 * most * (1.0 / long + 1.0 / next);
        if segment.ends_at == TracedPoint::Unsaid && unsure > SURE && angle(*way, *on) < CORNER + unsure {
            segment.ends_at = TracedPoint::Curve;
        }
    }
}

/// How long a straight segment is.
fn step(segment: &TracedSegment) -> Option<f64> {
    match segment.course {
        PathSeg::Line(line) if segment.arc.is_none() => Some(line.p0.distance(line.p1)),
        _ => None,
    }
}

/// Steps that are one so far.
struct Row {
    from: Point,
    to: Point,
    /// How far it has come.
    far: f64,
    /// Between which ways, from the right one to the left one, a straight line goes that misses none of its points by more.
    cone: Option<(Vec2, Vec2)>,
    ends_at: TracedPoint,
}

impl Row {
    /// Goes on to that point, if one straight line still follows all.
    fn takes(&mut self, to: Point, most: f64) -> bool {
        let (way, far) = (to - self.from, to.distance(self.from));
        // What turns back is no straight line.
        if far < self.far - most {
            return false;
        }
        if far > most {
            let sine = most / far;
            let side = way.turn_90() * sine;
            let on = way * (1.0 - sine * sine).sqrt();
            // Tangents of the circle round the point, as they are seen from where the row begins.
            let (right, left) = (on - side, on + side);
            self.cone = match self.cone {
                Some((first, last)) if first.cross(way) < 0.0 || way.cross(last) < 0.0 => return false,
                Some((first, last)) => Some((
                    if first.cross(right) > 0.0 { right } else { first },
                    if left.cross(last) > 0.0 { left } else { last },
                )),
                None => Some((right, left)),
            };
        }
        self.far = self.far.max(far);
        self.to = to;
        true
    }

    fn told(self) -> TracedSegment {
        TracedSegment {
            course: PathSeg::Line(Line::new(self.from, self.to)),
            arc: None,
            ends_at: self.ends_at,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::thinned;
    use crate::bring::course::straight;
    use kurbo::{ParamCurve, Point};

    /// A square of 50 mm drawn in steps of 0.02 mm: its corners are left, and hardly more.
    #[test]
    fn corners_stay_where_they_are() {
        let corners = [(0.0, 0.0), (50.0, 0.0), (50.0, 50.0), (0.0, 50.0), (0.0, 0.0)].map(Point::from);
        let points: Vec<Point> = corners
            .windows(2)
            .flat_map(|pair| (0..2500).map(move |at| pair[0].lerp(pair[1], f64::from(at) / 2500.0)))
            .chain([corners[0]])
            .collect();
        let found = thinned(points.windows(2).map(|pair| straight(pair[0], pair[1])).collect());
        assert!(found.len() <= 8, "{}", found.len());
        for corner in &corners[1..] {
            let near =
                found.iter().map(|one| one.course.end().distance(*corner)).fold(f64::INFINITY, f64::min);
            assert!(near < 0.05, "{near}");
        }
        // In steps of a millimetre nothing is left out.
        let coarse: Vec<_> = points.iter().step_by(50).copied().collect();
        let lines: Vec<_> = coarse.windows(2).map(|pair| straight(pair[0], pair[1])).collect();
        assert_eq!(thinned(lines.clone()).len(), lines.len());
    }
}
