use super::{ClosureId, EdgeId, EdgePath, Expression, LayerId, PieceId, PointId};
use crate::source::Span;

/// An alteration.
#[derive(Clone, Debug)]
pub struct Alteration {
    /// All of it.
    pub span: Span,
    /// What is done.
    pub node: AlterationNode,
}

/// What an alteration does. A [`Target`] without a layer is done to the piece's paper and to the
/// papers of all its parts.
#[derive(Clone, Debug)]
pub enum AlterationNode {
    /// Cut along the line and move what is beyond along the grain.
    Lengthen {
        /// Together instead of apart.
        shorten: bool,
        /// Pieces and their lines.
        targets: Vec<Target>,
        /// How much.
        amount: Amount,
        /// Marks that stay.
        keeping: Vec<(PointId, Span)>,
    },
    /// What lies beyond the line is gone; the cut is an edge with the line's name.
    CutOff {
        /// Pieces and their lines.
        targets: Vec<Target>,
    },
    /// The edge moves out in parallel (`trim`: in).
    Extend {
        /// In instead of out.
        trim: bool,
        /// Edges.
        targets: Vec<Target>,
        /// How far.
        by: Expression,
    },
    /// A fold becomes an edge of a mirrored pair (`close`: the other way).
    Open {
        /// The edge becomes a fold.
        close: bool,
        /// Pieces and their edges.
        targets: Vec<Target>,
    },
    /// Cut in two along the line.
    Split {
        /// The piece and its line.
        target: Target,
        /// What is before the line, then what is beyond it.
        into: (PieceId, PieceId),
        /// The edges along the cut, one of each.
        cut_edges: (EdgeId, EdgeId),
    },
    /// Two pieces laid edge to edge become one.
    Join {
        /// The piece that keeps its place, and its edge.
        first: Target,
        /// The piece laid against it, and its edge.
        second: Target,
        /// What they become.
        into: PieceId,
    },
    /// The edge goes another way between the same corners.
    Redraw {
        /// The edge.
        target: Target,
        /// Its new way; points in it are points of the piece.
        path: EdgePath,
    },
    /// Cut from the line's end and open there, hinged at its start.
    Flare {
        /// Pieces and their lines.
        targets: Vec<Target>,
        /// How far, at the line's end.
        by: Expression,
    },
    /// Cut the whole line and move apart, square to it.
    Spread {
        /// Pieces and their lines.
        targets: Vec<Target>,
        /// How far.
        by: Expression,
    },
    /// Half of what a zip shows is taken off the edge that it is sewn to; made by the closure.
    ShowZip {
        /// The closure.
        closure: ClosureId,
        /// Edges.
        targets: Vec<Target>,
        /// Half of what shows.
        by: Expression,
    },
    /// Could not be made sense of (already told): what the named pieces are after it is not known.
    Poison(Vec<Target>),
}

/// A piece, or one layer's part, and an edge or line of it.
#[derive(Clone, Debug)]
pub struct Target {
    /// One layer's part only.
    pub layer: Option<LayerId>,
    /// The piece.
    pub piece: PieceId,
    /// The line or edge. After a `cut off` the cut edge has the line's id.
    pub edge: EdgeId,
    /// The words that name the piece.
    pub span: Span,
}

/// How much to lengthen or shorten.
#[derive(Clone, Debug)]
pub enum Amount {
    /// That much.
    By(Expression),
    /// Until a closure fits.
    Until {
        /// What the maker has in mind.
        about: Option<Expression>,
        /// The closure.
        closure: ClosureId,
        /// Where it is said.
        span: Span,
    },
}

impl AlterationNode {
    /// The trade's word for it.
    pub fn word(&self) -> &'static str {
        match self {
            AlterationNode::Lengthen { shorten: false, .. } => "lengthen",
            AlterationNode::Lengthen { shorten: true, .. } => "shorten",
            AlterationNode::CutOff { .. } => "cut off",
            AlterationNode::Extend { trim: false, .. } => "extend",
            AlterationNode::Extend { trim: true, .. } => "trim",
            AlterationNode::Open { close: false, .. } => "open",
            AlterationNode::Open { close: true, .. } => "close",
            AlterationNode::Split { .. } => "split",
            AlterationNode::Join { .. } => "join",
            AlterationNode::Redraw { .. } => "redraw",
            AlterationNode::Flare { .. } => "flare",
            AlterationNode::Spread { .. } => "spread",
            AlterationNode::ShowZip { .. } => "showing",
            AlterationNode::Poison(_) => "",
        }
    }

    /// All its targets.
    pub fn targets(&self) -> Vec<&Target> {
        match self {
            AlterationNode::Lengthen { targets, .. }
            | AlterationNode::CutOff { targets }
            | AlterationNode::Extend { targets, .. }
            | AlterationNode::Open { targets, .. }
            | AlterationNode::Flare { targets, .. }
            | AlterationNode::Spread { targets, .. }
            | AlterationNode::ShowZip { targets, .. }
            | AlterationNode::Poison(targets) => targets.iter().collect(),
            AlterationNode::Split { target, .. } | AlterationNode::Redraw { target, .. } => vec![target],
            AlterationNode::Join { first, second, .. } => vec![first, second],
        }
    }
}
