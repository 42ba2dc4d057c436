//! Outlines that lie partly over one another: one rule for every format.

use crate::bring::course::Course;
use crate::bring::length::length;
use crate::bring::spikes::spike;
use crate::bring::traced::TracedPath;
use crate::limits::LENGTH_MM;
use kurbo::{BezPath, ParamCurve, Point, Rect, Shape as _};
use std::cell::Cell;

/// At so many places of an outline it is asked whether they lie in another one.
const PLACES: usize = 64;
/// What is asked lies so far inside its outline, as a share of what it covers: pieces may touch.
const WITHIN: f64 = 0.005;
/// How many comparisons of a place with a segment may be made: what is not compared then is not told.
const MOST_WORK: usize = 5_000_000;
/// Of more outlines it is not asked which lie over which: no pattern has so many in all its sizes.
pub(super) const MOST_COMPARED: usize = 2_000;
/// Of a drawing in which all lies over all no more pairs are told.
const MOST_TOLD: usize = 20;
/// Less than this, in millimetres, is no overlap: lines are drawn so thick.
const LEAST: f64 = 1.0;

/// An outline that may lie over others.
pub(super) struct Lying<'a> {
    /// What it is called in a sentence.
    pub called: String,
    /// Its size, where anything says it: others of the same size are asked.
    pub size: Option<&'a str>,
    /// It.
    pub path: &'a TracedPath,
}

/// Which outlines of one size lie partly over one another, and what is said of it: what lies there may be taken for the wrong
/// one's. Of two that `is_else` says something else is told.
pub(super) fn overlapping(
    all: &[Lying],
    file: &str,
    is_else: impl Fn(usize, usize) -> bool,
) -> (Vec<usize>, Vec<String>) {
    let (mut doubtful, mut told): (Vec<usize>, Vec<String>) = (Vec::new(), Vec::new());
    if all.len() > MOST_COMPARED {
        return (doubtful, told);
    }
    let left = Cell::new(MOST_WORK);
    let may = |cost: usize| {
        left.set(left.get().saturating_sub(cost));
        left.get() > 0
    };
    let placed: Vec<Placed> = all.iter().map(Placed::of).collect();
    for (at, (own, place)) in all.iter().zip(&placed).enumerate() {
        for (beside, (other, around)) in all.iter().zip(&placed).enumerate().take(at) {
            let are_sound = place.is_sound && around.is_sound;
            if !are_sound || own.size != other.size || is_else(at, beside) {
                continue;
            }
            if told.len() >= MOST_TOLD {
                return (doubtful, told);
            }
            let Some(over) = overlap_of(place, around, &may) else { continue };
            let in_size = own.size.map_or_else(String::new, |size| format!(" in {size}"));
            told.push(format!(
                "{} and {} of {file} lie over one another{in_size}, {:.0} mm across and {:.0} mm up: what lies there may be taken for \
                 the wrong one's; draw them apart",
                other.called,
                own.called,
                over.width(),
                over.height()
            ));
            doubtful.extend([at, beside]);
        }
    }
    (doubtful, told)
}

/// An outline, ready to be compared.
struct Placed {
    whole: BezPath,
    bounds: Rect,
    places: Vec<Point>,
    /// A point that lies far away takes an outline over others, and is told; what is as long as no piece is refused.
    is_sound: bool,
}

impl Placed {
    fn of(own: &Lying) -> Self {
        let whole = BezPath::from_path_segments(own.path.segments.iter().map(|one| one.course));
        let course = Course::of(own.path);
        let bounds = course.as_ref().map_or(Rect::ZERO, Course::bounds);
        let is_sound = bounds.width().max(bounds.height()) < LENGTH_MM
            && course.is_some_and(|course| spike(&course).is_none());
        // What reaches so far is not measured: its curves would be parted without end.
        if bounds.width().max(bounds.height()) >= LENGTH_MM {
            return Placed { whole: BezPath::new(), bounds, places: Vec::new(), is_sound: false };
        }
        let long: f64 = whole.segments().map(|one| length(&one, 1.0)).sum();
        let step = (long / PLACES as f64).max(f64::MIN_POSITIVE);
        let middle = bounds.center();
        let places = whole.segments().take(100 * PLACES).flat_map(|one| {
            let parts = (length(&one, 1.0) / step).ceil().clamp(1.0, PLACES as f64) as usize;
            (0..parts).map(move |part| {
                let at = one.eval(part as f64 / parts as f64);
                at + (middle - at) * WITHIN
            })
        });
        let all: Vec<Point> = places.collect();
        let every = all.len().div_ceil(2 * PLACES).max(1);
        let places = all.into_iter().step_by(every).collect();
        Placed { whole, bounds, places, is_sound }
    }
}

/// What the rectangles round two outlines have in common, if any place of one lies in the other. `may` is asked whether so many
/// comparisons may be made.
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
    // Which of it both lie over is not asked: the rectangles round them are what a maker sees overlap.
    let is_held = !held(one, other).is_empty() || !held(other, one).is_empty();
    is_held.then_some(both)
}
