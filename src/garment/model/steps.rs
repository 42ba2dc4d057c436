//! The order of work, as it is said.

use super::{ClosureId, CordId, EdgeId, LayerId, PieceId, RowId, SeamId, TackId};
use crate::source::Span;
use crate::syntax::tree::Verb;
use std::sync::Arc;

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
