//! Folds of cloth between two parallel lines: pleats and tucks. How they close, and the caps of their cutting lines.

use crate::shape::fold::mirror_across;
use crate::shape::line::{StraightLine, meet};
use crate::shape::offset::{longer, straightened};
use crate::shape::path::{Path, Position};
use crate::shape::wedge::Capped;
use kurbo::{Affine, Point, Vec2};

/// Cloth between two parallel lines, which is folded halfway between them so that the lines lie on one another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pleat {
    /// Where its lines meet the edge: first along the edge, then further along.
    pub sides: [Point; 2],
    /// The way that both lines go from the edge into the cloth, a unit vector.
    pub into: Vec2,
}

impl Pleat {
    /// From the first line square to the second: twice its depth, mm.
    pub fn taken(&self) -> Vec2 {
        let across = self.sides[1] - self.sides[0];
        across - self.into * across.dot(self.into)
    }

    /// Shuts it: moves what lies beyond the second line until that line lies on the first.
    pub fn shutting(&self) -> Affine {
        Affine::translate(-self.taken())
    }

    /// By how much the edge steps where the lines lie on one another, mm, positive where the second line begins
    /// further in.
    pub fn step(&self) -> f64 {
        (self.sides[1] - self.sides[0]).dot(self.into)
    }
}

/// The cap of a pleat. `before` and `after` are the cutting lines of the edge beside it, where something of the edge is
/// left there. Its cloth lies under the edge as it is once all is folded: `finished` is the cutting line of that, from
/// the line that the fold is laid on (0: the first, 1: the second) outward over the cloth, as it lies beside that line.
///
/// The half of the cloth that is not turned over is cut as that line; the other half is its mirror image in the line
/// between them (handbook method, common practice: the pleat is folded on the paper, and the edge cut through all
/// layers). None where the lines do not meet.
pub fn pleat_cap(
    pleat: &Pleat,
    before: Option<&Path>,
    after: Option<&Path>,
    finished: &Path,
    laid_on: usize,
) -> Option<Capped> {
    let taken = pleat.taken();
    let far = 4.0 * taken.hypot() + REACH;
    let [first, second] = pleat.sides;
    let (placed, inward) = if laid_on == 0 { (first, taken) } else { (second, -taken) };
    let inner = placed + inward * 0.5;
    let long = longer(finished, far, far);
    let from = nearest(&long, placed, pleat.into, finished.start())?;
    // Where the line has come as far as the inner fold.
    let to = nearest(&long, inner, pleat.into, finished.start() + inward * 0.5)?;
    if to <= from {
        return None;
    }
    let half = straightened(long.between(from, to));
    let fold = Path::straight(inner, inner + pleat.into * far);
    let other = half.transform(mirror_across(&fold).ok()?);
    let cap = match laid_on {
        0 => half.then(&other.reversed()),
        _ => other.then(&half.reversed()),
    };
    let mut joined = cap.clone();
    let before = match before {
        Some(before) => {
            let long = longer(before, 0.0, far);
            let ended = straightened(long.up_to(nearest(&long, first, pleat.into, before.end())?));
            joined = bridged(&ended, &joined);
            ended
        }
        None => Path::straight(cap.start(), cap.start()),
    };
    let after = match after {
        Some(after) => {
            let long = longer(after, far, 0.0);
            let begun = straightened(long.onward(nearest(&long, second, pleat.into, after.start())?));
            if joined.end().distance(begun.start()) > 0.0 {
                joined = joined.then(&Path::straight(joined.end(), begun.start()));
            }
            begun
        }
        None => Path::straight(cap.end(), cap.end()),
    };
    Some(Capped { before, cap: joined, after })
}

/// Where the lines of a pleat do not begin alike, a small step along its line is left.
fn bridged(before: &Path, cap: &Path) -> Path {
    match before.end().distance(cap.start()) > 0.0 {
        true => Path::straight(before.end(), cap.start()).then(cap),
        false => cap.clone(),
    }
}

/// Of the places where a path meets a straight line, the one nearest to `near`.
fn nearest(path: &Path, point: Point, way: Vec2, near: Point) -> Option<Position> {
    let line = StraightLine::at(point, way)?;
    let hits = meet(&line, std::slice::from_ref(path));
    let best = hits.into_iter().min_by(|a, b| a.point.distance(near).total_cmp(&b.point.distance(near)));
    best.map(|hit| hit.position)
}

/// How far lines go on at least to meet, in millimetres.
const REACH: f64 = 100.0;

#[cfg(test)]
mod tests {
    use super::*;

    fn p(x: f64, y: f64) -> Point {
        Point::new(x, y)
    }

    /// Lines 40 apart on an edge that rises by 1 in 10: square to them 40, and a step of 4 where they meet.
    #[test]
    fn a_pleat_takes_what_lies_square_between_its_lines() {
        let pleat = Pleat { sides: [p(0.0, 0.0), p(40.0, 4.0)], into: Vec2::new(0.0, -1.0) };
        assert_eq!(pleat.taken(), Vec2::new(40.0, 0.0));
        assert_eq!(pleat.step(), -4.0);
        assert_eq!(pleat.shutting() * p(50.0, 9.0), p(10.0, 9.0));
    }

    /// The edge beyond the second line falls by 1 in 10. Laid on the first line, its cloth lies under that: at the
    /// fold, 20 along, 2 lower; its other half comes back up.
    #[test]
    fn a_cap_is_the_edge_folded_out() {
        let pleat = Pleat { sides: [p(0.0, 0.0), p(40.0, 0.0)], into: Vec2::new(0.0, -1.0) };
        let before = Path::straight(p(-50.0, 10.0), p(0.0, 10.0));
        let after = Path::straight(p(40.0, 10.0), p(100.0, 4.0));
        let finished = after.translated(Vec2::new(-40.0, 0.0));
        let capped = pleat_cap(&pleat, Some(&before), Some(&after), &finished, 0).unwrap();
        let corners: Vec<Point> = capped.cap.segments().iter().map(|one| one.to_cubic().p3).collect();
        assert_eq!(corners.len(), 2);
        assert!(corners[0].distance(p(20.0, 8.0)) < 1e-9 && corners[1].distance(p(40.0, 10.0)) < 1e-9);
        // Laid on the second line it lies under what is before, which is level.
        let back = before.translated(Vec2::new(40.0, 0.0)).reversed();
        let capped = pleat_cap(&pleat, Some(&before), Some(&after), &back, 1).unwrap();
        assert!(capped.cap.bounding_box().height() < 1e-9);
    }
}
