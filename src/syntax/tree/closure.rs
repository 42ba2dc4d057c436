//! `closure`, and what fastens it.

use super::{Chain, EdgePlace, Expr, Hand, Name};
use crate::source::Span;

/// `closure front_zip A to B { … }`
#[derive(Clone, Debug)]
pub struct Closure {
    /// Its name.
    pub name: Name,
    /// Before `to`.
    pub first: Chain,
    /// After `to`.
    pub second: Chain,
    /// `from end to end`: it runs on along what is sewn on above and below.
    pub end_to_end: Option<Span>,
    /// What stands in its braces.
    pub items: Vec<ClosureItem>,
}

/// One line of a closure.
#[derive(Clone, Debug)]
pub struct ClosureItem {
    /// All of it.
    pub span: Span,
    /// What it says.
    pub node: ClosureItemNode,
}

/// What a line of a closure says.
#[derive(Clone, Debug)]
pub enum ClosureItemNode {
    /// `zipper separating 65 showing 1`, `zipper separating stocked 55, 60 showing 1`
    Zipper(Zipper),
    /// `buttons 6 of 15mm from … to … stand 2 right over left`, `hooks 2`, `buckle 25mm`
    Fasteners(Box<Fasteners>),
}

/// A zip.
#[derive(Clone, Debug)]
pub struct Zipper {
    /// Which kind.
    pub kind: ZipperKind,
    /// One length, or those in stock.
    pub lengths: Vec<Expr>,
    /// `stocked`.
    pub stocked: bool,
    /// How much of its width shows.
    pub showing: Option<Expr>,
    /// How far from its teeth the cloth behind it is kept: `clear of cloth 6mm`
    pub clear: Option<Expr>,
}

/// Kinds of zip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ZipperKind {
    /// Comes apart at its lower end.
    Separating,
    /// Stays together at its lower end.
    Closed,
    /// Sewn so that only the seam shows.
    Concealed,
}

/// A row of buttons, snaps, hooks, toggles or ties, or a buckle.
#[derive(Clone, Debug)]
pub struct Fasteners {
    /// Which kind.
    pub kind: Fastener,
    /// How many; none of a buckle, and of ties that are pieces of the garment.
    pub count: Option<Expr>,
    /// How wide one is, or how long a toggle or a tie; none of hooks, and of ties that are pieces.
    pub size: Option<Expr>,
    /// The first and the last; spaced evenly over the whole closure where they are not said.
    pub between: Option<(Anchor, Anchor)>,
    /// What the piece has beyond the centre line; whatever laps may say it.
    pub stand: Option<Expr>,
    /// Which side lies over the other.
    pub over: Option<Hand>,
}

impl Fasteners {
    /// Whether one side laps over the other: where its line is an edge, that goes on by the stand, and nothing else
    /// becomes of it.
    pub fn is_lapped(&self) -> bool {
        self.kind.is_lapped() || self.stand.is_some() && self.kind.may_lap()
    }
}

/// What holds two sides together here and there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Fastener {
    /// `buttons 6 of 15mm`
    Button,
    /// `snaps 4 of 12mm`
    Snap,
    /// `hooks 2`: hooks and eyes, or hooks and bars.
    Hook,
    /// `toggles 3 of 40mm`
    Toggle,
    /// `buckle 25mm`
    Buckle,
    /// `ties 3 of 30`, or `ties` that are pieces.
    Tie,
}

impl Fastener {
    /// All of them, in the order in which they are explained.
    pub const ALL: [Fastener; 6] =
        [Fastener::Button, Fastener::Snap, Fastener::Hook, Fastener::Toggle, Fastener::Buckle, Fastener::Tie];

    /// As it is written.
    pub fn keyword(self) -> &'static str {
        match self {
            Fastener::Buckle => "buckle",
            other => other.many(),
        }
    }

    /// One of them.
    pub fn one(self) -> &'static str {
        match self {
            Fastener::Button => "button",
            Fastener::Snap => "snap",
            Fastener::Hook => "hook",
            Fastener::Toggle => "toggle",
            Fastener::Buckle => "buckle",
            Fastener::Tie => "tie",
        }
    }

    /// Several of them.
    pub fn many(self) -> &'static str {
        match self {
            Fastener::Button => "buttons",
            Fastener::Snap => "snaps",
            Fastener::Hook => "hooks",
            Fastener::Toggle => "toggles",
            Fastener::Buckle => "buckles",
            Fastener::Tie => "ties",
        }
    }

    /// Whether it lies on cloth of one side that laps over the other, in the middle of both. Its line, where
    /// that is an edge, goes on by the stand, and nothing else becomes of that edge. All others hold edges
    /// that are finished or sewn as if they were not there, where no stand is said.
    pub fn is_lapped(self) -> bool {
        matches!(self, Fastener::Button | Fastener::Snap)
    }

    /// Whether the sides that it holds may lap: a hook and its bar in an extended waistband, toggles and buckles on
    /// fronts that lie over one another. Ties are knotted between two edges.
    pub fn may_lap(self) -> bool {
        self != Fastener::Tie
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
    /// So far along the edge from a corner.
    Beside {
        /// How far.
        distance: Expr,
        /// `below` (true) or `above`.
        below: bool,
        /// The corner.
        point: Name,
    },
    /// A place on the edge, or on the whole closure.
    Place(EdgePlace),
}
