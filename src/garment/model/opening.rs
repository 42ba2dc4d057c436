//! Openings that a body goes through, and cords.

use super::{Chain, Expression, SewnEdge, ValueId};
use crate::source::Span;
use std::sync::Arc;

/// An opening that must pass a part of the body.
#[derive(Clone, Debug)]
pub struct Opening {
    /// The ring of edges.
    pub ring: Chain,
    /// The body measure.
    pub passes: ValueId,
    /// Where that is said.
    pub passes_span: Span,
    /// All of it.
    pub span: Span,
}

/// A cord.
#[derive(Clone, Debug)]
pub struct Cord {
    /// Its name.
    pub name: Arc<str>,
    /// How long it is.
    pub length: Expression,
    /// The edges it runs through.
    pub through: Vec<SewnEdge>,
    /// What hangs out at each end.
    pub ends: Option<Expression>,
    /// All of it.
    pub span: Span,
}
