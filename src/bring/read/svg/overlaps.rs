//! Outlines that lie partly over one another.

use super::outline::{MOST_COMPARED, NESTED, Outline, shared};
use crate::bring::course::Course;
use crate::bring::spikes::spike;
use crate::limits::LENGTH_MM;
use kurbo::{BezPath, ParamCurve, ParamCurveArclen, Point, Rect, Shape as _};
use std::cell::Cell;

/// At so many places of an outline it is asked whether they lie in another one.
const PLACES: usize = 64;
/// What is asked lies so far inside its outline, as a share of what it covers: pieces may touch.
const WITHIN: f64 = 0.005;
/// How many comparisons of a place with a segment may be made: what is not compared then is not told.
const MOST_WORK: usize = 5_000_000;
/// Of a drawing in which all lies over all no more pairs are told.
const MOST_TOLD: usize = 20;
/// Less than this, in millimetres, is no overlap: lines are drawn so thick.
const LEAST: f64 = 1.0;

/// Tells of outlines of one size that lie partly over one another: what lies there may be taken for the wrong one's.
pub fn overlap(found: &mut [Outline], remarks: &mut Vec<String>) {
    if found.len() > MOST_COMPARED {
        return;
    }
    let called = |own: &Outline| match &own.owner.piece {
        Some(name) => name.clone(),
        None => format!("the outline in line {}", own.line),
    };
    let mut doubtful: Vec<usize> = Vec::new();
    let left = Cell::new(MOST_WORK);
    let may = |cost: usize| {
        left.set(left.get().saturating_sub(cost));
        left.get() > 0
    };
    // A point that lies far away takes an outline over others, and is told; what is as long as no piece is refused.
    let is_sound = |own: &Outline| {
        own.bounds.width().max(own.bounds.height()) < LENGTH_MM
            && Course::of(&own.path).is_some_and(|course| spike(&course).is_none())
    };
    let is_sound: Vec<bool> = found.iter().map(is_sound).collect();
    let all: Vec<Placed> = found.iter().map(|own| Placed::of(&own.whole, own.bounds)).collect();
    for (at, (own, placed)) in found.iter().zip(&all).enumerate() {
        for (beside, (other, around)) in found.iter().zip(&all).enumerate().take(at) {
            // Of sizes in one another that nothing tells apart something else is said.
            let are_sound = [at, beside].iter().all(|at| is_sound.get(*at) == Some(&true));
            if !are_sound || own.owner.size != other.owner.size || shared(own, other) > NESTED {
                continue;
            }
            if doubtful.len() >= 2 * MOST_TOLD {
                break;
            }
            let Some(over) = overlap_of(placed, around, &may) else { continue };
            let in_size = own.owner.size.as_ref().map_or_else(String::new, |size| format!(" in {size}"));
            remarks.push(format!(
                "{} and {} lie over one another{in_size}, {:.0} mm across and {:.0} mm up: what lies there may be taken for the \
                 wrong one's; draw them apart",
                called(other),
                called(own),
                over.width(),
                over.height()
            ));
            doubtful.extend([at, beside]);
        }
    }
    for at in doubtful {
        if let Some(own) = found.get_mut(at) {
            own.size.is_overlapped = true;
        }
    }
}

/// An outline, ready to be compared.
struct Placed<'a> {
    whole: &'a BezPath,
    bounds: Rect,
    places: Vec<Point>,
}

impl<'a> Placed<'a> {
    /// Of an outline and what it covers.
    fn of(whole: &'a BezPath, bounds: Rect) -> Self {
        let long: f64 = whole.segments().map(|one| one.arclen(1.0)).sum();
        let step = (long / PLACES as f64).max(f64::MIN_POSITIVE);
        let middle = bounds.center();
        let places = whole.segments().take(100 * PLACES).flat_map(|one| {
            let parts = (one.arclen(1.0) / step).ceil().clamp(1.0, PLACES as f64) as usize;
            (0..parts).map(move |part| {
                let at = one.eval(part as f64 / parts as f64);
                at + (middle - at) * WITHIN
            })
        });
        let all: Vec<Point> = places.collect();
        let every = all.len().div_ceil(2 * PLACES).max(1);
        Placed { whole, bounds, places: all.into_iter().step_by(every).collect() }
    }
}

/// What part of the plane two outlines both lie over, as the rectangle round the places of each that lie in the other. `may` is
/// asked whether so many comparisons may be made.
fn overlap_of(one: &Placed, other: &Placed, may: &dyn Fn(usize) -> bool) -> Option<Rect> {
    let both = one.bounds.intersect(other.bounds);
    if both.width() < LEAST || both.height() < LEAST {
        return None;
    }
    let held = |own: &Placed, around: &Placed| -> Vec<Point> {
        let near = own.places.iter().filter(|at| around.bounds.contains(**at));
        let near: Vec<Point> = near.copied().collect();
        match may(near.len() * around.whole.elements().len()) {
            true => near.into_iter().filter(|at| around.whole.contains(*at)).collect(),
            false => Vec::new(),
        }
    };
    let all = held(one, other).into_iter().chain(held(other, one));
    let round = all.map(|at| Rect::from_points(at, at)).reduce(|all, own| all.union(own))?;
    // Of a corner that lies inside only the places are known: no more than both cover.
    let round = round.inflate(LEAST, LEAST).intersect(both);
    (round.width() > LEAST && round.height() > LEAST).then_some(round)
}
