//! The form of what there is to buy.

use super::lay::{BuyDocument, SpreadDocument};
use super::sewn::NotionDocument;
use super::shared::{LengthUnit, Version};
use crate::emit::number::Figure;
use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::Serialize;

/// What to buy for a garment. Lengths are millimetres.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "MaterialsOfSizes")]
pub struct MaterialsOfSizesDocument {
    /// The version of this form.
    pub fustian: Version,
    /// What the garment is called.
    pub garment: String,
    /// The unit of all lengths.
    pub unit: LengthUnit,
    /// By size.
    pub sizes: IndexMap<String, MaterialsDocument>,
}

/// What to buy for one size.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Materials")]
pub struct MaterialsDocument {
    /// Cloths, each at its own width or at each that was asked for.
    pub cloths: Vec<ClothDocument>,
    /// The same cloths at other widths that were asked for.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub other_widths: Vec<ClothDocument>,
    /// Beside cloth.
    pub notions: Vec<PricedNotionDocument>,
    /// Thread, by stitch.
    pub thread: Vec<ThreadDocument>,
    /// What is known of the price: one sum a currency.
    pub total: Vec<CostDocument>,
    /// What has no price.
    pub unpriced: Vec<String>,
}

/// Cloth to buy.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "ClothToBuy")]
pub struct ClothDocument {
    /// The fabric's name.
    pub fabric: String,
    /// What people read.
    pub label: String,
    /// How wide it is, as sold.
    pub width: Figure,
    /// How it is laid; none where it is too narrow.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spread: Option<SpreadDocument>,
    /// How long the lay is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length: Option<Figure>,
    /// How much is bought.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub buy: Option<BuyDocument>,
    /// Why it cannot be laid.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub trouble: Option<String>,
    /// What it costs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cost: Option<CostDocument>,
}

/// A notion to buy.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "NotionToBuy")]
pub struct PricedNotionDocument {
    /// What, and how many or how much of it.
    #[serde(flatten)]
    pub notion: NotionDocument,
    /// A binding as it is cut from cloth.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cut: Option<BindingDocument>,
    /// What it costs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cost: Option<CostDocument>,
}

/// Bias strips for a binding.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
#[schemars(rename = "BiasStrips")]
pub struct BindingDocument {
    /// Width of the strips: four times the finished width.
    pub width: Figure,
    /// Length of all strips together.
    pub length: Figure,
    /// Side of the square of cloth that holds them.
    pub square: Figure,
}

/// Thread of one stitch.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Thread")]
pub struct ThreadDocument {
    /// The number of ISO 4915.
    pub stitch: u16,
    /// How much is sewn.
    pub sewn: Figure,
    /// How much thread it takes, waste included; none where no equation is published for it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub thread: Option<Figure>,
}

/// A price.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Cost")]
pub struct CostDocument {
    /// How much.
    pub amount: Figure,
    /// Of what, as the maker writes it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub currency: Option<String>,
}
