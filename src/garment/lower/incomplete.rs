//! What is not whole, because something in it could not be read or made sense of.

use crate::garment::{Incomplete, Merged};
use crate::report::{Diagnostic, Severity};
use crate::syntax::tree::StatementNode;

impl Incomplete {
    /// With the statements that may be lost in what could not be read, or in which something was
    /// reported while they were lowered.
    pub(super) fn with_unread(self, merged: &Merged, lowered: &[Diagnostic]) -> Incomplete {
        let is_steps = |node: &StatementNode| matches!(node, StatementNode::Steps(_));
        Incomplete {
            layers: self.layers,
            sewing: self.sewing || is_incomplete(merged, lowered, is_sewing),
            stitches: self.stitches,
            steps: self.steps || is_incomplete(merged, lowered, is_steps),
        }
    }
}

/// Whether statements of a kind may be lost in what could not be read, or name what could not be
/// found.
fn is_incomplete(merged: &Merged, lowered: &[Diagnostic], is_kind: impl Fn(&StatementNode) -> bool) -> bool {
    if merged.incomplete || merged.mistakes.iter().any(|one| one.severity() == Severity::Mistake) {
        return true;
    }
    let of_kind = merged.declarations.iter().filter(|one| is_kind(&one.statement.node));
    let mut spans: Vec<(u32, u32)> =
        of_kind.map(|one| (one.statement.span.lo, one.statement.span.hi)).collect();
    spans.sort_unstable();
    lowered.iter().filter(|one| one.severity() == Severity::Mistake).any(|one| {
        let at = one.span().lo;
        let before = spans.partition_point(|&(lo, _)| lo <= at);
        before.checked_sub(1).and_then(|last| spans.get(last)).is_some_and(|&(_, hi)| at < hi)
    })
}

fn is_sewing(node: &StatementNode) -> bool {
    matches!(
        node,
        StatementNode::Seam(_)
            | StatementNode::Finish(_)
            | StatementNode::Place(_)
            | StatementNode::Strap(_)
            | StatementNode::Band(_)
            | StatementNode::Facing(_)
            | StatementNode::Closure(_)
            | StatementNode::Layer(_)
            | StatementNode::Piece(_)
            | StatementNode::Alteration(_)
    )
}
