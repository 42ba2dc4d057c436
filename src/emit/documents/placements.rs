//! The form of placed pieces.

use super::seams::HandDocument;
use super::shared::PointDocument;
use schemars::JsonSchema;
use serde::Serialize;

/// A piece laid on another, in one layer.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Placement")]
pub struct PlacementDocument {
    /// The two: `pocket on front`.
    pub name: String,
    /// What is placed, with its layer: `outer.pocket`.
    pub part: String,
    /// What it lies on, with its layer.
    pub on: String,
    /// The side of the body that it lies on alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<HandDocument>,
    /// How many copies of it lie on how many of that; nothing where that is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub copies: Option<u32>,
    /// Which corner of it lies where.
    pub corners: Vec<PlacedCornerDocument>,
    /// Its outline where it lies, on the paper of what it lies on, as SVG path data (y up).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub outline: Option<String>,
    /// Its edges that are stitched down.
    pub topstitched: Vec<String>,
    /// Its edges that a seam or closure takes in.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub caught: Vec<CaughtDocument>,
}

/// A corner of a placed piece.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "PlacedCorner")]
pub struct PlacedCornerDocument {
    /// The corner.
    pub corner: String,
    /// The mark or corner of what it lies on.
    pub mark: String,
    /// Where that is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<PointDocument>,
}

/// An edge of a placed piece that is caught.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Caught")]
pub struct CaughtDocument {
    /// The edge.
    pub edge: String,
    /// The seam or closure.
    pub by: String,
}
