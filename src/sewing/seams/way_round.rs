//! Which way round seams are sewn that could be sewn either way: one answer for the whole garment.
//!
//! Two pieces lie right sides together when the outline of the one runs along the seam against that of
//! the other. So each seam says of two pieces whether they lie the same way up as they are drawn, or one
//! of them mirrored, and left and right copies are each other's mirror images. Where a seam's ends settle which
//! way round it goes, that is given. Where they do not, because a collar laid along the whole neck may
//! begin on the left or on the right, or because a cuff goes round a wrist either way, it is
//! chosen so that all agree: with the closures first, whose chains say which end is on which side,
//! and then seam by seam. A seam that agrees with what is known stays as it is.

use super::meet::{Relation, relation};
use super::strand::Strand;
use super::{Laid, Lengths};
use crate::few::Few;
use crate::garment::{Closure, Garment, LayerId};
use crate::id_hash::IdSet;
use crate::sewing::ends::{Corners, Node};
use crate::sewing::hands::{Way, hand_of, hand_of_side};
use crate::sewing::model::PartId;
use crate::sewing::sides::{Sided, by_side};
use crate::sewing::stitching::{Finder, Place, Stitching};
use crate::sewing::surface::union::{Signed, Union};
use crate::syntax::tree::Hand;
use smallvec::{SmallVec, smallvec};

/// Two edges overlap where both have more than this share of the seam together.
const OVERLAP: f64 = 0.01;

/// A corner of a copy.
type Spot = (Node, Option<Hand>);

/// Plies of a seam that lie as they lie to one another, by their places.
type Group = SmallVec<[usize; 4]>;

/// All plies of a seam in such groups.
type Groups = SmallVec<[Group; 2]>;

/// Of edges that overlap: their parts, and whether these lie opposite ways up.
type Relations = SmallVec<[(PartId, PartId, bool); 4]>;

/// A seam's groups of plies, each of which may be turned by itself.
struct Loose {
    seam: usize,
    groups: Groups,
    /// Just two plies, if what is folded over counts once.
    plain: bool,
}

/// Turns what may lie either way round so that no piece is twisted.
pub(super) fn turn_round(
    garment: &Garment,
    stitchings: &[&Stitching],
    laid: &mut [Option<Laid>],
    corners: &mut Corners,
    finder: &Finder,
    lengths: &mut Lengths,
) {
    let mut signs = signs_of(corners, finder.parts.len());
    let mut loose: Vec<Loose> = Vec::new();
    for (seam, (stitching, one)) in stitchings.iter().zip(laid.iter()).enumerate() {
        let Some(one) = one.as_ref().filter(|one| one.unmet.is_none() && !one.has_unmet_joint()) else {
            continue;
        };
        let matching = &garment.seam(stitching.seam).matching;
        let (groups, plain) = groups(corners, &one.strands, matching);
        if groups.len() > 1 {
            loose.push(Loose { seam, groups, plain });
        } else if plain {
            for &(one, other, opposite) in &relations(one, lengths) {
                signs.join(one.index(), other.index(), opposite);
            }
        }
    }
    if loose.is_empty() {
        return;
    }
    let anchors = anchors(garment, finder, corners);
    // What closures settle first, then plain seams, then what lies in stacks.
    for round in 0..3 {
        loose.retain(|loose| {
            let Some(Some(one)) = laid.get_mut(loose.seam) else { return false };
            let said = said_by_closures(&anchors, one, &loose.groups);
            let is_due = match round {
                0 => said.is_some(),
                1 => loose.plain,
                _ => true,
            };
            if !is_due {
                return true;
            }
            let found = said.or_else(|| agreeing(one, lengths, &mut signs));
            if found == Some(true) {
                turn(one, &loose.groups);
            }
            if loose.plain {
                for &(one, other, opposite) in &relations(one, lengths) {
                    signs.join(one.index(), other.index(), opposite);
                }
            }
            false
        });
    }
}

/// Nothing is known but that left and right parts of one piece lie alike, each as its own copies do.
fn signs_of(corners: &Corners, parts: usize) -> Signed {
    let mut signs = Signed::new(parts);
    for part in (0..parts).map(PartId::from_index) {
        if let Some(twin) = corners.twin(part) {
            signs.join(part.index(), twin.index(), false);
        }
    }
    signs
}

