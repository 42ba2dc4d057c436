//! What is asked of a cutting line at each edge and corner.

use crate::syntax::tree::CornerStyle;

/// What an edge of a stitching line is given.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Allowed {
    /// Cloth beyond the stitching line, in millimetres.
    pub width: f64,
    /// Turned up as a hem: its ends mirror the neighbouring edges.
    pub turned_up: bool,
    /// How far beyond the stitching line a hem is turned a second time, in millimetres: from there
    /// on its ends are mirrored once more.
    pub turned_under: Option<f64>,
    /// Lies on the fold of the cloth: its neighbours end on it as it runs on.
    pub fold: bool,
}

/// How the cutting line turns at a corner.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct CornerCut {
    /// The way that the maker says; none: hem ends mirrored, others mitred.
    pub style: Option<CornerStyle>,
    /// The edge after the corner is the first one said.
    pub second_first: bool,
}
