//! Which measures of the body a piece is drawn to.

use super::{Garment, PieceId, Used, ValueId, ValueKind};
use crate::id_hash::IdSet;
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
            PieceId::enumerate(&self.pieces).map(|(id, _)| measures_drawn_to(self, id)).collect()
        });
        all.get(piece.index()).map_or(&[], |found| found.as_slice())
    }
}

fn measures_drawn_to(garment: &Garment, piece: PieceId) -> SmallVec<[ValueId; 4]> {
    let values = |used: Used| if let Used::Value(value) = used { Some(value) } else { None };
    let drawings = garment.piece(piece).drawing.expressions();
    let mut open: Vec<ValueId> =
        drawings.into_iter().flat_map(|expression| expression.uses()).filter_map(values).collect();
    let mut seen: IdSet<ValueId> = IdSet::default();
    let mut found: SmallVec<[ValueId; 4]> = SmallVec::new();
    while let Some(id) = open.pop() {
        if !seen.insert(id) {
            continue;
        }
        let value = garment.value(id);
        if matches!(value.kind, ValueKind::Body(_)) {
            found.push(id);
        }
        let expressions = value.kind.expressions();
        open.extend(expressions.into_iter().flat_map(|expression| expression.uses()).filter_map(values));
    }
    found.sort_unstable();
    found
}
