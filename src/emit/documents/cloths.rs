//! The form of what is known of cloth.

use crate::emit::number::Figure;
use schemars::JsonSchema;
use serde::Serialize;

/// A cloth that something is cut from. What is not said is left out.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "ClothFacts")]
pub struct ClothFactsDocument {
    /// The fabric's name.
    pub name: String,
    /// What people read.
    pub label: String,
    /// The layers that are cut from it, in the order of the garment.
    pub layers: Vec<String>,
    /// From selvage to selvage as it is sold; of a tube, as it lies flat.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub width: Option<Figure>,
    /// Knitted round.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub tubular: bool,
    /// Not cut from, each side.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub selvage: Option<Figure>,
    /// Pieces must lie one way: it has a nap, or a design with a way up.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub one_way: bool,
    /// What kind of cloth it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub kind: Option<ClothKindDocument>,
    /// Its surface is raised: fibres stand up from it.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub raised: bool,
    /// How thick it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub thickness: Option<Figure>,
    /// How far it stretches, as shares.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stretch: Option<TwoWaysDocument>,
    /// How far it shrinks in the wash, as shares of what it was before.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub shrink: Option<TwoWaysDocument>,
    /// After how much its design comes again.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub repeat: Option<TwoWaysDocument>,
    /// What it costs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub price: Option<PriceDocument>,
}

/// An amount for each way of a cloth.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
#[schemars(rename = "TwoWays")]
pub struct TwoWaysDocument {
    /// Along the grain.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub along: Option<Figure>,
    /// From selvage to selvage.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub across: Option<Figure>,
}

/// Kinds of cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ClothKindDocument {
    /// Woven and firm.
    WovenFirm,
    /// Woven and supple.
    WovenSupple,
    /// Knitted.
    Knit,
    /// Leather.
    Leather,
}

/// What something costs, as the maker says it.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Price")]
pub struct PriceDocument {
    /// The number.
    pub amount: Figure,
    /// Of what, as the maker writes it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub currency: Option<String>,
    /// For so much of it, in millimetres; left out where it is for each.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub per: Option<Figure>,
}
