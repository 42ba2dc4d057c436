//! Closures, and what fastens them.

use super::{Chain, Expression, PointId};
use crate::source::Span;
use crate::syntax::tree::{Fastener, Hand, ZipperKind};
use std::sync::Arc;

/// A closure.
#[derive(Clone, Debug)]
pub struct Closure {
    /// Its name.
    pub name: Arc<str>,
    /// Where its name stands.
    pub name_span: Span,
    /// All of it.
    pub span: Span,
    /// Before `to`.
    pub first: Chain,
    /// After `to`.
    pub second: Chain,
    /// It runs on along what is sewn on above and below, which stands in its sides too: where that is said.
    pub end_to_end: Option<Span>,
    /// How it closes; none where it could not be made sense of (already reported).
    pub kind: Option<ClosureKind>,
    /// Where that is said.
    pub kind_span: Span,
}

/// How a closure closes.
#[derive(Clone, Debug)]
pub enum ClosureKind {
    /// A zip.
    Zipper {
        /// Which kind.
        kind: ZipperKind,
        /// One length, or those in stock.
        lengths: Vec<Expression>,
        /// Those in stock.
        stocked: bool,
        /// How much of its width shows.
        showing: Option<Expression>,
        /// How far from its teeth what lies behind it is kept.
        clear: Option<Expression>,
    },
    /// Buttons, snaps, hooks, toggles or ties, or a buckle.
    Fasteners(Box<Fasteners>),
}

/// A row of buttons, snaps, hooks, toggles or ties, or a buckle.
#[derive(Clone, Debug)]
pub struct Fasteners {
    /// Which kind.
    pub kind: Fastener,
    /// How many; none of a buckle, and of ties that are pieces of the garment.
    pub count: Option<Expression>,
    /// How wide one is, or how long a toggle or a tie; none of hooks, and of ties that are pieces.
    pub size: Option<Expression>,
    /// The first and the last; spaced evenly over the whole closure where they are not said.
    pub between: Option<(Anchor, Anchor)>,
    /// What the piece has beyond the centre line.
    pub stand: Option<Expression>,
    /// Which side lies over the other.
    pub over: Option<Hand>,
}

impl Fasteners {
    /// Whether they are ties that are pieces of the garment: nothing is bought or marked for them.
    pub fn are_pieces(&self) -> bool {
        self.kind == Fastener::Tie && self.count.is_none()
    }

    /// Whether one side laps over the other: where its line is an edge, that goes on by the stand, and nothing else
    /// becomes of it.
    pub fn is_lapped(&self) -> bool {
        self.kind.is_lapped() || self.stand.is_some()
    }

    /// All amounts that it says.
    pub fn amounts(&self) -> impl Iterator<Item = &Expression> {
        let anchors = self.between.iter().flat_map(|(from, to)| [from, to]).filter_map(Anchor::amount);
        self.count.iter().chain(&self.size).chain(&self.stand).chain(anchors)
    }
}

impl ClosureKind {
    /// What of its edges it takes: all of a zip's, and those that lap under buttons or snaps, or under anything with a
    /// stand.
    pub fn takes_edges(&self) -> bool {
        match self {
            ClosureKind::Zipper { .. } => true,
            ClosureKind::Fasteners(row) => row.is_lapped(),
        }
    }
}

/// `1.5 below neck_cf`, `3 from top_left`, `in the middle`
#[derive(Clone, Debug)]
pub struct Anchor {
    /// Where.
    pub at: AnchorAt,
    /// All of it.
    pub span: Span,
}

/// Where the first or the last of a row of fasteners is.
#[derive(Clone, Debug)]
pub enum AnchorAt {
    /// So far along the line from a corner.
    Beside {
        /// How far.
        distance: Expression,
        /// Below (true) or above.
        below: bool,
        /// The corner.
        point: PointId,
    },
    /// At a corner, a mark or a place on an edge.
    Point(PointId),
    /// Such a share of the line, from neither end: a half.
    Share(Expression),
}

impl Anchor {
    /// The corner, mark or place that it is at, or counted from.
    pub fn point(&self) -> Option<PointId> {
        match &self.at {
            AnchorAt::Beside { point, .. } | AnchorAt::Point(point) => Some(*point),
            AnchorAt::Share(_) => None,
        }
    }

    /// How far it is, or which share of the line.
    pub fn amount(&self) -> Option<&Expression> {
        match &self.at {
            AnchorAt::Beside { distance, .. } => Some(distance),
            AnchorAt::Share(share) => Some(share),
            AnchorAt::Point(_) => None,
        }
    }
}
