//! What a piece made from another one calls the other's edges and points.

use crate::garment::{EdgeId, Garment, PieceId, PointId};
use crate::resolve::drawn_piece::CornerName;

/// The piece's own name for an edge or line that it was copied from.
pub(super) fn own_edge(garment: &Garment, piece: PieceId, from: EdgeId) -> Option<EdgeId> {
    let own = garment.piece(piece).edges.iter().copied();
    own.clone().find(|&own| garment.edge(own).copied_from == Some(from)).or_else(|| {
        let mut own = own;
        own.find(|&own| garment.edge(own).copied_from.is_some_and(|base| garment.is_run_of(from, base)))
    })
}

/// The piece's own name for a point that it was copied from.
pub(super) fn own_point(garment: &Garment, piece: PieceId, from: PointId) -> Option<PointId> {
    let own = garment.piece(piece).points.iter().copied();
    own.clone().find(|&own| garment.point(own).copied_from == Some(from)).or_else(|| {
        let mut own = own;
        own.find(|&own| garment.point(own).copied_from.is_some_and(|base| garment.is_point_of(from, base)))
    })
}

/// The piece's own name for a corner; where no point or edge of its own answers, the corner is
/// called after the two edges that meet there.
pub(super) fn own_corner(
    garment: &Garment,
    piece: PieceId,
    from: CornerName,
    before: EdgeId,
    after: EdgeId,
) -> CornerName {
    match from {
        CornerName::Named(point) => match own_point(garment, piece, point) {
            Some(own) => CornerName::Named(own),
            None => CornerName::Between(before, after),
        },
        CornerName::Between(..) => CornerName::Between(before, after),
    }
}
