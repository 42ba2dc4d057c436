//! Which copies a seam or closure takes.

use crate::syntax::tree::Hand;

/// Which copies a seam or closure takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    /// All: of no part are left and right told apart.
    Both,
    /// One side of the body.
    On {
        /// Which.
        hand: Hand,
        /// The other side of the body has the same.
        of_two: bool,
    },
    /// Left on one side of it, right on the other.
    Across,
    /// All, once round.
    Round,
}

impl Reach {
    /// The one side of the body that it is on.
    pub fn hand(self) -> Option<Hand> {
        match self {
            Reach::On { hand, .. } => Some(hand),
            Reach::Both | Reach::Across | Reach::Round => None,
        }
    }
}
