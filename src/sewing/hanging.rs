//! Which side of a row of buttons hangs over the other, as a flap does that is placed above its pocket: its buttonholes are in that
//! one, whichever is named first.

use super::patches::Patch;
use crate::garment::{Chain, ClosureId, Garment};
use crate::resolve::SizedGarment;

/// Whether that is the second side, and the first does not; none where neither hangs, or both do.
pub fn second_hangs(garment: &Garment, drawn: &SizedGarment, id: ClosureId) -> Option<bool> {
    let closure = garment.closure(id);
    let patches = Patch::all(garment, drawn);
    let hangs = |chain: &Chain| {
        let is_of = |patch: &Patch| chain.edges.iter().any(|sewn| patch.placement.piece == sewn.piece);
        patches.iter().any(|patch| is_of(patch) && patch.hangs())
    };
    let (first, second) = (hangs(&closure.first), hangs(&closure.second));
    (first != second).then_some(second)
}
