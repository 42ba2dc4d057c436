//! The exact check of a finished plan, in `f64`, by means other than those of the search: edges
//! against edges, corners against outlines.

use super::outline::{bounds, clean, cross, turn_of};
use super::pose::turned;
use super::request::{Placement, Plan, Point, Request};

/// What may be wrong by so much is right, in millimetres.
pub const TOLERANCE: f64 = 0.01;

/// What is wrong with a plan.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// Two placements overlap, or keep less than the minimum space.
    Overlap(usize, usize),
    /// A placement lies off the cloth by so much.
    Outside(usize, f64),
    /// An item is not laid as often as it was asked for.
    Count(usize),
}

/// The outline of a placement, on the cloth.
pub fn placed_outline(request: &Request, placement: &Placement) -> Vec<Point> {
    let Some(item) = request.items.get(placement.item) else { return Vec::new() };
    let mut outline = turned(&item.outline, placement.turn);
    for p in &mut outline {
        *p = (p.0 + placement.x, p.1 + placement.y);
    }
    outline
}

/// Everything that is wrong with a plan by more than 0.01 mm.
pub fn verify(request: &Request, plan: &Plan) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (index, item) in request.items.iter().enumerate() {
        if plan.placements.iter().filter(|p| p.item == index).count() != item.quantity {
            faults.push(Fault::Count(index));
        }
    }
    let outlines: Vec<Vec<Point>> =
        plan.placements.iter().map(|p| clean(&placed_outline(request, p))).collect();
    let reach = request.minimum_space;
    let mut order: Vec<(usize, Point, Point)> = Vec::with_capacity(outlines.len());
    for (index, outline) in outlines.iter().enumerate() {
        let (low, high) = bounds(outline);
        let over = [-low.0, -low.1, high.0 - plan.length, high.1 - request.width];
        let worst = over.into_iter().fold(f64::NEG_INFINITY, f64::max);
        if worst > TOLERANCE || !worst.is_finite() {
            faults.push(Fault::Outside(index, worst));
        }
        order.push((index, low, high));
    }
    order.sort_by(|a, b| a.1.0.total_cmp(&b.1.0).then(a.0.cmp(&b.0)));
    let shrunk: Vec<Vec<Point>> = outlines.iter().map(|o| drawn_in(o, TOLERANCE / 2.0)).collect();
    for (at, &(first, low, high)) in order.iter().enumerate() {
        for &(second, other_low, other_high) in &order[at + 1..] {
            if other_low.0 > high.0 + reach {
                break;
            }
            if other_low.1 > high.1 + reach || low.1 > other_high.1 + reach {
                continue;
            }
            let clear = if reach > 0.0 {
                apart(&outlines[first], &outlines[second], reach - TOLERANCE)
            } else {
                !overlap(&shrunk[first], &shrunk[second])
            };
            if !clear {
                faults.push(Fault::Overlap(first.min(second), first.max(second)));
            }
        }
    }
    faults
}

/// Each corner moved inward so that both its edges move by `by`; a sharp corner no further than
/// about four times that.
pub fn drawn_in(outline: &[Point], by: f64) -> Vec<Point> {
    let count = outline.len();
    let normal = |a: Point, b: Point| {
        let length = libm::hypot(b.0 - a.0, b.1 - a.1).max(1e-12);
        ((a.1 - b.1) / length, (b.0 - a.0) / length)
    };
    (0..count)
        .map(|i| {
            let (before, here, after) =
                (outline[(i + count - 1) % count], outline[i], outline[(i + 1) % count]);
            let (n, m) = (normal(before, here), normal(here, after));
            let scale = by / (1.0 + n.0 * m.0 + n.1 * m.1).max(0.1);
            (here.0 + (n.0 + m.0) * scale, here.1 + (n.1 + m.1) * scale)
        })
        .collect()
}

fn edges(outline: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    outline.iter().copied().zip(outline.iter().copied().cycle().skip(1))
}

/// Whether a point lies inside (even and odd crossings of a ray along x).
fn inside(outline: &[Point], p: Point) -> bool {
    edges(outline)
        .filter(|&(a, b)| (a.1 > p.1) != (b.1 > p.1) && (turn_of(a, b, p) > 0.0) == (b.1 > a.1))
        .count()
        % 2
        == 1
}

/// Whether two outlines share area.
fn overlap(first: &[Point], second: &[Point]) -> bool {
    let (low, high) = bounds(second);
    for (a, b) in edges(first) {
        if a.0.max(b.0) < low.0 || a.0.min(b.0) > high.0 || a.1.max(b.1) < low.1 || a.1.min(b.1) > high.1 {
            continue;
        }
        if edges(second).any(|(c, d)| cross(a, b, c, d)) {
            return true;
        }
    }
    // No edge crosses another: one lies in the other, or they are clear of each other. Corners on
    // the other's outline say nothing, so the middles of edges are asked too.
    let within = |inner: &[Point], outer: &[Point]| {
        let middles = edges(inner).map(|(a, b)| ((a.0 + b.0) / 2.0, (a.1 + b.1) / 2.0));
        inner.iter().copied().chain(middles).any(|p| inside(outer, p))
    };
    within(first, second) || within(second, first)
}

/// Whether two outlines are clear of each other and nowhere closer than `least`.
fn apart(first: &[Point], second: &[Point], least: f64) -> bool {
    if overlap(first, second) {
        return false;
    }
    let far_enough = |p: Point, a: Point, b: Point| {
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let along = (((p.0 - a.0) * dx + (p.1 - a.1) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
        libm::hypot(p.0 - a.0 - along * dx, p.1 - a.1 - along * dy) >= least
    };
    let corners_far = |corners: &[Point], other: &[Point]| {
        corners.iter().all(|&p| edges(other).all(|(a, b)| far_enough(p, a, b)))
    };
    corners_far(first, second) && corners_far(second, first)
}
