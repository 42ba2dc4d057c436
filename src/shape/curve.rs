//! Smooth curves through points.

use super::root::bernstein_roots;
use crate::shape::path::Path;
use crate::shape::tolerance::SAME_POINT;
use crate::shape::turn::{angle_between, turned, unit};
use kurbo::{CubicBez, Line, ParamCurve, PathSeg, Point, Vec2};
use thiserror::Error;

/// Why no smooth curve could be drawn.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum CurveError {
    /// Fewer than two points.
    #[error("a curve needs two points, and there are {count}")]
    TooFewPoints {
        /// How many there are.
        count: usize,
    },
    /// A coordinate or direction is not a finite number.
    #[error("a coordinate is not a finite number")]
    NotFinite,
    /// Points `index` and `index + 1` are the same point.
    #[error("points {index} and the next are the same")]
    SamePoint {
        /// Index of the first of the two.
        index: usize,
    },
    /// A given direction has no length.
    #[error("a direction has no length")]
    NoDirection,
}

/// How far to both sides of a stop the direction is looked at, in the cubic's parameter.
const AROUND: f64 = 1e-3;

/// Slower than this share of its fastest, a cubic stands still.
const STANDS_STILL: f64 = 1e-4;

/// Where a path comes to a stop inside one of its cubics and goes on backwards (a cusp); none where it never does.
///
/// A cubic is slowest where its first and second derivatives are square to each other: a cubic in Bernstein form of
/// their coefficients (Farouki, "The Bernstein polynomial basis: a centennial retrospective", Computer Aided Geometric
/// Design 29 (2012) 379–419, for the product), whose zeros are tried.
pub fn turns_back(path: &Path) -> Option<Point> {
    path.segments().iter().find_map(|segment| match segment {
        PathSeg::Cubic(cubic) => cusp(cubic).map(|t| cubic.eval(t)),
        PathSeg::Line(_) | PathSeg::Quad(_) => None,
    })
}

fn cusp(cubic: &CubicBez) -> Option<f64> {
    let (a, b, c) = (cubic.p1 - cubic.p0, cubic.p2 - cubic.p1, cubic.p3 - cubic.p2);
    let fastest = a.hypot().max(b.hypot()).max(c.hypot());
    let (start, end) = (b - a, c - b);
    let slowest = [
        a.dot(start),
        (a.dot(end) + 2.0 * b.dot(start)) / 3.0,
        (2.0 * b.dot(end) + c.dot(start)) / 3.0,
        c.dot(end),
    ];
    let velocity = |t: f64| a * ((1.0 - t) * (1.0 - t)) + b * (2.0 * t * (1.0 - t)) + c * (t * t);
    bernstein_roots(slowest, 0.0).iter().copied().find(|&t| {
        let inside = t > AROUND && t < 1.0 - AROUND;
        inside
            && velocity(t).hypot() <= STANDS_STILL * fastest
            && velocity(t - AROUND).dot(velocity(t + AROUND)) < 0.0
    })
}

