//! What is asked of a cutting line at each edge and corner.

use crate::shape::shut::Shut;
use crate::syntax::tree::CornerStyle;

/// What an edge of a stitching line is given.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Allowed {
    /// Cloth beyond the stitching line, in millimetres.
    pub width: f64,
    /// Turned up as a hem: its ends mirror the neighbouring edges.
    pub turned_up: bool,
    /// How deep the turn-up of a hem is: it is turned once more so far beyond the stitching line, and again
    /// twice as far beyond it, in millimetres.
    pub turn_up: Option<f64>,
    /// How far beyond the stitching line the raw edge of a hem is turned under, in millimetres.
    pub turned_under: Option<f64>,
    /// Lies on the fold of the cloth: its neighbours end on it as it runs on.
    pub fold: bool,
}

impl Allowed {
    /// How far beyond the stitching line a hem is turned once more, fold after fold, in millimetres: from each
    /// on its ends are mirrored again.
    pub fn turned_again(&self) -> impl Iterator<Item = f64> + use<> {
        let turn_up = self.turn_up.into_iter().flat_map(|deep| [deep, 2.0 * deep]);
        turn_up.chain(self.turned_under)
    }
}

/// A dart, or a fold of a pleat, in a stitching line, whose cloth is given a cap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Darted {
    /// Its cloth.
    pub shut: Shut,
    /// The stretch of its edge that it takes, in millimetres from the edge's start.
    pub mouth: (f64, f64),
    /// How it is laid.
    pub laid: Laid,
}

/// How the cloth of a dart or pleat is laid.
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
