//! `size/lines-cross`: the same edge of two neighbouring sizes crosses when they are nested.

use super::{Check, Run, words};
use crate::garment::{EdgeId, Garment, PaperId};
use crate::report::{Diagnostic, Finding, amount, group};
use crate::resolve::{DrawnPiece, SizedGarment};
use crate::shape::path::Path;

pub(super) static CHECK: Check = Check { slugs: &["size/lines-cross"], run: Run::OverSizes(run) };

/// On each side of the crossing the edges must be at least so far apart, in millimetres: closer
/// than a pencil line they are the same.
const APART: f64 = 1.0;
/// What counts as the middle of an edge: this share of it at either end is left out, because
/// corners move from size to size.
const ENDS: f64 = 0.1;
/// Places along an edge that are looked at.
const PLACES: usize = 32;

fn run(garment: &Garment, sizes: &[SizedGarment], told: &mut Vec<Diagnostic>) {
    let mut findings = Vec::new();
    for paper in (0..garment.papers.len()).map(PaperId::from_index) {
        for two in sizes.windows(2) {
            let [smaller, larger] = two else { continue };
            let drawn = |sized: &SizedGarment| sized.papers.get(paper.index()).cloned().flatten();
            let (Some(small), Some(large)) = (drawn(smaller), drawn(larger)) else { continue };
            for edge in small.edges.iter().map(|edge| edge.edge) {
                if garment.edge(edge).copied_from.is_none() {
                    findings.extend(crossing(garment, &small, &large, edge, larger.size));
                }
            }
        }
    }
    told.extend(group(findings, &words::size_names(garment)));
}

fn crossing(
    garment: &Garment,
    small: &DrawnPiece,
    large: &DrawnPiece,
    edge: EdgeId,
    size: usize,
) -> Option<Finding> {
    let (inner, outer) = (&small.edge(edge)?.path, &large.edge(edge)?.path);
    let (one_side, other_side) = sides(inner, outer)?;
    let by = one_side.min(other_side);
    let named = garment.edge(edge);
    let before = garment.sizes.get(size.checked_sub(1)?)?.name.clone();
    let name = words::edge(garment, edge);
    let title = format!("nested, {name} crosses that of the size before {{sizes}}");
    let warning = Diagnostic::warning("size/lines-cross", named.span, title)
        .label(format!("{} on the wrong side of size {before}", amount(by, garment.unit)))
        .help("look at what its ends and directions hang on: some of it grows where the rest shrinks");
    Some(Finding::new(size, by, warning).figure("crosses by", amount(by, garment.unit)))
}

/// How far `outer` lies to the left of `inner` at most, and to the right at most, in the middle of
/// both; none unless both are more than [`APART`], so that the two swap sides.
fn sides(inner: &Path, outer: &Path) -> Option<(f64, f64)> {
    let (inner_length, outer_length) = (inner.length(), outer.length());
    if !inner_length.is_finite() || !outer_length.is_finite() || inner_length <= 0.0 || outer_length <= 0.0 {
        return None;
    }
    let (mut left, mut right) = (0.0_f64, 0.0_f64);
    for place in 0..=PLACES {
        let share = ENDS + (1.0 - 2.0 * ENDS) * place as f64 / PLACES as f64;
        let point = outer.point_at_length(outer_length * share);
        let nearest = inner.nearest(point);
        let along = nearest.at / inner_length;
        if !(ENDS..=1.0 - ENDS).contains(&along) {
            continue;
        }
        let Some(tangent) = inner.tangent_at(nearest.position) else { continue };
        let side = tangent.cross(point - nearest.point);
        left = left.max(side);
        right = right.max(-side);
    }
    (left > APART && right > APART).then_some((left, right))
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
