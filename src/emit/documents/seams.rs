//! The form of seams.

use crate::emit::number::Figure;
use schemars::JsonSchema;
use serde::Serialize;

/// A seam in one layer, or once across the layers that it names. Lengths are those of one sewing.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Seam")]
pub struct SeamDocument {
    /// Its name.
    pub name: String,
    /// The layers of its pieces.
    pub layers: Vec<String>,
    /// How many times it is sewn: 2 for a left and a right one.
    pub sewings: u32,
    /// The side before `to`.
    pub first: SideDocument,
    /// The side after `to`.
    pub second: SideDocument,
    /// How much longer the first side is.
    pub difference: Figure,
    /// How the sides are to fit; equal where nothing is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fit: Option<FitDocument>,
    /// Corners that meet: of the first side and of the second.
    pub ends: Vec<[String; 2]>,
    /// How far each notch is from the start of both sides.
    pub notches: Vec<SeamNotchDocument>,
}

/// A side of a seam.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Side")]
pub struct SideDocument {
    /// Its length; that of its first ply.
    pub length: Figure,
    /// What lies on one another.
    pub plies: Vec<PlyDocument>,
}

/// A ply: edges end to end.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Ply")]
pub struct PlyDocument {
    /// Its length along the stitching line.
    pub length: Figure,
    /// In the order in which they are sewn.
    pub edges: Vec<RunDocument>,
}

/// An edge of one copy.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Run")]
pub struct RunDocument {
    /// The layer, the piece and the edge: `outer.front.side`.
    pub edge: String,
    /// Which copy, or half, as worn; none where there is no left and right one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hand: Option<HandDocument>,
    /// Sewn from its end to its start.
    pub reversed: bool,
    /// Its finished length.
    pub length: Figure,
}

/// A side of the body, as worn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum HandDocument {
    /// Left.
    Left,
    /// Right.
    Right,
}

/// How a seam's sides are to fit.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Fit")]
pub struct FitDocument {
    /// Which way.
    pub kind: FitWay,
    /// The least: a length for easing, else the first side as a share of the second.
    pub low: Figure,
    /// The most.
    pub high: Figure,
}

/// Ways in which sides fit that are not equal.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum FitWay {
    /// The first side is longer by so much.
    Easing,
    /// The first side is so many times as long.
    Gathering,
    /// The first side is this share of the second.
    Stretching,
}

/// A notch of a seam.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
#[schemars(rename = "SeamNotch")]
pub struct SeamNotchDocument {
    /// From the start of the first side.
    pub on_first: Figure,
    /// From the start of the second side.
    pub on_second: Figure,
    /// Two cuts side by side.
    pub double: bool,
}
