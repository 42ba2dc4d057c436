//! What is worked out of parts, edges, seams and notions in one size.

use super::reach::Reach;
use crate::few::Few;
use crate::garment::{
    Catcher, ClosureId, CordId, EdgeId, FabricId, FinishId, LayerId, NotionId, NotionName, Part, PlacementId,
    PortionPlace, RowId, SeamId, StrapId, TackId,
};
use crate::id::index_id;
use crate::resolve::{CornerName, DrawnEdgeId};
use crate::source::Span;
use crate::syntax::tree::{CornerStyle, Fastener, FitKind, Hand};
use kurbo::Point;

index_id!(
    /// A part of a garment in one size, by its place in [`super::Sewing::parts`].
    PartId
);

impl SewnPart {
    /// What becomes of an edge; none of a piece that has fewer.
    pub fn fate(&self, edge: DrawnEdgeId) -> Option<&EdgeFate> {
        self.edges.get(edge.index())
    }

    /// Which cloth of the garment it is.
    pub fn cloth(&self) -> PortionPlace {
        PortionPlace { layer: Some(self.part.layer), hand: self.hand }
    }
}

/// A part and what becomes of its edges.
#[derive(Clone, Debug)]
pub struct SewnPart {
    /// The part.
    pub part: Part,
    /// The side of the body that it is, where left and right are told apart; the part is there twice then.
    pub hand: Option<Hand>,
    /// Fused on, not sewn: its edges have no fate and no allowance of their own.
    pub fused: bool,
    /// In the order of [`crate::resolve::DrawnPiece::edges`].
    pub edges: Vec<EdgeFate>,
    /// Notches: the piece's own, those of its seams, and one for each joint of what it is sewn to.
    pub notches: Vec<PartNotch>,
    /// Places of buttons and the like.
    pub fasteners: Vec<FastenerPlace>,
    /// Rows of topstitching and understitching.
    pub rows: Vec<PartRow>,
    /// Rows of topstitching along lines inside.
    pub line_rows: Vec<PartLineRow>,
    /// Tacks.
    pub tacks: Vec<PartTack>,
    /// Gaps for turning of which it is said where they lie.
    pub gaps: Vec<PartGap>,
}

/// What becomes of one edge of a part.
#[derive(Clone, Debug, Default)]
pub struct EdgeFate {
    /// Everything that takes it: one, unless something is wrong or a seam encloses its closure.
    pub takers: Few<Taker>,
    /// How much cloth there is beyond the stitching line, in millimetres: its finish's, else its
    /// seam's, else its piece's, else the header's; folds and bound edges have none (0).
    pub allowance: Option<f64>,
    /// Where that allowance is said.
    pub allowance_span: Option<Span>,
    /// The edge is turned up as a hem (or casing), so that the ends of its allowance mirror the
    /// neighbouring edges.
    pub turned_up: bool,
    /// How deep its turn-up is: it is turned once more so far beyond the stitching line, and again twice as
    /// far beyond it, in millimetres.
    pub turn_up: Option<f64>,
    /// How far beyond the stitching line the raw edge of a hem or casing is turned under, in millimetres.
    /// None where it is not.
    pub turned_under: Option<f64>,
    /// Nothing takes it, and nothing needs to: its piece is folded in four, and it lies inside.
    pub folded_in: bool,
}

/// What takes an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Taker {
    /// What.
    pub what: TakenBy,
    /// Where it says so.
    pub span: Span,
}

/// What takes an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TakenBy {
    /// A seam; `second` for the side after `to`.
    Seam(SeamId, bool),
    /// A finish.
    Finish(FinishId),
    /// The piece is cut on the fold there.
    Fold,
    /// A closure.
    Closure(ClosureId),
    /// Topstitched in a placement.
    Topstitched(PlacementId),
    /// Caught in a seam or closure, in a placement.
    Caught(PlacementId, Catcher),
    /// The end of a strap, which is sewn on or caught; or its long edge, which stays as it is cut.
    Strap(StrapId),
}

