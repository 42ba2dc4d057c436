use super::{EdgeId, PaperId, PointId, ValueId};
use crate::source::Span;

/// What a value is an amount of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Dimension {
    /// A plain number, a count or a share.
    Number,
    /// Millimetres.
    Length,
    /// Square millimetres.
    Area,
    /// Radians.
    Angle,
    /// Two lengths: a place on a piece, or a way from one place to another.
    Point,
}

impl Dimension {
    /// "a length", for messages.
    pub fn words(self) -> &'static str {
        match self {
            Dimension::Number => "a plain number",
            Dimension::Length => "a length",
            Dimension::Area => "an area",
            Dimension::Angle => "an angle",
            Dimension::Point => "a point",
        }
    }
}

/// An expression with every name found and its dimension known.
#[derive(Clone, Debug)]
pub struct Expression {
    /// What it says.
    pub node: Node,
    /// Of its value; what `Poison` would have been is a guess.
    pub dimension: Dimension,
    /// Where it stands.
    pub span: Span,
}

/// What an expression says. Lengths are millimetres, angles radians, areas square millimetres.
#[derive(Clone, Debug)]
pub enum Node {
    /// Could not be made sense of; already reported. Its value is unknown, and silently so.
    Poison,
    /// The same in every size.
    Constant(f64),
    /// One a size, in the garment's order (`each`, and lists of the size table).
    EachSize(Vec<Expression>),
    /// A named value.
    Value(ValueId),
    /// Terms, each added (`true`) or taken away; numbers or points.
    Sum(Vec<(bool, Expression)>),
    /// Factors, each multiplied (`true`) or divided by.
    Product(Vec<(bool, Expression)>),
    /// Turned round.
    Negative(Box<Expression>),
    /// A function of numbers.
    Call(Function, Vec<Expression>),
    /// `(x, y)`
    Pair(Box<(Expression, Expression)>),
    /// A named point.
    Point(PointUse),
    /// Something measured on pieces.
    Geometry(Box<Geometry>),
}

/// Functions of numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Function {
    /// The least.
    Min,
    /// The most.
    Max,
    /// Without its sign.
    Abs,
    /// Of an area a length; of a number a number.
    Sqrt,
    /// To the nearest multiple of the second argument; halves away from zero.
    Round,
    /// Sine of an angle.
    Sin,
    /// Cosine of an angle.
    Cos,
    /// Tangent of an angle.
    Tan,
    /// The angle of a way up and a way right, in that order.
    Atan2,
}

/// Something measured on pieces.
#[derive(Clone, Debug)]
pub enum Geometry {
    /// The length of an edge, or of a line where it lies on the piece, as drawn.
    Length(EdgeUse),
    /// The same after folds.
    Finished(EdgeUse),
    /// Over all copies cut in one layer; a half on the fold counts twice. Each use and whether it
    /// is added.
    Total(Vec<(bool, EdgeUse)>),
    /// Across the piece opened out.
    Width(PaperUse),
    /// Along the piece opened out.
    Height(PaperUse),
    /// To the side.
    X(PointPlace),
    /// Up.
    Y(PointPlace),
    /// Between two points of one piece.
    Distance(PointPlace, PointPlace),
}

/// A point given by an expression of dimension `Point`.
pub type PointPlace = Expression;

/// At which moment of its making a paper is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Moment {
    /// While the piece itself is being drawn: from its own points and edges, as they are drawn.
    Own,
    /// After so many of its paper's alterations (0: as drawn).
    After(u32),
    /// After all of them; of a piece that was split or joined, what became of it.
    Final,
}

/// A paper at a moment.
#[derive(Clone, Copy, Debug)]
pub struct PaperUse {
    /// The paper.
    pub paper: PaperId,
    /// When.
    pub moment: Moment,
    /// Where it is named.
    pub span: Span,
}

/// An edge or a line at a moment.
#[derive(Clone, Copy, Debug)]
pub struct EdgeUse {
    /// The edge.
    pub edge: EdgeId,
    /// The paper it is on (of the edge's piece).
    pub paper: PaperUse,
}

/// A point at a moment.
#[derive(Clone, Copy, Debug)]
pub struct PointUse {
    /// The point.
    pub point: PointId,
    /// The paper it is on.
    pub paper: PaperUse,
}
