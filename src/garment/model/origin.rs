//! What pieces were first drawn as.

use super::{Garment, Outline, PieceId, PieceOrigin, PointId};
use smallvec::{SmallVec, smallvec};

/// A piece is followed back through no more copies, strips, rests, splits and joins than this.
const FOREBEARS: usize = 16;

impl Garment {
    /// What a piece was first drawn as: itself, or what it is a copy, a strip, a rest, a side of a split
    /// or a join of. Pieces of different layers that share an origin lie on one another when worn.
    pub fn origins(&self, piece: PieceId) -> SmallVec<[PieceId; 4]> {
        let (mut open, mut found): (SmallVec<[PieceId; 4]>, SmallVec<_>) =
            (smallvec![piece], SmallVec::new());
        for _ in 0..FOREBEARS {
            let Some(piece) = open.pop() else { break };
            let declared = self.piece(piece);
            match declared.origin {
                PieceOrigin::Split { of, .. } => {
                    open.push(of);
                    continue;
                }
                PieceOrigin::Join { by } => {
                    open.extend(self.alteration(by).targets.iter().map(|target| target.piece));
                    continue;
                }
                PieceOrigin::Drawn => {}
            }
            match &declared.drawing.outline {
                Outline::Strip { of, .. } | Outline::Copy { of, .. } | Outline::Rest { of, .. } => {
                    open.push(self.paper(of.paper).piece);
                }
                Outline::None | Outline::Walk { .. } | Outline::Rectangle { .. } => match declared.like {
                    Some(block) => open.push(block),
                    None => found.push(piece),
                },
            }
        }
        found
    }

    /// The point that this one was first drawn as, before copies, splits and joins.
    pub fn point_origin(&self, point: PointId) -> PointId {
        let mut at = point;
        for _ in 0..FOREBEARS {
            let known = self.point(at);
            let Some(before) = known.same_as.or(known.copied_from) else { break };
            at = before;
        }
        at
    }
}
