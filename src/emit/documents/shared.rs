//! What every document says of itself, and places.

use crate::emit::number::Figure;
use schemars::JsonSchema;
use serde::Serialize;

/// The version of the form.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
pub enum Version {
    /// The first.
    #[serde(rename = "1")]
    One,
}

/// The unit of lengths.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
pub enum LengthUnit {
    /// Millimetres.
    #[serde(rename = "mm")]
    Millimetre,
}

/// A place on a piece.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Point")]
pub struct PointDocument {
    /// To the side.
    pub x: Figure,
    /// Up.
    pub y: Figure,
}
