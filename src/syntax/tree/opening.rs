//! `opening` and `cord`.

use super::{Chain, Dotted, Expr, Name};

/// `opening front.neckline + back.neckline passes head`
#[derive(Clone, Debug)]
pub struct Opening {
    /// The ring of edges.
    pub ring: Chain,
    /// What must pass: a body measure.
    pub passes: Name,
}

/// `cord neck_cord 120 through collar.top ends 8 free`
#[derive(Clone, Debug)]
pub struct Cord {
    /// Its name.
    pub name: Name,
    /// How long it is.
    pub length: Expr,
    /// The edges it runs through.
    pub through: Vec<Dotted>,
    /// What hangs out at each end.
    pub ends: Option<Expr>,
}
