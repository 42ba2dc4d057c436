//! The form of cords and elastic.

use super::seams::HandDocument;
use super::shared::PointDocument;
use crate::emit::number::Figure;
use schemars::JsonSchema;
use serde::Serialize;

/// A cord.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Cord")]
pub struct CordDocument {
    /// Its name.
    pub name: String,
    /// How long it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length: Option<Figure>,
    /// How much of it hangs out at each end.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ends: Option<Figure>,
    /// The edges that it runs through.
    pub through: Vec<String>,
    /// What it runs through, once for every copy; nothing where that is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub channels: Option<Vec<ChannelDocument>>,
}

/// Rows of topstitching or understitching.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "StitchedRow")]
pub struct StitchedRowDocument {
    /// Its name.
    pub name: String,
    /// `topstitch` or `understitch`.
    pub kind: String,
    /// The edges that it lies beside.
    pub along: Vec<String>,
    /// How far from them the first row is; nothing of one along lines inside.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub distance: Option<Figure>,
    /// How many rows.
    pub rows: u32,
    /// How far apart they are, where there are several.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub apart: Option<Figure>,
    /// The number of its stitch in ISO 4915, where that is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stitch: Option<u16>,
    /// How much is stitched: all rows on all copies.
    pub length: Figure,
    /// Where it lies on each part.
    pub places: Vec<RowPlaceDocument>,
}

/// A row on a part.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "RowPlace")]
pub struct RowPlaceDocument {
    /// The part: `outer.front`.
    pub part: String,
    /// The side of the body that the part is, where left and right are told apart.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hand: Option<HandDocument>,
    /// The edge that it lies beside, or the line that it lies on.
    pub edge: String,
    /// How far from the edge; nothing along a line.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub distance: Option<Figure>,
    /// Where on the edge it begins and ends, as drawn, from the edge's start; nothing where it is as long as the edge.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub run: Option<[Figure; 2]>,
    /// How long it is as sewn, on one copy.
    pub length: Figure,
}

/// A tack.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Tack")]
pub struct TackDocument {
    /// Its name.
    pub name: String,
    /// The places that it holds, as they are named.
    pub holds: Vec<String>,
    /// Where they lie on each part.
    pub places: Vec<TackPlaceDocument>,
    /// How wide its bar is; nothing where it is sewn by hand.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bar: Option<Figure>,
}

/// Something bought that is set, one at each place.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "SetNotion")]
pub struct SetDocument {
    /// Its name.
    pub name: String,
    /// What is set, as the maker lists it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub notion: Option<String>,
    /// How many, over all copies; nothing where that is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// The places, as they are named.
    pub at: Vec<String>,
    /// Where they lie on each part.
    pub places: Vec<TackPlaceDocument>,
}

/// A place of a tack on a part, or of what is set there.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "TackPlace")]
pub struct TackPlaceDocument {
    /// The part: `outer.front`.
    pub part: String,
    /// The side of the body that the part is, where left and right are told apart.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hand: Option<HandDocument>,
    /// On the paper of its piece.
    pub at: PointDocument,
}

/// The elastic of a casing.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Elastic")]
pub struct ElasticDocument {
    /// The edges of the casing: `front.waist, back.waist`.
    pub name: String,
    /// How wide it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub width: Option<Figure>,
    /// How long it is as it is worn, without what joins its ends.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length: Option<Figure>,
    /// What it runs through, once for every copy; nothing where that is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub channels: Option<Vec<ChannelDocument>>,
}

/// Edges end to end that one cord or elastic runs through.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Channel")]
pub struct ChannelDocument {
    /// How long it is, its cloth spread out.
    pub length: Figure,
    /// It runs back into itself.
    pub ring: bool,
}
