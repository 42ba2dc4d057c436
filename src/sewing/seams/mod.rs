//! The normal form of seams: which runs of which copies meet, from which end, in each sewing.
//!
//! Which ends meet may hang on another seam that has joined them, so the seams are gone through
//! until nothing more is found, forwards and backwards in turn.

mod caught;
mod left;
mod meant;
mod meet;
mod slits;
mod split_runs;
pub(super) mod strand;
mod way_round;

use super::amounts::amount_of;
use super::closure_pairs::closure_sides;
use super::copies;
use super::ends::Corners;
use super::hands::{self, Pairing, Way};
use super::lengths::Lengths;
use super::model::{PartId, SeamEnd, SewnFit, SewnPly, SewnRun, SewnSeam, SewnSide, Uneven, Unmet, Unpaired};
use super::reach::Reach;
use super::stitching::{Finder, Place, Stitching};
use super::surface::union::Signed;
use crate::few::Few;
use crate::garment::{Fit, Garment, LayerId, RingWay, Seam};
use crate::resolve::SizedGarment;
use crate::syntax::tree::Hand;
use meant::Meant;
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
    let mut laid = lay_all(garment, &stitchings, &pairings, finder, corners);
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
    let left = laying.passes(single, corners, &mut all);
    laying.signs = Some(way_round::known(garment, stitchings, &all, corners, finder));
    let open = chains.into_iter().chain(left).collect();
    laying.passes(open, corners, &mut all);
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
                let laid =
                    lay(seam, stitching, way, self.finder, corners, self.signs.as_mut(), &self.no_side);
                let is_settled =
                    laid.as_ref().is_none_or(|laid| laid.unmet.is_none() && !laid.has_unmet_joint());
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

