//! Darts, pleats, tucks and slits, as `fustian resolve` writes them.

use super::shared::PointDocument;
use crate::emit::number::Figure;
use schemars::JsonSchema;
use serde::Serialize;

/// A dart, or one fold of a pleat or tuck. A tuck is there twice: on the edge where it begins, and on the one
/// where it ends.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "TakeUp")]
pub struct TakeUpDocument {
    /// Its name.
    pub name: String,
    /// What it is.
    pub kind: TakeUpKind,
    /// Of pleats and tucks, which fold it is of all that have its name, from 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fold: Option<usize>,
    /// Of pleats and tucks, how much cloth lies under the fold, once.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub depth: Option<Figure>,
    /// Of a row of pleats or tucks, how far it is from one to the next, as sewn.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub apart: Option<Figure>,
    /// The edge that it is taken from; none of one inside the piece.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub edge: Option<String>,
    /// From how far along that edge, from its start in the order of the outline, to how far.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub along: Option<[Figure; 2]>,
    /// How wide it is between its sides.
    pub width: Figure,
    /// Of a dart inside the piece, how long it is from one end to the other.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub long: Option<Figure>,
    /// The angle between its legs, in degrees; of one inside the piece that at its lower end; 0 of a pleat.
    pub angle: Figure,
    /// Where its sides are, first along the edge first.
    pub sides: [PointDocument; 2],
    /// Where it is sewn to: its point, or both its ends; nowhere of a pleat that hangs open.
    pub points: Vec<PointDocument>,
    /// The place that it is directed to, where it stops short of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub directed_to: Option<PointDocument>,
    /// How long its legs are, to its point.
    pub legs: [Figure; 2],
    /// The side, 0 or 1, that its cloth is pressed towards, of a pleat that its fold is laid on; none where it is
    /// cut open.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pressed_to: Option<usize>,
    /// Which way its cloth is pressed or its fold laid, in the words of the steps, where that is said: `toward centre`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pressed: Option<String>,
    /// How far its edge moved there when it was trued.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub trued_by: Option<Figure>,
}

/// A slit.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Slit")]
pub struct SlitDocument {
    /// Its name.
    pub name: String,
    /// The edge that it is cut from; none of one inside the piece.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub edge: Option<String>,
    /// From how far along that edge, from its start and over its other slits, to how far: alike without a window.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub along: Option<[Figure; 2]>,
    /// How wide a strip is lost between its sides.
    pub window: Figure,
    /// How long its sides are, first along the edge first.
    pub lengths: [Figure; 2],
    /// Where its sides leave the edge, or begin inside the piece.
    pub sides: [PointDocument; 2],
    /// Where they end.
    pub ends: [PointDocument; 2],
}

/// What a take-up is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum TakeUpKind {
    /// A dart.
    Dart,
    /// A fold of a pleat.
    Pleat,
    /// A fold of a tuck.
    Tuck,
}
