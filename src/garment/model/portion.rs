//! Runs of edges that a seam, a closure or a finish takes by themselves. In the code they are portions: a
//! [`crate::resolve::Run`] is what a name means after splits and joins.

use super::{CountedFrom, EdgeId, Expression, Garment, LayerId, PortionId, PortionOverId};
use crate::few::Few;
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
    /// Where it is taken, or spoken of.
    pub places: Few<PortionPlace>,
}

impl Portion {
    /// Whether no cloth has both of them: they lie in different layers or on different sides of the body.
    pub fn is_apart_from(&self, other: &Portion) -> bool {
        self.places.iter().all(|one| other.places.iter().all(|place| one.is_apart_from(place)))
    }

    /// Whether that cloth may have it.
    pub fn is_in(&self, place: PortionPlace) -> bool {
        self.places.is_empty() || self.places.iter().any(|own| !own.is_apart_from(&place))
    }

    /// The one side of the body on which it is taken; none where it is taken on both.
    pub fn only_hand(&self) -> Option<Hand> {
        let first = self.places.first()?.hand?;
        self.places.iter().all(|own| own.hand == Some(first)).then_some(first)
    }
}

/// Where a portion is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PortionPlace {
    /// The layer; none: any.
    pub layer: Option<LayerId>,
    /// The side of the body; none: either.
    pub hand: Option<Hand>,
}

impl PortionPlace {
    fn is_apart_from(&self, other: &PortionPlace) -> bool {
        self.layer.zip(other.layer).is_some_and(|(one, other)| one != other)
            || self.hand.zip(other.hand).is_some_and(|(one, other)| one != other)
    }
}

/// What is called where portions of different layers or sides of the body lie over one another on their paper.
#[derive(Clone, Debug)]
pub struct PortionOver {
    /// The edge that they lie on.
    pub on: EdgeId,
    /// All that lie there, two at least, in order.
    pub portions: Few<PortionId>,
    /// What they share.
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
    /// Where other portions lie there too, the portion among them.
    pub over: Option<PortionOverId>,
}

impl Garment {
    /// The portions that take what is called so: several where those of different layers or sides lie over one another.
    pub fn portions_at(&self, edge: EdgeId) -> impl Iterator<Item = PortionId> + '_ {
        let own = self.edge(edge).portion.filter(|own| own.taken);
        let alone = own.filter(|own| own.over.is_none()).map(|own| own.portion);
        let together = own.and_then(|own| own.over).into_iter();
        alone.into_iter().chain(together.flat_map(|over| self.portion_over(over).portions.iter().copied()))
    }

    /// The name of an edge as that cloth has it: of what portions share, that of the one which lies there.
    pub fn edge_in(&self, edge: EdgeId, place: PortionPlace) -> EdgeId {
        let Some(over) = self.edge(edge).portion.and_then(|own| own.over) else { return edge };
        let on = self.portion_over(over).on;
        let portion = self.portion_on(edge, place).map(|id| self.portion(id));
        let names = portion.and_then(|portion| portion.names.iter().find(|names| names.on == on));
        names.map_or(on, |names| names.taken)
    }

    /// The portion that takes it in that cloth.
    pub fn portion_on(&self, edge: EdgeId, place: PortionPlace) -> Option<PortionId> {
        self.portions_at(edge).find(|&id| self.portion(id).is_in(place))
    }
}
