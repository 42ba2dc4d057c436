//! Necklines: told by how they lie, and not by their names.
//!
//! A neckline goes from the top of a piece's middle, a fold or what opens there, to an edge that leads away to the side and is
//! sewn to a piece on which the neckline goes on.

use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, PieceId};
use crate::resolve::{DrawnEdgeId, DrawnPiece};
use crate::sewing::surface::{JoinedBy, SideId, StretchId, Surface};
use crate::sewing::{PartId, TakenBy};
use crate::shape::Point;

/// A middle is upright, and a shoulder leads away to the side, by this share: raglan seams go down twice as far as to the
/// side at the most, the sides of skirts further.
const ASLANT: f64 = 0.5;
/// A neckline is at least so wide to each side, in millimetres.
const WIDE: f64 = 20.0;

/// Looks for them.
pub(super) struct Necklines<'a> {
    pub(super) garment: &'a Garment,
    pub(super) size: &'a WorkedSize,
    pub(super) surface: &'a Surface,
}

/// Where a neckline ends.
pub(super) struct NeckEnds {
    /// The edge that begins at its end in the middle.
    pub(super) at_middle: DrawnEdgeId,
    /// Its end in the middle.
    pub(super) middle: Point,
    /// Its end at the shoulder.
    pub(super) shoulder: Point,
}

