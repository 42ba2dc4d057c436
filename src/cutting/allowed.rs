//! What is asked of a cutting line at each edge and corner.

use crate::shape::wedge::Wedge;
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

/// A dart in a stitching line, whose cloth is given a cap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Darted {
    /// Its cloth.
    pub wedge: Wedge,
    /// The stretch of its edge that it takes, in millimetres from the edge's start.
    pub mouth: (f64, f64),
    /// How it is laid.
    pub laid: Laid,
}

/// How the cloth of a dart is laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Laid {
    /// Folded, and pressed towards that side of it, 0 or 1.
    Pressed(usize),
    /// Cut open, with so much cloth beyond each leg, in millimetres.
    CutOpen(f64),
}

/// How the cutting line turns at a corner.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct CornerCut {
    /// The way that the maker says; none: hem ends mirrored, others mitred.
    pub style: Option<CornerStyle>,
    /// The edge after the corner is the first one said.
    pub second_first: bool,
}
