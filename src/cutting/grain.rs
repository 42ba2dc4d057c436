//! Where the grain is shown.

use crate::shape::path::Path;
use crate::shape::tolerance::SAME_POINT;
use kurbo::{Point, Vec2};
use smallvec::SmallVec;

/// The longest that the grain is shown, in millimetres.
const LONGEST: f64 = 260.0;
/// Less room than this and it is not shown, in millimetres.
const SHORTEST: f64 = 12.0;
/// How many lines are looked at from side to side.
const TRIED: usize = 17;

/// How closely the outline is followed, in millimetres: this only chooses where a line is shown.
const CLOSELY: f64 = 0.1;

/// A stretch of the grain well inside the outline: of lines side by side the one that has most
/// room, with a liking for a third of the way across, where labels leave it alone.
pub(super) fn place(ring: &[Path], grain: Vec2) -> Option<(Point, Point)> {
    let side = grain.turn_90();
    // Along the grain, and across it to its left.
    let turned = |point: Point| (grain.dot(point.to_vec2()), side.dot(point.to_vec2()));
    let corners: Vec<(f64, f64)> = ring.iter().flat_map(|path| path.flatten(CLOSELY)).map(turned).collect();
    let across = || corners.iter().map(|(_, across)| *across);
    let low = across().fold(f64::INFINITY, f64::min);
    let high = across().fold(f64::NEG_INFINITY, f64::max);
    let width = high - low;
    if !width.is_finite() || width <= 0.0 {
        return None;
    }
    let share = |step: usize| (step + 1) as f64 / (TRIED + 1) as f64;
    let lines: [f64; TRIED] = std::array::from_fn(|step| low + width * share(step));
    let mut best: Option<(f64, f64, [f64; 2])> = None;
    for (step, (runs, at)) in runs_inside(&corners, &lines).into_iter().zip(lines).enumerate() {
        let off_third = (share(step) - 1.0 / 3.0).abs().min((share(step) - 2.0 / 3.0).abs());
        for run in runs {
            let score = run[1] - run[0] - off_third * 2.0 * width;
            if best.is_none_or(|(most, ..)| score > most) {
                best = Some((score, at, run));
            }
        }
    }
    let (_, at, [from, to]) = best?;
    let shown = ((to - from) * 0.6).min(LONGEST);
    if shown < SHORTEST {
        return None;
    }
    let middle = (grain * f64::midpoint(from, to) + side * at).to_point();
    let half = grain * (shown / 2.0);
    Some((middle - half, middle + half))
}

/// Where each of some lines, which lie so far across, from low to high, is inside the polygon with those corners, from where
/// to where along it; nowhere where a side of it lies on the line. Each side is looked at once, for the lines that it crosses.
fn runs_inside(corners: &[(f64, f64)], lines: &[f64; TRIED]) -> [Vec<[f64; 2]>; TRIED] {
    let mut places: [SmallVec<[f64; 4]>; TRIED] = Default::default();
    let mut is_along = [false; TRIED];
    let nexts = corners.iter().skip(1).chain(corners.first());
    for (&(start, from), &(end, to)) in corners.iter().zip(nexts) {
        let is_on = |across: f64, at: f64| (across - at).abs() <= SAME_POINT;
        if (from - to).abs() <= 3.0 * SAME_POINT && (end - start).abs() > SAME_POINT {
            for (is_along, &at) in is_along.iter_mut().zip(lines) {
                *is_along |= is_on(from, at) && is_on(to, at);
            }
        }
        // A corner on the line counts as beyond it, so that each side that meets it there is counted once or not at all.
        let below = |across: f64| lines.partition_point(|&at| at <= across);
        let (first, last) = (below(from.min(to)), below(from.max(to)));
        let crossed = places.iter_mut().zip(lines).take(last).skip(first);
        crossed.for_each(|(places, at)| places.push(start + (end - start) * (at - from) / (to - from)));
    }
    let mut along = is_along.into_iter();
    places.map(|mut places| {
        if along.next() == Some(true) {
            return Vec::new();
        }
        places.sort_by(f64::total_cmp);
        places.as_chunks().0.to_vec()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The outline through these corners.
    fn ring(corners: &[(f64, f64)]) -> Vec<Path> {
        let at = |place: usize| Point::from(corners[place % corners.len()]);
        (0..corners.len()).map(|place| Path::straight(at(place), at(place + 1))).collect()
    }

    /// A strip of 90 by 300 has as much room everywhere: it is shown a third across, 60 % of 300 long, in the middle.
    #[test]
    fn of_equal_room_it_lies_a_third_across() {
        let strip = ring(&[(0.0, 0.0), (90.0, 0.0), (90.0, 300.0), (0.0, 300.0)]);
        let (from, to) = place(&strip, Vec2::new(0.0, 1.0)).unwrap();
        // Lines are tried from the right of the grain to its left.
        assert!((from - Point::new(60.0, 60.0)).hypot() < 1e-9, "{from}");
        assert!((to - from - Vec2::new(0.0, 180.0)).hypot() < 1e-9, "{from} {to}");
    }

    /// Of a U whose legs are 100 and 200 high it lies in the longer leg, never across the gap between them.
    #[test]
    fn it_stays_inside() {
        let u = ring(&[
            (0.0, 0.0),
            (90.0, 0.0),
            (90.0, 200.0),
            (60.0, 200.0),
            (60.0, 20.0),
            (30.0, 20.0),
            (30.0, 100.0),
            (0.0, 100.0),
        ]);
        let (from, to) = place(&u, Vec2::new(0.0, 1.0)).unwrap();
        assert!(from.x > 60.0 && to.x < 90.0, "{from} {to}");
        // Side to side the gap parts the legs: 30 across is all the room there is above the bottom's 20.
        let (from, to) = place(&u, Vec2::new(1.0, 0.0)).unwrap();
        assert!((to - from).hypot() <= 0.6 * 90.0 + 1e-9 && from.y < 100.0, "{from} {to}");
    }

    #[test]
    fn where_there_is_no_room_it_is_not_shown() {
        let small = ring(&[(0.0, 0.0), (15.0, 0.0), (15.0, 15.0), (0.0, 15.0)]);
        assert_eq!(place(&small, Vec2::new(0.0, 1.0)), None);
        assert_eq!(place(&[], Vec2::new(0.0, 1.0)), None);
    }
}
