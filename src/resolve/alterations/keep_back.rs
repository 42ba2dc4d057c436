//! `clear of cloth`: what lies behind a zip is kept back from its teeth. Its edges beside that lose a little, which is
//! eased where they are sewn.

use super::Step;
use super::extend::extend;
use crate::garment::Target;
use crate::resolve::drawn_piece::{DrawnPiece, KeptBack};
use crate::resolve::work::Work;
use crate::shape::tolerance::SAME_POINT;

/// Moves the target's edge in; what its neighbours lose is kept with the piece.
pub(super) fn keep_back(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let mut after = extend(work, step, target, drawn)?;
    for (before, now) in drawn.edges.iter().zip(&after.edges) {
        let (was, is) = (before.path.length(), now.path.length());
        if work.garment.is_run_of(now.edge, target.edge) || was - is <= SAME_POINT || is <= SAME_POINT {
            continue;
        }
        match after.kept_back.iter_mut().find(|own| own.edge == now.edge) {
            Some(own) => *own = KeptBack { lost: own.lost + was - is, share: own.share * was / is, ..*own },
            None => after.kept_back.push(KeptBack {
                edge: now.edge,
                by: step.id,
                lost: was - is,
                share: was / is,
            }),
        }
    }
    Some(after)
}
