//! How a garment closes, as `fustian resolve` writes it.

use super::seams::RunDocument;
use super::sewn::FastenerRowDocument;
use crate::emit::number::Figure;
use schemars::JsonSchema;
use serde::Serialize;

/// How a garment closes.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Closure")]
pub struct ClosureDocument {
    /// Its name.
    pub name: String,
    /// Which kind.
    pub kind: ClosureWay,
    /// How many there are of it, over all copies: two of a cuff's.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// The zip's length.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub zip: Option<Figure>,
    /// How much of the zip's width shows, where that is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub showing: Option<Figure>,
    /// How far beyond the line of what closes it the finished edge lies, where that is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stand: Option<Figure>,
    /// How far from the zip's teeth what lies behind it is kept, where that is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub clear: Option<Figure>,
    /// The finished length of each side.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sides: Option<[Figure; 2]>,
    /// What it closes, once for every time that there is one: both sides from their start; nothing where
    /// it is not known how the garment hangs together.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub chains: Option<Vec<ClosureChainsDocument>>,
    /// The row of buttons or the like.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fasteners: Option<FastenerRowDocument>,
}

/// Both sides of a closure.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "ClosureChains")]
pub struct ClosureChainsDocument {
    /// The side before `to`: edges, or the lines that buttons stand on.
    pub first: Vec<RunDocument>,
    /// The side after `to`.
    pub second: Vec<RunDocument>,
}

/// Kinds of closures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub enum ClosureWay {
    /// A zip that comes apart at its lower end.
    #[serde(rename = "separating zip")]
    SeparatingZip,
    /// A zip that stays together at its lower end.
    #[serde(rename = "closed zip")]
    ClosedZip,
    /// A zip of which only the seam shows.
    #[serde(rename = "concealed zip")]
    ConcealedZip,
    /// Buttons.
    #[serde(rename = "buttons")]
    Buttons,
    /// Snaps.
    #[serde(rename = "snaps")]
    Snaps,
    /// Hooks and eyes.
    #[serde(rename = "hooks")]
    Hooks,
    /// Toggles and loops.
    #[serde(rename = "toggles")]
    Toggles,
    /// A buckle.
    #[serde(rename = "buckle")]
    Buckle,
    /// Ties.
    #[serde(rename = "ties")]
    Ties,
}
