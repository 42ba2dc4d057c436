//! Outlines as the lay wants them: clean, counterclockwise, and, for the search only, with fewer
//! corners and never smaller.

use super::request::Point;

/// Corners closer together than this, in millimetres, are one.
const SAME_POINT: f64 = 1e-6;
/// A corner that lies off the line through its neighbours by less than this is no corner.
const STRAIGHT: f64 = 1e-5;

/// Twice the signed area of a triangle: above 0 where `c` lies left of the way from `a` to `b`.
pub fn turn_of(a: Point, b: Point, c: Point) -> f64 {
    (b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0)
}

/// Signed area; above 0 where the outline runs counterclockwise.
pub fn area(outline: &[Point]) -> f64 {
    let Some(&origin) = outline.first() else { return 0.0 };
    let pairs = outline.iter().zip(outline.iter().skip(1));
    pairs.map(|(&a, &b)| turn_of(origin, a, b)).sum::<f64>() / 2.0
}

/// Bounds: least x and y, greatest x and y.
pub fn bounds(outline: &[Point]) -> (Point, Point) {
    let start = ((f64::INFINITY, f64::INFINITY), (f64::NEG_INFINITY, f64::NEG_INFINITY));
    outline
        .iter()
        .fold(start, |(low, high), p| ((low.0.min(p.0), low.1.min(p.1)), (high.0.max(p.0), high.1.max(p.1))))
}

/// Distance of `p` from the line through `a` and `b`, or from `a` where those are one point.
fn off_line(a: Point, b: Point, p: Point) -> f64 {
    let length = libm::hypot(b.0 - a.0, b.1 - a.1);
    if length < SAME_POINT {
        return libm::hypot(p.0 - a.0, p.1 - a.1);
    }
    (turn_of(a, b, p) / length).abs()
}

/// Without double corners and corners on a straight line, counterclockwise; empty where nothing
/// is enclosed.
pub fn clean(outline: &[Point]) -> Vec<Point> {
    let mut kept: Vec<Point> = outline.to_vec();
    loop {
        let count = kept.len();
        if count < 3 {
            return Vec::new();
        }
        let needed = |i: usize| {
            let (before, here, after) = (kept[(i + count - 1) % count], kept[i], kept[(i + 1) % count]);
            libm::hypot(here.0 - before.0, here.1 - before.1) >= SAME_POINT
                && off_line(before, after, here) >= STRAIGHT
        };
        // Two neighbours are never dropped in one round: each may lean on the other.
        let mut next: Vec<Point> = Vec::with_capacity(count);
        let mut dropped_before = false;
        for i in 0..count {
            let last_beside_dropped_first = i + 1 == count && !next.is_empty() && next[0] != kept[0];
            if dropped_before || last_beside_dropped_first || needed(i) {
                next.push(kept[i]);
                dropped_before = false;
            } else {
                dropped_before = true;
            }
        }
        if next.len() == count {
            break;
        }
        kept = next;
    }
    let enclosed = area(&kept);
    if enclosed.abs() < 1e-6 {
        return Vec::new();
    }
    if enclosed < 0.0 {
        kept.reverse();
    }
    kept
}

/// Whether two segments properly cross, each passing from one side of the other to the other side.
pub fn cross(a: Point, b: Point, c: Point, d: Point) -> bool {
    let (first, second) = (turn_of(a, b, c), turn_of(a, b, d));
    let (third, fourth) = (turn_of(c, d, a), turn_of(c, d, b));
    (first > 0.0) != (second > 0.0)
        && (third > 0.0) != (fourth > 0.0)
        && first != 0.0
        && second != 0.0
        && third != 0.0
        && fourth != 0.0
}

/// The first corner of an edge that crosses another edge of the same outline.
pub fn crossing(outline: &[Point]) -> Option<Point> {
    let count = outline.len();
    for i in 0..count {
        let (a, b) = (outline[i], outline[(i + 1) % count]);
        for j in i + 2..count {
            let (c, d) = (outline[j], outline[(j + 1) % count]);
            let apart = a.0.max(b.0) < c.0.min(d.0)
                || c.0.max(d.0) < a.0.min(b.0)
                || a.1.max(b.1) < c.1.min(d.1)
                || c.1.max(d.1) < a.1.min(b.1);
            if !apart && (j + 1) % count != i && cross(a, b, c, d) {
                return Some(a);
            }
        }
    }
    None
}

/// An outline with fewer corners that covers the given one and reaches at most `tolerance` beyond
/// it at each corner taken away: hollow corners are bridged, and full edges run on until their
/// neighbours meet. Stops at `enough` corners.
pub fn simplify_outward(outline: &[Point], tolerance: f64, enough: usize) -> Vec<Point> {
    let mut now = outline.to_vec();
    while now.len() > enough {
        let count = now.len();
        let at = |i: usize| now[i % count];
        // (area added, first corner, what replaces it and, for an edge, the corner after it)
        let mut best: Option<(f64, usize, Option<Point>)> = None;
        for i in 0..count {
            let (a, b, c, d) = (at(i + count - 1), at(i), at(i + 1), at(i + 2));
            let offer = if turn_of(a, b, c) <= 0.0 {
                (off_line(a, c, b) <= tolerance).then(|| (-turn_of(a, b, c), None))
            } else {
                meeting(a, b, c, d)
                    .filter(|&m| turn_of(b, c, d) > 0.0 && off_line(b, c, m) <= tolerance)
                    .map(|m| (turn_of(b, m, c), Some(m)))
            };
            if let Some((added, replacement)) = offer
                && best.is_none_or(|(least, ..)| added.abs() < least)
            {
                best = Some((added.abs(), i, replacement));
            }
        }
        let Some((_, i, replacement)) = best else { break };
        let mut next = now.clone();
        if let Some(meet) = replacement {
            next[i] = meet;
            next.remove((i + 1) % count);
        } else {
            next.remove(i);
        }
        // A bridge over a hollow may run into another part of the outline: leave it as it was.
        if next.len() < 3 || crossing(&next).is_some() {
            break;
        }
        now = next;
    }
    now
}

/// Where the edge from `a` to `b`, run on, meets the edge from `d` to `c`, run on; `None` where
/// they do not meet beyond the edge from `b` to `c`.
fn meeting(a: Point, b: Point, c: Point, d: Point) -> Option<Point> {
    let (ux, uy) = (b.0 - a.0, b.1 - a.1);
    let (vx, vy) = (c.0 - d.0, c.1 - d.1);
    let denominator = ux * vy - uy * vx;
    if denominator.abs() < 1e-9 {
        return None;
    }
    let along = ((c.0 - b.0) * vy - (c.1 - b.1) * vx) / denominator;
    let back = ((c.0 - b.0) * uy - (c.1 - b.1) * ux) / denominator;
    (along >= 0.0 && back >= 0.0).then_some((b.0 + along * ux, b.1 + along * uy))
}
