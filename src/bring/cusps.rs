//! Curves whose handles lie so that they come to a point and go back on themselves: no edge does.

use super::figures::TextUnit;
use super::pattern::{Walk, of_size};
use super::runs::Form;
use crate::shape::curve::turns_back;
use crate::shape::path::Path;
use kurbo::{CubicBez, PathSeg, Point};

/// The first size in which a curve of a walk turns back on itself as the text says it, and where; none where none does.
pub fn turning_back(walk: &Walk, sizes: usize, unit: TextUnit) -> Option<(usize, Point)> {
    let edges = 0..walk.edges.len();
    (0..sizes).find_map(|size| edges.clone().find_map(|edge| Some((size, in_size(walk, edge, size, unit)?))))
}

fn in_size(walk: &Walk, edge: usize, size: usize, unit: TextUnit) -> Option<Point> {
    let stretch = &walk.edges.get(edge)?.stretch;
    let Form::Handles { first, second } = &stretch.form else { return None };
    let point = |all: &[Point]| of_size(all, size).map(|point| unit.rounded_point(point));
    let curve = CubicBez::new(point(walk.start(edge))?, point(first)?, point(second)?, point(&stretch.ends)?);
    turns_back(&Path::from_segments([PathSeg::Cubic(curve)]).ok()?)
}
