//! `seam`, and what its braces say.

use super::{Dotted, EdgePlace, Expr, Name, SeamAlong, SewnPlace, StitchWord, Text};
use crate::source::Span;

/// `seam armhole sleeve.cap to front.armhole + back.armhole easing 0.5..2.5 { … }`
#[derive(Clone, Debug)]
pub struct Seam {
    /// Its name.
    pub name: Name,
    /// What people read.
    pub label: Option<Text>,
    /// Before `to`.
    pub first: Side,
    /// After `to`.
    pub second: Side,
    /// How the sides fit, when not equal.
    pub fit: Option<Fit>,
    /// `cuff.left, cuff.right across the fold`: each of the first side's plies is sewn to itself, and there is
    /// no second side.
    pub across_fold: bool,
    /// `outer.collar to inside.collar along left + top + right`: both sides are said so.
    pub along: Option<Box<SeamAlong>>,
    /// Closures caught between the sides.
    pub enclosing: Vec<Name>,
    /// What stands in its braces.
    pub items: Vec<SeamItem>,
}

/// Plies that lie on one another: `a and b`.
#[derive(Clone, Debug)]
pub struct Side {
    /// At least one.
    pub plies: Vec<Chain>,
    /// All of it.
    pub span: Span,
}

/// Edges end to end: `a + b`.
#[derive(Clone, Debug)]
pub struct Chain {
    /// At least one.
    pub edges: Vec<SewnWords>,
    /// `panel.bottom in a ring`: all copies end to end
    pub ring: bool,
    /// All of it.
    pub span: Span,
}

/// An edge, or a run of it.
#[derive(Clone, Debug)]
pub struct SewnWords {
    /// The edge.
    pub edge: Dotted,
    /// The run of it that is meant; none: all of it.
    pub run: Option<RunWords>,
    /// Edges that lie on it as further plies, in brackets with it: `(a and b)`.
    pub over: Vec<SewnWords>,
    /// `panel.bottom in a ring`, of what is finished or stitched: all copies end to end. A chain says it itself.
    pub ring: bool,
    /// All of it.
    pub span: Span,
}

/// `20 from waist_side`, `3..19 from waist_side`
#[derive(Clone, Debug)]
pub struct RunWords {
    /// How far from there it begins; where it is counted from, if nothing is said.
    pub from: Option<Expr>,
    /// How far from there it ends.
    pub to: Expr,
    /// What it is counted from.
    pub counted: Dotted,
    /// All of it.
    pub span: Span,
}

/// `easing 0.5..2.5 between A and B`
#[derive(Clone, Debug)]
pub struct Fit {
    /// Which.
    pub kind: FitKind,
    /// The least.
    pub low: Expr,
    /// The most; the least where only one is said.
    pub high: Option<Expr>,
    /// The corners or notches it is confined to.
    pub between: Option<(SewnPlace, SewnPlace)>,
    /// All of it.
    pub span: Span,
}

/// How a side fits the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FitKind {
    /// The first side is longer by this much.
    Easing,
    /// The first side is so many times as long.
    Gathering,
    /// The first side is this share of the second.
    Stretching,
}

/// One line in a seam's braces.
#[derive(Clone, Debug)]
pub struct SeamItem {
    /// All of it.
    pub span: Span,
    /// What it says.
    pub node: SeamItemNode,
}

