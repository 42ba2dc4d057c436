//! Runs of edges that a seam, a closure or a finish takes by themselves. In the code they are portions: a
//! [`crate::resolve::Run`] is what a name means after splits and joins.

use super::{CountedFrom, EdgeId, Expression, Garment, PortionId};
use crate::source::Span;
use crate::syntax::tree::Hand;
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
    /// The one side of the body on which it is taken; none where it is taken on both.
    pub on: Option<Hand>,
    /// Of one that is taken on the left: what is called where one that is taken on the right lies over it.
    pub over_right: Vec<PortionOver>,
}

/// What is called where a portion of the left side and one of the right lie over one another on the paper.
#[derive(Clone, Copy, Debug)]
pub struct PortionOver {
    /// The edge that they lie on.
    pub on: EdgeId,
    /// The right one.
    pub right: PortionId,
    /// What both have.
    pub name: EdgeId,
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
    /// The portion of the right side of the body that lies there too, on a portion of the left.
    pub also: Option<PortionId>,
}

impl Garment {
    /// The portions that take what is called so: two where one of the left side lies over one of the right.
    pub fn portions_at(&self, edge: EdgeId) -> impl Iterator<Item = PortionId> {
        let own = self.edge(edge).portion.filter(|own| own.taken);
        own.into_iter().flat_map(|own| std::iter::once(own.portion).chain(own.also))
    }

    /// The portion that takes it on that side of the body; where no side is told, on any.
    pub fn portion_on(&self, edge: EdgeId, hand: Option<Hand>) -> Option<PortionId> {
        self.portions_at(edge).find(|&id| match (self.portion(id).on, hand) {
            (Some(on), Some(hand)) => on == hand,
            _ => true,
        })
    }
}
