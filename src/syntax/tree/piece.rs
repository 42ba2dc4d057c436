use super::{Dotted, EdgePlace, Expr, Hand, Name, RunWords, TakeUp, Text, WalkDart};
use crate::source::Span;

/// `piece front "Front" { … }`
#[derive(Clone, Debug)]
pub struct Piece {
    /// Its name.
    pub name: Name,
    /// What people read.
    pub title: Option<Text>,
    /// `block piece`: drawn only for others to be made from.
    pub block: bool,
    /// `piece back "Back" like front { … }`: the piece whose lines it has but for what its braces say. The merge writes
    /// them out, so that nothing after it knows of this.
    pub like: Option<Name>,
    /// What stands in its braces, in the order written.
    pub items: Vec<PieceItem>,
}

/// One line of a piece.
#[derive(Clone, Debug)]
pub struct PieceItem {
    /// All of it.
    pub span: Span,
    /// What it says.
    pub node: PieceItemNode,
}

/// What a line of a piece says.
#[derive(Clone, Debug)]
pub enum PieceItemNode {
    /// `cut 2 mirrored`
    Cut(Cut),
    /// `point tip = (3, 4)`
    Point(PointFact),
    /// `mark pocket_corner = (4, -58)`
    Mark(PointFact),
    /// `outline …`
    Outline(Outline),
    /// `move point neck_cf by (0, 6)`
    MovePoint {
        /// The corner.
        point: Name,
        /// How far.
        by: Expr,
    },
    /// `line waist across at (0, -38)`
    Line(Line),
    /// `notch armhole 8 from underarm double`
    Notch(Notch),
    /// `divide side 20 from underarm into side_zip, side`
    Divide(Divide),
    /// `dart waist_dart on waist …`
    TakeUp(TakeUp),
    /// `folded top to bottom`
    Folded {
        /// The edge that is brought over.
        edge: Name,
        /// The edge it meets.
        onto: Name,
        /// `folded top to bottom in four`: both to the middle, and then the one half on the other
        in_four: bool,
    },
    /// `grain up`
    Grain(Grain),
    /// `allowance 1.5`: of this piece's edges, where neither finish nor seam says otherwise
    Allowance(Expr),
    /// `corner side/hem square`
    Corner(CornerFact),
    /// `never flipped`: an asymmetrical piece that must not be turned over for a second layer
    NeverFlipped,
    /// `without pocket_corner, notch side`: what it does not have of the piece that it is made of or like
    Without(Vec<LeftOut>),
    /// `drawn left`: where the copy is worn that lies as it is drawn
    Drawn(Hand),
}

/// What a piece does not take over from another.
#[derive(Clone, Debug)]
pub enum LeftOut {
    /// A mark, a line, a dart … by its name.
    Named(Name),
    /// `notch side 8 from underarm`; all of the edge where no place is said
    Notch {
        /// The edge.
        edge: Name,
        /// Where on it.
        place: Option<EdgePlace>,
    },
    /// `corner side/hem`
    Corner(Name, Name),
}

impl LeftOut {
    /// The name that it begins with.
    pub fn name(&self) -> &Name {
        match self {
            LeftOut::Named(name) | LeftOut::Notch { edge: name, .. } | LeftOut::Corner(name, _) => name,
        }
    }
}

/// How a piece is cut.
#[derive(Clone, Debug)]
pub struct Cut {
    /// How many.
    pub count: Expr,
    /// How.
    pub how: CutHow,
    /// `cut 1 loose`: joined to nothing on purpose
    pub loose: bool,
}

/// How the copies of a piece lie.
#[derive(Clone, Debug)]
pub enum CutHow {
    /// `cut 2`: all the same way up
    Alike,
    /// `cut 2 mirrored`: in pairs
    Mirrored,
    /// `cut 1 on fold centre`: drawn as a half
    OnFold(Name),
}

/// A named place.
#[derive(Clone, Debug)]
pub struct PointFact {
    /// Its name.
    pub name: Name,
    /// What people read, of a mark.
    pub label: Option<Text>,
    /// Where it is.
    pub at: Expr,
}

/// How the outline is given.
#[derive(Clone, Debug)]
pub enum Outline {
    /// `outline from hem_cf { … }`
    Walk {
        /// The corner where the walk begins and ends.
        from: Name,
        /// `outline from hem_cf cutting { … }`: drawn with its allowances on
        cutting: bool,
        /// One edge at a time.
        edges: Vec<WalkEdge>,
    },
    /// `outline { side to hem_side … }`: edges in the place of those of the piece that it is like
    Parts(Vec<WalkEdge>),
    /// `outline rectangle W by H`
    Rectangle {
        /// To the side.
        width: Expr,
        /// Along the grain.
        height: Expr,
    },
    /// `outline strip of front along neckline, centre width 6`
    Strip {
        /// The piece it is taken from.
        of: Dotted,
        /// Edges that follow one another on that piece.
        along: Vec<StripEdge>,
        /// How far in the strip reaches.
        width: Expr,
        /// `mirrored`: turned over
        mirrored: bool,
    },
    /// `outline copy of front`
    Copy {
        /// The piece.
        of: Dotted,
        /// `mirrored`: turned over
        mirrored: bool,
    },
    /// `outline rest of front without front_facing`
    Rest {
        /// The whole piece.
        of: Dotted,
        /// The strip that is taken from it.
        without: Dotted,
        /// `mirrored`: turned over
        mirrored: bool,
    },
}

