//! What of a garment is worn round the trunk of a body, and how wide that is.

use super::trunk::{drawn_to_trunk, is_trunk};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, PieceId, ValueId};
use crate::sewing::surface::{FaceId, Surface};

/// Whether a piece of it is worn loose, so that nothing must go through it.
pub(super) fn is_loose(garment: &Garment, size: &WorkedSize, surface: &Surface, faces: &[FaceId]) -> bool {
    faces.iter().any(|&face| {
        let part = size.sewn.part(surface.face(face).part).part;
        garment.piece(part.piece).cut.loose
    })
}

/// The girth of the trunk that an opening is said to pass.
pub(super) fn passed(garment: &Garment, size: &WorkedSize) -> Option<(ValueId, f64)> {
    let passes = garment.openings.iter().map(|opening| opening.passes);
    let trunk = passes.filter(|&id| is_trunk(&garment.value(id).kind, &garment.value(id).name));
    let girths = trunk.filter_map(|id| Some((id, size.drawn.scalar(id)?)));
    girths.min_by(|one, other| one.1.total_cmp(&other.1))
}

/// The least girth of the trunk that pieces of the garment are drawn to.
pub(super) fn drawn_to(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    faces: &[FaceId],
) -> Option<(ValueId, f64)> {
    let pieces = faces.iter().map(|&face| size.sewn.part(surface.face(face).part).part.piece);
    let mut pieces: Vec<PieceId> = pieces.flat_map(|piece| garment.origins(piece)).collect();
    pieces.sort_unstable();
    pieces.dedup();
    let mut least: Option<(ValueId, f64)> = None;
    for id in drawn_to_trunk(garment, &pieces) {
        let girth = size.drawn.scalar(id)?;
        if least.is_none_or(|(_, known)| girth < known) {
            least = Some((id, girth));
        }
    }
    least
}
