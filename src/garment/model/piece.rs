use super::{
    AlterationId, CountedFrom, EdgeId, EdgePlace, Expression, Garment, LayerId, PaperId, PaperUse, PieceId,
    PointId, PortionName, TakeUp,
};
use crate::source::Span;
use crate::syntax::tree::{CornerStyle, Hand};
use std::sync::Arc;

/// A piece.
#[derive(Clone, Debug)]
pub struct Piece {
    /// Its name.
    pub name: Arc<str>,
    /// What people read; the name where nothing is said.
    pub title: Arc<str>,
    /// Where its name is declared.
    pub span: Span,
    /// Drawn only for others to be made from.
    pub block: bool,
    /// Where it comes from.
    pub origin: PieceOrigin,
    /// The split or join after which it is no more.
    pub ended_by: Option<AlterationId>,
    /// The block that it is drawn like, where no other piece is drawn like that.
    pub like: Option<PieceId>,
    /// How it is cut. Split pieces have their whole's; joined pieces the first one's.
    pub cut: Cut,
    /// How it is drawn; of a split or joined piece there is nothing to draw.
    pub drawing: Drawing,
    /// Its edges and lines by name: those it may have. Which of them a derived piece really has
    /// only its drawing tells.
    pub edges: Vec<EdgeId>,
    /// Its corners, other points and marks.
    pub points: Vec<PointId>,
    /// Edges brought onto other edges when it is finished.
    pub folds: Vec<FoldOver>,
    /// Which way the grain runs.
    pub grain: Grain,
    /// Its own allowance.
    pub allowance: Option<Expression>,
    /// Corners of its cutting line that are not mitred.
    pub corners: Vec<Corner>,
    /// Must not be turned over for a second layer.
    pub never_flipped: Option<Span>,
    /// On which side of the body the copy is worn that lies as it is drawn, and where that is said.
    pub drawn: Option<(Hand, Span)>,
    /// Where one side of the body alone is first spoken of, so that left and right may differ.
    pub one_sided: Option<Span>,
    /// Left and right are told apart: one side alone is spoken of, of it or of what it is sewn to there.
    pub told_apart: bool,
    /// Its paper, and those of its parts that have alterations of their own.
    pub papers: Vec<PaperId>,
}

/// Where a piece comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PieceOrigin {
    /// Its own drawing.
    Drawn,
    /// One side of a split.
    Split {
        /// The split.
        by: AlterationId,
        /// What was split.
        of: PieceId,
        /// Beyond the line.
        beyond: bool,
    },
    /// Two pieces laid edge to edge.
    Join {
        /// The join.
        by: AlterationId,
    },
}

/// How a piece is cut.
#[derive(Clone, Debug)]
pub struct Cut {
    /// How many.
    pub count: Expression,
    /// How the copies lie.
    pub how: CutHow,
    /// It is joined to nothing on purpose.
    pub loose: bool,
    /// Where it is said.
    pub span: Span,
}

/// How the copies of a piece lie, as drawn; `open` and `close` change it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CutHow {
    /// All the same way up.
    Alike,
    /// In pairs.
    Mirrored,
    /// As halves on that edge.
    OnFold(EdgeId),
}

/// An edge or a line of one piece.
#[derive(Clone, Debug)]
pub struct EdgeName {
    /// The piece.
    pub piece: PieceId,
    /// Its name.
    pub name: Arc<str>,
    /// Where it is declared.
    pub span: Span,
    /// What people read, where its own declaration says it: [`Garment::edge_label`] follows it to copies and runs.
    pub label: Option<Arc<str>>,
    /// A line where makers lengthen or shorten the piece, by its own declaration.
    pub adjust: bool,
    /// A line inside the piece, not an edge of it.
    pub line: bool,
    /// A take-up.
    pub take_up: bool,
    /// The slit that it is a side of, or its end.
    pub side_of: Option<EdgeId>,
    /// The edge of the piece before a split or join that this one is a run of.
    pub same_run_as: Option<EdgeId>,
    /// Of a joined piece: the name that this run shares with a run of the other piece. Of a portion: the
    /// edge that it is of.
    pub part_of: Option<EdgeId>,
    /// The edge of another piece that this one was copied from (copy, strip, rest).
    pub copied_from: Option<EdgeId>,
    /// It is a portion of the edge that it is [`EdgeName::part_of`]: none of edges that pieces have.
    pub portion: Option<PortionName>,
}

