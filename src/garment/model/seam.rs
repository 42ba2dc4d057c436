//! Seams, and the edges and places that they name.

use super::{ClosureId, EdgeId, Expression, FinishId, LayerId, PieceId, PointId, SeamId};
use crate::few::Few;
use crate::source::Span;
use crate::syntax::tree::{FitKind, Hand, SeamKind};
use std::sync::Arc;

/// An edge of a piece, or of one layer's part, as a seam, finish or closure names it.
#[derive(Clone, Copy, Debug)]
pub struct SewnEdge {
    /// One layer's part only.
    pub layer: Option<LayerId>,
    /// The piece that is named.
    pub piece: PieceId,
    /// The edge.
    pub edge: EdgeId,
    /// On that side of the body only.
    pub on: Option<Hand>,
    /// What takes it; none of what takes nothing, as a cord or an opening.
    pub user: Option<User>,
    /// Where it is named.
    pub span: Span,
}

/// What takes an edge that it names, so that on that side of the body nothing else does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum User {
    /// A seam.
    Seam(SeamId),
    /// A closure.
    Closure(ClosureId),
    /// A finish.
    Finish(FinishId),
}

/// A corner or mark, or an end of a run of an edge, as a seam names it.
#[derive(Clone, Copy, Debug)]
pub struct SewnPoint {
    /// One layer's part only.
    pub layer: Option<LayerId>,
    /// The point.
    pub point: SewnSpot,
    /// Where it is named.
    pub span: Span,
}

/// A place that a seam names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SewnSpot {
    /// A corner or a mark.
    Point(PointId),
    /// `front.side.near`: that end of the run of an edge that the seam takes; `far` from what it is counted
    /// from.
    RunEnd {
        /// The run.
        run: EdgeId,
        /// Whether it is the farther one.
        far: bool,
    },
}

impl SewnSpot {
    /// The corner or the mark, if it is one.
    pub fn point(self) -> Option<PointId> {
        match self {
            SewnSpot::Point(point) => Some(point),
            SewnSpot::RunEnd { .. } => None,
        }
    }
}

/// Edges end to end.
#[derive(Clone, Debug, Default)]
pub struct Chain {
    /// In the order written.
    pub edges: Few<SewnEdge>,
    /// It lies on a part of another ply of its side only.
    pub over: Option<Over>,
    /// Said of it as caught, not in brackets.
    pub caught: bool,
    /// Of what a seam catches that is sewn in several layers: the only one in which it is caught.
    pub only: Option<LayerId>,
    /// All copies end to end, as one round edge; of both sides of a seam each copy to the next.
    pub ring: bool,
    /// All of it.
    pub span: Span,
}

/// Which part of another ply a ply lies on: `a + (b and c)`, where `c` lies on `b`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Over {
    /// Which of the plies of its side.
    pub ply: usize,
    /// Which of that ply's edges.
    pub edge: usize,
}

/// A seam.
#[derive(Clone, Debug)]
pub struct Seam {
    /// Its name.
    pub name: Arc<str>,
    /// Where its name stands.
    pub name_span: Span,
    /// What people read.
    pub label: Option<Arc<str>>,
    /// All of it.
    pub span: Span,
    /// Plies before `to`.
    pub first: Few<Chain>,
    /// Plies after `to`.
    pub second: Few<Chain>,
    /// How the sides fit, when not equal.
    pub fit: Option<Fit>,
    /// Each of its edges is sewn to itself, across the fold of its piece; there is no second side.
    pub across_fold: bool,
    /// Closures caught between the sides.
    pub enclosing: Vec<(ClosureId, Span)>,
    /// Its allowance.
    pub allowance: Option<(Expression, Span)>,
    /// Its stitch.
    pub stitch: Option<Stitch>,
    /// The tape that is sewn into it.
    pub tape: Option<SeamTape>,
    /// How it is made, where not plainly.
    pub work: Option<SeamWork>,
    /// Notches on every ply.
    pub notches: Vec<SeamNotch>,
    /// Notches that divide it evenly.
    pub divided: Vec<SeamNotches>,
    /// A gap left for turning.
    pub gaps: Vec<Gap>,
    /// Ends that meet.
    pub matching: Vec<(SewnPoint, SewnPoint)>,
    /// Something in it could not be made sense of (already reported): say nothing more of it.
    pub poisoned: bool,
    /// Declared by a `split`.
    pub by_split: bool,
}

/// Tape that is sewn into a seam, which then does not stretch.
#[derive(Clone, Debug)]
pub struct SeamTape {
    /// How wide it is; none: of any width.
    pub width: Option<Expression>,
    /// Where it is said.
    pub span: Span,
}

