//! Runs of edges that a seam, a closure or a finish takes by themselves. In the code they are portions: a
//! [`crate::resolve::Run`] is what a name means after splits and joins.

use super::{CountedFrom, EdgeId, Expression, PortionId};
use crate::source::Span;
use std::sync::Arc;

/// A portion of an edge, between two places: `front.side 3..19 from waist_side`. What is said in the same
/// words of one edge is one portion, whoever says it.
#[derive(Clone, Debug)]
pub struct Portion {
    /// The edge, as it is named.
    pub edge: EdgeId,
    /// `3..19 from waist_side`, in the words of the text, one space between them.
    pub words: Arc<str>,
    /// How far it begins from where it is counted from; none: there.
    pub from: Option<Expression>,
    /// How far from there it ends.
    pub to: Expression,
    /// What it is counted from.
    pub counted: CountedFrom,
    /// Where it is said first.
    pub span: Span,
    /// For each edge on which it may lie once pieces are split and joined, what it is called there.
    pub names: Vec<PortionEdges>,
}

/// What a portion of an edge is called, and what is left of the edge on both sides of it.
#[derive(Clone, Copy, Debug)]
pub struct PortionEdges {
    /// The edge that it lies on.
    pub on: EdgeId,
    /// The portion.
    pub taken: EdgeId,
    /// What is left between it and what it is counted from, where that has not the edge's own name.
    pub before: EdgeId,
    /// What is left beyond it, likewise.
    pub beyond: EdgeId,
}

/// That an edge's name is one of a portion.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PortionName {
    /// The portion.
    pub portion: PortionId,
    /// The portion itself; else what is left beside it.
    pub taken: bool,
}
