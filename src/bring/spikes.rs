//! A point that lies far from all others of its outline, as where a figure of a coordinate was lost or doubled.

use super::course::{Course, angle};
use super::unmatched::place;
use kurbo::{Point, Vec2};

/// What is left without a point is a piece if it holds so much of the square over what it measures across: of a gusset without
/// its tip nothing is left.
const BODY: f64 = 0.1;
/// And the point lies so many times as far away.
const FAR: f64 = 1.8;
/// Fewer points than this have no rest.
const LEAST_POINTS: usize = 5;
/// A needle that stands out of a traced line is longer than this, in millimetres: notches are drawn so too.
const LEAST_NEEDLE: f64 = 20.0;
/// It turns so much at its tip, in radians (120°) …
const TIP: f64 = 2.0 * std::f64::consts::FRAC_PI_3;
/// … and so much, the other way, at both points beside it (45°).
const FOOT: f64 = std::f64::consts::FRAC_PI_4;
/// Its sides are so many times as long as the usual step from point to point.
const LONGER: f64 = 4.0;

/// A sentence on the point of an outline that lies far from all others, if one does.
pub fn spike(course: &Course) -> Option<String> {
    let count = course.nodes();
    if !course.closed || count < LEAST_POINTS + 1 {
        return None;
    }
    let nodes: Vec<Point> = (0..count).map(|at| course.node(at)).collect();
    let (at, away) = far(&nodes).or_else(|| needle(&nodes))?;
    Some(format!(
        "a point {} stands out by {away:.0} mm from those beside it: is one of its coordinates wrong, ten times too large perhaps?",
        place(course, at)
    ))
}

/// What lies farther away than all others do from one another, and without which a piece is left.
fn far(nodes: &[Point]) -> Option<(Point, f64)> {
    let count = nodes.len();
    // Those at the ends of what is covered are the only ones that may be.
    let mut ends: Vec<usize> = Vec::new();
    for by in [|point: &Point| point.x, |point: &Point| point.y] {
        let order = |one: &usize, other: &usize| {
            let of = |at: &usize| nodes.get(*at).map_or(0.0, by);
            of(one).total_cmp(&of(other))
        };
        ends.extend((0..count).min_by(order).into_iter().chain((0..count).max_by(order)));
    }
    ends.into_iter().find_map(|at| {
        let (before, own, after) = around(nodes, at)?;
        let others = || nodes.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, node)| *node);
        let bounds =
            others().map(|node| kurbo::Rect::from_points(node, node)).reduce(|all, one| all.union(one))?;
        let rest = libm::hypot(bounds.width(), bounds.height());
        let near = own.distance(before).min(own.distance(after));
        (near > FAR * rest && rest > 0.0 && area(others()).abs() > BODY * rest * rest).then_some((own, near))
    })
}

/// The only needle of a traced line.
fn needle(nodes: &[Point]) -> Option<(Point, f64)> {
    let count = nodes.len();
    let mut steps: Vec<f64> =
        nodes.iter().zip(nodes.iter().cycle().skip(1)).map(|(one, other)| one.distance(*other)).collect();
    steps.sort_by(f64::total_cmp);
    let usual = steps.get(steps.len() / 2).copied()?;
    let turn = |at: usize| {
        let (before, own, after) = around(nodes, at % count)?;
        let (one, other): (Vec2, Vec2) = (own - before, after - own);
        Some(angle(one, other) * one.cross(other).signum())
    };
    let mut all = (0..count).filter_map(|at| {
        let (before, own, after) = around(nodes, at)?;
        let near = own.distance(before).min(own.distance(after));
        let (tip, feet) = (turn(at)?, [turn(at + count - 1)?, turn(at + 1)?]);
        let is_needle = near > LEAST_NEEDLE
            && near > LONGER * usual
            && tip.abs() > TIP
            && feet.iter().all(|foot| foot.abs() > FOOT && foot.signum() != tip.signum());
        is_needle.then_some((own, near))
    });
    let only = all.next()?;
    all.next().is_none().then_some(only)
}

/// A point and those beside it.
fn around(nodes: &[Point], at: usize) -> Option<(Point, Point, Point)> {
    let count = nodes.len().max(1);
    Some((*nodes.get((at + count - 1) % count)?, *nodes.get(at)?, *nodes.get((at + 1) % count)?))
}

fn area(nodes: impl Iterator<Item = Point>) -> f64 {
    let all: Vec<Point> = nodes.collect();
    let nexts = all.iter().cycle().skip(1);
    all.iter().zip(nexts).map(|(one, other)| one.to_vec2().cross(other.to_vec2())).sum::<f64>() / 2.0
}

#[cfg(test)]
mod tests {
    use super::{far, needle};
    use kurbo::Point;

    /// A panel of 100 by 200 whose corner has one figure too many; a gusset has a tip, and is sound.
    #[test]
    fn a_tip_is_no_slip() {
        let panel = [(0.0, 0.0), (100.0, 0.0), (100.0, 80.0), (1000.0, 200.0), (50.0, 220.0), (0.0, 200.0)];
        assert_eq!(far(&panel.map(Point::from)).map(|(at, _)| at), Some(Point::new(1000.0, 200.0)));
        let gusset = [(0.0, 0.0), (20.0, 2.0), (40.0, 3.0), (60.0, 2.0), (80.0, 0.0), (40.0, 400.0)];
        assert_eq!(far(&gusset.map(Point::from)), None);
        assert_eq!(needle(&gusset.map(Point::from)), None);
    }
}
