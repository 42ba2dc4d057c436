//! A figure before and after.

use crate::emit::number::Figure;
use schemars::JsonSchema;
use serde::Serialize;

/// Before and after; none where there was, or is, no such thing.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(untagged)]
pub enum Differs {
    /// Lengths in millimetres.
    Length {
        /// Before.
        #[serde(skip_serializing_if = "Option::is_none")]
        old: Option<Figure>,
        /// After.
        #[serde(skip_serializing_if = "Option::is_none")]
        new: Option<Figure>,
    },
    /// Anything else.
    Words {
        /// Before.
        #[serde(skip_serializing_if = "Option::is_none")]
        old: Option<String>,
        /// After.
        #[serde(skip_serializing_if = "Option::is_none")]
        new: Option<String>,
    },
    /// It is drawn anew.
    Redrawn {
        /// Always true.
        redrawn: bool,
        /// How far its nodes and handles lie from where they were, at most; none where it has others.
        #[serde(skip_serializing_if = "Option::is_none")]
        moved: Option<Figure>,
    },
}
