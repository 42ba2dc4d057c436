//! Which copies meet, and how many times a seam is sewn.
//!
//! Left is sewn to left and right to right; an edge named on both sides meets left to right; where
//! a piece is there only once, it takes the left and the right ones of the other pieces with it.

use super::copies::is_handed;
use super::model::{PartId, Unpaired};
use super::reach::Reach;
use super::stitching::{Finder, Place};
use crate::few::Few;
use crate::garment::RingWay;
use crate::resolve::DrawnEdgeId;
use crate::syntax::tree::Hand;
use smallvec::SmallVec;

/// How the copies in a seam are paired.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    /// One copy of everything in each sewing.
    ByHand,
    /// An edge meets itself, left to right.
    Crossed,
    /// Sewn once, with all copies of everything.
    Round,
}

/// How the copies in a seam are paired, and how often it is sewn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Pairing {
    pub(super) way: Way,
    pub(super) sewings: u32,
}

/// Which copies of what is there in pairs one side of a seam or closure takes.
pub(super) fn hand_of_side(
    plies: &[Few<Place>],
    is_second: bool,
    reach: Reach,
    way: Way,
    finder: &Finder,
) -> Hand {
    let told_apart = || plies.iter().flatten().find_map(|place| finder.hand(place.part));
    match reach {
        Reach::On { hand, .. } => hand,
        Reach::Across => told_apart().unwrap_or(Hand::Left),
        _ if is_second && way == Way::Crossed => Hand::Right,
        _ => Hand::Left,
    }
}

/// The side of the body that a part is on a side of a seam that takes the copies of that hand; none of
/// what is cut alike.
pub(super) fn hand_of(part: PartId, hand: Hand, finder: &Finder) -> Option<Hand> {
    finder.hand(part).or_else(|| finder.drawn(part).is_some_and(is_handed).then_some(hand))
}

/// An edge that a seam takes, and how often it is there for each time that it is named.
struct Taken {
    place: Place,
    each: u32,
}

/// Every edge that is taken, and whether one is named on both sides; what occurs too seldom for how
/// often it is named is an error.
fn taken(
    sides: &[Few<Few<Place>>; 2],
    reach: Reach,
    finder: &Finder,
) -> Result<(SmallVec<[Taken; 4]>, bool), Unpaired> {
    let edges = |side: &[Few<Place>]| -> SmallVec<[(PartId, DrawnEdgeId); 4]> {
        let mut edges: SmallVec<_> = side
            .iter()
            .flatten()
            .filter(|place| !place.elsewhere)
            .map(|place| (place.part, place.edge))
            .collect();
        edges.sort_unstable();
        edges
    };
    let [first, second] = [edges(&sides[0]), edges(&sides[1])];
    let is_crossed = second.iter().any(|edge| first.binary_search(edge).is_ok());
    let named = |edge: (PartId, DrawnEdgeId)| -> u32 {
        let on = |side: &[(PartId, DrawnEdgeId)]| {
            side.partition_point(|one| *one <= edge) - side.partition_point(|one| *one < edge)
        };
        (on(&first) + on(&second)) as u32
    };
    let mut all: SmallVec<[Taken; 4]> = SmallVec::with_capacity(first.len() + second.len());
    for place in sides.iter().flatten().flatten().filter(|place| !place.elsewhere) {
        if finder.drawn(place.part).is_none() {
            continue;
        }
        let times = times_in(place.part, reach, finder);
        let wanted = named((place.part, place.edge)).max(1);
        if times < wanted || !times.is_multiple_of(wanted) {
            return Err(Unpaired {
                fewer: place.part,
                few: times,
                few_span: place.span,
                more: place.part,
                many: wanted,
                many_span: place.span,
            });
        }
        all.push(Taken { place: *place, each: times / wanted });
    }
    Ok((all, is_crossed))
}

/// How many times an edge of a part is there for a seam or closure.
fn times_in(part: PartId, reach: Reach, finder: &Finder) -> u32 {
    let all = finder.times(part);
    let is_told_apart = finder.hand(part).is_some();
    let is_pair = finder.drawn(part).is_some_and(is_handed);
    match reach {
        Reach::Both | Reach::Across => all,
        Reach::On { of_two, .. } if !is_told_apart && (is_pair || of_two) => all / 2,
        Reach::On { .. } => all,
        Reach::Round if is_told_apart => all.saturating_mul(2),
        Reach::Round => all,
    }
}

/// Pairs the copies of a seam's edges; what cannot be paired is an error that shows both.
pub(super) fn pair(
    sides: &[Few<Few<Place>>; 2],
    reach: Reach,
    ring: Option<RingWay>,
    finder: &Finder,
) -> Result<Pairing, Unpaired> {
    let (all, is_crossed) = taken(sides, reach, finder)?;
    let Some((least, most)) = least_and_most(&all) else {
        return Ok(Pairing { way: Way::ByHand, sewings: 1 });
    };
    let sewings = least.each;
    let goes_round = ring == Some(RingWay::AllInOne);
    if least.each == most.each && !goes_round {
        return Ok(Pairing { way: if is_crossed { Way::Crossed } else { Way::ByHand }, sewings });
    }
    let all_go_round = !is_crossed
        && matches!(reach, Reach::Both | Reach::Round)
        && (sewings == 1 || goes_round)
        && all.iter().all(|taken| {
            let is_pair = finder.drawn(taken.place.part).is_none_or(is_handed);
            taken.each <= 2 || !is_pair
        });
    if all_go_round {
        return Ok(Pairing { way: Way::Round, sewings: 1 });
    }
    Err(unpaired(least, most))
}

/// Pairs the copies of both sides of a closure, which is never sewn round: of everything there are as
/// many.
pub(super) fn pair_closure(
    sides: &[Few<Few<Place>>; 2],
    reach: Reach,
    finder: &Finder,
) -> Result<Pairing, Unpaired> {
    let pairing = pair(sides, reach, None, finder)?;
    if pairing.way == Way::Round
        && let Some((least, most)) = least_and_most(&taken(sides, reach, finder)?.0)
    {
        return Err(unpaired(least, most));
    }
    Ok(pairing)
}

fn least_and_most(all: &[Taken]) -> Option<(&Taken, &Taken)> {
    all.iter().min_by_key(|taken| taken.each).zip(all.iter().max_by_key(|taken| taken.each))
}

fn unpaired(least: &Taken, most: &Taken) -> Unpaired {
    Unpaired {
        fewer: least.place.part,
        few: least.each,
        few_span: least.place.span,
        more: most.place.part,
        many: most.each,
        many_span: most.place.span,
    }
}
