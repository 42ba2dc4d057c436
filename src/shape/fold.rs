//! Mirroring across a fold.

use crate::shape::path::Path;
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

/// The reflection across a straight edge.
pub fn mirror_across(edge: &Path) -> Result<Affine, FoldError> {
    let _ = edge;
    Err(FoldError::NoLength)
}

/// The ring of the whole piece of which `ring` is the half on the fold `fold`: the edges after the fold in order, then
/// their mirror images in the opposite order, reversed so that they run on.
pub fn opened_out(ring: &[Path], fold: usize) -> Result<Vec<Path>, FoldError> {
    let _ = (ring, fold);
    Err(FoldError::NoLength)
}

/// The extents of the whole piece of which `ring` is the half.
pub fn opened_extents(ring: &[Path], fold: usize) -> Result<Rect, FoldError> {
    let _ = (ring, fold);
    Err(FoldError::NoLength)
}
