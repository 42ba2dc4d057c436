//! `finish`.

use super::{Expr, Name, SewnPlace, SewnWords, StitchWord};
use crate::source::Span;

/// `finish front.hem, back.hem hem 3`
#[derive(Clone, Debug)]
pub struct Finish {
    /// The edges.
    pub edges: Vec<SewnWords>,
    /// How.
    pub kind: FinishKind,
    /// Where the words after the edges stand.
    pub kind_span: Span,
    /// `bound 1 stretch 40%`: how far the binding stretches
    pub binding_stretch: Option<Expr>,
    /// `{ stitch 602 }`
    pub stitch: Option<StitchWord>,
}

/// How an edge is finished.
#[derive(Clone, Debug)]
pub enum FinishKind {
    /// `hem 3`, `hem 3 turned under 1`, `hem 0.6 twice`, each with `turn-up 4`
    Hem(Hem),
    /// `bound 1`: finished width; `bound 1 cut from cotton running on 45 at start looping 50 at neck_side`
    Bound(Binding),
    /// `casing 3.5`, with `for elastic 3 of waist * 90%`
    Casing {
        /// Finished depth.
        depth: Expr,
        /// The elastic's width and its length.
        elastic: Option<(Expr, Expr)>,
    },
    /// `elastic 1 of waist * 90%`: sewn on to the edge
    Elastic {
        /// How wide it is.
        width: Expr,
        /// How long it is as it is worn.
        length: Expr,
    },
    /// `tape`, `tape 1`: tape sewn over the raw edge
    Tape(Option<Expr>),
    /// `turned under onto waist`: felled by hand onto the stitching of a seam
    TurnedUnderOnto(Name),
    /// `overlocked`
    Overlocked,
    /// `raw`
    Raw,
}

/// `hem 3 turned under 1 turn-up 4`
#[derive(Clone, Debug)]
pub struct Hem {
    /// How deep it is.
    pub depth: Expr,
    /// What becomes of its raw edge.
    pub raw_edge: HemEdge,
    /// How deep the turn-up is, on the outside, that it is sewn behind.
    pub turn_up: Option<Expr>,
}

/// `bound 1 cut from cotton running on 45 at start, 60 at end looping 50 at front.neck_side`
#[derive(Clone, Debug)]
pub struct Binding {
    /// Finished width.
    pub width: Expr,
    /// The cloth that it is cut from; bought where none is said.
    pub cut_from: Option<Name>,
    /// How far it runs on, and beyond which end of its edges.
    pub running_on: Vec<(Expr, RowEnd)>,
    /// Loops that it makes, and where.
    pub loops: Vec<(Expr, SewnPlace)>,
}

/// An end of edges that are finished in one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RowEnd {
    /// `start`
    Start,
    /// `end`
    End,
}

/// What becomes of the raw edge of a hem.
#[derive(Clone, Debug)]
pub enum HemEdge {
    /// Nothing: the hem is turned once.
    TurnedOnce,
    /// `turned under 1`
    TurnedUnder(Expr),
    /// `twice`: turned under as deep as the hem is.
    TurnedTwice,
}
