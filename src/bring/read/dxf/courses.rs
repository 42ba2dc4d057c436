//! What is drawn as paths: vertices with bulges, arcs, splines.

use super::entity::{Shape, Spline};
use crate::bring::read::line_work::LineWork;
use crate::bring::traced::{TracedPath, TracedPoint, TracedSegment};
use kurbo::{Affine, CubicBez, Line, PathSeg, Point, QuadBez, Vec2};

/// How far the points of a curve that no Bézier is may lie from one another as lines, in millimetres.
const CHORD: f64 = 0.02;
/// The most lines that one span of such a curve is drawn in.
const CHORDS: usize = 256;

/// The path of a shape, put down by `place`; none of what is no path or has no length.
pub(super) fn path(shape: &Shape, place: Affine) -> Option<TracedPath> {
    let mut work = LineWork::default();
    match shape {
        Shape::Line(from, to) => {
            work.line(place * *from, place * *to);
            work.path(false)
        }
        Shape::Polyline { vertices, closed } => {
            let count = vertices.len();
            let last = if *closed { count } else { count.saturating_sub(1) };
            let nexts = vertices.iter().cycle().skip(1);
            for ((from, bulge), (to, _)) in vertices.iter().zip(nexts).take(last) {
                bulged(&mut work, place, (*from, *to), *bulge);
            }
            work.path(*closed)
        }
        Shape::Arc { centre, major, ratio, from, to } => {
            let minor = major.turn_90() * *ratio;
            let whole = Affine::new([major.x, major.y, minor.x, minor.y, centre.x, centre.y]);
            if major.hypot() <= 1e-9 || minor.hypot() <= 1e-9 {
                return None;
            }
            work.arc(place * whole, *from, to - from);
            work.path((to - from - std::f64::consts::TAU).abs() < 1e-9)
        }
        Shape::Spline(spline) => {
            let closed = spline.closed;
            self::spline(&mut work, spline, place);
            let mut path = work.path(closed)?;
            // Where it ends another line may begin at an angle.
            if let Some(last) = path.segments.last_mut() {
                last.ends_at = TracedPoint::Unsaid;
            }
            Some(path)
        }
        Shape::Point(_) | Shape::Words { .. } | Shape::Insert(_) => None,
    }
}

/// From one vertex to the next: with a bulge b an arc of the angle 4·atan b, whose middle lies (1 − b²) / 4b of the
/// chord to the left of the chord's middle (Autodesk's DXF reference says what a bulge is; the rest is geometry).
fn bulged(work: &mut LineWork, place: Affine, (from, to): (Point, Point), bulge: f64) {
    let chord = to - from;
    // Flatter than this it rises less than 1e-9 of its chord; rounder it is all but a whole turn.
    if bulge.abs() < 1e-9 || bulge.abs() > 1e6 || chord.hypot() <= 1e-9 {
        work.line(place * from, place * to);
        return;
    }
    let centre = from.midpoint(to) + chord.turn_90() * ((1.0 - bulge * bulge) / (4.0 * bulge));
    let out = from - centre;
    let whole = Affine::new([out.x, out.y, -out.y, out.x, centre.x, centre.y]);
    work.arc(place * whole, 0.0, 4.0 * libm::atan(bulge));
}

fn spline(work: &mut LineWork, spline: &Spline, place: Affine) {
    let Spline { degree, knots, controls, weights, through, .. } = spline;
    let is_sound = (1..=11).contains(degree)
        && controls.len() > *degree
        && knots.len() == controls.len() + degree + 1
        && knots.is_sorted();
    if !is_sound {
        let points = if through.len() > 1 { through } else { controls };
        // What comes behind may go on another way.
        return along(work, points.iter().map(|&at| place * at), TracedPoint::Unsaid);
    }
    let first = weights.first().copied().unwrap_or(1.0);
    let is_plain = weights.iter().all(|weight| (weight - first).abs() <= 1e-9 * first.abs());
    for span in *degree..controls.len() {
        let (Some(&from), Some(&to)) = (knots.get(span), knots.get(span + 1)) else { continue };
        if to <= from {
            continue;
        }
        let blossom = |at: &[f64]| blossom(spline, span, at).map(|at| place * at);
        // The control points of the Bézier between two knots are the values of the polar form there
        // (Ramshaw, "Blossoming: A Connect-the-Dots Approach to Splines", 1987).
        let course = match degree {
            _ if !is_plain => None,
            1 => blossom(&[from]).zip(blossom(&[to])).map(|(from, to)| PathSeg::Line(Line::new(from, to))),
            2 => (|| {
                Some(PathSeg::Quad(QuadBez::new(
                    blossom(&[from, from])?,
                    blossom(&[from, to])?,
                    blossom(&[to, to])?,
                )))
            })(),
            3 => (|| {
                Some(PathSeg::Cubic(CubicBez::new(
                    blossom(&[from, from, from])?,
                    blossom(&[from, from, to])?,
                    blossom(&[from, to, to])?,
                    blossom(&[to, to, to])?,
                )))
            })(),
            _ => None,
        };
        // Where as many knots as the degree lie on one place, a corner may stand.
        let repeated = knots.iter().filter(|&&knot| knot == to).count();
        let ends_at = if repeated >= *degree { TracedPoint::Unsaid } else { TracedPoint::Curve };
        match course {
            Some(PathSeg::Quad(quad)) => {
                work.push(TracedSegment { course: PathSeg::Cubic(quad.raise()), arc: None, ends_at });
            }
            Some(course) => work.push(TracedSegment { course, arc: None, ends_at }),
            None => {
                let at = |parameter: f64| {
                    let same = [parameter; 11];
                    same.get(..*degree).and_then(|same| rational(spline, span, same)).map(|at| place * at)
                };
                let count = chords(at, from, to);
                let points = (0..=count).filter_map(|k| at(from + (to - from) * k as f64 / count as f64));
                along(work, points, ends_at);
            }
        }
    }
}