/// A notch on a part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartNotch {
    /// The edge.
    pub edge: DrawnEdgeId,
    /// From the edge's start.
    pub along: f64,
    /// Where it is.
    pub at: Point,
    /// Two cuts side by side.
    pub double: bool,
    /// The seam it belongs to; none of a notch that only the piece declares.
    pub seam: Option<SeamId>,
}

/// Where a button, a snap, a hook and the like is, or what it meets on the other side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FastenerPlace {
    /// The closure.
    pub closure: ClosureId,
    /// Which kind.
    pub kind: Fastener,
    /// Its middle.
    pub at: Point,
    /// Its width, or how long a toggle or a tie is; none of hooks.
    pub size: Option<f64>,
    /// The side that lies over: it has the buttonholes, loops or hooks.
    pub over: Option<Hand>,
}

/// A row of buttons or the like, or a buckle.
#[derive(Clone, Debug, PartialEq)]
pub struct FastenerRow {
    /// The closure.
    pub closure: ClosureId,
    /// Which kind.
    pub kind: Fastener,
    /// How many.
    pub count: u32,
    /// How wide; none of hooks.
    pub size: Option<f64>,
    /// From centre to centre; none of a single one.
    pub spacing: Option<f64>,
    /// Buttonhole length: width and thickness together (common practice).
    pub buttonhole: Option<f64>,
}

/// One seam in one layer (or across layers), as it is sewn once.
#[derive(Clone, Debug)]
pub struct SewnSeam {
    /// The seam.
    pub seam: SeamId,
    /// Which copies it takes.
    pub reach: Reach,
    /// The layers that its sides lie in, in order.
    pub layers: Few<LayerId>,
    /// How many times it is sewn: 2 for a left and a right one.
    pub sewings: u32,
    /// Before `to`.
    pub first: SewnSide,
    /// After `to`.
    pub second: SewnSide,
    /// How the sides must fit; none: equal.
    pub fit: Option<SewnFit>,
    /// Ends that meet: corners of the first side and of the second.
    pub ends: Vec<(SeamEnd, SeamEnd)>,
    /// Notch positions from the start of each side, in millimetres.
    pub notches: Vec<SeamNotchPlace>,
    /// The stretches between ends and notches, from start to end.
    pub stretches: Vec<Stretch>,
    /// Its gaps of which it is said where they lie.
    pub gaps: Vec<SewnGap>,
    /// Notches as they are said, by the seam and by its pieces.
    pub said_notches: Vec<SaidNotch>,
    /// It is sewn round: its start is its end.
    pub ring: bool,
    /// It joins each copy of one piece to the next, as is said.
    pub each_to_the_next: bool,
    /// All lengths and amounts are known; else nothing is said of them.
    pub known: bool,
    /// Of a seam that runs are taken out of, which of the pieces that are left it is, from its start, and how
    /// many there are; none where it is one.
    pub left: Option<(u32, u32)>,
    /// Its sides are left in unlike pieces once their runs are taken out; the lengths then mean nothing.
    pub uneven: Option<Uneven>,
    /// Copies that cannot be paired; the lengths then mean nothing.
    pub unpaired: Option<Unpaired>,
    /// It is not known which ends meet; the ends, notches and stretches are then empty.
    pub unmet: Option<Unmet>,
}

/// A gap for turning of which it is said where in its seam it lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SewnGap {
    /// Which of the seam's.
    pub gap: usize,
    /// Where it lies, or why that is not known.
    pub at: Result<GapStretch, GapLost>,
}

/// Where a gap lies in its seam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GapStretch {
    /// On the first side's first ply: from and to, in millimetres from its start.
    pub first: (f64, f64),
    /// The same on the second side.
    pub second: (f64, f64),
}

