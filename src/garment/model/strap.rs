use super::{Catcher, Expression, LayerId, PieceId, PointId};
use crate::source::Span;
use crate::syntax::tree::Hand;
use std::sync::Arc;

/// A strap: a piece that is sewn on, or caught, by its two ends.
#[derive(Clone, Debug)]
pub struct Strap {
    /// Its name.
    pub name: Arc<str>,
    /// Where its name stands.
    pub name_span: Span,
    /// All of it.
    pub span: Span,
    /// The piece that it stands for.
    pub piece: PieceId,
    /// The layer whose cloth it is cut from; none where there is no such layer (already reported).
    pub layer: Option<LayerId>,
    /// How long it is, with what is sewn on of it.
    pub length: Expression,
    /// How wide it is when it is finished.
    pub width: Expression,
    /// Cut four times as wide, its edges inside.
    pub in_four: bool,
    /// How much of each end is sewn on; as much as it is wide where nothing is said.
    pub sewn: Option<Expression>,
    /// Stitched all round what is sewn on, and across it from corner to corner.
    pub boxed: bool,
    /// Where it goes from and to: one of it for each copy of that.
    pub runs: Vec<StrapRun>,
    /// Something in it could not be made sense of (already reported): say nothing more of it.
    pub poisoned: bool,
}

/// Where one of a strap goes from and to.
#[derive(Clone, Debug)]
pub struct StrapRun {
    /// Where it begins.
    pub from: StrapEnd,
    /// Where it ends; none of one that hangs free.
    pub to: Option<StrapEnd>,
    /// Where it is said.
    pub span: Span,
}

impl StrapEnd {
    /// The side of the body that people read; none of what lies in the middle.
    pub fn side(&self) -> Option<Hand> {
        self.hand.filter(|_| !self.at_fold)
    }
}

impl StrapRun {
    /// Those of its ends that are sewn on or caught.
    pub fn ends(&self) -> impl Iterator<Item = &StrapEnd> {
        std::iter::once(&self.from).chain(&self.to)
    }
}

/// Where a strap is sewn on, or caught.
#[derive(Clone, Debug)]
pub struct StrapEnd {
    /// The layer of the piece that it is sewn on, if that is said.
    pub layer: Option<LayerId>,
    /// A mark or corner.
    pub point: PointId,
    /// On that side of the body only, as worn.
    pub hand: Option<Hand>,
    /// In the middle, on the fold that its piece is cut on: there once, and on neither side.
    pub at_fold: bool,
    /// What it is caught in.
    pub caught: Option<Catcher>,
    /// All of it.
    pub span: Span,
}