/// A corner, another point or a mark of one piece.
#[derive(Clone, Debug)]
pub struct PointName {
    /// The piece.
    pub piece: PieceId,
    /// Its name.
    pub name: Arc<str>,
    /// Where it is declared.
    pub span: Span,
    /// What people read, where its own declaration says it: [`Garment::point_label`] follows it to copies.
    pub label: Option<Arc<str>>,
    /// A mark, shown on the cut piece; a plain point is only for drawing.
    pub mark: bool,
    /// The point of the piece before a split or join that this one is.
    pub same_as: Option<PointId>,
    /// The point of another piece that this one was copied from.
    pub copied_from: Option<PointId>,
}

/// How a piece is drawn.
#[derive(Clone, Debug)]
pub struct Drawing {
    /// The outline.
    pub outline: Outline,
    /// What is drawn in which order: every spot and edge after what it needs, `Outline` after all
    /// edges of a walk, lines after the outline. A circle among them is already reported, and the
    /// order is then empty.
    pub order: Vec<DrawStep>,
    /// Points and marks with their places.
    pub spots: Vec<Spot>,
    /// Lines.
    pub lines: Vec<Line>,
    /// Corners moved after a copy, in the order written.
    pub moves: Vec<MovePoint>,
    /// Edges divided, in the order written.
    pub divides: Vec<Divide>,
    /// Notches.
    pub notches: Vec<Notch>,
    /// Take-ups, in the order written.
    pub take_ups: Vec<TakeUp>,
    /// Take-ups of the piece that it is made of, by that piece's names, which this one is without, and where that is
    /// said.
    pub left_out: Vec<(EdgeId, Span)>,
}

/// One step of a drawing; the numbers are indices into the drawing's own lists.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum DrawStep {
    /// Place `spots[n]`.
    Spot(usize),
    /// Draw edge `n` of the walk.
    Edge(usize),
    /// Close the outline: assemble it, move points, divide edges.
    Outline,
    /// Draw `lines[n]`.
    Line(usize),
    /// Place all take-ups, and true the edges that they are taken from.
    TakeUps,
}

/// How an outline is given.
#[derive(Clone, Debug)]
pub enum Outline {
    /// Could not be made sense of (already reported), or a split or joined piece.
    None,
    /// A closed walk.
    Walk {
        /// One edge after the other; the last ends where the first begins.
        edges: Vec<WalkEdge>,
        /// Drawn with its allowances on: those of each edge, in the order of the edges. None of a stitching line.
        cutting: Option<Vec<DrawnWidth>>,
        /// Where it is said.
        span: Span,
    },
    /// Edges `bottom right top left`, from (0, 0) to the right and up.
    Rectangle {
        /// To the side.
        width: Expression,
        /// Up.
        height: Expression,
        /// `bottom right top left`
        edges: [EdgeId; 4],
        /// `bottom_left bottom_right top_right top_left`
        corners: [PointId; 4],
        /// Where it is said.
        span: Span,
    },
    /// A strip of another piece along some of its edges.
    Strip {
        /// The piece.
        of: PaperUse,
        /// That piece's edges, which follow one another.
        along: Vec<EdgeId>,
        /// The runs of them that are meant, where that is not all of an edge.
        runs: Vec<StripRun>,
        /// How far in it reaches.
        width: Expression,
        /// This piece's own edge on the inside.
        inner: EdgeId,
        /// Turned over, left to right.
        mirrored: bool,
        /// Where it is said.
        span: Span,
    },
    /// The same outline, points, marks, lines and notches as another piece.
    Copy {
        /// The piece.
        of: PaperUse,
        /// Turned over, left to right.
        mirrored: bool,
        /// Where it is said.
        span: Span,
    },
    /// Another piece without a strip of it.
    Rest {
        /// The whole piece.
        of: PaperUse,
        /// The strip's width, edges and piece.
        without: PieceId,
        /// That strip's edges of the whole piece.
        along: Vec<EdgeId>,
        /// That strip's width.
        width: Expression,
        /// This piece's own edge along the strip.
        inner: EdgeId,
        /// Turned over, left to right.
        mirrored: bool,
        /// Where it is said.
        span: Span,
    },
}

