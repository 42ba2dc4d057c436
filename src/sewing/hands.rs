//! Which copies meet, and how many times a seam is sewn.
//!
//! Left is sewn to left and right to right; an edge named on both sides meets left to right; where
//! a piece is there only once, it takes the left and the right ones of the other pieces with it.

use super::model::{PartId, Unpaired};
use super::stitching::{Finder, Place};
use crate::few::Few;
use crate::garment::{CutHow, RingWay};
use crate::resolve::{DrawnEdgeId, DrawnPiece};

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

/// How many times an edge of the piece is there: each half on the fold is one.
pub(super) fn times(drawn: &DrawnPiece) -> u32 {
    match drawn.cut {
        CutHow::OnFold(_) => drawn.count.saturating_mul(2),
        CutHow::Alike | CutHow::Mirrored => drawn.count,
    }
}

/// Whether there is a left and a right one of it.
pub(super) fn is_handed(drawn: &DrawnPiece) -> bool {
    drawn.cut != CutHow::Alike
}

/// An edge that a seam takes, and how often it is there for each time that it is named.
struct Taken {
    place: Place,
    each: u32,
}

/// Every edge that is taken, and whether one is named on both sides; what occurs too seldom for how
/// often it is named is an error.
fn taken(sides: &[Few<Few<Place>>; 2], finder: &Finder) -> Result<(Vec<Taken>, bool), Unpaired> {
    let edges = |side: &[Few<Place>]| -> Few<(PartId, DrawnEdgeId)> {
        let mut edges: Few<_> = side
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
    let mut all: Vec<Taken> = Vec::with_capacity(first.len() + second.len());
    for place in sides.iter().flatten().flatten().filter(|place| !place.elsewhere) {
        let Some(drawn) = finder.drawn(place.part) else { continue };
        let times = times(drawn);
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

/// Pairs the copies of a seam's edges; what cannot be paired is an error that shows both.
pub(super) fn pair(
    sides: &[Few<Few<Place>>; 2],
    ring: Option<RingWay>,
    finder: &Finder,
) -> Result<Pairing, Unpaired> {
    let (all, is_crossed) = taken(sides, finder)?;
    let Some((least, most)) = least_and_most(&all) else {
        return Ok(Pairing { way: Way::ByHand, sewings: 1 });
    };
    let sewings = least.each;
    let goes_round = ring == Some(RingWay::AllInOne);
    if least.each == most.each && !goes_round {
        return Ok(Pairing { way: if is_crossed { Way::Crossed } else { Way::ByHand }, sewings });
    }
    let all_go_round = !is_crossed
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
pub(super) fn pair_closure(sides: &[Few<Few<Place>>; 2], finder: &Finder) -> Result<Pairing, Unpaired> {
    let pairing = pair(sides, None, finder)?;
    match least_and_most(&taken(sides, finder)?.0) {
        Some((least, most)) if pairing.way == Way::Round => Err(unpaired(least, most)),
        _ => Ok(pairing),
    }
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
