//! Faces of one layer that lie on one another: an upper and an under collar.

use crate::garment::{Garment, PieceId};
use crate::id_hash::IdSet;
use crate::resolve::DrawnEdgeId;
use crate::sewing::model::SewnPart;
use crate::sewing::surface::{FaceId, Join, JoinedBy, PlyAt, Surface};

/// Two faces, the one that comes first in the surface before the other.
type Pair = (FaceId, FaceId);

/// The faces that lie on one another as plies of one side of a seam and are cut from one drawing in one layer; and what hangs
/// on the one as the same hangs on the other, as each of two collars does on its own stand.
pub(super) fn over_one_another(garment: &Garment, parts: &[SewnPart], surface: &Surface) -> IdSet<Pair> {
    let part = |face: FaceId| parts.get(surface.face(face).part.index()).map(|sewn| sewn.part);
    let is_one_drawing = |one: PieceId, other: PieceId| {
        let others = garment.origins(other);
        one == other || garment.origins(one).iter().any(|origin| others.contains(origin))
    };
    let is_like = |one: FaceId, other: FaceId| match (part(one), part(other)) {
        (Some(a), Some(b)) => one != other && a.layer == b.layer && is_one_drawing(a.piece, b.piece),
        _ => false,
    };
    let mut found: IdSet<Pair> = IdSet::default();
    let mut open: Vec<Pair> = Vec::new();
    let stacks = surface.joins.iter().filter(|join| join.plies.len() > 2 && is_seam(join));
    for join in stacks {
        for (at, one) in join.plies.iter().enumerate() {
            for other in join.plies.iter().skip(at + 1).filter(|other| is_one_side(one.at, other.at)) {
                let (one, other) = (surface.face_of(one.stretch), surface.face_of(other.stretch));
                if is_like(one, other) && found.insert(in_order(one, other)) {
                    open.push(in_order(one, other));
                }
            }
        }
    }
    while let Some((one, other)) = open.pop() {
        let (hanging, others) = (hanging_on(surface, one), hanging_on(surface, other));
        for (edge, own) in hanging {
            for &(_, beyond) in others.iter().filter(|(at, _)| *at == edge) {
                let pair = in_order(own, beyond);
                if pair != (one, other) && is_like(own, beyond) && found.insert(pair) {
                    open.push(pair);
                }
            }
        }
    }
    found
}

/// Two faces in the order in which they are found.
pub(super) fn in_order(one: FaceId, other: FaceId) -> Pair {
    if other < one { (other, one) } else { (one, other) }
}

fn is_seam(join: &Join) -> bool {
    matches!(join.by, JoinedBy::Seam { .. })
}

fn is_one_side(one: PlyAt, other: PlyAt) -> bool {
    matches!((one, other), (PlyAt::First(_), PlyAt::First(_)) | (PlyAt::Second(_), PlyAt::Second(_)))
}

/// What is sewn to a face by itself, and to which of its edges.
fn hanging_on(surface: &Surface, face: FaceId) -> Vec<(DrawnEdgeId, FaceId)> {
    let mut found = Vec::new();
    for stretch in surface.stretches_of(face) {
        let Some(join) = surface.stretch(stretch).join.map(|join| surface.join(join)) else { continue };
        let [one, other] = join.plies.as_slice() else { continue };
        let beyond = if one.stretch == stretch { other } else { one };
        let own = (surface.side_of(stretch).edge, surface.face_of(beyond.stretch));
        if is_seam(join) && own.1 != face && !found.contains(&own) {
            found.push(own);
        }
    }
    found
}
