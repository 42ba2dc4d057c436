use super::{Expression, FabricId, LayerId, PieceId};
use crate::source::Span;
use crate::syntax::tree::{ClothKind, FusedShare, Unit};
use std::sync::Arc;

/// A fabric. Facts that nobody says are none, never zero.
#[derive(Clone, Debug)]
pub struct Fabric {
    /// Its name.
    pub name: Arc<str>,
    /// What people read; the name where nothing is said.
    pub title: Arc<str>,
    /// Where its name is declared.
    pub span: Span,
    /// From a library: it may stay unused.
    pub from_library: bool,
    /// From selvage to selvage; of a tube, as it lies flat.
    pub width: Option<Expression>,
    /// Knitted round.
    pub tubular: bool,
    /// Not cut from, each side.
    pub selvage: Option<Expression>,
    /// How far it stretches, as a share.
    pub stretch: TwoWays,
    /// How far it shrinks in the wash, as a share.
    pub shrink: TwoWays,
    /// The repeat of its design, a length.
    pub repeat: TwoWays,
    /// Pieces must lie one way.
    pub one_way: bool,
    /// It is said whether they must.
    pub nap_said: bool,
    /// How thick it is.
    pub thickness: Option<Expression>,
    /// What it costs.
    pub price: Option<Price>,
    /// What kind of cloth it is.
    pub kind: Option<ClothKind>,
    /// Raised fibre.
    pub raised: Option<Span>,
}

/// An amount for each direction of the cloth.
#[derive(Clone, Debug, Default)]
pub struct TwoWays {
    /// Along the grain.
    pub along: Option<Expression>,
    /// From selvage to selvage.
    pub across: Option<Expression>,
}

/// What something costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Price {
    /// The number.
    pub amount: f64,
    /// The currency as written.
    pub currency: Option<Arc<str>>,
    /// For one of this; none is each.
    pub per: Option<Unit>,
    /// Where it is said.
    pub span: Span,
}

/// A layer: which pieces are cut from which cloth.
#[derive(Clone, Debug)]
pub struct Layer {
    /// Its name.
    pub name: Arc<str>,
    /// Where its name is declared.
    pub span: Span,
    /// The fabric; none where it is unknown (already reported).
    pub fabric: Option<FabricId>,
    /// Fused on, not sewn.
    pub fused: bool,
    /// On how many of the copies of each of its pieces it is fused, where not on all.
    pub share: Option<FusedShare>,
    /// The layer whose pieces it is fused on, where that is said.
    pub onto: Option<LayerId>,
    /// The pieces that are cut, once split and joined.
    pub pieces: Vec<PieceId>,
    /// Where each of them is named (of split and joined pieces, where they are made).
    pub piece_spans: Vec<Span>,
}

impl Layer {
    /// How many are cut in the layer of a piece of which there are so many copies.
    pub fn copies_of(&self, count: u32) -> u32 {
        self.share.filter(|share| share.of == count).map_or(count, |share| share.fused)
    }
}
