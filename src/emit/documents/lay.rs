//! The form of a lay plan.

use super::shared::{LengthUnit, PointDocument, Version};
use crate::emit::number::Figure;
use schemars::JsonSchema;
use serde::Serialize;

/// The lay plans of a garment. Lengths are millimetres; on the cloth, x is along it and y across.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Lays")]
pub struct LaysDocument {
    /// The version of this form.
    pub fustian: Version,
    /// What the garment is called.
    pub garment: String,
    /// The unit of all lengths.
    pub unit: LengthUnit,
    /// One a cloth, and one a size where each size has its own.
    pub lays: Vec<LayDocument>,
}

/// A lay plan: the parts of one cloth where they lie on it.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Lay")]
pub struct LayDocument {
    /// The fabric's name.
    pub fabric: String,
    /// What people read.
    pub label: String,
    /// The sizes that are cut together.
    pub sizes: Vec<String>,
    /// How the cloth lies.
    pub spread: SpreadDocument,
    /// From selvage to selvage, as it is sold.
    pub cloth_width: Figure,
    /// From side to side of what is laid: of one ply, washed, without selvages.
    pub width: Figure,
    /// How long the lay is.
    pub length: Figure,
    /// Area of all copies as a share of the cloth between its selvages, in percent.
    pub usage_percent: Figure,
    /// How much is bought for it.
    pub buy: BuyDocument,
    /// Every place, from the beginning of the cloth on.
    pub parts: Vec<LaidPartDocument>,
}

/// How cloth lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum SpreadDocument {
    /// In a single ply.
    Open,
    /// Folded along its length; y = 0 is the fold.
    Lengthwise,
    /// As a tube; a fold at y = 0 and one at the other side.
    Tube,
}

/// How much cloth is bought.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Buy")]
pub struct BuyDocument {
    /// The lay with what a repeat asks for.
    pub with_repeats: Figure,
    /// The same before washing.
    pub before_washing: Figure,
    /// Rounded up as cloth is sold.
    pub to_buy: Figure,
}

/// One place of a lay.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "LaidPart")]
pub struct LaidPartDocument {
    /// The layer and the piece.
    pub part: String,
    /// The size.
    pub size: String,
    /// What is cut there.
    pub plies: PliesDocument,
    /// The pattern lies face down.
    pub face_down: bool,
    /// Degrees by which it is turned anticlockwise from how it is drawn, after it is turned over.
    pub turned: Figure,
    /// The least x and y of its cutting line.
    pub from: PointDocument,
    /// Its cutting line on the cloth, as SVG path data.
    pub outline: String,
}

/// What is cut at one place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub enum PliesDocument {
    /// One copy from open cloth.
    #[serde(rename = "single")]
    Single,
    /// One copy, from only one of two plies.
    #[serde(rename = "one of two")]
    OneOfTwo,
    /// A copy from each of two plies.
    #[serde(rename = "both")]
    Both,
    /// A whole copy, from a half against the fold.
    #[serde(rename = "on fold")]
    OnFold,
}
