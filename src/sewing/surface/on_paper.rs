//! Where stretches lie on the paper of their pieces.

use super::model::{StretchId, Surface};
use crate::resolve::SizedGarment;
use crate::sewing::model::SewnPart;
use crate::shape::Point;

impl Surface {
    /// The place of a stretch that is that share along it, as its ring goes, on the paper of its piece; what lies on a half
    /// beyond the fold is where its mirror image lies.
    pub fn on_paper(
        &self,
        sized: &SizedGarment,
        parts: &[SewnPart],
        stretch: StretchId,
        share: f64,
    ) -> Option<Point> {
        let (own, side) = (self.stretch(stretch), self.side_of(stretch));
        let drawn = sized.paper(parts.get(side.part.index())?.part.paper)?;
        let path = &drawn.edge_at(side.edge)?.path;
        let along = own.from + share * (own.to - own.from);
        let of_side = if side.length > 0.0 { along / side.length } else { 0.0 };
        let of_side = if side.mirrored { 1.0 - of_side } else { of_side };
        Some(path.point_at_length(of_side * path.length()))
    }
}
