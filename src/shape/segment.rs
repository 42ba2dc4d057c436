//! What a path asks of one segment. All routines end after a bounded number of steps, whatever the numbers.

use super::tolerance::LENGTH_ACCURACY;
use super::turn::unit;
use kurbo::{
    CubicBez, Line, ParamCurve, ParamCurveArclen, ParamCurveDeriv, ParamCurveExtrema, PathSeg, Point, Rect,
    Vec2,
};

/// The most straight lines that one segment is made into.
pub(super) const MOST_CHORDS: usize = 1024;
/// Samples taken of a segment when the nearest point is looked for. A cubic has at most three nearest places.
const SAMPLES: usize = 32;

/// Start, handles and end; a straight segment's handles are its ends.
pub(super) fn controls(piece: &PathSeg) -> [Point; 4] {
    match piece {
        PathSeg::Line(line) => [line.p0, line.p0, line.p1, line.p1],
        PathSeg::Quad(_) | PathSeg::Cubic(_) => {
            let c = piece.to_cubic();
            [c.p0, c.p1, c.p2, c.p3]
        }
    }
}

/// Whether every coordinate is a finite number: nothing times any other is nothing.
pub(super) fn is_finite(piece: &PathSeg) -> bool {
    let none = |point: Point| point.x * 0.0 + point.y * 0.0;
    let sum = match piece {
        PathSeg::Line(line) => none(line.p0) + none(line.p1),
        PathSeg::Quad(quad) => none(quad.p0) + none(quad.p1) + none(quad.p2),
        PathSeg::Cubic(c) => none(c.p0) + none(c.p1) + none(c.p2) + none(c.p3),
    };
    sum == 0.0
}

/// The length: Gauss–Legendre quadrature by kurbo, to [`LENGTH_ACCURACY`] or 1e-12 of the length.
pub(super) fn length(piece: &PathSeg) -> f64 {
    match piece {
        PathSeg::Line(line) => (line.p1 - line.p0).hypot(),
        PathSeg::Quad(_) | PathSeg::Cubic(_) => {
            let c = piece.to_cubic();
            let polygon = (c.p1 - c.p0).hypot() + (c.p2 - c.p1).hypot() + (c.p3 - c.p2).hypot();
            if !polygon.is_finite() {
                return f64::NAN;
            }
            c.arclen(LENGTH_ACCURACY.max(polygon * 1e-12))
        }
    }
}

/// The length from the start to parameter `t`.
pub(super) fn length_to(piece: &PathSeg, t: f64) -> f64 {
    if t >= 1.0 {
        length(piece)
    } else if t > 0.0 {
        length(&split(piece, t).0)
    } else {
        0.0
    }
}

/// Nearer to an end of a segment than this, in mm, only rounding keeps a place from it.
const AT_END: f64 = 1e-9;

/// The parameter at `wanted` mm of a segment that is `own` mm long: Newton's method inside a shrinking bracket. So near
/// to an end that rounding may have brought it there or away it is the end: nothing is left beyond that when it is cut.
pub(super) fn parameter_at(piece: &PathSeg, wanted: f64, own: f64) -> f64 {
    if !own.is_finite() || own <= 0.0 || wanted <= AT_END.min(own / 2.0) {
        return 0.0;
    }
    if wanted >= own - AT_END {
        return 1.0;
    }
    if let PathSeg::Line(_) = piece {
        return wanted / own;
    }
    let derivative = piece.to_cubic().deriv();
    let (mut low, mut high, mut t) = (0.0_f64, 1.0_f64, wanted / own);
    for _ in 0..64 {
        let off = length_to(piece, t) - wanted;
        if off.abs() <= LENGTH_ACCURACY * 1e-3 {
            break;
        }
        if off > 0.0 {
            high = t;
        } else {
            low = t;
        }
        let next = t - off / derivative.eval(t).to_vec2().hypot();
        t = if next > low && next < high { next } else { 0.5 * (low + high) };
    }
    t
}

/// Both parts of a segment cut at `t`, by de Casteljau's construction.
pub(super) fn split(piece: &PathSeg, t: f64) -> (PathSeg, PathSeg) {
    match piece {
        PathSeg::Line(line) => {
            let middle = line.p0.lerp(line.p1, t);
            (PathSeg::Line(Line::new(line.p0, middle)), PathSeg::Line(Line::new(middle, line.p1)))
        }
        PathSeg::Quad(_) | PathSeg::Cubic(_) => {
            let c = piece.to_cubic();
            let (a, b, d) = (c.p0.lerp(c.p1, t), c.p1.lerp(c.p2, t), c.p2.lerp(c.p3, t));
            let (e, f) = (a.lerp(b, t), b.lerp(d, t));
            let middle = e.lerp(f, t);
            (
                PathSeg::Cubic(CubicBez::new(c.p0, a, e, middle)),
                PathSeg::Cubic(CubicBez::new(middle, f, d, c.p3)),
            )
        }
    }
}

/// The direction at the start: toward the first control point that is not the start.
pub(super) fn tangent_at_start(piece: &PathSeg) -> Option<Vec2> {
    let [start, rest @ ..] = controls(piece);
    rest.iter().find_map(|point| direction(start, *point))
}

