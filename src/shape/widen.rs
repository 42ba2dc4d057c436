//! Moving an edge out unevenly: more at one end than at the other, or with a step at an end.

use crate::few::Few;
use crate::shape::offset::{OffsetError, longer, meet_near, parallel, reach, straightened};
use crate::shape::outline::{check_ring, is_anticlockwise, next, previous};
use crate::shape::path::Path;
use crate::shape::tolerance::SAME_POINT;
use kurbo::{CubicBez, PathSeg, Point, Vec2};

/// How far an edge moves at each end, and whether it steps there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Widening {
    /// How far out of the piece at its start and at its end, mm; less than nothing: in.
    pub by: [f64; 2],
    /// Whether it ends square to where it began, at its start and at its end, instead of meeting its neighbour.
    pub steps: [bool; 2],
}

/// A ring of which an edge was moved.
#[derive(Debug, Clone, PartialEq)]
pub struct Widened {
    /// The same edges in the same order. Steps belong to the edge that was moved.
    pub edges: Vec<Path>,
    /// How long the step at its start is, and that at its end, mm; 0 where there is none.
    pub steps: [f64; 2],
}

/// The ring with edge `edge` moved. Between its ends the amount changes evenly along it, square to it; its neighbours,
/// and it itself, go on straight to meet, but where it steps.
///
/// # Errors
/// When a neighbour does not meet it, nothing is left of an edge, the ring has fewer than three edges, or something
/// is not finite.
pub fn widen_edge(ring: &[Path], edge: usize, widening: Widening) -> Result<Widened, OffsetError> {
    check_ring(ring)?;
    let count = ring.len();
    let (before, after) = (previous(edge, count), next(edge, count));
    let (Some(moving), Some(prior), Some(later)) = (ring.get(edge), ring.get(before), ring.get(after)) else {
        return Err(OffsetError::NoSuchEdge);
    };
    if count < 3 {
        return Err(OffsetError::NoSuchEdge);
    }
    let [one, other] = widening.by;
    if !one.is_finite() || !other.is_finite() {
        return Err(OffsetError::NotFinite);
    }
    if one == 0.0 && other == 0.0 {
        return Ok(Widened { edges: ring.to_vec(), steps: [0.0; 2] });
    }
    let side = if is_anticlockwise(ring) { -1.0 } else { 1.0 };
    let moved = match one == other {
        true => parallel(moving, side * one)?,
        false => slanted(moving, [side * one, side * other]),
    };
    let reach = reach(one.abs().max(other.abs()));
    let long = longer(&moved, reach, reach);
    let misses = |neighbour| OffsetError::MissesNeighbour { edge, neighbour };
    let mut edges = ring.to_vec();
    let mut put = |index: usize, path: Path| {
        let left = path.length() > SAME_POINT;
        if let Some(place) = edges.get_mut(index) {
            *place = straightened(path);
        }
        if left { Ok(()) } else { Err(OffsetError::NothingLeft { edge: index }) }
    };
    let (mut start, mut end) = (long.position_at(reach), long.position_at(reach + moved.length()));
    let stays = |by: f64| by.abs() <= SAME_POINT;
    if !widening.steps[0] && !stays(one) {
        let (on_prior, at) =
            meet_near(&longer(prior, 0.0, reach), &long, moving.start()).ok_or(misses(before))?;
        put(before, longer(prior, 0.0, reach).up_to(on_prior))?;
        start = at;
    }
    if !widening.steps[1] && !stays(other) {
        let (on_later, at) =
            meet_near(&longer(later, reach, 0.0), &long, moving.end()).ok_or(misses(after))?;
        put(after, longer(later, reach, 0.0).onward(on_later))?;
        end = at;
    }
    if end <= start {
        return Err(OffsetError::NothingLeft { edge });
    }
    let mut whole = straightened(long.between(start, end));
    let mut steps = [0.0; 2];
    if widening.steps[0] && !stays(one) {
        let step = Path::straight(moving.start(), whole.start());
        steps[0] = step.length();
        whole = step.then(&whole);
    }
    if widening.steps[1] && !stays(other) {
        let step = Path::straight(whole.end(), moving.end());
        steps[1] = step.length();
        whole = whole.then(&step);
    }
    put(edge, whole)?;
    Ok(Widened { edges, steps })
}