/// The allowance that an edge is drawn with.
#[derive(Clone, Debug, Default)]
pub struct DrawnWidth {
    /// By all that say it: they must come to one.
    pub said: Vec<Expression>,
}

/// One edge of a walk.
#[derive(Clone, Debug)]
pub struct WalkEdge {
    /// The edge.
    pub edge: EdgeId,
    /// The corner it starts at.
    pub from: PointId,
    /// The corner it ends at.
    pub to: PointId,
    /// How it goes, as far as the first dart that is drawn in it.
    pub path: EdgePath,
    /// How it goes on beyond each of the darts drawn in it.
    pub beyond_darts: Vec<BeyondDart>,
    /// Where it is said.
    pub span: Span,
}

/// A run of an edge beyond a dart that is drawn in it.
#[derive(Clone, Debug)]
pub struct BeyondDart {
    /// Where the dart leaves the edge.
    pub leaves: PointId,
    /// Where the edge goes on.
    pub returns: PointId,
    /// How it goes from there.
    pub path: EdgePath,
}

impl WalkEdge {
    /// The corners that it leads to, those of its darts among them, in order.
    pub fn ends(&self) -> impl Iterator<Item = PointId> {
        self.beyond_darts.iter().flat_map(|run| [run.leaves, run.returns]).chain([self.to])
    }

    /// Its runs, each from a corner to a corner; between two of them lies a dart.
    pub fn runs(&self) -> impl Iterator<Item = (PointId, &EdgePath, PointId)> {
        let starts = std::iter::once(self.from).chain(self.beyond_darts.iter().map(|run| run.returns));
        let paths = std::iter::once(&self.path).chain(self.beyond_darts.iter().map(|run| &run.path));
        let ends = self.beyond_darts.iter().map(|run| run.leaves).chain([self.to]);
        starts.zip(paths).zip(ends).map(|((from, path), to)| (from, path, to))
    }
}

/// How an edge goes.
#[derive(Clone, Debug)]
pub enum EdgePath {
    /// Straight.
    Straight,
    /// A smooth curve (Hobby 1986).
    Curve {
        /// Direction at its start.
        leaving: Option<Direction>,
        /// Direction at its end.
        arriving: Option<Direction>,
        /// Points it passes.
        through: Vec<Expression>,
        /// Where it is said.
        span: Span,
    },
    /// A cubic Bézier.
    Handles {
        /// Where its start's handle ends.
        first: Expression,
        /// Where its end's handle ends.
        second: Expression,
        /// Where it is said.
        span: Span,
    },
    /// A circular arc.
    Arc {
        /// Its centre.
        about: Expression,
        /// Seen with y up.
        clockwise: bool,
        /// Where it is said.
        span: Span,
    },
}

/// A direction at the end of a curve.
#[derive(Clone, Debug)]
pub enum Direction {
    /// An angle, counted from right towards up.
    Angle(Expression),
    /// Square to another edge, at the corner that they share or else at its nearer end; of the
    /// two ways the one that leads more towards the curve's other end.
    SquareTo(EdgeId, Span),
    /// Along another edge, likewise.
    Along(EdgeId, Span),
    /// From the curve's own end there, its start or its end, to a point.
    Toward(Expression),
}

/// A named place.
#[derive(Clone, Debug)]
pub struct Spot {
    /// Its name.
    pub point: PointId,
    /// Its place.
    pub at: Expression,
}

/// A line inside a piece.
#[derive(Clone, Debug)]
pub struct Line {
    /// Its name.
    pub edge: EdgeId,
    /// Where it runs.
    pub run: LineRun,
    /// Where it is said.
    pub span: Span,
}

