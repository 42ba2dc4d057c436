//! A row of stitching inside an edge of an outline.

use crate::shape::offset::{inner_run, parallel};
use crate::shape::outline::{contains_strictly, is_anticlockwise};
use crate::shape::path::Path;

/// The parallel of edge `at` of a ring, `width` mm inside it: ended on the edges beside it, or as long as the edge goes
/// where one of those goes on from it without a corner and is not met. None where it is not inside the ring, or the
/// edge bends too tightly for it.
pub fn row_beside(ring: &[Path], at: usize, width: f64) -> Option<Path> {
    let met = inner_run(ring, at, 1, width).ok().and_then(|run| run.parallels.into_iter().next());
    met.or_else(|| {
        let left = if is_anticlockwise(ring) { width } else { -width };
        let own = parallel(ring.get(at)?, left).ok()?;
        contains_strictly(ring, own.point_at_length(own.length() / 2.0)).then_some(own)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Point;

    fn ring(corners: &[(f64, f64)]) -> Vec<Path> {
        let point = |&(x, y): &(f64, f64)| Point::new(x, y);
        let ends = corners.iter().zip(corners.iter().cycle().skip(1));
        ends.map(|(from, to)| Path::straight(point(from), point(to))).collect()
    }

    #[test]
    fn a_row_is_inside_however_its_neighbours_go_on() {
        // 30 wide, 40 high: 8 inside the bottom a row from side to side; 41 inside it nothing.
        let bib = ring(&[(0.0, 0.0), (300.0, 0.0), (300.0, 400.0), (0.0, 400.0)]);
        let row = row_beside(&bib, 0, 80.0).expect("there is room");
        assert!((row.length() - 300.0).abs() < 1e-6 && (row.start().y - 80.0).abs() < 1e-6);
        assert!(row_beside(&bib, 0, 410.0).is_none());
        // The left side in two halves, one going straight on in the other: each row is as long as its half.
        let halved = ring(&[(0.0, 0.0), (300.0, 0.0), (300.0, 400.0), (0.0, 400.0), (0.0, 200.0)]);
        let row = row_beside(&halved, 3, 30.0).expect("there is room");
        assert!((row.length() - 200.0).abs() < 1e-6 || (row.length() - 170.0).abs() < 1e-6);
        assert!((row.start().x - 30.0).abs() < 1e-6);
    }
}