/// The direction at the end: from the last control point that is not the end.
pub(super) fn tangent_at_end(piece: &PathSeg) -> Option<Vec2> {
    let [rest @ .., end] = controls(piece);
    rest.iter().rev().find_map(|point| direction(*point, end))
}

/// The direction between two points that are not the same (nearer than 1e-9 mm they give no direction).
fn direction(from: Point, to: Point) -> Option<Vec2> {
    let along = to - from;
    if along.hypot() > 1e-9 { unit(along) } else { None }
}

/// The distance of a point from the straight stretch between a line's ends.
pub(super) fn distance_to_line(line: Line, point: Point) -> f64 {
    let along = line.p1 - line.p0;
    let square = along.hypot2();
    let share = if square > 0.0 { ((point - line.p0).dot(along) / square).clamp(0.0, 1.0) } else { 0.0 };
    line.p0.lerp(line.p1, share).distance(point)
}

/// The upright rectangle round the controls of a segment, in which it lies.
pub(super) fn hull(piece: &PathSeg) -> Rect {
    if let PathSeg::Line(line) = piece {
        return Rect::from_points(line.p0, line.p1);
    }
    let all = controls(piece);
    let least = |of: fn(&Point) -> f64| all.iter().map(of).fold(f64::INFINITY, f64::min);
    let most = |of: fn(&Point) -> f64| all.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
    Rect::new(least(|p| p.x), least(|p| p.y), most(|p| p.x), most(|p| p.y))
}

/// No point of the segment is nearer than the square root of this, in mm: its controls hold it in their rectangle.
pub(super) fn least_distance_squared(piece: &PathSeg, point: Point) -> f64 {
    beyond(&hull(piece), point)
}

/// The square of how far a point lies beyond an upright rectangle, in mm.
pub(super) fn beyond(hull: &Rect, point: Point) -> f64 {
    let beyond = |low: f64, at: f64, high: f64| (low - at).max(at - high).max(0.0);
    let (x, y) = (beyond(hull.x0, point.x, hull.x1), beyond(hull.y0, point.y, hull.y1));
    x * x + y * y
}

/// The parameter of the nearest point, by samples and then bisection on the sign of the distance's slope.
/// None when something is not finite.
pub(super) fn nearest(piece: &PathSeg, point: Point) -> Option<f64> {
    if !is_finite(piece) || !point.is_finite() {
        return None;
    }
    if let PathSeg::Line(line) = piece {
        let along = line.p1 - line.p0;
        let square = along.hypot2();
        let share = (point - line.p0).dot(along) / square;
        return Some(if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 });
    }
    let curve = piece.to_cubic();
    // What is there already is looked for no further.
    if point == curve.p0 || point == curve.p3 {
        return Some(if point == curve.p0 { 0.0 } else { 1.0 });
    }
    let derivative = curve.deriv();
    let at = |step: usize| step as f64 / SAMPLES as f64;
    let square = |t: f64| (curve.eval(t) - point).hypot2();
    let slope = |t: f64| (curve.eval(t) - point).dot(derivative.eval(t).to_vec2());
    let samples: [f64; SAMPLES + 1] = std::array::from_fn(|step| square(at(step)));
    let sample = |step: usize| samples.get(step).copied().unwrap_or(f64::INFINITY);
    let (mut best_t, mut best) = (0.0, f64::INFINITY);
    for step in 0..=SAMPLES {
        let before = if step > 0 { sample(step - 1) } else { f64::INFINITY };
        if sample(step) > before || sample(step) > sample(step + 1) {
            continue;
        }
        let (mut low, mut high) = (at(step.saturating_sub(1)), at((step + 1).min(SAMPLES)));
        for _ in 0..52 {
            let middle = 0.5 * (low + high);
            if slope(middle) > 0.0 {
                high = middle;
            } else {
                low = middle;
            }
        }
        for t in [at(step), 0.5 * (low + high), low, high] {
            if square(t) < best {
                (best_t, best) = (t, square(t));
            }
        }
    }
    Some(best_t)
}

/// The smallest upright rectangle round the segment.
pub(super) fn bounding_box(piece: &PathSeg) -> Rect {
    match piece {
        PathSeg::Line(line) => Rect::from_points(line.p0, line.p1),
        _ if piece.is_finite() => piece.to_cubic().bounding_box(),
        _ => Rect::new(f64::NAN, f64::NAN, f64::NAN, f64::NAN),
    }
}

/// Push points along the segment, its start left out: enough that chords lie within `tolerance` of it (Wang's bound
/// from the second differences of the control points), at most [`MOST_CHORDS`].
pub(super) fn flatten(piece: &PathSeg, tolerance: f64, points: &mut Vec<Point>) {
    let [a, b, c, d] = controls(piece);
    if let PathSeg::Line(_) = piece {
        points.push(d);
        return;
    }
    let bend = ((a.to_vec2() + c.to_vec2() - b.to_vec2() * 2.0).hypot())
        .max((b.to_vec2() + d.to_vec2() - c.to_vec2() * 2.0).hypot());
    let count = (0.75 * bend / tolerance.max(1e-9)).sqrt().ceil().clamp(1.0, MOST_CHORDS as f64);
    // A bend that is not a number comes through the clamp as one; one chord is enough for it.
    let count = if count.is_nan() { 1 } else { count as usize };
    points.extend((1..count).map(|step| piece.eval(step as f64 / count as f64)));
    points.push(d);
}
