//! The form of seams.

use crate::emit::number::Figure;
use schemars::JsonSchema;
use serde::Serialize;

/// A seam in one layer, or once across the layers that it names. Lengths are those of one sewing.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Seam")]
pub struct SeamDocument {
    /// What tells it from every other seam of the size, and is the same in every size: its name, layers and side, and where
    /// that is not enough which of them it is. What actions sew is named so.
    pub id: String,
    /// Its name.
    pub name: String,
    /// What people read, where its maker says it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// The layers of its pieces.
    pub layers: Vec<String>,
    /// The side of the body that it is on, where left and right are told apart: each by itself.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<HandDocument>,
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
    pub ends: Vec<[EndDocument; 2]>,
    /// Notches that meet: how far each is from the start of both sides.
    pub notches: Vec<SeamNotchDocument>,
    /// The stitch, by its number in ISO 4915:1991, where it is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stitch: Option<u16>,
    /// The tape that is sewn in with it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tape: Option<SeamTapeDocument>,
    /// How it is made; plainly where nothing is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub made: Option<SeamWorkDocument>,
    /// Gaps that are left in it for turning.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub gaps: Vec<GapDocument>,
    /// Closures that it takes in between its sides.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub enclosing: Vec<String>,
    /// An end of a folded piece is sewn to itself across the fold: both sides are the one edge, each as long as half
    /// of it. An edge each.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub across_fold: bool,
    /// It joins each copy of one piece to the next, and the last to the first.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub each_to_the_next: bool,
}

/// An end or a joint of a seam's side.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "End")]
pub struct EndDocument {
    /// The layer, the piece and the corner: `outer.front.tip`; of a corner without a name its two edges:
    /// `outer.front.side/hem`.
    pub corner: String,
    /// Which copy, or half, as worn, the first time that the seam is sewn; none where there is no left
    /// and right one, and where it is both.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hand: Option<HandDocument>,
}

/// Tape that is sewn in with a seam, as long as its second side.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "SeamTape")]
pub struct SeamTapeDocument {
    /// How wide it is; any where nothing is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub width: Option<Figure>,
}

/// How a seam is made, other than plainly.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "SeamWork")]
pub struct SeamWorkDocument {
    /// Which kind.
    pub kind: SeamKindWay,
    /// How wide it is when it is finished; of bound edges, the finished binding.
    pub width: Figure,
    /// The side that lies over; none of a kind that has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub over: Option<SeamSideDocument>,
    /// To what the under side's allowance is trimmed once the first row is sewn.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub trimmed: Option<Figure>,
    /// Rows of stitching through both sides.
    pub rows: u32,
    /// The class of ISO 4916:1991: 1 superimposed, 2 lapped, 3 bound.
    pub iso_4916_class: u8,
}

/// Kinds of seams that are not plain.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SeamKindWay {
    /// One allowance is folded round the other and sewn down.
    Felled,
    /// Sewn wrong sides together, turned, and sewn again round its allowances.
    French,
    /// The one side, turned under, is laid on the other and sewn through.
    Lapped,
    /// Both allowances lie under one side and are sewn down from it.
    Topstitched,
    /// Plain, the allowances of each side bound.
    EdgesBound,
}

/// A side of a seam.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "SeamSide")]
pub enum SeamSideDocument {
    /// The one before `to`.
    First,
    /// The one after `to`.
    Second,
}

/// A gap left for turning.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Gap")]
pub struct GapDocument {
    /// How long it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length: Option<Figure>,
    /// From where to where it lies on the first side, from that side's start, where its place is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub on_first: Option<[Figure; 2]>,
    /// The same on the second side.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub on_second: Option<[Figure; 2]>,
    /// The only layer that has it, where that is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub layer: Option<String>,
    /// The only side of the body that has it, where that is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hand: Option<HandDocument>,
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
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "SeamNotch")]
pub struct SeamNotchDocument {
    /// From the start of the first side.
    pub on_first: Figure,
    /// From the start of the second side.
    pub on_second: Figure,
    /// Two cuts side by side.
    pub double: bool,
    /// What it marks; several things where they lie on one place.
    pub marks: Vec<NotchMarkDocument>,
}

/// What a notch of a seam marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
#[schemars(rename = "NotchMark")]
pub enum NotchMarkDocument {
    /// It is asked for, by the seam or by a piece.
    Given,
    /// Two edges of a side meet there.
    Joint,
    /// The middle of what is cut on the fold.
    Middle,
    /// It divides the seam in equal parts.
    Share,
    /// A gap for turning begins or ends there.
    GapEnd,
    /// What is eased, gathered or stretched begins or ends there.
    FitEnd,
}