/// The smooth curve through `points` in order, one cubic between each two.
///
/// `leaving` and `arriving` are the directions of travel at the first and last point; a free end (none) takes the
/// direction that makes its piece nearly a circular arc ("curl" 1). Tension is 1. Two points with both ends free
/// give the straight path.
///
/// Method: Hobby, "Smooth, easy to compute interpolating splines", Discrete & Computational Geometry 1 (1986)
/// 123–140: the angles at the points solve a linear system that makes the "mock curvature" continuous, and the
/// handles' lengths come from his velocity function, held to at most 4. A quarter circle
/// leaving and arriving square lies at most 0.027 % outside the true radius and is 0.014 % longer than πr/2
/// (measured; held by the tests below).
///
/// # Errors
/// Fewer than two points, two equal neighbours, a direction without length, anything not finite.
pub fn smooth_curve(
    points: &[Point],
    leaving: Option<Vec2>,
    arriving: Option<Vec2>,
) -> Result<Path, CurveError> {
    if points.len() < 2 {
        return Err(CurveError::TooFewPoints { count: points.len() });
    }
    let given = [leaving, arriving];
    if !points.iter().all(|p| p.is_finite()) || !given.iter().flatten().all(|d| d.is_finite()) {
        return Err(CurveError::NotFinite);
    }
    // One piece between two directions needs no system.
    if let (&[from, to], Some(leaving), Some(arriving)) = (points, leaving, arriving) {
        if (to - from).hypot() <= SAME_POINT {
            return Err(CurveError::SamePoint { index: 0 });
        }
        let (leave, arrive) = (unit(leaving).zip(unit(arriving))).ok_or(CurveError::NoDirection)?;
        let piece = piece(from, to, to - from, leave, arrive);
        return Path::from_segments([piece]).map_err(|_| CurveError::NotFinite);
    }
    let chords: Vec<Vec2> = points.windows(2).map(chord).collect();
    if let Some(index) = chords.iter().position(|chord| chord.hypot() <= SAME_POINT) {
        return Err(CurveError::SamePoint { index });
    }
    let leaving = leaving.map(|d| unit(d).ok_or(CurveError::NoDirection)).transpose()?;
    let arriving = arriving.map(|d| unit(d).ok_or(CurveError::NoDirection)).transpose()?;
    let directions = directions(&chords, leaving, arriving);
    let pieces =
        points.windows(2).zip(&chords).zip(directions.windows(2)).map(|((ends, chord), ways)| {
            match (ends, ways) {
                (&[from, to], &[leave, arrive]) => piece(from, to, *chord, leave, arrive),
                _ => PathSeg::Line(Line::new(Point::ZERO, Point::ZERO)),
            }
        });
    Path::from_segments(pieces).map_err(|_| CurveError::NotFinite)
}

fn chord(two: &[Point]) -> Vec2 {
    match two {
        &[from, to] => to - from,
        _ => Vec2::ZERO,
    }
}

/// The unit direction at every point: Hobby's linear system for the angles θ between the chord that leaves a point
/// and the curve there, solved by elimination (it has three diagonals).
fn directions(chords: &[Vec2], leaving: Option<Vec2>, arriving: Option<Vec2>) -> Vec<Vec2> {
    let last = chords.len();
    let chord = |k: usize| chords.get(k).copied().unwrap_or(Vec2::ZERO);
    // How far the walk turns at a point; none at the ends.
    let turn = |k: usize| {
        if k == 0 || k >= last { 0.0 } else { angle_between(chord(k - 1), chord(k)) }
    };
    // Rows (below, on, above, right side) of the system.
    let mut rows: Vec<[f64; 4]> = Vec::with_capacity(last + 1);
    rows.push(match leaving {
        Some(way) => [0.0, 1.0, 0.0, angle_between(chord(0), way)],
        None if last == 1 && arriving.is_none() => [0.0, 1.0, 0.0, 0.0],
        None => [0.0, 1.0, 1.0, -turn(1)],
    });
    for k in 1..last {
        let (before, after) = (chord(k - 1).hypot().recip(), chord(k).hypot().recip());
        rows.push([before, 2.0 * (before + after), after, -2.0 * before * turn(k) - after * turn(k + 1)]);
    }
    rows.push(match arriving {
        Some(way) => [0.0, 1.0, 0.0, angle_between(chord(last - 1), way)],
        None => [1.0, 1.0, 0.0, 0.0],
    });
    // Forward: each row becomes θ[k] = right − above · θ[k+1].
    let mut reduced: Vec<(f64, f64)> = Vec::with_capacity(rows.len());
    for [below, on, above, right] in rows {
        let (above_before, right_before) = reduced.last().copied().unwrap_or((0.0, 0.0));
        let pivot = on - below * above_before;
        let pivot = if pivot.abs() < 1e-12 { 1e-12_f64.copysign(pivot) } else { pivot };
        reduced.push((above / pivot, (right - below * right_before) / pivot));
    }
    let mut angles = vec![0.0; reduced.len()];
    let mut next = 0.0;
    for (angle, (above, right)) in angles.iter_mut().zip(&reduced).rev() {
        next = right - above * next;
        *angle = next;
    }
    angles
        .iter()
        .enumerate()
        .map(|(k, angle)| match (k, leaving, arriving) {
            (0, Some(way), _) => way,
            (k, _, Some(way)) if k == last => way,
            // The last point has no chord of its own; its angle is from the chord that arrives.
            _ => turned(unit(chord(k.min(last - 1))).unwrap_or(Vec2::new(1.0, 0.0)), *angle),
        })
        .collect()
}

