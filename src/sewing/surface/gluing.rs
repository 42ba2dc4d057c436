//! One way to go on from stretch to stretch: each is glued to at most one other.

use super::model::{Join, JoinedBy, JoinedPly, PlyAt, StretchId, Surface};
use smallvec::{SmallVec, smallvec};

/// A way to glue a surface in which no stretch has more than one partner, so that it falls into sheets:
/// surfaces in the plain sense, with rims.
///
/// Of a stack of more than two the first ply goes on in the first of the other side, plies of one layer
/// before others; what is left over, and what is caught, ends there.
#[derive(Clone, Debug, Default)]
pub struct Gluing {
    partners: Vec<Option<Partner>>,
}

/// What a stretch is glued to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Partner {
    /// The other stretch.
    pub stretch: StretchId,
    /// The rings of both faces go the same way there, so that one of the faces must be turned over for
    /// both to lie the same way up.
    pub same_way: bool,
}

impl Gluing {
    /// All seams, with the closures open.
    pub fn seams(surface: &Surface) -> Self {
        Gluing::of(surface, |_, _, _| true)
    }

    /// Those joins of two plies that are asked for.
    pub fn of(surface: &Surface, mut is_wanted: impl FnMut(&Join, &JoinedPly, &JoinedPly) -> bool) -> Self {
        let mut gluing = Gluing { partners: vec![None; surface.stretches.len()] };
        for join in &surface.joins {
            for &(one, other) in &pairs(surface, join) {
                if is_wanted(join, one, other) {
                    gluing.glue(one.stretch, other.stretch, one.against == other.against);
                }
            }
        }
        gluing
    }

    /// The same with all closures closed: where both their sides are free, and cut alike.
    pub fn closed(mut self, surface: &Surface) -> Self {
        for line in &surface.closures {
            let [first, second] = &line.sides;
            if first.len() != second.len() {
                continue;
            }
            for (&(one, against), &(other, other_against)) in first.iter().zip(second) {
                if self.partner(one).is_none() && self.partner(other).is_none() && one != other {
                    self.glue(one, other, against == other_against);
                }
            }
        }
        self
    }

    fn glue(&mut self, one: StretchId, other: StretchId, same_way: bool) {
        self.partners[one.index()] = Some(Partner { stretch: other, same_way });
        self.partners[other.index()] = Some(Partner { stretch: one, same_way });
    }

    /// What a stretch is glued to.
    pub fn partner(&self, stretch: StretchId) -> Option<Partner> {
        self.partners.get(stretch.index()).copied().flatten()
    }

    /// From an end of a stretch once round the vertex there, to the next stretch that is glued to
    /// nothing: that stretch, and whether it is met at its own end. What stands on one such stretch is
    /// led to another, or round to itself.
    pub fn turn(&self, surface: &Surface, stretch: StretchId, at_end: bool) -> (StretchId, bool) {
        go_round(surface, &|at| self.partner(at), stretch, at_end, &mut |_| {})
    }

    /// The same where nothing is glued that `is_cut`; a stretch is cut only with its partner.
    pub fn turn_cut(
        &self,
        surface: &Surface,
        is_cut: &dyn Fn(StretchId) -> bool,
        stretch: StretchId,
        at_end: bool,
    ) -> (StretchId, bool) {
        let partner = |at| self.partner(at).filter(|_| !is_cut(at));
        go_round(surface, &partner, stretch, at_end, &mut |_| {})
    }

    /// The corners of faces that [`Gluing::turn_cut`] comes through, each as the stretch that begins there along
    /// its ring.
    pub fn corners_cut(
        &self,
        surface: &Surface,
        is_cut: &dyn Fn(StretchId) -> bool,
        stretch: StretchId,
        at_end: bool,
    ) -> Vec<StretchId> {
        let mut corners = Vec::new();
        let partner = |at| self.partner(at).filter(|_| !is_cut(at));
        go_round(surface, &partner, stretch, at_end, &mut |corner| corners.push(corner));
        corners
    }

    /// The corners of faces that [`Gluing::turn`] comes through, each as the stretch that begins there
    /// along its ring.
    pub fn corners(&self, surface: &Surface, stretch: StretchId, at_end: bool) -> Vec<StretchId> {
        let mut corners = Vec::new();
        go_round(surface, &|at| self.partner(at), stretch, at_end, &mut |corner| corners.push(corner));
        corners
    }
}

fn go_round(
    surface: &Surface,
    partner: &dyn Fn(StretchId) -> Option<Partner>,
    stretch: StretchId,
    at_end: bool,
    through: &mut dyn FnMut(StretchId),
) -> (StretchId, bool) {
    let beyond = |stretch: StretchId, at_end: bool| match at_end {
        true => (surface.next(stretch), false),
        false => (surface.before(stretch), true),
    };
    let (mut at, mut end) = beyond(stretch, at_end);
    through(if at_end { at } else { stretch });
    // No vertex has more corners than there are.
    for _ in 0..=surface.stretches.len() {
        let Some(partner) = partner(at) else { break };
        let partner_end = end == partner.same_way;
        (at, end) = beyond(partner.stretch, partner_end);
        through(if partner_end { at } else { partner.stretch });
    }
    (at, end)
}

/// Which plies of a stack go on in which.
pub(super) fn pairs<'a>(surface: &Surface, join: &'a Join) -> SmallVec<[(&'a JoinedPly, &'a JoinedPly); 2]> {
    if matches!(join.by, JoinedBy::Placing(_)) {
        return SmallVec::new();
    }
    if let [one, other] = join.plies.as_slice()
        && matches!((one.at, other.at), (PlyAt::First(_), PlyAt::Second(_)))
    {
        return smallvec![(one, other)];
    }
    let mut first: SmallVec<[&JoinedPly; 4]> =
        join.plies.iter().filter(|ply| matches!(ply.at, PlyAt::First(_))).collect();
    let mut second: SmallVec<[&JoinedPly; 4]> =
        join.plies.iter().filter(|ply| matches!(ply.at, PlyAt::Second(_))).collect();
    let layer = |ply: &JoinedPly| surface.face(surface.face_of(ply.stretch)).layer;
    let mut found = SmallVec::new();
    if first.len() > 1 || second.len() > 1 {
        first.retain(|one| match second.iter().position(|other| layer(one) == layer(other)) {
            Some(at) => {
                found.push((*one, second.remove(at)));
                false
            }
            None => true,
        });
    }
    found.extend(first.into_iter().zip(second));
    found
}
