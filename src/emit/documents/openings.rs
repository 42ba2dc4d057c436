//! The form of openings and rims.

use super::seams::HandDocument;
use crate::emit::number::Figure;
use schemars::JsonSchema;
use serde::Serialize;

/// Edges of which the maker says that a part of the body must go through.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Opening")]
pub struct OpeningDocument {
    /// Its edges as they are said: `front.neckline + back.neckline`.
    pub name: String,
    /// The body measure that must go through.
    pub passes: String,
    /// How much that is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub needs: Option<Figure>,
    /// How much goes through: what the narrowest of its rings opens to.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub opens: Option<Figure>,
    /// All that must be passed: the edges' own rings, one for every copy and layer, and after each
    /// those across a band from it, as a waistband's fold.
    pub rings: Vec<RingDocument>,
}

/// A ring of edges, and what goes through it. Lengths are finished ones, all round.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Ring")]
pub struct RingDocument {
    /// What it runs along, in order.
    pub edges: Vec<RingEdgeDocument>,
    /// How long it lies, with its closures closed; of plies sewn together the shortest.
    pub length: Figure,
    /// As far as its cloth and all that holds it let it stretch.
    pub stretched: Figure,
    /// Stretched, with its closures open.
    pub opens: Figure,
    /// What lets it stretch no further; nothing where its own cloth does not.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub held_by: Option<HeldDocument>,
    /// Closures that open onto it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub closures: Vec<OpenClosureDocument>,
}

/// An edge that a ring runs along.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "RingEdge")]
pub struct RingEdgeDocument {
    /// The layer, the piece and the edge: `outer.front.neckline`; of a fold an edge that is folded over.
    pub edge: String,
    /// Which copy, or half, as worn; none where there is no left and right one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hand: Option<HandDocument>,
    /// It is the fold of a piece that is folded over.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub fold: bool,
}

/// What holds a ring.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Held")]
pub struct HeldDocument {
    /// Which kind of thing.
    pub by: HeldWay,
    /// The finished edges, the seam, the layer that is fused on, or the part that is sewn to it.
    pub what: String,
}

/// What may hold a ring.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum HeldWay {
    /// Elastic.
    Elastic,
    /// A binding.
    Binding,
    /// Tape.
    Tape,
    /// A lockstitch.
    Stitch,
    /// What is fused on.
    Fused,
    /// A part that is sewn to it.
    Part,
}

/// A closure that opens onto a ring.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "OpenClosure")]
pub struct OpenClosureDocument {
    /// Its name.
    pub closure: String,
    /// How much more goes through when it is open: the way down one of its sides and up the other.
    pub adds: Figure,
}

/// A rim of the garment, closed all round with the closures closed. Where layers that lie on one another
/// are sewn together at it, it is listed once.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Rim")]
pub struct RimDocument {
    /// Its edges: `outer.front.neckline + outer.back.neckline`; `fold of outer.collar`.
    pub name: String,
    /// The ring that it is.
    #[serde(flatten)]
    pub ring: RingDocument,
    /// The body measures that must go through it, as openings say.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub passes: Vec<String>,
}