impl Necklines<'_> {
    /// The ends of an edge that is a neckline.
    pub(super) fn ends(&self, part: PartId, drawn: &DrawnPiece, neck: DrawnEdgeId) -> Option<NeckEnds> {
        // A cut at a wrist leads up, too.
        if self.is_side_of_slit(drawn, neck) {
            return None;
        }
        let (before, after) = (drawn.before(neck), drawn.after(neck));
        [(before, after, neck), (after, before, after)].into_iter().find_map(
            |(middle, shoulder, at_middle)| {
                let starts_at_middle = at_middle == neck;
                let path = &drawn.edge_at(neck)?.path;
                let (top, end) = match starts_at_middle {
                    true => (path.start(), path.end()),
                    false => (path.end(), path.start()),
                };
                let far = |edge: DrawnEdgeId, at: Point| -> Option<Point> {
                    let path = &drawn.edge_at(edge)?.path;
                    Some(if path.start().distance(at) <= path.end().distance(at) {
                        path.end()
                    } else {
                        path.start()
                    })
                };
                let (below, tip) = (far(middle, top)?, far(shoulder, end)?);
                let (down, away, across) = (top - below, tip - end, end - top);
                let is_upright = down.y > 0.0 && down.x.abs() <= ASLANT * down.y;
                let leads_away = away.x * across.x > 0.0 && away.x.abs() >= ASLANT * away.y.abs();
                let is_it = is_upright && leads_away && across.x.abs() >= WIDE;
                let is_neck = is_it
                    && self.is_middle(part, drawn, middle)
                    && !self.next(part, neck, shoulder).is_empty();
                is_neck.then_some(NeckEnds { at_middle, middle: top, shoulder: end })
            },
        )
    }

    /// Whether an edge is the fold that its piece is cut on.
    pub(super) fn is_fold(&self, drawn: &DrawnPiece, edge: DrawnEdgeId) -> bool {
        let own = drawn.edge_at(edge).map(|own| own.edge);
        matches!(drawn.cut, CutHow::OnFold(fold) if own == Some(fold))
    }

    /// Whether an edge is the middle of its piece: its fold, or an edge that is closed, finished or sewn to its own twin.
    fn is_middle(&self, part: PartId, drawn: &DrawnPiece, edge: DrawnEdgeId) -> bool {
        let Some(own) = drawn.edge_at(edge) else { return false };
        if let CutHow::OnFold(fold) = drawn.cut {
            return own.edge == fold || self.is_side_of_slit(drawn, edge);
        }
        let piece = self.size.sewn.part(part).part.piece;
        drawn.cut == CutHow::Mirrored
            && self.stretches(part, edge).all(|stretch| {
                let partner = self.size.sewn.gluing.partner(stretch);
                partner.is_none_or(|partner| self.piece_of(partner.stretch) == piece)
            })
    }

    fn is_side_of_slit(&self, drawn: &DrawnPiece, edge: DrawnEdgeId) -> bool {
        drawn.edge_at(edge).is_some_and(|edge| self.garment.edge(edge.edge).side_of.is_some())
    }

    /// What a neckline runs on into over an edge beside it, where the same is done to both.
    pub(super) fn next(
        &self,
        part: PartId,
        neck: DrawnEdgeId,
        shoulder: DrawnEdgeId,
    ) -> Vec<(PartId, DrawnEdgeId)> {
        let (own, taker) = (self.done_to(part, neck), self.taker(part, neck));
        let mut found = Vec::new();
        let Some(drawn) = self.size.drawn.paper(self.size.sewn.part(part).part.paper) else { return found };
        let at_drawn_end = drawn.before(neck) == shoulder;
        for side in self.sides(part, shoulder) {
            // The end of the shoulder at the neck, as the rings of both faces go.
            let at_end = at_drawn_end != self.surface.side(side).mirrored;
            let mut stretches = self.surface.stretches_on(side);
            let Some(stretch) = (if at_end { stretches.last() } else { stretches.next() }) else { continue };
            let Some(partner) = self.size.sewn.gluing.partner(stretch) else { continue };
            let beyond = self.surface.side_of(partner.stretch);
            // Of a left and a right part the left one stands for both, as `sides` gives those of both.
            let beyond_part = self.size.sewn.left_of(beyond.part);
            let host = self.size.sewn.part(beyond_part).part;
            let is_own = beyond_part == self.size.sewn.left_of(part);
            let Some(drawn) = self.size.drawn.paper(host.paper).filter(|_| !is_own) else {
                continue;
            };
            let ends_there = (at_end == partner.same_way) != beyond.mirrored;
            let next = if ends_there { drawn.after(beyond.edge) } else { drawn.before(beyond.edge) };
            let next = (beyond_part, next);
            let goes_on =
                self.done_to(next.0, next.1) == own || taker.is_some() && self.taker(next.0, next.1) == taker;
            if goes_on && !found.contains(&next) {
                found.push(next);
            }
        }
        found
    }

    /// What takes an edge; nothing where it is left, finished by itself, or sewn to what lies on it: a facing, a lining.
    fn done_to(&self, part: PartId, edge: DrawnEdgeId) -> Option<TakenBy> {
        let taker = self.taker(part, edge)?;
        let origins = self.garment.origins(self.size.sewn.part(part).part.piece);
        let lies_on_it = self.stretches(part, edge).any(|stretch| {
            let Some(join) = self.surface.stretch(stretch).join.map(|join| self.surface.join(join)) else {
                return false;
            };
            let is_seam = matches!(join.by, JoinedBy::Seam { .. });
            let mut others = join.plies.iter().map(|ply| ply.stretch).filter(|other| *other != stretch);
            is_seam
                && others.any(|other| {
                    let beside = self.garment.origins(self.piece_of(other));
                    origins.iter().any(|own| beside.contains(own))
                })
        });
        (!lies_on_it).then_some(taker)
    }

    /// The seam that takes an edge.
    fn taker(&self, part: PartId, edge: DrawnEdgeId) -> Option<TakenBy> {
        let takers = &self.size.sewn.part(part).fate(edge)?.takers;
        takers.iter().map(|taker| taker.what).find(|what| matches!(what, TakenBy::Seam(..)))
    }

    fn piece_of(&self, stretch: StretchId) -> PieceId {
        self.size.sewn.part(self.surface.face(self.surface.face_of(stretch)).part).part.piece
    }

    /// The sides of an edge on all copies of its part, left and right.
    pub(super) fn sides(&self, part: PartId, edge: DrawnEdgeId) -> impl Iterator<Item = SideId> {
        let surface = self.surface;
        let faces = surface.faces_of_pair(self.size.sewn.left_of(part));
        let sides = faces.flat_map(move |face| surface.sides_of(face));
        sides.filter(move |&side| surface.side(side).edge == edge && !surface.side(side).fold)
    }

    /// Their stretches.
    fn stretches(&self, part: PartId, edge: DrawnEdgeId) -> impl Iterator<Item = StretchId> {
        let surface = self.surface;
        self.sides(part, edge).flat_map(move |side| surface.stretches_on(side))
    }
}
