//! The normal form of seams: which runs of which copies meet, from which end, in each sewing.
//!
//! Which ends meet may hang on another seam that has joined them, so the seams are gone through
//! until nothing more is found, forwards and backwards in turn.

mod caught;
mod lay;
mod left;
mod meant;
mod meet;
mod slits;
mod split_runs;
pub(super) mod strand;
mod way_round;
mod zips;

use super::amounts::amount_of;
use super::closure_pairs::closure_sides;
use super::ends::Corners;
use super::hands::{self, Pairing, Way};
use super::lengths::Lengths;
use super::model::{PartId, SeamEnd, SewnFit, SewnPly, SewnRun, SewnSeam, SewnSide, Uneven, Unmet, Unpaired};
use super::reach::Reach;
use super::stitching::{Finder, Stitching};
use super::surface::union::Signed;
use crate::few::Few;
use crate::garment::{Fit, Garment, LayerId, RingWay, Seam};
use crate::resolve::SizedGarment;
use strand::Link;
use strand::Strand;

/// How often all seams are gone through at most. Corners that are joined by ever longer rows of
/// seams, each of which waits for the next, are found in two passes; more are seldom needed.
const PASSES: usize = 12;

/// Every seam in every layer that it is sewn in, with its notches still to be found; corners that it
/// sews together are joined. Seams of which a piece is unknown are left out, which has been reported.
pub fn seams<'a>(
    garment: &'a Garment,
    sized: &'a SizedGarment,
    finder: &Finder,
    stitchings: &[Stitching],
    corners: &mut Corners<'a>,
    lengths: &mut Lengths,
) -> Vec<SewnSeam> {
    let stitchings: Vec<&Stitching> = stitchings
        .iter()
        .filter(|stitching| {
            let seam = garment.seam(stitching.seam);
            let sound = stitching.whole && !seam.poisoned && !seam.across_fold;
            sound && stitching.plies().all(|ply| !ply.is_empty())
        })
        .collect();
    let pairings: Vec<Result<Pairing, Unpaired>> = stitchings
        .iter()
        .map(|stitching| {
            let ring = garment.seam(stitching.seam).ring().map(|ring| ring.way);
            hands::pair(&stitching.sides, stitching.reach, ring, finder)
        })
        .collect();
    for (stitching, pairing) in stitchings.iter().zip(&pairings) {
        if stitching.reach == Reach::Across || matches!(pairing, Ok(Pairing { way: Way::Crossed, .. })) {
            for place in stitching.places() {
                corners.cross(place.part, place.edge);
            }
        }
    }
    if finder.has_sides() {
        for closure in &garment.closures {
            for layer in finder.layers.of_chains(&[&closure.first, &closure.second]) {
                let sided = closure_sides(finder, closure, layer).unwrap_or_default();
                for place in sided.iter().flat_map(|one| one.sides.iter().flatten().flatten()) {
                    corners.close(place.part, place.edge);
                }
            }
        }
    }
    let mut laid = lay_all(garment, &stitchings, &pairings, finder, corners, lengths);
    way_round::turn_round(garment, &stitchings, &mut laid, corners, finder, lengths);
    let mut measuring = Measuring { garment, sized, finder, corners, lengths };
    let mut sewn = Vec::with_capacity(stitchings.len());
    for ((stitching, pairing), laid) in stitchings.iter().zip(pairings).zip(laid) {
        for laid in left::left(measuring.corners, laid) {
            sewn.push(measuring.sewn(stitching, pairing, laid));
        }
    }
    sewn
}

/// The plies of a seam as they lie on one another.
#[derive(Clone)]
struct Laid {
    /// Of both sides, the first side's first.
    strands: Vec<Strand>,
    /// How many of them are the first side's.
    first: usize,
    /// Plies whose ends meet nobody knows how.
    unmet: Option<(usize, usize)>,
    /// It goes on through the folds, so that it is sewn half as often.
    through_fold: bool,
    /// Something else takes runs of its edges, which lie among its links.
    has_gaps: bool,
    /// Which of the pieces that are left it is, and of how many.
    left: Option<(u32, u32)>,
    /// Its sides are left in unlike pieces.
    uneven: Option<Uneven>,
}

