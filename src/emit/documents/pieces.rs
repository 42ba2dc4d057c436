//! Pieces, as `fustian resolve` writes them.

use super::cut_list::ExtentDocument;
use super::seams::HandDocument;
use super::sewn::{FastenerDocument, FateDocument};
use super::shared::PointDocument;
use super::take_ups::{SlitDocument, TakeUpDocument};
use crate::emit::number::Figure;
use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::Serialize;

/// A part: a piece in one layer.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Piece")]
pub struct PieceDocument {
    /// The layer and the piece: `outer.front`.
    pub part: String,
    /// What people read.
    pub label: String,
    /// The side of the body that this tells of, where left and right are told apart: each by itself. A half
    /// whose sides are cut differently has the line of its whole.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<HandDocument>,
    /// The edge that lies on the fold: the outline is then one half.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fold: Option<String>,
    /// On which side of the body the copy is worn that lies as it is drawn, where its maker says so.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub drawn: Option<HandDocument>,
    /// It is sewn to nothing on purpose, and comes off.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub loose: bool,
    /// The piece that it was made of, where it was not drawn by itself.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub made_of: Option<MadeOfDocument>,
    /// Edges that are folded onto others as it is worn.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub folded: Vec<FoldedDocument>,
    /// In the order of the outline.
    pub edges: Vec<EdgeDocument>,
    /// The outline that is sewn along, as SVG path data (y up).
    pub stitching_line: String,
    /// The outline that is cut along, allowances included, as SVG path data (y up).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cutting_line: Option<String>,
    /// The lines that it is folded along as it is worn, as SVG path data (y up).
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub fold_lines: Vec<String>,
    /// Places marked on the piece.
    pub marks: IndexMap<String, PointDocument>,
    /// Lines inside the piece, as SVG path data (y up).
    pub lines: IndexMap<String, String>,
    /// What people read of marks and lines, where their maker says it.
    #[serde(skip_serializing_if = "IndexMap::is_empty")]
    pub labels: IndexMap<String, String>,
    /// The lines at which makers lengthen or shorten the piece.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub adjust: Vec<String>,
    /// Notches on its edges.
    pub notches: Vec<NotchDocument>,
    /// Darts and other take-ups.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub take_ups: Vec<TakeUpDocument>,
    /// Slits: cuts into the cloth, whose sides are among the edges.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub slits: Vec<SlitDocument>,
    /// Buttons and the like.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub fasteners: Vec<FastenerDocument>,
    /// Which way the grain runs.
    pub grain: GrainDocument,
    /// The piece opened out and then folded as it is worn.
    pub finished: ExtentDocument,
    /// The piece as it is cut, allowances included, opened out where it is cut on the fold.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cut: Option<ExtentDocument>,
}

/// What a piece was made of.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "MadeOf")]
pub struct MadeOfDocument {
    /// How.
    pub way: MadeWay,
    /// The pieces.
    pub pieces: Vec<String>,
    /// The strip that a rest is without.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub without: Option<String>,
    /// It is turned over, left to right: the mirror image.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub mirrored: bool,
}

/// Ways to make a piece of others.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum MadeWay {
    /// Its outline is copied.
    Copy,
    /// It is a strip of it.
    Strip,
    /// It is what a strip leaves of it.
    Rest,
    /// It is one side of it, cut apart along a line.
    Split,
    /// It is its left or its right one.
    Unpair,
    /// They are joined into it.
    Join,
}

/// An edge that is folded onto another.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Folded")]
pub struct FoldedDocument {
    /// The edge.
    pub edge: String,
    /// The one that it comes to lie on.
    pub onto: String,
    /// Both are brought to the middle first, and lie inside.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub in_four: bool,
}

/// An edge.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Edge")]
pub struct EdgeDocument {
    /// Its name.
    pub name: String,
    /// What people read, where its maker says it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// The corner where it starts, in the order of the outline, where that has a name.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// The corner where it ends.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub to: Option<String>,
    /// Where it is sewn along, from its start, as SVG path data (y up).
    pub path: String,
    /// Its length as drawn.
    pub length: Figure,
    /// Its length as sewn, where that differs: without what darts take, when the piece is folded, and with what is eased
    /// in because the piece is kept back from the teeth of a zip.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub finished: Option<Figure>,
    /// What it comes to on the garment, where it runs on across the fold that the piece is cut on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub on_garment: Option<Figure>,
    /// What becomes of it: one, or a seam and the closure that it encloses. None of a piece that is
    /// fused on.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub fates: Vec<FateDocument>,
    /// How much cloth there is beyond the stitching line.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub allowance: Option<Figure>,
}

/// A notch.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Notch")]
pub struct NotchDocument {
    /// The edge.
    pub edge: String,
    /// How far along the edge, from its start in the order of the outline.
    pub along: Figure,
    /// Where it is.
    pub at: PointDocument,
    /// Two cuts side by side.
    pub double: bool,
    /// The seam in which it meets another.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seam: Option<String>,
}

/// The grain.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Grain")]
pub struct GrainDocument {
    /// Degrees from the right towards up: 90 is up the piece.
    pub angle: Figure,
}
