use super::{AlterationKind, DartChange, Dotted, EdgePath, Expr, Name};
use crate::source::Span;

/// One alteration, as on paper: `lengthen front, back at waist by 16 keeping front.pocket_corner`,
/// `join front to back at side into body`. Which of its clauses a kind has, its
/// [form](AlterationKind::form) and the grammar say.
#[derive(Clone, Debug)]
pub struct Alteration {
    /// What is done.
    pub kind: AlterationKind,
    /// The pieces, one layer's parts, edges or darts that it is done to.
    pub targets: Vec<Dotted>,
    /// The line or edge that it is done at, of each target: after `at` or `along`.
    pub at: Option<Name>,
    /// The edge's new way.
    pub path: Option<EdgePath>,
    /// How much.
    pub amount: Option<Amount>,
    /// Marks and notches that stay: after `keeping`.
    pub keeping: Vec<Dotted>,
    /// The pieces that it makes: after `into`. Of a split what is before the line, then what is
    /// beyond it.
    pub into: Vec<Name>,
    /// What it does to a dart.
    pub dart: Option<DartChange>,
    /// `0 at underarm, 2 at hem_side`: how much at each end of an edge, instead of an amount.
    pub tapered: Option<Box<[(Expr, Name); 2]>>,
    /// `stepped`: with an edge of its own at the end where the edge was divided.
    pub stepped: bool,
}

/// How much.
#[derive(Clone, Debug)]
pub enum Amount {
    /// `by 16`
    By(Expr),
    /// `until front_zip fits`, `by about 16 until front_zip fits`
    Until {
        /// What the maker has in mind.
        about: Option<Expr>,
        /// The closure.
        closure: Name,
        /// All of it.
        span: Span,
    },
}

impl Amount {
    /// All of it, without the word before it.
    pub fn span(&self) -> Span {
        match self {
            Amount::By(by) => by.span,
            Amount::Until { span, .. } => *span,
        }
    }
}