/// In how many equal steps a span is drawn so that the middle of each lies within [`CHORD`] of its line.
fn chords(at: impl Fn(f64) -> Option<Point>, from: f64, to: f64) -> usize {
    let mut count = 8;
    while count < CHORDS {
        let place = |k: f64| at(from + (to - from) * k / count as f64);
        let is_near = (0..count).all(|k| {
            let k = k as f64;
            let Some(((start, middle), end)) = place(k).zip(place(k + 0.5)).zip(place(k + 1.0)) else {
                return true;
            };
            start.midpoint(end).distance(middle) <= CHORD
        });
        if is_near {
            break;
        }
        count *= 2;
    }
    count
}

/// Straight lines through points of a curve, which goes on through each of them but the last, of which that is said.
fn along(work: &mut LineWork, points: impl Iterator<Item = Point>, last: TracedPoint) {
    let mut apart: Vec<Point> = Vec::new();
    for at in points {
        if apart.last().is_none_or(|from| from.distance(at) > 1e-6) {
            apart.push(at);
        }
    }
    let count = apart.len();
    for (number, pair) in apart.windows(2).enumerate() {
        let &[from, to] = pair else { continue };
        let ends_at = if number + 2 == count { last } else { TracedPoint::Curve };
        work.push(TracedSegment { course: PathSeg::Line(Line::new(from, to)), arc: None, ends_at });
    }
}

/// The polar form of the span's polynomial: de Boor's steps, each with a parameter of its own.
fn blossom(spline: &Spline, span: usize, at: &[f64]) -> Option<Point> {
    let degree = spline.degree;
    let own = spline.controls.get(span.checked_sub(degree)?..=span)?;
    let mut own: Vec<Vec2> = own.iter().map(|at| at.to_vec2()).collect();
    for (round, &parameter) in at.iter().enumerate() {
        for index in (round + 1..=degree).rev() {
            let share = share(spline, span, round, index, parameter)?;
            let (before, here) = (*own.get(index - 1)?, *own.get(index)?);
            *own.get_mut(index)? = before * (1.0 - share) + here * share;
        }
    }
    own.get(degree).map(|at| at.to_point())
}

/// The point of a spline with weights: the same steps in three coordinates, then divided by the weight.
fn rational(spline: &Spline, span: usize, at: &[f64]) -> Option<Point> {
    let degree = spline.degree;
    let places = span.checked_sub(degree)?..=span;
    let mut own: Vec<(Vec2, f64)> = places
        .map(|index| {
            let weight = spline.weights.get(index).copied().unwrap_or(1.0);
            spline.controls.get(index).map(|at| (at.to_vec2() * weight, weight))
        })
        .collect::<Option<_>>()?;
    for (round, &parameter) in at.iter().enumerate() {
        for index in (round + 1..=degree).rev() {
            let share = share(spline, span, round, index, parameter)?;
            let (before, here) = (*own.get(index - 1)?, *own.get(index)?);
            *own.get_mut(index)? =
                (before.0 * (1.0 - share) + here.0 * share, before.1 * (1.0 - share) + here.1 * share);
        }
    }
    let (sum, weight) = *own.get(degree)?;
    (weight.abs() > 1e-12).then(|| (sum / weight).to_point())
}

/// How far a parameter lies between the knots that a step of de Boor's looks at.
fn share(spline: &Spline, span: usize, round: usize, index: usize, parameter: f64) -> Option<f64> {
    let degree = spline.degree;
    let low = *spline.knots.get(index + span - degree)?;
    let high = *spline.knots.get(index + span - round)?;
    (high > low).then(|| (parameter - low) / (high - low))
}
