//! `spread`: cut the whole line and move apart, square to it.

use super::Step;
use super::beyond::slash;
use super::lengthen::moved_apart;
use crate::garment::Target;
use crate::resolve::model::DrawnPiece;
use crate::resolve::work::Work;

/// Spreads the piece at the target's line.
pub(super) fn spread(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let slash = slash(work, target, drawn)?;
    moved_apart(work, step, target, drawn, &slash, slash.beyond * step.amount, &[])
}
