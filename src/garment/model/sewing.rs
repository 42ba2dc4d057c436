use super::{
    ClosureId, CordId, EdgeId, Expression, FabricId, FinishId, LayerId, PieceId, PointId, RowId, SeamId,
    TackId, ValueId,
};
use crate::few::Few;
use crate::source::Span;
use crate::syntax::tree::{Fastener, FitKind, Hand, RowEnd, SeamKind, Verb, ZipperKind};
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
    /// Turned under and felled by hand onto the stitching of a seam.
    TurnedUnderOnto(SeamId),
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

/// A piece placed on another.
#[derive(Clone, Debug)]
pub struct Placement {
    /// One layer's part only.
    pub layer: Option<LayerId>,
    /// What is placed.
    pub piece: PieceId,
    /// What it is placed on, and in which layer if that is said.
    pub on_layer: Option<LayerId>,
    /// What it is placed on.
    pub on: PieceId,
    /// On that side of the body only.
    pub hand: Option<Hand>,
    /// Corners of what is placed and marks or corners of what it is placed on.
    pub corners: Vec<PlacedCorner>,
    /// Edges that are topstitched.
    pub topstitched: Vec<(EdgeId, Span)>,
    /// Where it is said that all of its edges are that nothing catches: a patch.
    pub all_round: Option<Span>,
    /// Edges that are caught in a seam or closure.
    pub caught: Vec<Caught>,
    /// The words `place pocket on front`.
    pub span: Span,
    /// Something in it could not be made sense of (already reported).
    pub poisoned: bool,
}

/// `corner bottom_left at pocket_corner`
#[derive(Clone, Copy, Debug)]
pub struct PlacedCorner {
    /// Of what is placed.
    pub corner: PointId,
    /// Of what it is placed on.
    pub at: PointId,
    /// Where it is said.
    pub span: Span,
}

/// `caught bottom in hem_band`
#[derive(Clone, Copy, Debug)]
pub struct Caught {
    /// An edge of what is placed.
    pub edge: EdgeId,
    /// Where it is named.
    pub span: Span,
    /// What catches it.
    pub by: Catcher,
}

/// What an edge is caught in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Catcher {
    /// A seam.
    Seam(SeamId),
    /// A closure.
    Closure(ClosureId),
}

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

    /// All amounts that it says.
    pub fn amounts(&self) -> impl Iterator<Item = &Expression> {
        let anchors = self.between.iter().flat_map(|(from, to)| [from, to]).filter_map(Anchor::amount);
        self.count.iter().chain(&self.size).chain(&self.stand).chain(anchors)
    }
}

impl ClosureKind {
    /// What of its edges it takes: all of a zip's, and those that buttons or snaps lie on.
    pub fn takes_edges(&self) -> bool {
        match self {
            ClosureKind::Zipper { .. } => true,
            ClosureKind::Fasteners(row) => row.kind.is_lapped(),
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

/// A group of steps.
#[derive(Clone, Debug)]
pub struct StepGroup {
    /// What people read.
    pub title: Arc<str>,
    /// All of it.
    pub span: Span,
    /// In the order of work.
    pub actions: Vec<Action>,
    /// The step that it is put beside, where files are combined.
    pub beside: Option<Beside>,
}

/// Beside which step another stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Beside {
    /// That step.
    pub title: Arc<str>,
    /// After it, and not before.
    pub after: bool,
    /// It is said by a file that knows all the other steps, and is no wish.
    pub firm: bool,
}

/// One action.
#[derive(Clone, Debug)]
pub struct Action {
    /// Only in this layer.
    pub layer: Option<LayerId>,
    /// What is done.
    pub verb: Verb,
    /// What it is done to.
    pub targets: Vec<(ActionTarget, Span)>,
    /// What else the maker says of it; of a note all that it says.
    pub words: Option<Arc<str>>,
    /// All of it.
    pub span: Span,
}

/// What an action is done to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ActionTarget {
    /// A seam.
    Seam(SeamId),
    /// Joints of a seam that joins pieces in a ring, each to the next: the first and the last of them, counted from 1.
    Joints(SeamId, u32, u32),
    /// A closure.
    Closure(ClosureId),
    /// A finished edge, of one layer's part if that is said.
    Edge(Option<LayerId>, EdgeId),
    /// A dart or another take-up, of one layer's part if that is said.
    TakeUp(Option<LayerId>, EdgeId),
    /// A placed or fused piece, of one layer if that is said.
    Piece(Option<LayerId>, PieceId),
    /// A cord.
    Cord(CordId),
    /// A row of topstitching or understitching.
    Row(RowId),
    /// A tack.
    Tack(TackId),
    /// All gaps: `turn through gap`.
    AnyGap,
}