/// One edge of a walk.
#[derive(Clone, Debug)]
pub struct WalkEdge {
    /// All of it.
    pub span: Span,
    /// The edge's name.
    pub name: Name,
    /// What people read; none of a dart.
    pub label: Option<Text>,
    /// The corner it ends at.
    pub to: Name,
    /// How it goes there.
    pub path: EdgePath,
    /// It is a dart between two runs of one edge.
    pub dart: Option<WalkDart>,
}

/// How an edge goes.
#[derive(Clone, Debug)]
pub enum EdgePath {
    /// Straight, said or not.
    Straight,
    /// `curve leaving D arriving D through P, Q`
    Curve {
        /// Direction at its start.
        leaving: Option<Direction>,
        /// Direction at its end.
        arriving: Option<Direction>,
        /// Points it passes.
        through: Vec<Expr>,
        /// All of it.
        span: Span,
    },
    /// `handles P, Q`: a cubic Bézier
    Handles {
        /// Where its start's handle ends.
        first: Expr,
        /// Where its end's handle ends.
        second: Expr,
        /// All of it.
        span: Span,
    },
    /// `arc about P clockwise`
    Arc {
        /// The centre.
        about: Expr,
        /// Which way round, seen with y up.
        clockwise: bool,
        /// All of it.
        span: Span,
    },
}

/// A direction at the end of a curve.
#[derive(Clone, Debug)]
pub struct Direction {
    /// All of it.
    pub span: Span,
    /// Which.
    pub kind: DirectionKind,
}

/// Which direction.
#[derive(Clone, Debug)]
pub enum DirectionKind {
    /// `up`
    Up,
    /// `down`
    Down,
    /// `left`
    Left,
    /// `right`
    Right,
    /// An angle, counted from `right` towards `up`.
    Angle(Expr),
    /// `square to shoulder`
    SquareTo(Name),
    /// `along shoulder`
    Along(Name),
    /// `toward P`
    Toward(Expr),
}

/// A line inside a piece.
#[derive(Clone, Debug)]
pub struct Line {
    /// Its name.
    pub name: Name,
    /// What people read.
    pub label: Option<Text>,
    /// Where it runs.
    pub run: LineRun,
    /// `adjust`: where makers lengthen or shorten the piece.
    pub adjust: Option<Span>,
}

/// Where a line runs.
#[derive(Clone, Debug)]
pub enum LineRun {
    /// `across at P`: to both sides, until it meets the outline
    Across(Expr),
    /// `along at P`: up and down, until it meets the outline
    Along(Expr),
    /// `from P to Q`
    FromTo(Expr, Expr),
    /// `from P to Q curve …`: another way than straight
    Way(Expr, Expr, EdgePath),
}

/// `notch armhole 8 from underarm double`
#[derive(Clone, Debug)]
pub struct Notch {
    /// The edge.
    pub edge: Name,
    /// Where on it.
    pub place: EdgePlace,
    /// Two cuts side by side.
    pub double: bool,
}

/// `divide side 20 from underarm into side_zip, side`
#[derive(Clone, Debug)]
pub struct Divide {
    /// The edge.
    pub edge: Name,
    /// Where on it.
    pub place: EdgePlace,
    /// The run at that corner, then the rest.
    pub into: (Name, Name),
}

/// Which way the cloth's grain runs.
#[derive(Clone, Debug)]
pub enum Grain {
    /// `up`: along y
    Up,
    /// `across`: along x
    Across,
    /// `bias`: at 45°
    Bias,
    /// `along centre`
    Along(Name),
}

/// An edge that a strip goes along, or a run of one: `armhole 12 from underarm`
#[derive(Clone, Debug)]
pub struct StripEdge {
    /// The edge.
    pub edge: Name,
    /// The run of it that is meant; none: all of it.
    pub run: Option<RunWords>,
}

/// `corner side/hem square`
#[derive(Clone, Debug)]
pub struct CornerFact {
    /// One edge.
    pub first: Name,
    /// The other.
    pub second: Name,
    /// How the cutting line turns there.
    pub style: CornerStyle,
}

/// How a cutting line turns a corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CornerStyle {
    /// Both cutting lines go on until they meet.
    Mitred,
    /// Each allowance ends square to the first edge.
    Square,
    /// The corner is cut off across.
    Blunt,
}