/// What a line in a seam's braces says.
#[derive(Clone, Debug)]
pub enum SeamItemNode {
    /// `allowance 0.7`
    Allowance(Expr),
    /// `stitch 504`
    Stitch(StitchWord),
    /// `tape 1`, `tape`: sewn into the seam, so wide if that is said
    Tape(Option<Expr>),
    /// `notch 8 from underarm double`, `notch at balance`, `notch in the middle`
    Notch {
        /// Where.
        place: EdgePlace,
        /// Two cuts side by side.
        double: bool,
    },
    /// `notch quarters`, `notch thirds double`, `notch every 10`
    Notches {
        /// How far apart.
        apart: NotchesApart,
        /// Two cuts side by side.
        double: bool,
    },
    /// `leaving gap 16 in lining, left`, `leaving gap 3..19 from hem_side in lining`
    Gap {
        /// How far from what it is counted from it begins; there, if nothing is said.
        begins: Option<Expr>,
        /// How long it is; where it begins elsewhere, how far from there it ends.
        length: Expr,
        /// Where it lies; anywhere if nothing is said.
        at: Option<GapAt>,
        /// The layer that has it.
        layer: Option<Name>,
        /// The copy that has it.
        hand: Option<Hand>,
    },
    /// `matching front.tip with back.tip`
    Matching(Dotted, Dotted),
    /// `caught bag.top on front.waist at waist_side`: a ply that lies on a part of an edge
    Caught {
        /// The edge that is caught.
        ply: Dotted,
        /// The edge of the seam that it lies on.
        on: Dotted,
        /// Where on it the caught edge begins.
        place: EdgePlace,
    },
    /// `felled 0.7 over back`, `french 0.7`, `edges bound 1`
    Kind {
        /// Which.
        kind: SeamKind,
        /// How wide it is when it is finished.
        width: Expr,
        /// What lies over, where the kind has an upper and an under side.
        over: Option<Dotted>,
    },
}

/// Where along its seam a gap lies.
#[derive(Clone, Debug)]
pub struct GapAt {
    /// What it is counted from; none: it lies in the middle.
    pub counted: Option<Dotted>,
    /// The edge of the seam that it lies on, where that has to be said.
    pub along: Option<Dotted>,
    /// All of it.
    pub span: Span,
}

/// How far apart the notches are that divide a seam evenly.
#[derive(Clone, Debug)]
pub enum NotchesApart {
    /// `quarters`
    Quarters,
    /// `thirds`
    Thirds,
    /// `every 10`: no further apart than that.
    Every(Expr),
}

/// How a seam is made, other than plainly.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SeamKind {
    /// `felled`: one allowance is folded round the other and sewn down.
    Felled,
    /// `french`: sewn wrong sides together, turned, and sewn again round its allowances.
    French,
    /// `lapped`: the one side, turned under, is laid on the other and sewn through.
    Lapped,
    /// `topstitched`: both allowances under one side, and sewn down from it.
    Topstitched,
    /// `edges bound`: plain, the allowances of each side bound.
    EdgesBound,
}

impl SeamKind {
    /// All of them, in the order in which they are explained.
    pub const ALL: [SeamKind; 5] =
        [SeamKind::Felled, SeamKind::French, SeamKind::Lapped, SeamKind::Topstitched, SeamKind::EdgesBound];

    /// As it is written, and as a maker says it.
    pub fn words(self) -> &'static str {
        match self {
            SeamKind::Felled => "felled",
            SeamKind::French => "french",
            SeamKind::Lapped => "lapped",
            SeamKind::Topstitched => "topstitched",
            SeamKind::EdgesBound => "edges bound",
        }
    }

    /// Whether one side lies over the other, so that it must be said which.
    pub fn has_upper_side(self) -> bool {
        matches!(self, SeamKind::Felled | SeamKind::Lapped | SeamKind::Topstitched)
    }
}

/// A side of the body, as worn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Hand {
    /// `left`
    Left,
    /// `right`
    Right,
}

impl Hand {
    /// Both.
    pub const BOTH: [Hand; 2] = [Hand::Left, Hand::Right];

    /// The other one.
    pub fn other(self) -> Hand {
        match self {
            Hand::Left => Hand::Right,
            Hand::Right => Hand::Left,
        }
    }

    /// As it is written, and as a maker says it.
    pub fn word(self) -> &'static str {
        match self {
            Hand::Left => "left",
            Hand::Right => "right",
        }
    }
}
