//! What of a garment is seen outside, and what of that is sewn together.

use super::flat::Flat;
use super::making::Making;
use super::patches::host_of;
use crate::garment::LayerId;
use crate::sewing::surface::{FaceId, PlyAt, StretchId};
use crate::shape::Point;

/// What is no wider than this and much longer is a facing or a strip, in millimetres.
const NARROW: f64 = 75.0;
/// Two faces that are sewn together along a stretch of each, or closed there.
#[derive(Clone, Copy, Debug)]
pub struct Met {
    /// One face, and its stretch.
    pub one: (FaceId, StretchId),
    /// The other, and whether both stretches go the same way round their faces.
    pub other: (FaceId, StretchId),
    /// The stretches go the same way.
    pub same_way: bool,
}

/// Whether a piece is a narrow strip, as a facing is: about as wide all along, and much longer than wide.
pub fn is_strip(making: &Making, face: FaceId) -> bool {
    let Some(flat) = making.flat(face) else { return false };
    let next = flat.ring.iter().cycle().skip(1);
    let round: f64 = flat.ring.iter().zip(next).map(|(one, other)| one.distance(*other)).sum();
    let wide = 2.0 * flat.area() / round.max(1.0);
    wide < NARROW && round > 8.0 * wide
}

/// Whether a piece is a band: it is folded, with one edge brought onto the other.
pub fn is_band(making: &Making, flat: &Flat) -> bool {
    flat.flap || !making.garment.piece(flat.drawn.piece).folds.is_empty()
}

/// What is seen outside: the first layer, and bands of others; nothing that is placed on something.
pub fn outside(making: &Making) -> Vec<FaceId> {
    let surface = making.surface;
    let first = LayerId::enumerate(&making.garment.layers)
        .find(|(_, layer)| !layer.fused && !layer.pieces.is_empty());
    let is_outside = |face: &FaceId| {
        let Some(flat) = making.flat(*face) else { return false };
        host_of(making, *face).is_none()
            && (is_band(making, flat) || first.as_ref().is_some_and(|(first, _)| *first == flat.layer))
    };
    surface.face_ids().filter(is_outside).collect()
}

/// Every two faces that are sewn together.
pub fn met(making: &Making, outside: &[FaceId]) -> Vec<Met> {
    let surface = making.surface;
    let mut all = Vec::new();
    for join in &surface.joins {
        let own = |second: bool| {
            join.plies
                .iter()
                .filter(move |ply| matches!(ply.at, PlyAt::Second(_)) == second && ply.at != PlyAt::Caught)
        };
        for one in own(false) {
            for other in own(true) {
                let (face, its) = (surface.face_of(one.stretch), surface.face_of(other.stretch));
                if outside.contains(&face) && outside.contains(&its) {
                    let same_way = one.against == other.against;
                    all.push(Met { one: (face, one.stretch), other: (its, other.stretch), same_way });
                }
            }
        }
    }
    all
}

impl Met {
    /// Places that come on one another, on the flat copies of both.
    pub fn pairs(&self, making: &Making) -> Vec<(Point, Point)> {
        self.pairs_in(making, 4)
    }

    /// The same, at the ends of so many equal parts.
    fn pairs_in(&self, making: &Making, parts: u32) -> Vec<(Point, Point)> {
        let path = |(face, stretch): (FaceId, StretchId)| {
            making.flat(face).and_then(|flat| flat.stretch(making.garment, making.surface, stretch))
        };
        let (Some(one), Some(other)) = (path(self.one), path(self.other)) else { return Vec::new() };
        let other = if self.same_way { other } else { other.reversed() };
        let at = |share: f64| {
            (one.point_at_length(share * one.length()), other.point_at_length(share * other.length()))
        };
        (0..=parts).map(|nth| at(f64::from(nth) / f64::from(parts))).collect()
    }

    /// The same from one of the faces to the other; none of others.
    pub fn between(&self, making: &Making, from: FaceId, to: FaceId) -> Vec<(Point, Point)> {
        self.between_in(making, from, to, 4)
    }

    /// The same, at the ends of so many equal parts.
    pub fn between_in(&self, making: &Making, from: FaceId, to: FaceId, parts: u32) -> Vec<(Point, Point)> {
        let turned =
            |pairs: Vec<(Point, Point)>| pairs.into_iter().map(|(one, other)| (other, one)).collect();
        match (self.one.0, self.other.0) {
            (one, other) if (one, other) == (from, to) => self.pairs_in(making, parts),
            (one, other) if (other, one) == (from, to) => turned(self.pairs_in(making, parts)),
            _ => Vec::new(),
        }
    }
}
