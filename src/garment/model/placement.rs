//! Pieces that lie on others.

use super::{ClosureId, EdgeId, LayerId, PieceId, PointId, SeamId};
use crate::source::Span;
use crate::syntax::tree::Hand;

/// A piece placed on another.
#[derive(Clone, Debug)]
pub struct Placement {
    /// One layer's part only.
    pub layer: Option<LayerId>,
    /// What is placed.
    pub piece: PieceId,
    /// What it is placed on, and in which layer if that is said.
    pub on_layer: Option<LayerId>,
    /// What it is placed on.
    pub on: PieceId,
    /// On that side of the body only.
    pub hand: Option<Hand>,
    /// Corners of what is placed and marks or corners of what it is placed on.
    pub corners: Vec<PlacedCorner>,
    /// Edges that are topstitched.
    pub topstitched: Vec<(EdgeId, Span)>,
    /// Where it is said that all of its edges are that nothing catches: a patch.
    pub all_round: Option<Span>,
    /// Edges that are caught in a seam or closure.
    pub caught: Vec<Caught>,
    /// The words `place pocket on front`.
    pub span: Span,
    /// Something in it could not be made sense of (already reported).
    pub poisoned: bool,
}

/// `corner bottom_left at pocket_corner`
#[derive(Clone, Copy, Debug)]
pub struct PlacedCorner {
    /// Of what is placed.
    pub corner: PointId,
    /// Of what it is placed on.
    pub at: PointId,
    /// Where it is said.
    pub span: Span,
}

/// `caught bottom in hem_band`
#[derive(Clone, Copy, Debug)]
pub struct Caught {
    /// An edge of what is placed.
    pub edge: EdgeId,
    /// Where it is named.
    pub span: Span,
    /// What catches it.
    pub by: Catcher,
}

/// What an edge is caught in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Catcher {
    /// A seam.
    Seam(SeamId),
    /// A closure.
    Closure(ClosureId),
}