/// Why it is not known where a gap lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum GapLost {
    /// It would go so far beyond the end of the seam, or of the edge that it is to lie on, in millimetres.
    Beyond(f64),
    /// It could lie on either side of what it is counted from.
    EitherWay,
    /// What it is counted from is there on the left and on the right.
    Sides,
    /// It would lie on both sides of the place where a seam that goes round begins.
    Seamed,
    /// What it is counted from does not lie in this seam, or not in this piece of it.
    Elsewhere,
}

/// A stretch of a seam between two notches or ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// On the first side's first ply: from and to, in millimetres from its start.
    pub first: (f64, f64),
    /// The same on the second side.
    pub second: (f64, f64),
    /// Ease, gathers or stretching belong here; outside, both are equal.
    pub fitted: bool,
    /// What marks its start; none at the seam's end.
    pub from: Option<StretchEnd>,
    /// What marks its end.
    pub to: Option<StretchEnd>,
}

/// A notch as it is said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SaidNotch {
    /// The part that says it; none where the seam does.
    pub part: Option<PartId>,
    /// Where it lies on the first side's first ply, in millimetres from its start.
    pub at: f64,
    /// Two cuts side by side.
    pub double: bool,
    /// Where it is said.
    pub span: Span,
}

/// What marks the end of a stretch inside a seam.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StretchEnd {
    /// A notch, where it is said; and where the other side's own one is.
    Notch(Span, Option<Span>),
    /// Joints of both sides that are sewn together, at this corner of the first side.
    Joint(SeamEnd),
    /// Where the fit is confined to.
    Confined(Span),
}

/// Copies that cannot be paired.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unpaired {
    /// A part of the side whose copies are fewer.
    pub fewer: PartId,
    /// How many there are of it.
    pub few: u32,
    /// Where it is named.
    pub few_span: Span,
    /// A part with more.
    pub more: PartId,
    /// How many there are of it.
    pub many: u32,
    /// Where it is named.
    pub many_span: Span,
}

/// Plies of which unlike many pieces are left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Uneven {
    /// A part of the one ply, where it is named, and how many pieces are left.
    pub one: (PartId, Span, usize),
    /// The same of another.
    pub other: (PartId, Span, usize),
}

/// Ends of which it is not known how they meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unmet {
    /// One end of the one side.
    pub one: SeamEnd,
    /// An end of the other that it may or may not meet.
    pub other: SeamEnd,
    /// Where the one is named.
    pub one_span: Span,
    /// Where the other is named.
    pub other_span: Span,
    /// They are joints of one side, not its ends.
    pub joint: bool,
}

/// One side of a seam.
#[derive(Clone, Debug, Default)]
pub struct SewnSide {
    /// Plies that lie on one another.
    pub plies: Few<SewnPly>,
}

/// One ply: runs end to end.
#[derive(Clone, Debug, Default)]
pub struct SewnPly {
    /// In sewing order, each from its `reversed`-aware start.
    pub runs: Few<SewnRun>,
    /// Its whole length along the stitching line, for one sewing.
    pub length: f64,
}

/// One edge of one copy, as it is sewn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SewnRun {
    /// The part.
    pub part: PartId,
    /// The edge.
    pub edge: DrawnEdgeId,
    /// Which copy; none where the copy is its own mirror image (cut alike, or cut once).
    pub hand: Option<Hand>,
    /// Sewn from the edge's end to its start.
    pub reversed: bool,
    /// Its finished length (after folds).
    pub length: f64,
    /// It lies in another ply of the side; here it only shows where a ply lies that is no longer than a part of
    /// that.
    pub elsewhere: bool,
}

/// An end of a seam's side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct SeamEnd {
    /// The part.
    pub part: PartId,
    /// The corner.
    pub corner: CornerName,
}

/// How sides must fit, in numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SewnFit {
    /// Which.
    pub kind: FitKind,
    /// The least: millimetres for easing, else a share.
    pub low: f64,
    /// The most.
    pub high: f64,
}