/// How parts lie to one another by the seams that are laid of two single edges, and that can lie but one
/// way round; of more plies by those of one layer, if each side has just one of it.
pub(super) fn known(
    garment: &Garment,
    stitchings: &[&Stitching],
    laid: &[Option<Laid>],
    corners: &mut Corners,
    finder: &Finder,
) -> Signed {
    let mut signs = signs_of(corners, finder.parts.len());
    for (seam, (stitching, one)) in stitchings.iter().zip(laid).enumerate() {
        let Some(one) = one.as_ref().filter(|one| one.unmet.is_none() && !one.has_unmet_joint()) else {
            continue;
        };
        let held = held(one, seam, stitchings, finder.parts.len());
        let Some([first, second]) = held.ends() else { continue };
        let ([link], [other]) = (first.links.as_slice(), second.links.as_slice()) else { continue };
        let (groups, plain) = groups(corners, &one.strands, &garment.seam(stitching.seam).matching);
        let layer = |strand: &Strand| strand.links.first().map(|link| finder.part(link.part).layer);
        let of_layer = held.all().filter(|strand| layer(strand) == layer(first)).count();
        let alone = of_layer == 2 && layer(first) == layer(second);
        if groups.len() == 1 && (plain || alone) {
            signs.join(link.part.index(), other.part.index(), link.is_against() == other.is_against());
        }
    }
    signs
}

/// Adds how parts lie to one another by a seam of several edges as it is laid: what is laid after it agrees with it.
pub(super) fn learn(
    matching: &[(crate::garment::SewnPoint, crate::garment::SewnPoint)],
    laid: &Laid,
    corners: &mut Corners,
    lengths: &mut Lengths,
    signs: &mut Signed,
) {
    if laid.unmet.is_some() || laid.has_unmet_joint() {
        return;
    }
    let (_, plain) = groups(corners, &laid.strands, matching);
    if plain {
        for &(one, other, opposite) in &relations(laid, lengths) {
            signs.join(one.index(), other.index(), opposite);
        }
    }
}

/// The plies of a seam that lie as other seams hold them.
struct Held<'l>([SmallVec<[&'l Strand; 2]>; 2]);

impl<'l> Held<'l> {
    /// The first of each side.
    fn ends(&self) -> Option<[&'l Strand; 2]> {
        let [first, second] = &self.0;
        Some([first.first()?, second.first()?])
    }

    fn all(&self) -> impl Iterator<Item = &&'l Strand> {
        self.0.iter().flatten()
    }
}

/// Without flaps and the like, which hang by this seam alone: what hangs together with them without it is sewn nowhere to
/// the other side. They say nothing of how the others lie. Where all of a side hangs so, as of a skirt, all counts.
fn held<'l>(laid: &'l Laid, seam: usize, stitchings: &[&Stitching], parts: usize) -> Held<'l> {
    let (first, second) = laid.strands.split_at(laid.first.min(laid.strands.len()));
    let all = || Held([first.iter().collect(), second.iter().collect()]);
    if laid.strands.len() < 3 {
        return all();
    }
    let mut together = Union::new(parts);
    for (_, other) in stitchings.iter().enumerate().filter(|(at, _)| *at != seam) {
        let mut places = other.places();
        let Some(one) = places.next() else { continue };
        places.for_each(|place| {
            together.join(one.part.index(), place.part.index());
        });
    }
    let mut reached = |strand: &Strand, side: &[Strand]| {
        let mut links = strand.links.iter().flat_map(|link| side.iter().map(move |other| (link, other)));
        links.any(|(link, other)| {
            let root = together.root(link.part.index());
            other.links.iter().any(|other| together.root(other.part.index()) == root)
        })
    };
    let held = Held([
        first.iter().filter(|strand| reached(strand, second)).collect(),
        second.iter().filter(|strand| reached(strand, first)).collect(),
    ]);
    if held.ends().is_some() { held } else { all() }
}

/// The plies of a seam in groups that lie fast to one another, and whether there are but two plies
/// when a piece folded over the seam counts once.
fn groups(
    corners: &mut Corners,
    strands: &[Strand],
    matching: &[(crate::garment::SewnPoint, crate::garment::SewnPoint)],
) -> (Groups, bool) {
    let mut groups = Groups::new();
    let mut folded = 0;
    for (at, strand) in strands.iter().enumerate() {
        let mut own = None;
        for (place, group) in groups.iter().enumerate() {
            let fast = group.iter().take(super::meet::LOOKED_AT).find_map(|&other| {
                match relation(corners, strands.get(other)?, strand, matching) {
                    Relation::Fast { folded } => Some(folded),
                    Relation::Loose => None,
                }
            });
            if let Some(is_folded) = fast {
                folded += usize::from(is_folded);
                own = Some(place);
                break;
            }
        }
        match own.and_then(|place| groups.get_mut(place)) {
            Some(group) => group.push(at),
            None => groups.push(smallvec![at]),
        }
    }
    (groups, strands.len() - folded.min(strands.len()) == 2)
}

