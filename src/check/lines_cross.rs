//! `size/lines-cross`: the same edge of two neighbouring sizes crosses when they are nested.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, PaperId, SizeId};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue, group};
use crate::resolve::DrawnPiece;
use crate::shape::Point;
use crate::shape::path::Path;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::SIZE_LINES_CROSS], run: Run::OverSizes(run) };

/// On each side of the crossing the edges must be at least so far apart, in millimetres: closer
/// than a pencil line they are the same.
const APART: f64 = 1.0;
/// Where they swap sides from every size to the next, the piece is drafted so about its own middle,
/// and only more than this, in millimetres, is reported.
const DRAFTED_SO: f64 = 5.0;
/// What counts as the middle of an edge: this share of it at either end is left out, because
/// corners move from size to size.
const ENDS: f64 = 0.1;
/// Places along an edge that are looked at.
const PLACES: usize = 32;
/// How close the straight lines lie to a curve, in millimetres.
const CLOSE: f64 = 0.1;

fn run(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut Vec<Diagnostic>) {
    let mut findings = Vec::new();
    for paper in (0..garment.papers.len()).map(PaperId::from_index) {
        let drawn = |at: usize| sizes.get(at).and_then(|size| size.drawn.paper(paper));
        let Some(first) = drawn(0) else { continue };
        for edge in first.edges.iter().map(|edge| edge.edge) {
            if garment.edge(edge).copied_from.is_some() {
                continue;
            }
            let crossings: Vec<Finding> = (1..sizes.len())
                .filter_map(|at| crossing(garment, drawn(at - 1)?, drawn(at)?, edge, SizeId::from_index(at)))
                .collect();
            let everywhere = sizes.len() > 2 && crossings.len() + 1 == sizes.len();
            let least = if everywhere { DRAFTED_SO } else { APART };
            findings.extend(crossings.into_iter().filter(|finding| finding.weight > least));
        }
    }
    diagnostics.extend(group(findings, &words::size_names(garment)));
}

fn crossing(
    garment: &Garment,
    small: &DrawnPiece,
    large: &DrawnPiece,
    edge: EdgeId,
    size: SizeId,
) -> Option<Finding> {
    // A trued edge waves over its darts, which lie elsewhere in each size.
    let trued = |drawn: &DrawnPiece| {
        drawn
            .take_ups
            .iter()
            .any(|one| one.moved.is_some() && one.mouth.is_some_and(|mouth| mouth.edge == edge))
    };
    if trued(small) || trued(large) {
        return None;
    }
    let (inner, outer) = (&small.edge(edge)?.path, &large.edge(edge)?.path);
    let (one_side, other_side) = sides(inner, outer)?;
    let by = one_side.min(other_side);
    let named = garment.edge(edge);
    let before = garment.sizes.get(size.index().checked_sub(1)?)?.name.clone();
    let name = words::edge(garment, edge);
    let title = Title::new(format!("nested, {name} crosses that of the size before")).in_sizes();
    let warning = Diagnostic::new(&catalogue::SIZE_LINES_CROSS, named.span, title)
        .label(format!("{} on the wrong side of size {before}", amount(by, garment.unit)))
        .help("look at what its ends and directions depend on: some of it grows where the rest shrinks");
    Some(Finding::new(size, by, warning).figure("crosses by", amount(by, garment.unit)))
}

/// How far `outer` lies to the left of `inner` at most, and to the right at most, in the middle of
/// both; none unless both are more than [`APART`], so that the two swap sides. Both are taken as
/// chains of straight lines [`CLOSE`] to them.
fn sides(inner: &Path, outer: &Path) -> Option<(f64, f64)> {
    let (inner, outer) = (Chain::of(inner)?, Chain::of(outer)?);
    let (mut left, mut right) = (0.0_f64, 0.0_f64);
    for place in 0..=PLACES {
        let share = ENDS + (1.0 - 2.0 * ENDS) * place as f64 / PLACES as f64;
        let (side, along) = inner.side_of(outer.at(share));
        if (ENDS..=1.0 - ENDS).contains(&along) {
            left = left.max(side);
            right = right.max(-side);
        }
    }
    (left > APART && right > APART).then_some((left, right))
}

/// Straight lines end to end.
struct Chain {
    points: Vec<Point>,
    /// How far along the chain each point is.
    along: Vec<f64>,
    length: f64,
}

impl Chain {
    /// None of a path without length.
    fn of(path: &Path) -> Option<Chain> {
        let points = path.flatten(CLOSE);
        let mut along = Vec::with_capacity(points.len());
        let mut length = 0.0;
        for (at, point) in points.iter().enumerate() {
            length +=
                at.checked_sub(1).and_then(|at| points.get(at)).map_or(0.0, |last| last.distance(*point));
            along.push(length);
        }
        (length.is_finite() && length > 0.0).then_some(Chain { points, along, length })
    }

    /// The point at a share of the length.
    fn at(&self, share: f64) -> Point {
        let wanted = share * self.length;
        let next = self.along.partition_point(|along| *along < wanted).max(1).min(self.points.len() - 1);
        let (from, to) = (self.along[next - 1], self.along[next]);
        let part = if to > from { (wanted - from) / (to - from) } else { 0.0 };
        self.points[next - 1].lerp(self.points[next], part)
    }

    /// How far a point lies to the left of the chain (negative: to the right), and at which share
    /// of the length the chain is nearest to it.
    fn side_of(&self, point: Point) -> (f64, f64) {
        let mut best = (f64::INFINITY, 0.0, 0.0);
        for (two, along) in self.points.windows(2).zip(&self.along) {
            let way = two[1] - two[0];
            let length = way.hypot();
            if length <= 0.0 {
                continue;
            }
            let to = point - two[0];
            let foot = (to.dot(way) / length).clamp(0.0, length);
            let distance = (to - way * (foot / length)).hypot();
            if distance < best.0 {
                let sign = if way.cross(to) < 0.0 { -1.0 } else { 1.0 };
                best = (distance, sign * distance, (along + foot) / self.length);
            }
        }
        (best.1, best.2)
    }
}

#[cfg(test)]
mod tests {
    use super::sides;
    use crate::shape::Point;
    use crate::shape::path::Path;

    fn straight(from: (f64, f64), to: (f64, f64)) -> Path {
        Path::straight(Point::new(from.0, from.1), Point::new(to.0, to.1))
    }

    #[test]
    fn an_edge_that_moves_out_does_not_cross() {
        assert_eq!(sides(&straight((0.0, 0.0), (100.0, 0.0)), &straight((0.0, 5.0), (110.0, 9.0))), None);
    }

    #[test]
    fn an_edge_that_swaps_sides_crosses() {
        assert!(sides(&straight((0.0, 0.0), (100.0, 0.0)), &straight((0.0, -10.0), (100.0, 10.0))).is_some());
    }

    #[test]
    fn edges_on_each_other_do_not_cross() {
        assert_eq!(sides(&straight((0.0, 0.0), (100.0, 0.0)), &straight((-5.0, 0.4), (105.0, -0.4))), None);
    }
}
