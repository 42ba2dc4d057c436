//! Chains that name a run of an edge and what is left of it: the order in which these follow one another along the edge.
//!
//! Of the ways in which each edge can be walked, along it or back, that one is meant whose joints cost least, as the way of
//! an edge that is named whole is: how many of them are torn does not tell, since corners of one name are there at both
//! ends of a row of alike pieces.

use crate::sewing::stitching::{Finder, Place};
use std::ops::Range;

/// Of two ways whose costs differ by no more than this, the one along the edge is meant.
const LESS: f64 = 0.01;

/// The chain with what it names of one edge in the order in which that lies along the edge, one way or the other: the
/// way in which its joints `cost` less. None where it names no run of an edge.
pub(super) fn in_order(
    finder: &Finder,
    places: &[Place],
    cost: &mut dyn FnMut(&[Place]) -> Option<f64>,
) -> Option<Vec<Place>> {
    if finder.garment.portions.is_empty() || !places.iter().any(|place| is_run(finder, place)) {
        return None;
    }
    let groups = groups(finder, places);
    let mut along = places.to_vec();
    for group in &groups {
        along.get_mut(group.clone())?.sort_by_key(|place| place.edge);
    }
    turned(along, &groups, cost)
}

/// A chain with the runs that something else takes between, which come as they are drawn, each edge along it or back
/// so that its joints `cost` less. None where no run of an edge is taken.
pub(super) fn as_drawn_or_back(
    finder: &Finder,
    places: &[Place],
    cost: &mut dyn FnMut(&[Place]) -> Option<f64>,
) -> Option<Vec<Place>> {
    if finder.garment.portions.is_empty() || !places.iter().any(|place| is_run(finder, place)) {
        return None;
    }
    turned(places.to_vec(), &groups(finder, places), cost)
}

/// The chain with each group along or back as its joints cost less.
///
/// Two groups that lie beside each other may both have to be turned before anything is gained: so one begins once
/// with all along, and once with all back.
fn turned(
    along: Vec<Place>,
    groups: &[Range<usize>],
    cost: &mut dyn FnMut(&[Place]) -> Option<f64>,
) -> Option<Vec<Place>> {
    let mut back = along.clone();
    for group in groups {
        back.get_mut(group.clone())?.reverse();
    }
    let mut best: Option<(f64, Vec<Place>)> = None;
    for mut places in [along, back] {
        let mut least = cost(&places)?;
        for group in groups.iter().filter(|_| groups.len() > 1) {
            let mut other = places.clone();
            other.get_mut(group.clone())?.reverse();
            let own = cost(&other)?;
            if own < least - LESS {
                (least, places) = (own, other);
            }
        }
        if best.as_ref().is_none_or(|(cost, _)| least < *cost - LESS) {
            best = Some((least, places));
        }
    }
    best.map(|(_, places)| places)
}

fn is_run(finder: &Finder, place: &Place) -> bool {
    let edge = finder.drawn(place.part).and_then(|drawn| drawn.edge_at(place.edge));
    edge.is_some_and(|edge| finder.garment.is_portion(edge.edge))
}

/// Places that follow one another and are runs of one edge of one part.
fn groups(finder: &Finder, places: &[Place]) -> Vec<Range<usize>> {
    let whole = |place: &Place| {
        let edge = finder.drawn(place.part)?.edge_at(place.edge)?.edge;
        let name = finder.garment.edge(edge);
        Some((place.part, name.portion.map_or(edge, |_| name.part_of.unwrap_or(edge))))
    };
    let mut found = Vec::new();
    let mut from = 0;
    for at in 1..=places.len() {
        let is_one = |one: &Place, other: &Place| whole(one).is_some() && whole(one) == whole(other);
        let goes_on = places.get(at).zip(places.get(at - 1)).is_some_and(|(one, other)| is_one(one, other));
        if !goes_on {
            if at - from > 1 {
                found.push(from..at);
            }
            from = at;
        }
    }
    found
}

/// The places of a ply that lies on a part of another, in the order in which those of the other were put.
pub(super) fn as_host(places: &[Place], named: &[Place], ordered: &[Place]) -> Option<Vec<Place>> {
    let same = |one: &Place, other: &Place| (one.part, one.edge) == (other.part, other.edge);
    let is_host = places.len() == named.len()
        && places.iter().zip(named).all(|(own, host)| !own.elsewhere || same(own, host));
    if !is_host {
        return None;
    }
    ordered.iter().map(|put| places.get(named.iter().position(|host| same(host, put))?).copied()).collect()
}
