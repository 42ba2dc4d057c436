//! Which measures of the body a piece is drawn to.

use super::{Garment, PieceId, Used, ValueId, ValueKind};
use smallvec::SmallVec;
use std::sync::OnceLock;

/// Of each piece the measures of the body that its drawing uses, worked out when first asked: every size asks the
/// same.
#[derive(Clone, Debug, Default)]
pub struct DrawnTo(OnceLock<Vec<SmallVec<[ValueId; 4]>>>);

impl Garment {
    /// The measures of the body that a piece is drawn to, itself or by way of other values, in the order in which the
    /// body names them. Of a piece that is a copy or a part of another only what its own drawing says
    /// ([`Garment::origins`] tells of what it is one).
    pub fn drawn_to(&self, piece: PieceId) -> &[ValueId] {
        let all = self.drawn_to.0.get_or_init(|| {
            let mut seen = vec![None; self.values.len()];
            PieceId::enumerate(&self.pieces).map(|(id, _)| measures_drawn_to(self, id, &mut seen)).collect()
        });
        all.get(piece.index()).map_or(&[], |found| found.as_slice())
    }
}

/// Those of one piece. Of each value is known for which piece it was last met.
fn measures_drawn_to(
    garment: &Garment,
    piece: PieceId,
    seen: &mut [Option<PieceId>],
) -> SmallVec<[ValueId; 4]> {
    let values = |used: Used| if let Used::Value(value) = used { Some(value) } else { None };
    let mut open: SmallVec<[ValueId; 16]> = SmallVec::new();
    let mut found: SmallVec<[ValueId; 4]> = SmallVec::new();
    let mut meet = |id: ValueId, open: &mut SmallVec<[ValueId; 16]>| {
        let Some(seen) = seen.get_mut(id.index()) else { return };
        if seen.replace(piece) != Some(piece) {
            open.push(id);
        }
    };
    for id in garment.piece(piece).drawing.expressions().flat_map(|own| own.uses()).filter_map(values) {
        meet(id, &mut open);
    }
    while let Some(id) = open.pop() {
        let value = garment.value(id);
        if matches!(value.kind, ValueKind::Body(_)) {
            found.push(id);
        }
        for id in value.kind.expressions().into_iter().flat_map(|own| own.uses()).filter_map(values) {
            meet(id, &mut open);
        }
    }
    found.sort_unstable();
    found
}