impl Seam {
    /// The ring that it says, if it says one.
    pub fn ring(&self) -> Option<Ring> {
        let said = self.first.iter().chain(&self.second).find(|chain| chain.ring)?;
        let mut edges = self.first.iter().chain(&self.second).flat_map(|chain| &chain.edges);
        let piece = edges.next()?.piece;
        let way = match edges.all(|edge| edge.piece == piece) && !self.joins_rings() {
            true => RingWay::EachToTheNext,
            false => RingWay::AllInOne,
        };
        Some(Ring { way, span: said.span })
    }

    /// Whether it joins the ring of a piece in one layer to that in another.
    fn joins_rings(&self) -> bool {
        let sides = || self.first.iter().chain(&self.second);
        let layers = |side: &[Chain]| -> Vec<Option<LayerId>> {
            side.iter().flat_map(|chain| &chain.edges).map(|edge| edge.layer).collect()
        };
        let (one, other) = (layers(&self.first), layers(&self.second));
        sides().all(|chain| chain.ring) && one.iter().all(|layer| layer.is_some() && !other.contains(layer))
    }
}

/// A ring of pieces that are alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ring {
    /// How.
    pub way: RingWay,
    /// Where it is said.
    pub span: Span,
}

/// How a seam has to do with a ring of pieces that are alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RingWay {
    /// It joins each to the next, and the last to the first.
    EachToTheNext,
    /// It goes once round all of them.
    AllInOne,
}

/// How the sides of a seam fit.
#[derive(Clone, Debug)]
pub struct Fit {
    /// Which.
    pub kind: FitKind,
    /// The least: a length for easing, else a plain number.
    pub low: Expression,
    /// The most.
    pub high: Expression,
    /// The corners, marks or notches it is confined to.
    pub between: Option<(SewnPoint, SewnPoint)>,
    /// Where it is said.
    pub span: Span,
}

/// A stitch.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stitch {
    /// The number of ISO 4915:1991.
    pub number: u16,
    /// Where it is said.
    pub span: Span,
}

/// How a seam is made, other than plainly.
#[derive(Clone, Debug)]
pub struct SeamWork {
    /// Which kind.
    pub kind: SeamKind,
    /// How wide it is when it is finished.
    pub width: Expression,
    /// The side that lies over; none of a kind that has none.
    pub over: Option<SeamSide>,
    /// Where it is said.
    pub span: Span,
}

/// A side of a seam.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SeamSide {
    /// Before `to`.
    First,
    /// After `to`.
    Second,
}

impl SeamSide {
    /// The other one.
    pub fn other(self) -> SeamSide {
        match self {
            SeamSide::First => SeamSide::Second,
            SeamSide::Second => SeamSide::First,
        }
    }
}

/// A notch on every ply of a seam.
#[derive(Clone, Debug)]
pub struct SeamNotch {
    /// Where.
    pub at: NotchAt,
    /// Two cuts side by side.
    pub double: bool,
    /// Where it is said.
    pub span: Span,
}

/// Where a notch on every ply of a seam is.
#[derive(Clone, Debug)]
pub enum NotchAt {
    /// So far, or such a share of the seam, from an end, a joint or a place on one of its edges.
    From(Expression, SewnPoint),
    /// Such a share of the seam, from neither end: a half.
    Share(Expression),
}

impl SeamNotch {
    /// How far, or which share of the seam.
    pub fn amount(&self) -> &Expression {
        self.at.amount()
    }
}

impl NotchAt {
    /// How far, or which share of the seam.
    pub fn amount(&self) -> &Expression {
        match self {
            NotchAt::From(amount, _) | NotchAt::Share(amount) => amount,
        }
    }
}

/// Notches that divide a seam evenly, as it is sewn.
#[derive(Clone, Debug)]
pub struct SeamNotches {
    /// How many parts, or how far apart they are at most.
    pub apart: NotchSpacing,
    /// Two cuts side by side.
    pub double: bool,
    /// Where it is said.
    pub span: Span,
}

/// How far apart notches are that divide a seam evenly.
#[derive(Clone, Debug)]
pub enum NotchSpacing {
    /// The seam in so many parts.
    Parts(u32),
    /// In as few parts as are no longer than this.
    AtMost(Expression),
}

/// A gap left for turning.
#[derive(Clone, Debug)]
pub struct Gap {
    /// How long.
    pub length: Expression,
    /// Where along the seam; anywhere if nothing is said.
    pub at: Option<GapAt>,
    /// The layer that has it.
    pub layer: Option<LayerId>,
    /// The copy that has it.
    pub hand: Option<Hand>,
    /// Where it is said.
    pub span: Span,
}

/// Where along its seam a gap lies.
#[derive(Clone, Debug)]
pub struct GapAt {
    /// Its two ends; none: it lies in the middle.
    pub between: Option<[NotchAt; 2]>,
    /// The edge of the seam that it lies on, where that is said; the middle is that of this edge.
    pub along: Option<SewnEdge>,
    /// Where it is said.
    pub span: Span,
}