fn lay_all(
    garment: &Garment,
    stitchings: &[&Stitching],
    pairings: &[Result<Pairing, Unpaired>],
    finder: &Finder,
    corners: &mut Corners,
    lengths: &mut Lengths,
) -> Vec<Option<Laid>> {
    let mut all: Vec<Option<Laid>> = stitchings.iter().map(|_| None).collect();
    // Edges that are sewn one to one first: they say how the edges of the chains lie to one another.
    let is_chain = |at: &usize| {
        let many = |one: &&Stitching| one.through.is_some() || one.plies().any(|ply| ply.len() > 1);
        stitchings.get(*at).is_some_and(many)
    };
    let (chains, single): (Vec<usize>, Vec<usize>) = (0..stitchings.len()).partition(is_chain);
    let no_side = stitchings.iter().flat_map(|stitching| &stitching.in_plies).copied().collect();
    let mut laying = Laying { garment, stitchings, pairings, finder, signs: None, no_side };
    let left = laying.passes(single, corners, lengths, &mut all);
    let mut signs = way_round::known(garment, stitchings, &all, corners, finder);
    zips::learn_of_zips(garment, finder, corners, &mut signs);
    laying.signs = Some(signs);
    let open = chains.into_iter().chain(left).collect();
    laying.passes(open, corners, lengths, &mut all);
    let together = stitchings.iter().map(|stitching| stitching.reach == Reach::Both);
    for ((laid, pairing), _) in all.iter_mut().zip(pairings).zip(together).filter(|(_, together)| *together) {
        if let (Some(laid), Ok(Pairing { way: Way::ByHand, sewings })) = (laid, pairing) {
            laid.go_on_through_folds(corners, *sewings);
        }
    }
    all
}

/// What all seams are laid by.
struct Laying<'a> {
    garment: &'a Garment,
    stitchings: &'a [&'a Stitching],
    pairings: &'a [Result<Pairing, Unpaired>],
    finder: &'a Finder<'a>,
    /// How parts lie to one another, as far as that is known.
    signs: Option<Signed>,
    /// Pairs of which the two copies lie on one another in a seam: an upper and an under one, of no side of the body.
    no_side: Vec<PartId>,
}

impl Laying<'_> {
    /// Lays seams until nothing more is found; those that are left come back.
    fn passes(
        &mut self,
        mut open: Vec<usize>,
        corners: &mut Corners,
        lengths: &mut Lengths,
        all: &mut [Option<Laid>],
    ) -> Vec<usize> {
        for _ in 0..PASSES {
            let before = open.len();
            let mut left = Vec::new();
            for at in open {
                let (Some(stitching), Some(pairing)) = (self.stitchings.get(at), self.pairings.get(at))
                else {
                    continue;
                };
                let way = pairing.map_or(Way::ByHand, |pairing| pairing.way);
                let seam = self.garment.seam(stitching.seam);
                let signs = self.signs.as_mut();
                let laid = lay::lay(seam, stitching, way, self.finder, corners, signs, &self.no_side);
                let is_settled =
                    laid.as_ref().is_none_or(|laid| laid.unmet.is_none() && !laid.has_unmet_joint());
                if let (Some(laid), Some(signs)) = (&laid, self.signs.as_mut()) {
                    way_round::learn(&seam.matching, laid, corners, lengths, signs);
                }
                if let Some(slot) = all.get_mut(at) {
                    *slot = laid;
                }
                if !is_settled {
                    left.push(at);
                }
            }
            left.reverse();
            open = left;
            if open.is_empty() || open.len() == before {
                break;
            }
        }
        open
    }
}

impl Laid {
    fn has_unmet_joint(&self) -> bool {
        self.strands.iter().any(|strand| strand.unmet_joint.is_some())
    }

    /// A seam of halves whose plies all end on a fold goes on over it on the other half.
    fn go_on_through_folds(&mut self, corners: &Corners, sewings: u32) {
        if !sewings.is_multiple_of(2) || self.unmet.is_some() || self.has_unmet_joint() {
            return;
        }
        let starts = self.strands.iter().all(|strand| corners.is_on_fold(strand.start));
        let ends = self.strands.iter().all(|strand| corners.is_on_fold(strand.end));
        if !starts && !ends {
            return;
        }
        for strand in &mut self.strands {
            if !ends {
                strand.turn();
            }
            strand.unfold(corners, starts && ends);
        }
        self.through_fold = true;
    }
}

/// Seams whose plies are laid, being measured.
struct Measuring<'a, 'l> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    finder: &'a Finder<'a>,
    corners: &'a Corners<'a>,
    lengths: &'a mut Lengths<'l>,
}

impl Measuring<'_, '_> {
    fn side(&mut self, strands: &[Strand]) -> SewnSide {
        let ply = |strand: &Strand| {
            let mut whole = 0.0;
            let run = |&Link { part, edge, hand, reversed, elsewhere, .. }: &Link| {
                let length = self.lengths.of(part, edge);
                whole += length;
                SewnRun { part, edge, hand, reversed, length, elsewhere }
            };
            let runs = strand.links.iter().map(run).collect();
            SewnPly { runs, length: whole }
        };
        SewnSide { plies: strands.iter().map(ply).collect() }
    }

    /// Whether all that its pieces were made into could be drawn.
    fn is_all_drawn(&self, seam: &Seam) -> bool {
        let mut edges = seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
        self.finder.is_whole() || !edges.any(|sewn| self.sized.is_partly_undrawn(self.garment, sewn.piece))
    }