fn piece(from: Point, to: Point, chord: Vec2, leave: Vec2, arrive: Vec2) -> PathSeg {
    let out = angle_between(chord, leave);
    let back = angle_between(arrive, chord);
    if out.abs() < 1e-12 && back.abs() < 1e-12 {
        return PathSeg::Line(Line::new(from, to));
    }
    let length = chord.hypot() / 3.0;
    let first = from + leave * (length * velocity(out, back));
    let second = to - arrive * (length * velocity(back, out));
    PathSeg::Cubic(CubicBez::new(from, first, second, to))
}

/// Hobby's velocity function ρ(θ, φ).
fn velocity(out: f64, back: f64) -> f64 {
    let ((sine_out, cosine_out), (sine_back, cosine_back)) = (libm::sincos(out), libm::sincos(back));
    let share = (3.0 - 5.0_f64.sqrt()) / 2.0;
    let top = 2.0
        + std::f64::consts::SQRT_2
            * (sine_out - sine_back / 16.0)
            * (sine_back - sine_out / 16.0)
            * (cosine_out - cosine_back);
    let bottom = 1.0 + (1.0 - share) * cosine_out + share * cosine_back;
    let ratio = top / bottom;
    if ratio.is_finite() && (0.0..=4.0).contains(&ratio) { ratio } else { 4.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    /// Hobby 1986: a quarter circle leaving and arriving square lies within 0.06 % of the radius and 0.03 % of πr/2.
    #[test]
    fn quarter_circle() {
        let path = smooth_curve(
            &[Point::new(100.0, 0.0), Point::new(0.0, 100.0)],
            Some(Vec2::new(0.0, 1.0)),
            Some(Vec2::new(-1.0, 0.0)),
        )
        .unwrap();
        let quarter = PI * 50.0;
        assert!((path.length() / quarter - 1.0).abs() < 3e-4, "{}", path.length() / quarter - 1.0);
        let worst =
            path.flatten(1e-4).iter().map(|p| (p.to_vec2().hypot() / 100.0 - 1.0).abs()).fold(0.0, f64::max);
        assert!(worst < 6e-4, "{worst}");
        assert!(worst > 1e-5, "a cubic cannot be a circle");
    }

    /// Five points of a circle with free ends: symmetry and nearness to the circle (his Fig. on circles: regular
    /// polygons give nearly circles). Mathematics, no figure from the program.
    #[test]
    fn free_ends_follow_a_circle() {
        let at = |degrees: f64| Point::ZERO + turned(Vec2::new(100.0, 0.0), degrees.to_radians());
        let points: Vec<Point> = [0.0, 30.0, 60.0, 90.0, 120.0].into_iter().map(at).collect();
        let path = smooth_curve(&points, None, None).unwrap();
        for p in path.flatten(1e-3) {
            assert!((p.to_vec2().hypot() - 100.0).abs() < 0.1, "{p:?}");
        }
        let back: Vec<Point> = points.iter().rev().copied().collect();
        let mirrored = smooth_curve(&back, None, None).unwrap();
        assert!((mirrored.length() - path.length()).abs() < 1e-9);
        assert!(path.is_smooth(1e-9));
    }

    /// Three points on a line with free ends are that line; two points with free ends too.
    #[test]
    fn straight_stays_straight() {
        let p = |x: f64| Point::new(x, 2.0 * x);
        assert!(smooth_curve(&[p(0.0), p(1.0), p(5.0)], None, None).unwrap().is_straight());
        assert!(smooth_curve(&[p(0.0), p(1.0)], None, None).unwrap().is_straight());
    }

    #[test]
    fn mistakes_are_values() {
        let p = Point::new(1.0, 1.0);
        let q = Point::new(2.0, 1.0);
        assert_eq!(smooth_curve(&[p], None, None), Err(CurveError::TooFewPoints { count: 1 }));
        assert_eq!(smooth_curve(&[q, p, p], None, None), Err(CurveError::SamePoint { index: 1 }));
        assert_eq!(smooth_curve(&[p, q], Some(Vec2::ZERO), None), Err(CurveError::NoDirection));
        assert_eq!(smooth_curve(&[p, Point::new(f64::NAN, 0.0)], None, None), Err(CurveError::NotFinite));
        // Straight back on itself: the velocity is held.
        assert!(smooth_curve(&[p, q], Some(p - q), Some(p - q)).unwrap().is_finite());
    }
}
