//! How edges are finished.

use super::{Catcher, Expression, FabricId, PointId, SewnEdge, Stitch};
use crate::source::Span;
use crate::syntax::tree::RowEnd;

/// A finish of edges.
#[derive(Clone, Debug)]
pub struct Finish {
    /// The edges.
    pub edges: Vec<SewnEdge>,
    /// How.
    pub kind: FinishKind,
    /// Where that is said.
    pub kind_span: Span,
    /// All of it.
    pub span: Span,
    /// How far a binding stretches, as a share of its length; bought binding of which nothing is said is
    /// woven.
    pub binding_stretch: Option<Expression>,
    /// Its stitch.
    pub stitch: Option<Stitch>,
}

/// What is turned under at the raw edge of a casing, in millimetres: 1 cm, common practice. The
/// depth that a casing says is its finished one, so its allowance is the depth and this. A casing that
/// is shallower than this turns its own depth under.
pub const CASING_TURN: f64 = 10.0;

/// How an edge is finished.
#[derive(Clone, Debug)]
pub enum FinishKind {
    /// Turned up, once or twice, and on the outside as well where it has a turn-up.
    Hem(Hem),
    /// Bound.
    Bound(Binding),
    /// A casing of this depth, and the elastic's width and length.
    Casing(Expression, Option<(Expression, Expression)>),
    /// Elastic sewn on to the edge and turned in with it: its width and its length.
    Elastic(Expression, Expression),
    /// Tape sewn over the raw edge, so wide if that is said.
    Tape(Option<Expression>),
    /// Turned under and felled by hand onto the stitching of a seam, or onto the tape of a zip.
    TurnedUnderOnto(Catcher),
    /// Overlocked.
    Overlocked,
    /// Raw.
    Raw,
    /// Could not be made sense of; already reported.
    Poison,
}

/// A hem.
#[derive(Clone, Debug)]
pub struct Hem {
    /// How deep it is.
    pub depth: Expression,
    /// What becomes of its raw edge.
    pub raw_edge: HemEdge,
    /// How deep the turn-up is, on the outside, that it is sewn behind.
    pub turn_up: Option<Expression>,
}

impl Hem {
    /// All amounts that it says.
    pub fn amounts(&self) -> impl Iterator<Item = &Expression> {
        let under = match &self.raw_edge {
            HemEdge::TurnedUnder(under) => Some(under),
            HemEdge::TurnedOnce | HemEdge::TurnedTwice => None,
        };
        std::iter::once(&self.depth).chain(under).chain(&self.turn_up)
    }
}

/// What becomes of the raw edge of a hem.
#[derive(Clone, Debug)]
pub enum HemEdge {
    /// Nothing: the hem is turned once.
    TurnedOnce,
    /// Turned under by this.
    TurnedUnder(Expression),
    /// Turned under as deep as the hem is.
    TurnedTwice,
}

/// A binding.
#[derive(Clone, Debug)]
pub struct Binding {
    /// Finished width.
    pub width: Expression,
    /// The cloth that it is cut from; bought where none is said.
    pub cut_from: Option<FabricId>,
    /// How far it runs on beyond an end of its edges.
    pub running_on: Vec<RunningOn>,
    /// Loops that it makes.
    pub loops: Vec<BindingLoop>,
}

impl Binding {
    /// All amounts that it says.
    pub fn amounts(&self) -> impl Iterator<Item = &Expression> {
        let ends = self.running_on.iter().map(|one| &one.length);
        std::iter::once(&self.width).chain(ends).chain(self.loops.iter().map(|one| &one.length))
    }
}

/// A binding that runs on beyond an end of its edges.
#[derive(Clone, Debug)]
pub struct RunningOn {
    /// How far.
    pub length: Expression,
    /// Beyond which end.
    pub end: RowEnd,
}

/// A loop that a binding makes at a corner, before it goes on along the next edge, or at a place on an edge.
#[derive(Clone, Debug)]
pub struct BindingLoop {
    /// How long it is.
    pub length: Expression,
    /// Where.
    pub at: PointId,
    /// Where that is named.
    pub span: Span,
}

impl FinishKind {
    /// The elastic that it has, run through or sewn on: its width, and its length as it is worn.
    pub fn elastic(&self) -> Option<(&Expression, &Expression)> {
        match self {
            FinishKind::Casing(_, Some((width, length))) | FinishKind::Elastic(width, length) => {
                Some((width, length))
            }
            _ => None,
        }
    }
}