    fn sewn(&mut self, stitching: &Stitching, pairing: Result<Pairing, Unpaired>, laid: Laid) -> SewnSeam {
        let seam = self.garment.seam(stitching.seam);
        let fit = seam.fit.as_ref().map(|fit| sewn_fit(self.garment, self.sized, fit));
        let parts = stitching.places().map(|place| self.finder.part(place.part));
        let mut layers: Few<LayerId> = Few::new();
        for part in parts {
            if !layers.contains(&part.layer) {
                layers.push(part.layer);
            }
        }
        layers.sort();
        let unmet = unmet(self.corners, &laid);
        let ends = match (unmet, laid.strands.first(), laid.strands.get(laid.first)) {
            (None, Some(one), Some(other)) => meeting(self.corners, one, other),
            _ => Vec::new(),
        };
        let (firsts, seconds) = laid.strands.split_at(laid.first.min(laid.strands.len()));
        let (first, second) = (self.side(firsts), self.side(seconds));
        let is_finite = first.plies.iter().chain(&second.plies).all(|ply| ply.length.is_finite());
        let sewings = pairing.map_or(1, |pairing| pairing.sewings);
        SewnSeam {
            seam: stitching.seam,
            reach: stitching.reach,
            layers,
            sewings: if laid.through_fold { sewings / 2 } else { sewings },
            first,
            second,
            known: is_finite
                && laid.uneven.is_none()
                && fit.is_none_or(|fit| fit.is_some())
                && self.is_all_drawn(seam),
            left: laid.left,
            uneven: laid.uneven,
            fit: fit.flatten(),
            ends,
            notches: Vec::new(),
            stretches: Vec::new(),
            gaps: Vec::new(),
            said_notches: Vec::new(),
            ring: laid.strands.iter().any(|strand| strand.ring),
            each_to_the_next: seam.ring().is_some_and(|ring| ring.way == RingWay::EachToTheNext),
            unpaired: pairing.err(),
            unmet,
        }
    }
}

fn sewn_fit(garment: &Garment, sized: &SizedGarment, fit: &Fit) -> Option<SewnFit> {
    let (low, high) = (amount_of(garment, sized, &fit.low)?, amount_of(garment, sized, &fit.high)?);
    Some(SewnFit { kind: fit.kind, low: low.min(high), high: high.max(low) })
}

fn end_at(corners: &Corners, node: usize) -> Option<SeamEnd> {
    let (part, _, corner) = corners.place(node)?;
    Some(SeamEnd { part, corner })
}

/// The ends that meet, each pair once. Of a seam that goes on through a fold the fold's ends are
/// among them.
fn meeting(corners: &Corners, one: &Strand, other: &Strand) -> Vec<(SeamEnd, SeamEnd)> {
    let middle = |strand: &Strand| {
        let half = strand.links.len() / 2;
        match strand.symmetric {
            true => strand.links.get(half.saturating_sub(1)).and_then(|link| link.end(corners)),
            false => None,
        }
    };
    let mut found: Vec<(SeamEnd, SeamEnd)> = Vec::with_capacity(2);
    let middles = (one.symmetric && other.symmetric).then(|| (middle(one), middle(other)));
    let outer = [(Some(one.start), Some(other.start)), (Some(one.end), Some(other.end))];
    for (one, other) in outer.into_iter().chain(middles) {
        let ends =
            one.and_then(|one| end_at(corners, one)).zip(other.and_then(|other| end_at(corners, other)));
        if let Some(ends) = ends.filter(|ends| !found.contains(ends)) {
            found.push(ends);
        }
    }
    found
}

fn unmet(corners: &Corners, laid: &Laid) -> Option<Unmet> {
    for strand in &laid.strands {
        let Some(at) = strand.unmet_joint else { continue };
        let (before, after) = (strand.links.get(at)?, strand.links.get(at + 1)?);
        return Some(Unmet {
            one: end_at(corners, before.end(corners)?)?,
            other: end_at(corners, after.start(corners)?)?,
            one_span: before.span,
            other_span: after.span,
            joint: true,
        });
    }
    let (one, other) = laid.unmet?;
    let (one, other) = (laid.strands.get(one)?, laid.strands.get(other)?);
    if other.links.iter().any(|link| link.elsewhere) {
        // A ply that lies on a part of another: there.
        let at = other.links.iter().position(|link| !link.elsewhere)?;
        let (under, own) = (one.links.get(at)?, other.links.get(at)?);
        return Some(Unmet {
            one: end_at(corners, under.start(corners)?)?,
            other: end_at(corners, own.start(corners)?)?,
            one_span: under.span,
            other_span: own.span,
            joint: false,
        });
    }
    Some(Unmet {
        one: end_at(corners, one.start)?,
        other: end_at(corners, other.start)?,
        one_span: one.links.first()?.span,
        other_span: other.links.first()?.span,
        joint: false,
    })
}
