//! The form of how a size is put together: fates, buttons and the like, and notions.

use super::shared::PointDocument;
use crate::emit::number::Figure;
use schemars::JsonSchema;
use serde::Serialize;

/// What becomes of an edge.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Fate")]
pub struct FateDocument {
    /// What takes it.
    pub by: FateWay,
    /// The seam or closure, the finish, or what it is stitched on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// How deep a hem or casing is, or how wide a binding, once it is finished.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub depth: Option<Figure>,
    /// How far the raw edge of a hem or casing is folded in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub turned_under: Option<Figure>,
    /// How far a binding runs on beyond each end of its edges where it does.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub runs_on: Vec<Figure>,
    /// How long each loop is that a binding makes.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub loops: Vec<Figure>,
    /// How deep its turn-up is, on the outside.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub turn_up: Option<Figure>,
    /// How far an edge with a turn-up is first folded to the wrong side: its hem and its turn-up together.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub folded: Option<Figure>,
    /// The finish's stitch, by its number in ISO 4915:1991, where it is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stitch: Option<u16>,
}

/// Ways to take up an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum FateWay {
    /// A seam.
    Seam,
    /// A finish.
    Finish,
    /// It is cut on the fold.
    Fold,
    /// A closure.
    Closure,
    /// It is topstitched on another piece.
    Topstitched,
    /// It is caught in a seam or closure of another piece.
    Caught,
    /// It is the end of a strap, which is sewn on or caught.
    Strap,
    /// It lies inside its piece, which is folded in four.
    Inside,
}

/// A button, a snap, a hook and the like on a piece, or what it meets on the other side.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Fastener")]
pub struct FastenerDocument {
    /// Which kind.
    pub kind: FastenerWay,
    /// The closure.
    pub closure: String,
    /// Its middle.
    pub at: PointDocument,
    /// Its width, or how long a toggle or a tie is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub size: Option<Figure>,
    /// The side that lies over, as worn: it has the buttonholes, loops or hooks, or the strap that goes through a buckle; the other
    /// has what these meet.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub over: Option<Side>,
}

/// What holds two sides together here and there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "FastenerWay")]
pub enum FastenerWay {
    /// A button and its buttonhole.
    Button,
    /// A snap.
    Snap,
    /// A hook and its eye.
    Hook,
    /// A toggle and its loop.
    Toggle,
    /// A buckle.
    Buckle,
    /// Two ties.
    Tie,
}

/// A side of the body.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Side {
    /// The wearer's left.
    Left,
    /// The wearer's right.
    Right,
}

/// A row of buttons or the like.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
#[schemars(rename = "FastenerRow")]
pub struct FastenerRowDocument {
    /// How many.
    pub count: u32,
    /// How wide one is, or how long a toggle or a tie is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub size: Option<Figure>,
    /// From middle to middle.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spacing: Option<Figure>,
    /// How long a buttonhole is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub buttonhole: Option<Figure>,
}

/// Something to buy beside cloth.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Notion")]
pub struct NotionDocument {
    /// What, in words.
    pub what: String,
    /// Which kind of thing.
    pub kind: NotionWay,
    /// The width of a button or of elastic, the finished width of binding.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub width: Option<Figure>,
    /// The closure, cord or seam that it is for, or the finished edges; nothing of what the maker lists.
    #[serde(rename = "for", skip_serializing_if = "Option::is_none")]
    pub of: Option<String>,
    /// How many, over all copies of what it is for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// How long, of each, as it is bought.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length: Option<Figure>,
    /// The fabric that it is cut from, so that it is not bought.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cut_from: Option<String>,
    /// How much of that length is there to join the ends of elastic.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub joining: Option<Figure>,
    /// How far a binding stretches, as a share of its length, where that is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stretch: Option<Figure>,
}

/// Kinds of notions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub enum NotionWay {
    /// A zip that comes apart at its lower end.
    #[serde(rename = "separating zip")]
    SeparatingZip,
    /// A zip that stays together at its lower end.
    #[serde(rename = "closed zip")]
    ClosedZip,
    /// A zip of which only the seam shows.
    #[serde(rename = "concealed zip")]
    ConcealedZip,
    /// A zip of which no more is said.
    #[serde(rename = "zip")]
    Zip,
    /// A button.
    #[serde(rename = "button")]
    Button,
    /// A snap.
    #[serde(rename = "snap")]
    Snap,
    /// A hook and its eye.
    #[serde(rename = "hook and eye")]
    Hook,
    /// A toggle and its loop.
    #[serde(rename = "toggle")]
    Toggle,
    /// A buckle.
    #[serde(rename = "buckle")]
    Buckle,
    /// A tie.
    #[serde(rename = "tie")]
    Tie,
    /// Elastic.
    #[serde(rename = "elastic")]
    Elastic,
    /// Binding.
    #[serde(rename = "binding")]
    Binding,
    /// Tape.
    #[serde(rename = "tape")]
    Tape,
    /// A cord.
    #[serde(rename = "cord")]
    Cord,
    /// Something else that the maker lists.
    #[serde(rename = "other")]
    Other,
}
