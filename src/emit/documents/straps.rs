//! The form of straps.

use super::seams::HandDocument;
use crate::emit::number::Figure;
use schemars::JsonSchema;
use serde::Serialize;

/// A strap, whose piece is among the pieces.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Strap")]
pub struct StrapDocument {
    /// Its name, and that of its piece.
    pub name: String,
    /// How long it is, with what is sewn on of it.
    pub length: Figure,
    /// How wide it is when it is finished.
    pub width: Figure,
    /// It is cut four times as wide, its edges inside.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub folded_in_four: bool,
    /// How much of each end is sewn on that is not caught in a seam.
    pub sewn: Figure,
    /// That is stitched all round, and across from corner to corner.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub boxed: bool,
    /// Where it goes; one of it for each copy of that.
    pub runs: Vec<StrapRunDocument>,
}

/// Where one of a strap goes.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "StrapRun")]
pub struct StrapRunDocument {
    /// Where it begins.
    pub from: StrapEndDocument,
    /// Where it ends; nothing where that end hangs free.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub to: Option<StrapEndDocument>,
    /// How much of it is neither sewn on nor caught.
    pub free: Figure,
    /// How far apart its ends are on one flat piece.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub apart: Option<Figure>,
}

/// Where a strap is sewn on, or caught.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "StrapEnd")]
pub struct StrapEndDocument {
    /// The piece and its mark or corner.
    pub at: String,
    /// On that side only, as worn.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hand: Option<HandDocument>,
    /// The seam or closure that catches it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub caught_in: Option<String>,
}
