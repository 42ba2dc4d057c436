//! SVG path data and basic shapes as paths (SVG 2, 9 and 10; SVG 1.1 says the same).

use crate::bring::course::SAME;
use crate::bring::read::line_work::meet;
use crate::bring::traced::{TracedArc, TracedPath, TracedPoint, TracedSegment};
use kurbo::{Affine, Arc, CubicBez, Line, ParamCurve, PathSeg, Point, QuadBez, SvgArc, Vec2};
use svgtypes::{PathParser, PathSegment};

/// How far a cubic may lie off its arc, in millimetres.
const ARC_ACCURACY: f64 = 5e-4;

/// Builds paths out of what is drawn, in the drawing's own units, and hands them on in millimetres.
pub struct Drawing {
    to_mm: Affine,
    done: Vec<TracedPath>,
    open: Vec<TracedSegment>,
    start: Point,
    at: Point,
}

impl Drawing {
    /// For what is drawn under that transform.
    pub fn new(to_mm: Affine) -> Self {
        Drawing { to_mm, done: Vec::new(), open: Vec::new(), start: Point::ZERO, at: Point::ZERO }
    }

    /// What was drawn.
    pub fn finish(mut self) -> Vec<TracedPath> {
        self.end(false);
        self.done
    }

    /// Begins a path anew.
    pub fn move_to(&mut self, to: Point) {
        self.end(false);
        (self.start, self.at) = (to, to);
    }

    /// A straight line.
    pub fn line_to(&mut self, to: Point) {
        self.push(PathSeg::Line(Line::new(self.at, to)), None);
        self.at = to;
    }

    /// A cubic Bézier.
    pub fn cubic_to(&mut self, first: Point, second: Point, to: Point) {
        self.push(PathSeg::Cubic(CubicBez::new(self.at, first, second, to)), None);
        self.at = to;
    }

    /// An elliptical arc as path data says it.
    pub fn arc_to(&mut self, radii: Vec2, x_rotation: f64, large_arc: bool, sweep: bool, to: Point) {
        let said = SvgArc { from: self.at, to, radii, x_rotation, large_arc, sweep };
        match Arc::from_svg_arc(&said) {
            None => self.line_to(to),
            Some(arc) => self.arc(&arc, to),
        }
    }

    /// An arc that ends there.
    pub fn arc(&mut self, arc: &Arc, to: Point) {
        let [a, b, c, d, ..] = self.to_mm.as_coeffs();
        let scale = libm::sqrt((a * d - b * c).abs());
        // It stays a circle under turning, mirroring and scaling alike.
        let even = (Vec2::new(a, b).hypot() - Vec2::new(c, d).hypot()).abs()
            < 1e-6 * scale.max(f64::MIN_POSITIVE)
            && (a * c + b * d).abs() < 1e-6 * scale * scale;
        let round =
            even && (arc.radii.x - arc.radii.y).abs() < 1e-6 * arc.radii.x.abs().max(f64::MIN_POSITIVE);
        // A positive sweep turns from x towards y: clockwise where the transform keeps y downward as it is drawn.
        let clockwise = (arc.sweep_angle > 0.0) == (a * d - b * c < 0.0);
        let said = round.then_some(TracedArc { centre: self.to_mm * arc.center, clockwise });
        let accuracy = ARC_ACCURACY / scale.max(f64::MIN_POSITIVE);
        let cubics: Vec<[Point; 3]> = arc
            .append_iter(accuracy)
            .filter_map(|element| match element {
                kurbo::PathEl::CurveTo(first, second, to) => Some([first, second, to]),
                _ => None,
            })
            .take(1000)
            .collect();
        let count = cubics.len();
        for (number, [first, second, end]) in cubics.into_iter().enumerate() {
            let end = if number + 1 == count { to } else { end };
            self.push(PathSeg::Cubic(CubicBez::new(self.at, first, second, end)), said);
            self.at = end;
        }
    }

    /// Back to where the path began.
    pub fn close(&mut self) {
        if self.at != self.start {
            self.line_to(self.start);
        }
        self.end(true);
        self.at = self.start;
    }

    fn push(&mut self, course: PathSeg, arc: Option<TracedArc>) {
        self.open.push(TracedSegment { course: self.to_mm * course, arc, ends_at: TracedPoint::Unsaid });
    }

    fn end(&mut self, closed: bool) {
        let segments = std::mem::take(&mut self.open);
        let (Some(first), Some(last)) = (segments.first(), segments.last()) else { return };
        // Whoever draws a way back to its beginning has closed it; what is all of it smaller than that goes nowhere.
        let start = first.course.start();
        let goes_away = segments.iter().any(|one| one.course.end().distance(start) >= CLOSED);
        let meets = segments.len() > 2 && start.distance(last.course.end()) < CLOSED && goes_away;
        let mut path = TracedPath { closed: closed || meets, segments };
        if path.closed && goes_away {
            shut(&mut path);
        }
        self.done.push(path);
    }
}

