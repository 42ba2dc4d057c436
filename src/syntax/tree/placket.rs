//! Plackets: strips, seams and finishes along a slit, said in one line.

use super::{Dotted, Expr, Hand, Name};

/// `placket wrist_placket on sleeve.wrist_slit bound 1`
#[derive(Clone, Debug)]
pub struct Placket {
    /// Its name, and that of its strip and of the seam that sews it on; of two parts what their names begin with.
    pub name: Name,
    /// The slit: `piece.slit` or `layer.piece.slit`.
    pub slit: Dotted,
    /// How it is made.
    pub kind: PlacketKind,
}

/// How a placket is made.
#[derive(Clone, Debug)]
pub enum PlacketKind {
    /// `bound 1`: one strip along both sides, folded round them; how wide it is finished.
    Bound(Expr),
    /// `two-part over 2.5 under 1`: a strip on each side, that on the far side over the other.
    TwoPart {
        /// How wide the strip on the far side is finished.
        over: Expr,
        /// How wide the one on the near side is.
        under: Expr,
        /// `left over right`: of a slit on the fold, the side of the body on which the upper strip is sewn.
        upper: Option<Hand>,
    },
}