/// Of each two edges that overlap on the first plies of both sides: their parts, and whether these lie
/// opposite ways up, as they are drawn, left copies for left and right ones for right.
fn relations(laid: &Laid, lengths: &mut Lengths) -> Relations {
    let (Some(one), Some(other)) = (laid.strands.first(), laid.strands.get(laid.first)) else {
        return Relations::new();
    };
    let mut shares = |strand: &Strand| -> SmallVec<[f64; 4]> {
        let mut each: SmallVec<[f64; 4]> =
            strand.links.iter().map(|link| lengths.of(link.part, link.edge)).collect();
        let whole: f64 = each.iter().sum();
        let mut sum = 0.0;
        for length in &mut each {
            sum += *length / whole;
            *length = sum;
        }
        each
    };
    let (ends, other_ends) = (shares(one), shares(other));
    if !ends.iter().chain(&other_ends).all(|end| end.is_finite()) {
        return Relations::new();
    }
    let mut found = Relations::new();
    let (mut at, mut other_at, mut from) = (0, 0, 0.0);
    while let (Some(link), Some(end), Some(other_link), Some(other_end)) =
        (one.links.get(at), ends.get(at), other.links.get(other_at), other_ends.get(other_at))
    {
        let to = end.min(*other_end);
        if to - from > OVERLAP {
            found.push((link.part, other_link.part, link.is_against() == other_link.is_against()));
        }
        from = to;
        at += usize::from(*end <= to);
        other_at += usize::from(*other_end <= to);
    }
    found
}

/// Whether the seam must be turned to agree with what is known; none where nothing is.
fn agreeing(laid: &Laid, lengths: &mut Lengths, signs: &mut Signed) -> Option<bool> {
    relations(laid, lengths).iter().find_map(|&(one, other, opposite)| {
        signs.opposite(one.index(), other.index()).map(|known| known != opposite)
    })
}

/// Turns one group of plies: of both sides' the one that has no left and right of its own.
fn turn(laid: &mut Laid, groups: &[Group]) {
    let is_paired =
        |group: &&Group| group.iter().filter_map(|&at| laid.strands.get(at)).any(|strand| strand.symmetric);
    let [first, others @ ..] = groups else { return };
    let turned: Vec<usize> = match others.first().filter(is_paired) {
        Some(_) if others.len() == 1 => first.to_vec(),
        _ => others.iter().flatten().copied().collect(),
    };
    for at in turned {
        if let Some(strand) = laid.strands.get_mut(at) {
            strand.turn();
        }
    }
}

/// Whether closures want the seam turned; none where they do not say.
fn said_by_closures(anchors: &IdSet<(Spot, Spot)>, laid: &Laid, groups: &[Group]) -> Option<bool> {
    if anchors.is_empty() {
        return None;
    }
    let ends = |at: &usize| -> Option<[Spot; 2]> {
        let strand = laid.strands.get(*at)?;
        Some([(strand.start, strand.links.first()?.hand), (strand.end, strand.links.last()?.hand)])
    };
    let [first, others @ ..] = groups else { return None };
    for one in first.iter().filter_map(ends) {
        for other in others.iter().flatten().filter_map(ends) {
            let meet =
                |one: Spot, other: Spot| anchors.contains(&(one, other)) || anchors.contains(&(other, one));
            let keeps = meet(one[0], other[0]) || meet(one[1], other[1]);
            let turns = meet(one[0], other[1]) || meet(one[1], other[0]);
            if keeps != turns {
                return Some(turns);
            }
        }
    }
    None
}

/// Corners that a closure's chain runs on over, from the copy of the one to the copy of the other.
fn anchors(garment: &Garment, finder: &Finder, corners: &mut Corners) -> IdSet<(Spot, Spot)> {
    let mut found = IdSet::default();
    for closure in &garment.closures {
        for layer in layers(finder, closure) {
            let chains = [&closure.first, &closure.second];
            let places = chains.map(|chain| -> Few<Few<Place>> {
                let edges = chain.edges.iter();
                let each = edges.filter_map(|sewn| Some(finder.in_layer(sewn.layer.or(layer)?, sewn)));
                Few::one(each.flatten().collect())
            });
            for Sided { sides, reach, .. } in by_side(finder, places, None, false).iter() {
                let edges = |plies: &[Few<Place>]| -> IdSet<_> {
                    plies.iter().flatten().map(|place| (place.part, place.edge)).collect()
                };
                let is_crossed = !edges(&sides[0]).is_disjoint(&edges(&sides[1]));
                let way = if is_crossed { Way::Crossed } else { Way::ByHand };
                for (second, plies) in sides.iter().enumerate() {
                    let hand = hand_of_side(plies, second == 1, *reach, way, finder);
                    let hand_of = |part: PartId| hand_of(part, hand, finder);
                    for places in plies {
                        let Some(strand) = Strand::of(corners, places, &hand_of) else { continue };
                        for pair in strand.links.windows(2) {
                            let [before, after] = pair else { continue };
                            if let (Some(end), Some(start)) = (before.end(corners), after.start(corners)) {
                                found.insert(((end, before.hand), (start, after.hand)));
                            }
                        }
                    }
                }
            }
        }
    }
    found
}

/// The layers in which a closure's names are meant that name none; once, as none, where all do.
fn layers(finder: &Finder, closure: &Closure) -> Vec<Option<LayerId>> {
    finder.layers.of_chains(&[&closure.first, &closure.second])
}