/// Lays the plies of a seam on one another, and joins the corners that meet.
fn lay(
    seam: &Seam,
    stitching: &Stitching,
    way: Way,
    finder: &Finder,
    corners: &mut Corners,
    mut signs: Option<&mut Signed>,
    no_side: &[PartId],
) -> Option<Laid> {
    let mut strands: Vec<Strand> = Vec::with_capacity(stitching.plies().count());
    let (sides, has_gaps) = match &stitching.through {
        Some(through) => (&**through, true),
        None => (&stitching.sides, stitching.right_through.is_some()),
    };
    let meant = Meant::of(corners, sides.iter().flatten().map(|ply| &**ply), &seam.matching);
    let mut unknown: Option<(usize, usize)> = None;
    for (side, plies) in sides.iter().enumerate() {
        let first_of_side = strands.len();
        let hand = hands::hand_of_side(plies, side == 1, stitching.reach, way, finder);
        let hand_of = |part: PartId| hands::hand_of(part, hand, finder).filter(|_| !no_side.contains(&part));
        // Plies that name runs of an edge, as they are named and as they are put, with their places among the strands.
        let mut ordered: Few<(&[Place], Vec<Place>, usize)> = Few::new();
        for places in plies {
            let mut lying = |corners: &mut Corners, places: &[Place]| {
                Strand::lying(corners, places, &hand_of, &meant, signs.as_deref_mut())
            };
            let mut put = None;
            if !has_gaps && places.iter().any(|place| place.elsewhere) {
                let host = ordered.iter().find_map(|(named, put, host)| {
                    Some((caught::as_host(places, named, put)?, strands.get(*host)?))
                });
                if let Some((put, host)) = host
                    && let Some((strand, is_known)) =
                        Strand::lying_on(corners, host, &put, &hand_of, &seam.matching)
                {
                    unknown = unknown.or((!is_known).then_some((first_of_side, strands.len())));
                    strands.push(strand);
                    continue;
                }
            } else if has_gaps {
                put = caught::as_drawn_or_back(finder, places, &mut |places| {
                    Some(lying(corners, places)?.cost)
                });
            } else {
                put = caught::in_order(finder, places, &mut |places| Some(lying(corners, places)?.cost));
                if let Some(put) = &put {
                    ordered.push((&**places, put.clone(), strands.len()));
                }
            }
            let places = put.as_deref().unwrap_or(places);
            let mut strand = lying(corners, places)?;
            // A round edge that a slit breaks begins and ends at the slit.
            for places in slits::otherwise(finder, places) {
                let from_slit = lying(corners, &places)?;
                let torn = |strand: &Strand, corners: &mut Corners| strand.torn(corners, &seam.matching);
                if torn(&from_slit, corners) < torn(&strand, corners) {
                    strand = from_slit;
                }
            }
            if let Some(places) = split_runs::otherwise(places)
                && strand.torn(corners, &seam.matching) > 0
            {
                let turned = lying(corners, &places)?;
                if turned.torn(corners, &seam.matching) < strand.torn(corners, &seam.matching) {
                    strand = turned;
                }
            }
            strands.push(strand);
        }
    }
    if has_gaps {
        left::mark(&mut strands, stitching);
    }
    for strand in &strands {
        for pair in strand.links.windows(2) {
            let [before, after] = pair else { continue };
            if before.gap || after.gap {
                continue;
            }
            if let (None, Some(one), Some(other)) =
                (strand.unmet_joint, before.end(corners), after.start(corners))
            {
                corners.join(one, other);
            }
        }
    }
    if way == Way::Round {
        let copies = |part: PartId| {
            let times = finder.drawn(part).map_or(1, |drawn| copies::times(drawn) as usize);
            // Where each ply takes one of them, they do not lie in a row.
            let takes = |places: &&Few<Place>| places.iter().any(|own| own.part == part && !own.elsewhere);
            let plies = sides.iter().map(|plies| plies.iter().filter(takes).count()).max();
            times / plies.unwrap_or(1).max(1)
        };
        let rights = stitching.right_through.as_deref().or(stitching.right.as_ref());
        let mut rights = rights.into_iter().flatten().flatten();
        for strand in &mut strands {
            let right = rights.next().filter(|places| !strand.is_twin_of(corners, places));
            let right = match right {
                Some(places) => {
                    let hand_of = |part: PartId| hands::hand_of(part, Hand::Right, finder);
                    let mut lying = |corners: &mut Corners, places: &[Place]| {
                        let signs = signs.as_deref_mut();
                        Strand::lying(corners, places, &hand_of, &meant, signs)
                    };
                    let put = caught::as_drawn_or_back(finder, places, &mut |places| {
                        Some(lying(corners, places)?.cost)
                    });
                    Some(lying(corners, put.as_deref().unwrap_or(places))?)
                }
                None => None,
            };
            strand.go_round(corners, &seam.matching, &copies, right);
        }
        if !has_gaps && !seam.matching.is_empty() {
            for at in 0..strands.len() {
                let others = strands.iter().enumerate().filter(|(other, one)| *other != at && !one.ring);
                let ends: Vec<_> = others.flat_map(|(_, one)| [one.start, one.end]).collect();
                if let Some(strand) = strands.get_mut(at).filter(|one| one.ring) {
                    strand.begin_where_matched(corners, &seam.matching, &ends);
                }
            }
            begin_alike(corners, &mut strands, stitching.sides[0].len());
        }
        if has_gaps && stitching.right.is_some() {
            left::mark(&mut strands, stitching);
            strands.iter_mut().for_each(|strand| strand.begin_at_gap(corners));
        }
    }
    let unmet = meet::meet(corners, &mut strands, &seam.matching).or(unknown);
    let first = stitching.sides[0].len();
    let laid = Laid { strands, first, unmet, through_fold: false, has_gaps, left: None, uneven: None };
    let left = if has_gaps { left::left(corners, Some(laid.clone())) } else { Few::new() };
    let sewn = if has_gaps { left.as_slice() } else { std::slice::from_ref(&laid) };
    for one in sewn.iter().filter(|one| one.unmet.is_none() && one.uneven.is_none()) {
        let Some((one, others)) = one.strands.split_first() else { continue };
        for other in others {
            corners.join(one.start, other.start);
            corners.join(one.end, other.end);
        }
    }
    Some(laid)
}

/// Rings of one side begin where one of them does that begins at a corner which is said to match: the two plies of a brim
/// at its back.
fn begin_alike(corners: &Corners, strands: &mut [Strand], first: usize) {
    let (firsts, seconds) = strands.split_at_mut(first.min(strands.len()));
    for side in [firsts, seconds] {
        let is_open = |strand: &&Strand| !strand.ring && strand.start == strand.end;
        let Some(start) = side.iter().find(is_open).map(|strand| strand.start) else { continue };
        for strand in side.iter_mut().filter(|strand| strand.ring) {
            strand.begin_beside(corners, start);
        }
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
