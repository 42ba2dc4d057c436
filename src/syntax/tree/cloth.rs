use super::{Expr, Name, Text, UnitWord};
use crate::source::Span;
use std::sync::Arc;

/// `fabric shell "dry-waxed cotton" { … }`
#[derive(Clone, Debug)]
pub struct Fabric {
    /// Its name.
    pub name: Name,
    /// What people read.
    pub title: Option<Text>,
    /// Its facts, in the order written.
    pub facts: Vec<FabricFact>,
}

/// One fact of a fabric.
#[derive(Clone, Debug)]
pub struct FabricFact {
    /// All of it.
    pub span: Span,
    /// What it says.
    pub node: FabricFactNode,
}

/// What a fact of a fabric says.
#[derive(Clone, Debug)]
pub enum FabricFactNode {
    /// `width 150` or `width 50 tubular`
    Width {
        /// From selvage to selvage; of a tube, as it lies flat.
        width: Expr,
        /// Knitted round.
        tubular: bool,
    },
    /// `selvage 1`
    Selvage(Expr),
    /// `stretch 5% across, 0% along`
    Stretch(Vec<Directed>),
    /// `shrink 2% along`
    Shrink(Vec<Directed>),
    /// `repeat 12 along, 8 across`
    Repeat(Vec<Directed>),
    /// `nap one-way` (true) or `nap none`
    Nap(bool),
    /// `thickness 8mm`
    Thickness(Expr),
    /// `price 18.50 per m`
    Price(Price),
    /// `kind woven firm`, `kind woven supple`, `kind knit`, `kind leather`
    Kind(ClothKind),
    /// `surface raised` (true) or `surface smooth`
    Raised(bool),
}

impl FabricFactNode {
    /// Each thing that this says, by its name: a stretch may say one of each direction.
    pub fn says(&self) -> Vec<&'static str> {
        let ways = |[along, across]: [&'static str; 2], said: &[Directed]| {
            let named = |one: &Directed| match one.direction {
                ClothDirection::Along => along,
                ClothDirection::Across => across,
            };
            said.iter().map(named).collect()
        };
        match self {
            FabricFactNode::Width { .. } => vec!["width"],
            FabricFactNode::Selvage(_) => vec!["selvage"],
            FabricFactNode::Stretch(said) => ways(["stretch along", "stretch across"], said),
            FabricFactNode::Shrink(said) => ways(["shrinkage along", "shrinkage across"], said),
            FabricFactNode::Repeat(said) => ways(["repeat along", "repeat across"], said),
            FabricFactNode::Nap(_) => vec!["nap"],
            FabricFactNode::Thickness(_) => vec!["thickness"],
            FabricFactNode::Price(_) => vec!["price"],
            FabricFactNode::Kind(_) => vec!["kind"],
            FabricFactNode::Raised(_) => vec!["surface"],
        }
    }
}

/// An amount and the direction of the cloth it is for.
#[derive(Clone, Debug)]
pub struct Directed {
    /// How much.
    pub amount: Expr,
    /// Which way.
    pub direction: ClothDirection,
    /// All of it.
    pub span: Span,
}

/// A direction of the cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClothDirection {
    /// Along the grain: the way the cloth is sold.
    Along,
    /// From selvage to selvage.
    Across,
}

/// What kind of cloth it is, as far as sewing asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClothKind {
    /// `woven` or `woven firm`
    WovenFirm,
    /// `woven supple`
    WovenSupple,
    /// `knit`
    Knit,
    /// `leather`
    Leather,
}

/// `18.50 per m`, `18.50 crowns per m`; of a notion `0.40 each`
#[derive(Clone, Debug)]
pub struct Price {
    /// The number.
    pub amount: f64,
    /// The currency as written, if it is.
    pub currency: Option<Name>,
    /// For one of this; none is each.
    pub per: Option<UnitWord>,
    /// All of it.
    pub span: Span,
}

/// `layer outer in shell fused { front, back }`
#[derive(Clone, Debug)]
pub struct Layer {
    /// Its name.
    pub name: Name,
    /// The fabric.
    pub fabric: Name,
    /// Fused on, not sewn.
    pub fused: bool,
    /// `fused 1 of 2`: on so many of the copies of each piece.
    pub share: Option<FusedShare>,
    /// `fused to inner`: the layer whose pieces it is fused on.
    pub onto: Option<Name>,
    /// The pieces cut from it.
    pub pieces: Vec<Name>,
}

/// `1 of 2`: how many of the copies of a piece a fused layer lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FusedShare {
    /// On so many.
    pub fused: u32,
    /// Of so many.
    pub of: u32,
    /// All of it.
    pub span: Span,
}

/// `notion "hanging loop" 1`
#[derive(Clone, Debug)]
pub struct Notion {
    /// What is bought.
    pub title: Text,
    /// How many, or how long; none in a library that only prices it.
    pub amount: Option<Expr>,
    /// What one costs.
    pub price: Option<Price>,
}

/// `stitch lockstitch` or `stitch 301`
#[derive(Clone, Debug)]
pub struct StitchWord {
    /// The trade name or the number of ISO 4915, as written.
    pub word: Arc<str>,
    /// Where it stands.
    pub span: Span,
}
