//! In how many goes something is sewn: what lies end to end, over seams that are sewn before, is sewn in one.

use super::Step;
use super::sides::Sides;
use super::teller::{Named, Teller};
use crate::garment::FinishId;
use crate::sewing::order::Job;
use crate::sewing::surface::{Gluing, JoinedBy, JoinedPly, PlyAt, Rim, RimPart, StretchId, Surface};
use crate::shape::outline::is_anticlockwise;

/// A corner that points into the cloth by more than this, as the sine of its angle, is no straight line.
const INNER: f64 = 0.2;

/// How often the needle is set down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Goes {
    /// In all.
    pub count: u32,
    /// How many of them come back to where they began.
    pub rings: u32,
}

impl<'a> Teller<'a> {
    /// How often a seam is sewn: once for every copy, but over a seam that is sewn before both copies in one go.
    pub(super) fn goes_of_seam(&self, step: &Step, sides: &Sides) -> u32 {
        let sewings = self.sewings(sides);
        if sewings < 2 {
            return sewings;
        }
        match self.sides_gone(step, sides) {
            // Both sides run on over the same places.
            Some([one, other]) if one == other && one.count > 0 => one.count.min(sewings),
            _ => sewings,
        }
    }

    /// Whether each go of a seam comes back to where it began, over seams that are sewn before.
    pub(super) fn goes_round(&self, step: &Step, sides: &Sides) -> bool {
        let is_round = |goes: Goes| goes.count > 0 && goes.rings == goes.count;
        self.sides_gone(step, sides).is_some_and(|goes| goes.into_iter().all(is_round))
    }

    /// How often each side of a seam is gone along.
    fn sides_gone(&self, step: &Step, sides: &Sides) -> Option<[Goes; 2]> {
        let surface = self.surface()?;
        let side = |is_it: &dyn Fn(PlyAt) -> bool| -> Vec<StretchId> {
            let own = surface
                .joins
                .iter()
                .filter(|join| matches!(join.by, JoinedBy::Seam { sewn, .. } if sides.sewn.contains(&sewn)));
            let plies = own.flat_map(|join| &join.plies).filter(|ply| is_it(ply.at));
            plies.map(|ply: &JoinedPly| ply.stretch).collect()
        };
        let rims = self.rims_before(step, surface);
        // Of what is folded one edge alone is a side of the surface.
        let of_plies = |plies: [PlyAt; 2]| {
            let mut goes = plies.map(|at| {
                let own = side(&|of| of == at);
                self.goes(&rims, surface, |stretch| own.contains(&stretch))
            });
            goes.sort_by_key(|goes| goes.count == 0);
            goes[0]
        };
        Some([of_plies([PlyAt::First(0), PlyAt::First(1)]), of_plies([PlyAt::Second(0), PlyAt::Second(1)])])
    }

    /// How often the edges of a finish are gone along.
    pub(super) fn goes_of_finish(&self, step: &Step, id: FinishId, named: &[Named]) -> Option<Goes> {
        let (surface, work) = (self.surface()?, self.work()?);
        let is_own = |stretch: StretchId| {
            let side = surface.side_of(stretch);
            let drawn = work.finder.drawn(side.part).and_then(|drawn| drawn.edge_at(side.edge));
            surface.stretch(stretch).finish == Some(id)
                && drawn.is_some_and(|drawn| {
                    let edge = self.garment.whole_edge(drawn.edge);
                    let part = work.finder.part(side.part);
                    named.iter().any(|named| named.edge == edge && named.part == part)
                })
        };
        Some(self.goes(&self.rims_before(step, surface), surface, is_own)).filter(|goes| goes.count > 0)
    }

    fn surface(&self) -> Option<&'a Surface> {
        self.facts.sizes.first()?.sewn.surface.as_ref()
    }

    /// The rims of what is sewn before a step.
    fn rims_before(&self, step: &Step, surface: &Surface) -> Vec<Rim> {
        let before = self.sewn_until(step);
        let seams = self.seams.first();
        let is_sewn = |by: &JoinedBy| match *by {
            JoinedBy::Seam { sewn, .. } => {
                let stitching = seams.and_then(|seams| seams.get(sewn).copied().flatten());
                stitching.is_some_and(|stitching| before.contains(&stitching))
            }
            JoinedBy::Placing(_) => false,
        };
        Gluing::of(surface, |join, _, _| is_sewn(&join.by)).rims(surface)
    }

    fn goes(&self, rims: &[Rim], surface: &Surface, is_own: impl Fn(StretchId) -> bool) -> Goes {
        let mut goes = Goes { count: 0, rings: 0 };
        for rim in rims {
            let parts = &rim.parts;
            let mut begins = 0;
            for (nth, part) in parts.iter().enumerate() {
                let before = parts.get((nth + parts.len() - 1) % parts.len());
                let runs_on = before
                    .is_some_and(|before| is_own(before.stretch) && self.runs_on(surface, *before, *part));
                begins += u32::from(is_own(part.stretch) && !runs_on);
            }
            let is_ring = begins == 0 && parts.iter().all(|part| is_own(part.stretch));
            goes.count += if is_ring { 1 } else { begins };
            goes.rings += u32::from(is_ring);
        }
        goes
    }

    /// Whether one is sewn on from the other: round a corner, or over a seam; not where that seam leads on in the first one's
    /// own edge, as below an opening, or begins in an inner corner, as above a vent: there the needle would have to turn back, or
    /// the allowance to be snipped.
    fn runs_on(&self, surface: &Surface, one: RimPart, other: RimPart) -> bool {
        let beyond = match one.against {
            false => surface.next(one.stretch),
            true => surface.before(one.stretch),
        };
        if beyond == other.stretch {
            return true;
        }
        let edge = |stretch: StretchId| {
            let side = surface.side_of(stretch);
            let drawn = self.work()?.finder.drawn(side.part)?.edge_at(side.edge)?;
            Some((side.part, side.mirrored, self.garment.whole_edge(drawn.edge)))
        };
        edge(beyond) != edge(one.stretch) && !self.is_inner_corner(surface, one.stretch, beyond)
    }

    /// Whether two edges of a piece, one after the other in either way, meet in a corner that points into its cloth.
    fn is_inner_corner(&self, surface: &Surface, one: StretchId, other: StretchId) -> bool {
        let (side, beside) = (surface.side_of(one), surface.side_of(other));
        let Some(drawn) = self.work().and_then(|work| work.finder.drawn(side.part)) else { return false };
        if side.part != beside.part {
            return false;
        }
        let (first, second) = match drawn.after(side.edge) == beside.edge {
            true => (side.edge, beside.edge),
            false => (beside.edge, side.edge),
        };
        let ways = drawn
            .edge_at(first)
            .zip(drawn.edge_at(second))
            .and_then(|(first, second)| first.path.tangent_at_end().zip(second.path.tangent_at_start()));
        let Some((before, after)) = ways else { return false };
        let turn = before.normalize().cross(after.normalize());
        let is_left = is_anticlockwise(drawn.outline().iter().map(|edge| &edge.path));
        if is_left { turn < -INNER } else { turn > INNER }
    }

    /// The stitchings that are sewn before a step.
    pub(super) fn sewn_until(&self, step: &Step) -> Vec<usize> {
        let plan = &self.facts.plan;
        let all = self.facts.rows.iter().flat_map(|row| row.targets(plan));
        let before = all.take_while(|target| !step.all.iter().any(|own| std::ptr::eq(own, *target)));
        let jobs = before.flat_map(|target| &target.jobs);
        jobs.filter_map(|job| if let Job::Seam(at) = job { Some(*at) } else { None }).collect()
    }
}
