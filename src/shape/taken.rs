//! The map between an edge as it is drawn and as it is sewn: stretches of it are taken out.

use crate::shape::crossing::paths_meet;
use crate::shape::outline::{Region, extents};
use crate::shape::path::Path;
use crate::shape::tolerance::SAME_POINT;
use kurbo::{Point, Rect};

/// An edge of which stretches are taken out. All lengths are millimetres.
#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    /// Its length as drawn.
    length: f64,
    /// The stretches that are taken out, in order, none over another.
    stretches: Vec<(f64, f64)>,
    /// What of its length is left after folds.
    share: f64,
}

impl Taken {
    /// The map of an edge so long, of which those stretches are taken out; what lies beyond its ends, or
    /// over another stretch, is counted once. `share` of it is left after folds.
    pub fn new(length: f64, stretches: impl IntoIterator<Item = (f64, f64)>, share: f64) -> Taken {
        let mut known: Vec<(f64, f64)> = stretches
            .into_iter()
            .map(|(from, to)| (from.clamp(0.0, length), to.clamp(0.0, length)))
            .filter(|(from, to)| from < to)
            .collect();
        known.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut stretches: Vec<(f64, f64)> = Vec::with_capacity(known.len());
        for (from, to) in known {
            match stretches.last_mut() {
                Some(last) if from <= last.1 => last.1 = last.1.max(to),
                _ => stretches.push((from, to)),
            }
        }
        Taken { length, stretches, share }
    }

    /// Its length as sewn.
    pub fn sewn(&self) -> f64 {
        let taken: f64 = self.stretches.iter().map(|(from, to)| to - from).sum();
        (self.length - taken) * self.share
    }

    /// Where a place of the drawn edge lies as sewn, from its start; what is taken out lies at its seam.
    pub fn as_sewn(&self, drawn: f64) -> f64 {
        let before = self.stretches.iter().map(|&(from, to)| (drawn.min(to) - from).max(0.0));
        (drawn - before.sum::<f64>()) * self.share
    }

    /// Where a place of the sewn edge lies as drawn, from its start; at the seam of what is taken out, its
    /// nearer side.
    pub fn as_drawn(&self, sewn: f64) -> f64 {
        let mut at = if self.share > 0.0 { sewn / self.share } else { 0.0 };
        for &(from, to) in &self.stretches {
            if at <= from + AT_SEAM {
                break;
            }
            at += to - from;
        }
        at
    }

    /// The stretches that are taken out.
    pub fn stretches(&self) -> &[(f64, f64)] {
        &self.stretches
    }
}

/// The stretches of a path inside a polygon, from its start, mm: between the places where it meets the
/// polygon's sides.
pub fn inside(path: &Path, corners: &[Point]) -> Vec<(f64, f64)> {
    let ends = corners.iter().cycle().skip(1);
    let ring: Vec<Path> = corners.iter().zip(ends).map(|(a, b)| Path::straight(*a, *b)).collect();
    if !extents(&ring).is_some_and(|bounds| touches(bounds, path.bounding_box())) {
        return Vec::new();
    }
    let mut stops = vec![0.0, path.length()];
    for side in &ring {
        stops.extend(paths_meet(path, side).iter().map(|(on_path, ..)| path.length_to(*on_path)));
    }
    stops.sort_by(f64::total_cmp);
    let region = Region::of(&ring);
    let between = stops.windows(2).filter_map(|pair| match pair {
        &[from, to] if to - from > SAME_POINT => Some((from, to)),
        _ => None,
    });
    between.filter(|(from, to)| region.winding(path.point_at_length((from + to) / 2.0)) != 0).collect()
}

fn touches(one: Rect, other: Rect) -> bool {
    one.x0 <= other.x1 && other.x0 <= one.x1 && one.y0 <= other.y1 && other.y0 <= one.y1
}

/// A place no farther beyond a seam than this is at it, in millimetres: what rounding leaves.
const AT_SEAM: f64 = 1e-9;

#[cfg(test)]
mod tests {
    use super::*;

    /// 300 long, of which 50 to 80 and 200 to 210 are taken: 260 is left; 100 lies at 70, and 190 at 220.
    #[test]
    fn places_go_over_what_is_taken() {
        let edge = Taken::new(300.0, [(200.0, 210.0), (50.0, 80.0)], 1.0);
        assert_eq!(edge.sewn(), 260.0);
        assert_eq!((edge.as_sewn(50.0), edge.as_sewn(65.0), edge.as_sewn(80.0)), (50.0, 50.0, 50.0));
        assert_eq!((edge.as_sewn(100.0), edge.as_drawn(70.0)), (70.0, 100.0));
        assert_eq!((edge.as_sewn(230.0), edge.as_drawn(190.0)), (190.0, 230.0));
        assert_eq!(edge.as_drawn(50.0), 50.0);
    }

    /// A line 20 above the point of a triangle 30 wide and 120 high lies 30·20/120 = 5 in it, round its middle.
    #[test]
    fn a_line_across_a_dart() {
        let corners = [Point::new(-15.0, 0.0), Point::new(0.0, -120.0), Point::new(15.0, 0.0)];
        let line = Path::straight(Point::new(-50.0, -100.0), Point::new(50.0, -100.0));
        let found = inside(&line, &corners);
        assert_eq!(found.len(), 1);
        assert!((found[0].0 - 47.5).abs() < 1e-6 && (found[0].1 - 52.5).abs() < 1e-6, "{found:?}");
        assert!(inside(&line.translated(kurbo::Vec2::new(0.0, -21.0)), &corners).is_empty());
    }

    /// Folded in two, half of what is left counts.
    #[test]
    fn folds_halve_what_is_left() {
        let edge = Taken::new(300.0, [(50.0, 80.0)], 0.5);
        assert_eq!((edge.sewn(), edge.as_sewn(100.0), edge.as_drawn(35.0)), (135.0, 35.0, 100.0));
    }

    /// Stretches that overlap, or go past an end, are counted once.
    #[test]
    fn nothing_is_taken_twice() {
        assert_eq!(Taken::new(100.0, [(10.0, 30.0), (20.0, 40.0), (90.0, 120.0)], 1.0).sewn(), 60.0);
    }
}
