//! `spread` and `overlap`: cut the whole line and move apart, or over one another, square to it.

use super::Step;
use super::beyond::{goes_across, slash};
use super::lengthen::moved_apart;
use crate::garment::Target;
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::work::Work;

/// Spreads the piece at the target's line, or laps it there.
pub(super) fn spread(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let slash = slash(work, step, target, drawn)?;
    goes_across(work, target, drawn, &slash)?;
    let shift = slash.beyond * (step.kind.way() * step.amount);
    moved_apart(work, step, target, drawn, &slash, shift, &[])
}