/// Lets a closed path end where it begins, without the sliver of a line that rounding leaves there: no corner of another size
/// would answer to it.
fn shut(path: &mut TracedPath) {
    let Some(start) = path.segments.first().map(|first| first.course.start()) else { return };
    let is_sliver = |one: &TracedSegment| {
        matches!(one.course, PathSeg::Line(line) if line.p0.distance(line.p1) < CLOSED) && one.arc.is_none()
    };
    if path.segments.len() > 1 && path.segments.last().is_some_and(is_sliver) {
        path.segments.pop();
    }
    let Some(last) = path.segments.last().copied() else { return };
    let gap = last.course.end().distance(start);
    if gap >= CLOSED {
        return;
    }
    // What is bent so far is no arc about that centre any more.
    if gap > SAME && last.arc.is_some() {
        for one in path.segments.iter_mut().rev().take_while(|one| one.arc == last.arc) {
            one.arc = None;
        }
    }
    meet(path);
}

/// An outline whose ends are nearer than this to each other, in millimetres, is closed.
const CLOSED: f64 = 0.05;

/// Draws path data; as SVG wants it, up to the first slip.
///
/// # Errors
/// That slip.
pub fn path_data(data: &str, drawing: &mut Drawing) -> Result<(), svgtypes::Error> {
    // What the shorthands go on from: the last handle of a cubic, of a quadratic.
    let (mut cubic, mut quadratic): (Option<Point>, Option<Point>) = (None, None);
    for segment in PathParser::from(data) {
        let segment = segment?;
        let base = if segment.is_abs() { Vec2::ZERO } else { drawing.at.to_vec2() };
        let place = |x: f64, y: f64| Point::new(x, y) + base;
        let mirrored = |handle: Option<Point>, at: Point| handle.map_or(at, |handle| at + (at - handle));
        let (mut next_cubic, mut next_quadratic) = (None, None);
        match segment {
            PathSegment::MoveTo { x, y, .. } => drawing.move_to(place(x, y)),
            PathSegment::LineTo { x, y, .. } => drawing.line_to(place(x, y)),
            PathSegment::HorizontalLineTo { x, .. } => drawing.line_to(Point::new(x + base.x, drawing.at.y)),
            PathSegment::VerticalLineTo { y, .. } => drawing.line_to(Point::new(drawing.at.x, y + base.y)),
            PathSegment::CurveTo { x1, y1, x2, y2, x, y, .. } => {
                next_cubic = Some(place(x2, y2));
                drawing.cubic_to(place(x1, y1), place(x2, y2), place(x, y));
            }
            PathSegment::SmoothCurveTo { x2, y2, x, y, .. } => {
                next_cubic = Some(place(x2, y2));
                drawing.cubic_to(mirrored(cubic, drawing.at), place(x2, y2), place(x, y));
            }
            PathSegment::Quadratic { x1, y1, x, y, .. } => {
                next_quadratic = Some(place(x1, y1));
                quadratic_to(drawing, place(x1, y1), place(x, y));
            }
            PathSegment::SmoothQuadratic { x, y, .. } => {
                let handle = mirrored(quadratic, drawing.at);
                next_quadratic = Some(handle);
                quadratic_to(drawing, handle, place(x, y));
            }
            PathSegment::EllipticalArc { rx, ry, x_axis_rotation, large_arc, sweep, x, y, .. } => {
                let turned = x_axis_rotation.to_radians();
                drawing.arc_to(Vec2::new(rx, ry), turned, large_arc, sweep, place(x, y));
            }
            PathSegment::ClosePath { .. } => drawing.close(),
        }
        (cubic, quadratic) = (next_cubic, next_quadratic);
    }
    Ok(())
}

fn quadratic_to(drawing: &mut Drawing, handle: Point, to: Point) {
    let raised = QuadBez::new(drawing.at, handle, to).raise();
    drawing.cubic_to(raised.p1, raised.p2, to);
}

/// A rectangle by its upper left corner, width and height; its corners are round by those half axes.
pub fn rectangle([x, y, width, height]: [f64; 4], [rx, ry]: [f64; 2], drawing: &mut Drawing) {
    let (rx, ry) = (rx.clamp(0.0, width / 2.0), ry.clamp(0.0, height / 2.0));
    let (right, low) = (x + width, y + height);
    let radii = Vec2::new(rx, ry);
    let corners = [
        [Point::new(right - rx, y), Point::new(right, y + ry)],
        [Point::new(right, low - ry), Point::new(right - rx, low)],
        [Point::new(x + rx, low), Point::new(x, low - ry)],
        [Point::new(x, y + ry), Point::new(x + rx, y)],
    ];
    drawing.move_to(Point::new(x + rx, y));
    for [before, after] in corners {
        drawing.line_to(before);
        if rx > 0.0 && ry > 0.0 {
            drawing.arc_to(radii, 0.0, false, true, after);
        }
    }
    drawing.close();
}