/// A notch of a seam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamNotchPlace {
    /// From the start of the first side.
    pub on_first: f64,
    /// From the start of the second side.
    pub on_second: f64,
    /// Two cuts side by side.
    pub double: bool,
    /// What it marks.
    pub marks: NotchMarks,
}

/// What a notch of a seam marks; one that marks several things at a place marks them all.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct NotchMarks {
    /// It is asked for, by the seam or by a piece.
    pub given: bool,
    /// Two edges of a side meet there.
    pub joint: bool,
    /// The middle of what is cut on the fold.
    pub middle: bool,
    /// It divides the seam in equal parts.
    pub share: bool,
    /// A gap for turning begins or ends there.
    pub gap_end: bool,
    /// What is eased, gathered or stretched begins or ends there.
    pub fit_end: bool,
}

impl NotchMarks {
    /// What both mark.
    pub fn with(self, other: NotchMarks) -> NotchMarks {
        NotchMarks {
            given: self.given || other.given,
            joint: self.joint || other.joint,
            middle: self.middle || other.middle,
            share: self.share || other.share,
            gap_end: self.gap_end || other.gap_end,
            fit_end: self.fit_end || other.fit_end,
        }
    }
}

/// What asks for something to be bought.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum NotionSource {
    /// A closure.
    Closure(ClosureId),
    /// A finish.
    Finish(FinishId),
    /// A seam whose edges are bound.
    Seam(SeamId),
    /// A cord.
    Cord(CordId),
    /// The maker, who lists it.
    Listed(NotionId),
}

/// Something to buy, beside cloth.
#[derive(Clone, Debug, PartialEq)]
pub struct NotionNeed {
    /// What.
    pub name: NotionName,
    /// What asks for it.
    pub source: NotionSource,
    /// How many, over all copies of what asks for it. None of what is bought by length alone, and
    /// where the sewn surface is not known.
    pub count: Option<u32>,
    /// How long, of each.
    pub length: Option<f64>,
    /// How much of that length is there to join its ends.
    pub joining: Option<f64>,
    /// How far a binding must stretch, as a share of its length, where that is said.
    pub stretch: Option<f64>,
    /// The cloth that it is cut from, so that it is not bought.
    pub cut_from: Option<FabricId>,
    /// Where the need is said.
    pub span: Span,
}

/// The corner style of two edges that meet; mitred where nothing is said.
pub fn corner_style(corners: &[crate::garment::Corner], one: EdgeId, other: EdgeId) -> CornerStyle {
    let said = corners.iter().find(|corner| {
        (corner.first, corner.second) == (one, other) || (corner.first, corner.second) == (other, one)
    });
    said.map_or(CornerStyle::Mitred, |corner| corner.style)
}

/// A row beside an edge of a part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartRow {
    /// Which.
    pub row: RowId,
    /// The edge.
    pub edge: DrawnEdgeId,
    /// How far from the edge, in millimetres.
    pub distance: f64,
    /// The stretch of the edge's path that it lies beside, in millimetres from its start; none: all of it.
    pub along: Option<(f64, f64)>,
    /// How long it is as sewn, on one copy, in millimetres.
    pub length: f64,
    /// Where the edge is named.
    pub span: Span,
}

/// A row along a line inside a part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartLineRow {
    /// Which.
    pub row: RowId,
    /// The line.
    pub line: EdgeId,
    /// How long it is as sewn, on one copy, in millimetres.
    pub length: f64,
    /// Where the line is named.
    pub span: Span,
}

/// A tack on a part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartTack {
    /// Which.
    pub tack: TackId,
    /// Where, on the paper.
    pub at: Point,
}

/// What an edge of a part has of a gap for turning.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartGap {
    /// The seam.
    pub seam: SeamId,
    /// Which of its gaps.
    pub gap: usize,
    /// The edge.
    pub edge: DrawnEdgeId,
    /// From where to where along the edge's path, in millimetres from its start.
    pub along: (f64, f64),
}
