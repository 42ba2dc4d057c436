//! Which copies meet, and how many times a seam is sewn.
//!
//! Left is sewn to left and right to right; an edge named on both sides meets left to right; where
//! a piece is there only once, it takes the left and the right ones of the other pieces with it.

use super::model::{PartId, Unpaired};
use super::stitching::Place;
use crate::garment::CutHow;
use crate::resolve::{DrawnEdgeId, DrawnPiece};
use std::collections::HashMap;

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

/// Pairs the copies of a seam's edges; what cannot be paired is an error that shows both.
pub(super) fn pair(
    sides: &[Vec<Vec<Place>>; 2],
    drawn_of: &dyn Fn(PartId) -> Option<std::sync::Arc<DrawnPiece>>,
) -> Result<Pairing, Unpaired> {
    let mut named: HashMap<(PartId, DrawnEdgeId), u32> = HashMap::new();
    for place in sides.iter().flatten().flatten() {
        *named.entry((place.part, place.edge)).or_default() += 1;
    }
    let mut on_first: HashMap<(PartId, DrawnEdgeId), ()> = HashMap::new();
    for place in sides[0].iter().flatten() {
        on_first.insert((place.part, place.edge), ());
    }
    let is_crossed = sides[1].iter().flatten().any(|place| on_first.contains_key(&(place.part, place.edge)));
    let mut all: Vec<Taken> = Vec::new();
    for place in sides.iter().flatten().flatten() {
        let Some(drawn) = drawn_of(place.part) else { continue };
        let times = times(&drawn);
        let wanted = named.get(&(place.part, place.edge)).copied().unwrap_or(1).max(1);
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
    let (Some(least), Some(most)) =
        (all.iter().min_by_key(|taken| taken.each), all.iter().max_by_key(|taken| taken.each))
    else {
        return Ok(Pairing { way: Way::ByHand, sewings: 1 });
    };
    let sewings = least.each;
    if least.each == most.each {
        return Ok(Pairing { way: if is_crossed { Way::Crossed } else { Way::ByHand }, sewings });
    }
    let all_go_round = !is_crossed
        && sewings == 1
        && all.iter().all(|taken| {
            let is_pair = drawn_of(taken.place.part).is_none_or(|drawn| is_handed(&drawn));
            taken.each <= 2 || !is_pair
        });
    if all_go_round {
        return Ok(Pairing { way: Way::Round, sewings });
    }
    Err(Unpaired {
        fewer: least.place.part,
        few: least.each,
        few_span: least.place.span,
        more: most.place.part,
        many: most.each,
        many_span: most.place.span,
    })
}
