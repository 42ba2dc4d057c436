//! The cut list, as `fustian resolve` writes it.

use super::seams::HandDocument;
use crate::emit::number::Figure;
use schemars::JsonSchema;
use serde::Serialize;

/// A width and a height.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Extent")]
pub struct ExtentDocument {
    /// Across.
    pub width: Figure,
    /// Along.
    pub height: Figure,
}

/// A line of the cut list.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Cut")]
pub struct CutDocument {
    /// The fabric's name.
    pub fabric: String,
    /// The layer.
    pub layer: String,
    /// The piece.
    pub piece: String,
    /// What people read.
    pub label: String,
    /// How many, counting a piece on the fold as one.
    pub copies: u32,
    /// How they lie.
    pub how: CutWay,
    /// The edge on the fold.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fold: Option<String>,
    /// The pattern is turned over for this layer.
    pub turned_over: bool,
    /// The copies of that side of the body alone, where left and right are cut differently.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<HandDocument>,
    /// Drawn as a half, and cut as its whole.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub whole: bool,
    /// Fused on, and not sewn.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fused: Option<FusedDocument>,
    /// How large it is cut, allowances included, opened out where it is cut on the fold.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cut: Option<ExtentDocument>,
}

/// What is fused on.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Fused")]
pub struct FusedDocument {
    /// The layer that it is fused to, where that is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub to: Option<String>,
    /// How many copies of the piece there are, where it is fused on some of them only: on as many as are cut of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub of: Option<u32>,
}

/// How copies lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub enum CutWay {
    /// All the same way up.
    #[serde(rename = "alike")]
    Alike,
    /// In pairs, one of each hand.
    #[serde(rename = "mirrored")]
    Mirrored,
    /// As a half, on the fold of the cloth.
    #[serde(rename = "on fold")]
    OnFold,
}
