//! Mirroring across a fold.

use crate::shape::outline::extents;
use crate::shape::path::Path;
use crate::shape::tolerance::ON_OUTLINE;
use crate::shape::turn::unit;
use kurbo::{Affine, Rect};
use thiserror::Error;

/// Why there is no fold.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum FoldError {
    /// The edge is not straight.
    #[error("the edge lies {off} mm off the straight line between its ends")]
    NotStraight {
        /// How far it lies off its chord, mm.
        off: f64,
    },
    /// The edge has no length.
    #[error("the edge has no length")]
    NoLength,
    /// There is no such edge.
    #[error("there is no such edge")]
    NoSuchEdge,
    /// A number is not finite.
    #[error("a number is not finite")]
    NotFinite,
}

/// The reflection across a straight edge: for a unit direction (c, s), the map with rows (c²−s², 2cs) and
/// (2cs, s²−c²) about the edge's start.
pub fn mirror_across(edge: &Path) -> Result<Affine, FoldError> {
    if !edge.is_finite() {
        return Err(FoldError::NotFinite);
    }
    let off = edge.off_straight();
    if off > ON_OUTLINE {
        return Err(FoldError::NotStraight { off });
    }
    let way = unit(edge.end() - edge.start()).ok_or(FoldError::NoLength)?;
    let (double_cosine, double_sine) = (way.x * way.x - way.y * way.y, 2.0 * way.x * way.y);
    let at = edge.start();
    Ok(Affine::new([
        double_cosine,
        double_sine,
        double_sine,
        -double_cosine,
        at.x - double_cosine * at.x - double_sine * at.y,
        at.y - double_sine * at.x + double_cosine * at.y,
    ]))
}

/// The ring of the whole piece of which `ring` is the half on the fold `fold`: the edges after the fold in order, then
/// their mirror images in the opposite order, reversed so that they run on. The fold itself is no edge any more.
pub fn opened_out(ring: &[Path], fold: usize) -> Result<Vec<Path>, FoldError> {
    let mirror = mirror_across(ring.get(fold).ok_or(FoldError::NoSuchEdge)?)?;
    let half: Vec<&Path> = ring.iter().skip(fold + 1).chain(ring.iter().take(fold)).collect();
    if half.iter().any(|path| !path.is_finite()) {
        return Err(FoldError::NotFinite);
    }
    let other = half.iter().rev().map(|path| path.transform(mirror).reversed());
    Ok(half.iter().map(|path| (*path).clone()).chain(other).collect())
}

/// The extents of the whole piece of which `ring` is the half on the fold `fold`.
pub fn opened_extents(ring: &[Path], fold: usize) -> Result<Rect, FoldError> {
    let whole = opened_out(ring, fold)?;
    extents(&whole).ok_or(FoldError::NoSuchEdge)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::outline::{check_ring, signed_area};
    use kurbo::Point;

    /// A half 30 wide and 40 high on an upright fold is a whole of 60 by 40: twice the area.
    #[test]
    fn a_half_opened_out() {
        let p = |x, y| Point::new(x, y);
        let corners = [p(0.0, 40.0), p(0.0, 0.0), p(30.0, 0.0), p(20.0, 40.0)];
        let ring: Vec<Path> = (0..4).map(|k| Path::straight(corners[k], corners[(k + 1) % 4])).collect();
        let whole = opened_out(&ring, 0).unwrap();
        assert_eq!(check_ring(&whole), Ok(()));
        assert!((signed_area(&whole) - 2.0 * 1000.0).abs() < 1e-9);
        assert_eq!(opened_extents(&ring, 0), Ok(Rect::new(-30.0, 0.0, 30.0, 40.0)));
    }

    /// Mirrored across the line y = x a point has its coordinates exchanged.
    #[test]
    fn a_slanted_fold() {
        let mirror = mirror_across(&Path::straight(Point::new(2.0, 2.0), Point::new(5.0, 5.0))).unwrap();
        let image = mirror * Point::new(3.0, -7.0);
        assert!(image.distance(Point::new(-7.0, 3.0)) < 1e-12);
    }

    #[test]
    fn mistakes_are_values() {
        let p = Point::new(1.0, 1.0);
        assert_eq!(mirror_across(&Path::straight(p, p)), Err(FoldError::NoLength));
        assert_eq!(mirror_across(&Path::straight(p, Point::new(f64::NAN, 1.0))), Err(FoldError::NotFinite));
        assert_eq!(opened_out(&[], 3), Err(FoldError::NoSuchEdge));
        let bent = Path::cubic(p, Point::new(2.0, 5.0), Point::new(3.0, 5.0), Point::new(4.0, 1.0));
        assert!(matches!(mirror_across(&bent), Err(FoldError::NotStraight { .. })));
    }
}
