//! All that lengthening and shortening a paper hangs on, beside the paper itself, as a question to what is remembered: of
//! one on which nothing is taken up or slit, whose names are all its own. Of any other nothing is asked, and it is done.
//! The very same paper is drawn in the same words, so that which of its points are marks need not be asked again.

use super::Step;
use crate::garment::{EdgeId, Target};
use crate::kept::Question;
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::work::Work;
use crate::syntax::tree::AlterationKind;

/// What is asked; nothing where it hangs on more.
pub(super) fn question<'t>(
    work: &Work,
    step: &Step,
    targets: impl Iterator<Item = &'t Target>,
    drawn: &DrawnPiece,
) -> Option<Question> {
    let garment = work.garment;
    let memory = work.memory.filter(|_| !work.is_muted())?;
    // An S-bend is not told of where the edge is drawn anew later on.
    let is_redrawn = || memory.asked.is_redrawn_after(step.id);
    if !matches!(step.kind, AlterationKind::Lengthen | AlterationKind::Shorten) || is_redrawn() {
        return None;
    }
    let DrawnPiece { edges, lines, take_ups, slits, .. } = drawn;
    if !take_ups.is_empty() || !slits.is_empty() || !step.alteration.keeping.is_empty() {
        return None;
    }
    let is_its_own = |id: EdgeId| {
        let edge = garment.edge(id);
        edge.portion.is_none() && edge.part_of.is_none() && edge.same_run_as.is_none()
    };
    let mut names = edges.iter().map(|edge| edge.edge).chain(lines.iter().map(|line| line.edge));
    if !names.all(is_its_own) {
        return None;
    }
    let mut question = Question::default();
    question.count(step.id.index());
    question.is(step.kind == AlterationKind::Lengthen);
    question.number(step.amount);
    targets.for_each(|target| question.count(target.edge.index()));
    Some(question)
}