/// The path with every point moved square to it, to the left, by an amount that changes evenly along it.
fn slanted(path: &Path, [one, other]: [f64; 2]) -> Path {
    let whole = path.length();
    if path.is_straight() || whole <= SAME_POINT {
        let out = |way: Option<Vec2>, by: f64| way.map_or(Vec2::ZERO, |way| way.turn_90() * by);
        let (start, end) = (out(path.tangent_at_start(), one), out(path.tangent_at_end(), other));
        return Path::straight(path.start() + start, path.end() + end);
    }
    let at = |run: &Path, passed: f64, along: f64| -> Point {
        let share = ((passed + along) / whole).clamp(0.0, 1.0);
        let way = run.tangent_at_length(along).unwrap_or(Vec2::ZERO);
        run.point_at_length(along) + way.turn_90() * (one + (other - one) * share)
    };
    let mut made: Option<Path> = None;
    let mut passed = 0.0;
    for segment in path.segments() {
        let run = Path::chain(Few::one(*segment), path.start());
        let long = run.length();
        let step = long / PARTS as f64;
        let small = step / 100.0;
        let slope = |along: f64| {
            let (low, high) = ((along - small).max(0.0), (along + small).min(long));
            (at(&run, passed, high) - at(&run, passed, low)) / (high - low)
        };
        for part in 0..PARTS {
            let (from, to) = (step * part as f64, step * (part + 1) as f64);
            let (start, end) = (at(&run, passed, from), at(&run, passed, to));
            let third = step / 3.0;
            let cubic = CubicBez::new(start, start + slope(from) * third, end - slope(to) * third, end);
            let piece = Path::chain(Few::one(PathSeg::Cubic(cubic)), start);
            made = Some(match made {
                None => piece,
                Some(before) if before.end().distance(piece.start()) > SAME_POINT => {
                    before.then(&Path::straight(before.end(), piece.start())).then(&piece)
                }
                Some(before) => before.then(&piece),
            });
        }
        passed += long;
    }
    made.unwrap_or_else(|| path.clone())
}

/// Into so many parts a curve is cut to be moved unevenly: each then lies within a hundredth of a millimetre.
const PARTS: usize = 8;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::arc::{Turning, arc_about};

    fn polygon(corners: &[(f64, f64)]) -> Vec<Path> {
        let points: Vec<Point> = corners.iter().map(|&c| c.into()).collect();
        let ends = points.iter().cycle().skip(1);
        points.iter().zip(ends).map(|(a, b)| Path::straight(*a, *b)).collect()
    }

    /// A panel 100 by 60, its right side 0 out below and 20 out above: it leans by 20 over 60, and the top is 120 long.
    #[test]
    fn a_side_leaned_out() {
        let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0)]);
        let widening = Widening { by: [0.0, 20.0], steps: [false; 2] };
        for (ring, edge, widening) in [
            (ring.clone(), 1, widening),
            (ring.iter().rev().map(Path::reversed).collect(), 2, Widening { by: [20.0, 0.0], ..widening }),
        ] {
            let made = widen_edge(&ring, edge, widening).unwrap();
            assert_eq!(check_ring(&made.edges), Ok(()));
            assert!((made.edges[edge].length() - 20.0_f64.hypot(60.0)).abs() < 1e-9);
            let longest = made.edges.iter().map(Path::length).fold(0.0, f64::max);
            assert!((longest - 120.0).abs() < 1e-9);
        }
    }

    /// A vent of 30 below a centre of 30, moved out by 4 with a step: 4 + 30 long, and the hem 4 longer.
    #[test]
    fn a_vent_that_steps() {
        let ring = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 60.0), (0.0, 60.0), (0.0, 30.0)]);
        let made = widen_edge(&ring, 4, Widening { by: [4.0, 4.0], steps: [true, false] }).unwrap();
        assert_eq!(check_ring(&made.edges), Ok(()));
        assert_eq!((made.edges[4].length(), made.steps), (34.0, [4.0, 0.0]));
        assert_eq!((made.edges[3].length(), made.edges[0].length()), (30.0, 104.0));
    }

    /// A quarter circle of radius 100 moved out from 0 to 20 along it: at an angle φ its radius is 100 + 20·φ/90°.
    #[test]
    fn a_curve_leaned_out() {
        let p = |x: f64, y: f64| Point::new(x, y);
        let arc = arc_about(Point::ZERO, p(100.0, 0.0), p(0.0, 100.0), Turning::Anticlockwise).unwrap();
        let moved = slanted(&arc, [0.0, -20.0]);
        for point in moved.flatten(0.01) {
            let angle = libm::atan2(point.y, point.x);
            let radius = 100.0 + 20.0 * angle / std::f64::consts::FRAC_PI_2;
            assert!((point.to_vec2().hypot() - radius).abs() < 0.03, "{point:?}");
        }
    }
}
