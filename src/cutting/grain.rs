//! Where the grain is shown.

use crate::shape::line::{StraightLine, runs_inside};
use crate::shape::path::Path;
use kurbo::{Point, Vec2};

/// The longest that the grain is shown, in millimetres.
const LONGEST: f64 = 260.0;
/// Less room than this and it is not shown, in millimetres.
const SHORTEST: f64 = 12.0;
/// How many lines are looked at from side to side.
const TRIED: usize = 17;

/// A stretch of the grain well inside the outline: of lines side by side the one that has most
/// room, with a liking for a third of the way across, where labels leave it alone.
pub(super) fn place(ring: &[Path], grain: Vec2) -> Option<(Point, Point)> {
    let side = grain.turn_90();
    let points: Vec<Point> = ring.iter().flat_map(|path| path.flatten(1.0)).collect();
    let across = |point: &Point| side.dot(point.to_vec2());
    let low = points.iter().map(across).fold(f64::INFINITY, f64::min);
    let high = points.iter().map(across).fold(f64::NEG_INFINITY, f64::max);
    let width = high - low;
    if !width.is_finite() || width <= 0.0 {
        return None;
    }
    let mut best: Option<(f64, Point, Point)> = None;
    for step in 1..=TRIED {
        let share = step as f64 / (TRIED + 1) as f64;
        let through = (side * (low + width * share)).to_point();
        let Some(line) = StraightLine::at(through, grain) else { continue };
        for run in runs_inside(&line, ring) {
            let length = run.from.point.distance(run.to.point);
            let off_third = (share - 1.0 / 3.0).abs().min((share - 2.0 / 3.0).abs());
            let score = length - off_third * 2.0 * width;
            if best.is_none_or(|(most, ..)| score > most) {
                best = Some((score, run.from.point, run.to.point));
            }
        }
    }
    let (_, from, to) = best?;
    let length = from.distance(to);
    let shown = (length * 0.6).min(LONGEST);
    if shown < SHORTEST {
        return None;
    }
    let middle = from.midpoint(to);
    let half = grain * (shown / 2.0);
    Some((middle - half, middle + half))
}
