//! Left and right: what is sewn, closed or finished on one side of the body alone.
//!
//! A piece of which one side is spoken of is two parts to whoever sews: its left copies and its right
//! ones, or the left and the right half of what is cut on the fold. What is said of one side takes that side's
//! edge; what is said of both takes the sides that are left.

use super::copies::is_handed;
use super::model::PartId;
use super::reach::Reach;
use super::stitching::{Finder, Place};
use crate::few::Few;
use crate::garment::{Chain, Finish, Garment, SewnEdge, User};
use crate::resolve::DrawnEdgeId;
use crate::syntax::tree::Hand;

/// The plies of one side.
type Side = Few<Few<Place>>;

/// Plies of both sides of a seam or closure.
pub(super) type Plies = [Side; 2];

/// Both sides of a seam or closure, and which copies it takes.
pub(super) struct Sided {
    pub(super) sides: Plies,
    /// The same with the runs between them that something else takes.
    pub(super) through: Option<Box<Plies>>,
    /// Where it goes round: the right ones.
    pub(super) right: Option<Plies>,
    /// The same of those.
    pub(super) right_through: Option<Box<Plies>>,
    pub(super) reach: Reach,
}

impl Sided {
    /// Of parts whose left and right are not told apart.
    pub(super) fn both(sides: Plies) -> Sided {
        Sided { sides, through: None, right: None, right_through: None, reach: Reach::Both }
    }
}

/// Every edge that something one-sided takes, in order.
pub(super) fn claims_of(garment: &Garment, finder: &Finder) -> Vec<(PartId, DrawnEdgeId, User)> {
    let mut claims = Vec::new();
    let chains = garment.seams.iter().flat_map(|seam| seam.first.iter().chain(&seam.second));
    let chains = chains.chain(garment.closures.iter().flat_map(|one| [&one.first, &one.second]));
    let edges = chains.flat_map(|chain: &Chain| &chain.edges);
    let edges = edges.chain(garment.finishes.iter().flat_map(|finish: &Finish| &finish.edges));
    let is_one_sided = |sewn: &&SewnEdge| sewn.on.is_some() || garment.side_of(sewn.piece).is_some();
    for sewn in edges.filter(is_one_sided) {
        let Some(user) = sewn.user else { continue };
        if let User::Closure(id) = user
            && garment.closure(id).kind.as_ref().is_some_and(|kind| !kind.takes_edges())
        {
            continue;
        }
        finder.each_everywhere(sewn, &mut |place| {
            if finder.hand(place.part).is_some() {
                claims.push((place.part, place.edge, user));
            }
        });
    }
    claims.sort_unstable();
    claims.dedup();
    claims
}

/// A seam or closure as often as it is one by itself: on the left and on the right, where these are told
/// apart. `through` is the same with the runs between that something else takes.
pub(super) fn by_side(
    finder: &Finder,
    sides: Plies,
    through: Option<Box<Plies>>,
    goes_round: bool,
) -> Few<Sided> {
    let places = |side: usize| sides.iter().skip(side).take(1).flatten().flatten();
    let told = |side: usize| places(side).filter_map(|place| Some((place, finder.hand(place.part)?)));
    if told(0).chain(told(1)).next().is_none() {
        return Few::one(Sided { through, ..Sided::both(sides) });
    }
    // Plies of which that side has nothing are none there.
    let pick = |side: usize, hand: Hand| -> (Few<Few<Place>>, Few<Few<Place>>) {
        let of_hand = |ply: &Few<Place>| -> Few<Place> {
            let own = ply.iter().filter(|place| finder.hand(place.part).is_none_or(|own| own == hand));
            own.copied().collect()
        };
        let all = sides.iter().skip(side).take(1).flatten();
        let through = through.as_deref().unwrap_or(&sides).iter().skip(side).take(1).flatten();
        let both = all.zip(through).map(|(own, through)| (of_hand(own), of_hand(through)));
        let both: Vec<_> = both.filter(|(own, _)| !own.is_empty()).collect();
        both.into_iter().unzip()
    };
    let sided = |[first, second]: [(Side, Side); 2]| -> (Plies, Option<Box<Plies>>) {
        let many = |plies: [&Side; 2]| -> usize {
            plies.into_iter().flat_map(|plies| plies.iter()).map(|ply| ply.len()).sum()
        };
        let has_gaps = many([&first.1, &second.1]) > many([&first.0, &second.0]);
        ([first.0, second.0], has_gaps.then(|| Box::new([first.1, second.1])))
    };
    // What is cut alike is no side's by itself.
    let is_sided =
        |place: &Place| finder.hand(place.part).is_some() || finder.drawn(place.part).is_some_and(is_handed);
    let is_sewn = |sides: &Plies| {
        sides.iter().all(|side| !side.is_empty()) && sides.iter().flatten().flatten().any(is_sided)
    };
    let is_same = |one: &Place, other: &Place| (one.part, one.edge) == (other.part, other.edge);
    let is_crossed = told(0).any(|(place, _)| places(1).any(|other| is_same(place, other)));
    let has = |side: usize, hand: Hand| told(side).any(|(_, own)| own == hand);
    let is_apart = Hand::BOTH
        .iter()
        .any(|&hand| has(0, hand) && has(1, hand.other()) && !has(0, hand.other()) && !has(1, hand));
    if is_crossed || is_apart {
        let hand = if is_crossed || has(0, Hand::Left) { Hand::Left } else { Hand::Right };
        let (sides, through) = sided([pick(0, hand), pick(1, hand.other())]);
        let is_there = is_sewn(&sides);
        let across = Sided { through, reach: Reach::Across, ..Sided::both(sides) };
        return if is_there { Few::one(across) } else { Few::new() };
    }
    let [left, right] = Hand::BOTH.map(|hand| sided([pick(0, hand), pick(1, hand)]));
    let on = |(sides, through): (Plies, Option<Box<Plies>>), hand, of_two| Sided {
        through,
        reach: Reach::On { hand, of_two },
        ..Sided::both(sides)
    };
    match (is_sewn(&left.0), is_sewn(&right.0)) {
        (true, true) if goes_round || is_single(finder, &left.0) => {
            let ((sides, through), (right, right_through)) = (left, right);
            Few::one(Sided { sides, through, right: Some(right), right_through, reach: Reach::Round })
        }
        (true, true) => {
            let mut both = Few::one(on(left, Hand::Left, true));
            both.push(on(right, Hand::Right, true));
            both
        }
        (true, false) => Few::one(on(left, Hand::Left, false)),
        (false, true) => Few::one(on(right, Hand::Right, false)),
        (false, false) => Few::new(),
    }
}

/// Whether something in it is there but once, for left and right together.
fn is_single(finder: &Finder, sides: &Plies) -> bool {
    let all = || sides.iter().flatten().flatten();
    let is_alike = |place: &&Place| {
        finder.hand(place.part).is_none() && finder.drawn(place.part).is_some_and(|drawn| !is_handed(drawn))
    };
    let mut alike = all().filter(is_alike);
    alike.any(|place| {
        let named = all().filter(|other| (other.part, other.edge) == (place.part, place.edge)).count();
        (finder.times(place.part) as usize) < 2 * named
    })
}