/// Where a line runs.
#[derive(Clone, Debug)]
pub enum LineRun {
    /// To both sides, until it meets the outline.
    Across(Expression),
    /// Up and down, until it meets the outline.
    Along(Expression),
    /// From a point to a point.
    FromTo(Expression, Expression),
    /// From a point to a point, another way than straight.
    Way(Expression, Expression, Box<EdgePath>),
}

/// A corner moved after a copy.
#[derive(Clone, Debug)]
pub struct MovePoint {
    /// The corner.
    pub point: PointId,
    /// The way.
    pub by: Expression,
    /// Where it is said.
    pub span: Span,
}

/// An edge made into two.
#[derive(Clone, Debug)]
pub struct Divide {
    /// The edge.
    pub edge: EdgeId,
    /// Where on it.
    pub place: EdgePlace,
    /// The run at that corner, then the rest; one of the two may be the edge's own name.
    pub into: (EdgeId, EdgeId),
    /// Where it is said.
    pub span: Span,
}

/// A notch.
#[derive(Clone, Debug)]
pub struct Notch {
    /// The edge.
    pub edge: EdgeId,
    /// Where on it.
    pub place: EdgePlace,
    /// Two cuts side by side.
    pub double: bool,
    /// Where it is said.
    pub span: Span,
}

/// An edge brought onto another.
#[derive(Clone, Copy, Debug)]
pub struct FoldOver {
    /// The edge that is brought over.
    pub edge: EdgeId,
    /// The edge it meets.
    pub onto: EdgeId,
    /// Both are brought to the middle first, and the one half then onto the other: the edges lie inside.
    pub in_four: bool,
    /// Where it is said.
    pub span: Span,
}

impl FoldOver {
    /// Whether that is a run of one of the two edges.
    pub fn is_of(&self, garment: &Garment, edge: EdgeId) -> bool {
        [self.edge, self.onto].iter().any(|&of| garment.is_run_of(edge, of))
    }

    /// What is left of what runs from one of the edges to the other.
    pub fn share_left(&self) -> f64 {
        if self.in_four { 0.25 } else { 0.5 }
    }
}

/// A run of an edge that a strip goes along, cut square to the edge where it ends inside that.
#[derive(Clone, Debug)]
pub struct StripRun {
    /// The other piece's edge.
    pub edge: EdgeId,
    /// How far the run begins from where it is counted from; none: there.
    pub from: Option<Expression>,
    /// How far from there it ends.
    pub to: Expression,
    /// What it is counted from.
    pub counted: CountedFrom,
    /// What the strip's own end is called that is nearer to there, and the corner where that meets the faced edge.
    pub near: (EdgeId, PointId),
    /// The same of the farther one.
    pub far: (EdgeId, PointId),
    /// Where it is said.
    pub span: Span,
}

/// Which way the grain runs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Grain {
    /// Along y.
    #[default]
    Up,
    /// Along x.
    Across,
    /// At 45°.
    Bias,
    /// Along an edge.
    Along(EdgeId),
}

/// A corner of the cutting line that is not mitred.
#[derive(Clone, Copy, Debug)]
pub struct Corner {
    /// One edge.
    pub first: EdgeId,
    /// The other.
    pub second: EdgeId,
    /// How.
    pub style: CornerStyle,
    /// Where it is said.
    pub span: Span,
}

/// A paper pattern: a piece, or one layer's part of it that is altered by itself.
#[derive(Clone, Debug)]
pub struct Paper {
    /// The piece.
    pub piece: PieceId,
    /// The layer, if it is one layer's own.
    pub layer: Option<LayerId>,
    /// The alterations that touch it, in order; a split or join that ends it is the last. After
    /// `n` of them stands version `n`.
    pub alterations: Vec<AlterationId>,
    /// Papers that a split or join makes of it.
    pub becomes: Vec<PaperId>,
    /// Papers that a split or join made it of: one, or two.
    pub made_of: Vec<PaperId>,
}
