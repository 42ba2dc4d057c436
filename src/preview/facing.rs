//! What lies opposite an edge: of a seam of several edges a side only those that it meets.

use crate::resolve::DrawnEdgeId;
use crate::sewing::surface::{StretchId, Surface};
use crate::sewing::{PartId, SewnPly, SewnSeam, Stitching};

/// An edge of a part.
pub(super) type At = (PartId, DrawnEdgeId);

/// An edge on a side, from and to, in millimetres from the side's start.
type Interval = (At, f64, f64);

/// Edges that share less than this, in millimetres, only touch.
const TOUCHING: f64 = 3.0;

/// What an edge meets in a seam: on the other side, and in other plies of its own.
pub(super) fn in_seam(seam: &SewnSeam, own: At) -> Vec<At> {
    let sides = [&seam.first, &seam.second].map(|side| side.plies.iter().map(along_ply).collect::<Vec<_>>());
    let mut found = Vec::new();
    for (at, side) in sides.iter().enumerate() {
        for (number, ply) in side.iter().enumerate() {
            for &(_, from, to) in ply.iter().filter(|(edge, ..)| *edge == own) {
                let beside = side.iter().enumerate().filter(|(other, _)| *other != number);
                for (_, other) in beside {
                    found.extend(met(other, from, to));
                }
                let there = |place: f64| across(seam, &sides, at == 0, place);
                let (from, to) = (there(from), there(to));
                for other in sides.get(1 - at).into_iter().flatten() {
                    found.extend(met(other, from, to));
                }
            }
        }
    }
    found
}

/// The runs of a ply, each where it lies on it. Of what lies in another ply only the length counts.
fn along_ply(ply: &SewnPly) -> Vec<Interval> {
    let mut at = 0.0;
    let mut found = Vec::new();
    for run in &ply.runs {
        let to = at + run.length;
        if !run.elsewhere {
            found.push(((run.part, run.edge), at, to));
        }
        at = to;
    }
    found
}

/// Where a place of one side lies on the other: by the stretches between notches, or else by its share of the whole.
fn across(seam: &SewnSeam, sides: &[Vec<Vec<Interval>>; 2], from_first: bool, place: f64) -> f64 {
    let map = |(from, to): (f64, f64), (onto, until): (f64, f64)| {
        let share = if to > from { (place - from) / (to - from) } else { 0.0 };
        onto + share * (until - onto)
    };
    let stretches = seam.stretches.iter().map(|one| match from_first {
        true => (one.first, one.second),
        false => (one.second, one.first),
    });
    let holds = |own: &(f64, f64)| place >= own.0 - 1e-6 && place <= own.1 + 1e-6;
    if let Some((own, other)) = stretches.into_iter().find(|(own, _)| holds(own)) {
        return map(own, other);
    }
    let long = |side: &Vec<Vec<Interval>>| {
        let ends = side.first().into_iter().flatten().map(|(_, _, to)| *to);
        (0.0, ends.fold(0.0, f64::max))
    };
    let [first, second] = [&sides[0], &sides[1]].map(long);
    if from_first { map(first, second) } else { map(second, first) }
}

/// The edges of a side that share more than a touch with a stretch of it.
fn met(side: &[Interval], from: f64, to: f64) -> impl Iterator<Item = At> {
    let shares = move |&&(_, low, high): &&Interval| {
        let shared = high.min(to) - low.max(from);
        shared > TOUCHING.min(0.5 * (high - low)).min(0.5 * (to - from))
    };
    side.iter().filter(shares).map(|(at, ..)| *at)
}

/// The same where lengths are not known: all of the other side.
pub(super) fn in_stitching(stitching: &Stitching, own: At) -> Vec<At> {
    let mut found = Vec::new();
    for sides in [Some(&stitching.sides), stitching.right.as_ref()].into_iter().flatten() {
        for (at, side) in sides.iter().enumerate() {
            let is_own = |place: &crate::sewing::Place| (place.part, place.edge) == own;
            let Some(mine) = side.iter().position(|ply| ply.iter().any(is_own)) else { continue };
            let beside = side.iter().enumerate().filter(|(ply, _)| *ply != mine).map(|(_, ply)| ply);
            let plies = sides.get(1 - at).into_iter().flatten().chain(beside);
            let places = plies.flatten().filter(|place| !place.elsewhere);
            found.extend(places.map(|place| (place.part, place.edge)));
        }
    }
    found
}

/// What an edge meets in a closure, one of the times that it is there.
pub(super) fn in_closure(surface: &Surface, sides: &[Vec<(StretchId, bool)>; 2], own: At) -> Vec<At> {
    let along = |side: &Vec<(StretchId, bool)>| {
        let mut at = 0.0;
        let mut found: Vec<Interval> = Vec::new();
        for &(stretch, _) in side {
            let (of, to) = (surface.side_of(stretch), at + surface.length(stretch));
            found.push(((of.part, of.edge), at, to));
            at = to;
        }
        (found, at)
    };
    let [(first, first_long), (second, second_long)] = [&sides[0], &sides[1]].map(along);
    let mut found = Vec::new();
    for (side, long, other, other_long) in
        [(&first, first_long, &second, second_long), (&second, second_long, &first, first_long)]
    {
        let scale = if long > 0.0 { other_long / long } else { 1.0 };
        for (_, from, to) in side.iter().filter(|(edge, ..)| *edge == own) {
            found.extend(met(other, from * scale, to * scale));
        }
    }
    found
}
