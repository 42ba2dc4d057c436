//! A point that lies elsewhere in one size than the even growth of the others has it: a corner or a joint that was moved, a
//! point of a traced line beside its curve.
//!
//! As sizes grow, points move on alike: each its own way and as far as it does, but all of them in one measure from size to
//! size, and on a curve each as those beside it. What one point does alone in one size alone was hardly meant. Two sizes show no
//! growth: of them nothing is said.
//!
//! The numbers below are no standard's. With them what is moved in `tests/it/makers_drawings.rs` (a skirt, a waistcoat and a mitten),
//! `bring_odd_sizes.rs` and `bring_displaced.rs` is told, and nothing of the sound drawings there: whoever changes one runs these.

use super::corners::answering_by;
use super::course::{Course, controls};
use super::growth::{Axis, Growth, Odd};
use super::median::median;
use super::traced::{TracedPoint, TracedSegment};
use crate::bring::length::length;
use kurbo::{ParamCurve, PathSeg, Point, Vec2};

/// Fewer sizes than this show no growth.
const SIZES: usize = 3;
/// Of longer lines points are not compared one by one.
const MOST_POINTS: usize = 2_000;
/// A corner lies so far off in millimetres …
const CORNER_OFF: f64 = 4.0;
/// … and so many times as far as it moves on from one size to the next, seen from the middle of the piece. Between others that
/// grow evenly it may less.
const STEPS: f64 = 1.2;
/// See [`STEPS`]: between two others.
const STEPS_BETWEEN: f64 = 0.3;
/// See [`STEPS`]: where all other corners grow evenly, each to less than [`EVENLY`].
const STEPS_LONE: f64 = 0.5;
/// In millimetres.
const EVENLY: f64 = 0.75;
/// So many other corners show that they do.
const LONE_AMONG: usize = 3;
/// By so much less likely, in millimetres, a corner grows as one that is not beside it.
const ELSEWHERE: f64 = 2.0;
/// A point of a traced curve lies so far beside it, in millimetres: no hand traces better than half of that.
const TRACED_OFF: f64 = 3.0;
/// And so many times as far as points usually do in that size, …
const USUAL: f64 = 3.0;
/// … and as the other sizes lie from growing evenly.
const UNEVEN: f64 = 3.0;
/// The steps between points of a traced curve are no longer than this, in millimetres.
const TRACED_STEP: f64 = 60.0;
/// A point that most sizes have no corner at turns less than this there, in radians (25°).
const CORNER: f64 = 0.436;
/// Where more points of a size than this lie off, it is drawn otherwise as a whole.
const MOST_TOLD: usize = 2;
/// Points that answer to one another lie no farther apart than this, as a share of the piece, most of them.
const ALIKE: f64 = 0.1;
/// Into so many shares a stretch between corners is parted whose sizes have unlike numbers of points.
const SHARES: usize = 32;
/// By so much farther, in millimetres, a corner moves in one step than in another, that grows by leaps.
const LEAP: f64 = 10.0;
/// What moves on by less than this, in millimetres, stays where it is.
const STAYS: f64 = 1.5;
/// So many points beside the first one are tried as that which answers to it …
const BESIDE_START: usize = 60;
/// … and all then have to lie so many times nearer.
const NEARER_START: f64 = 2.0;

/// A point that lies off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Astray {
    /// In which size.
    pub size: usize,
    /// Where it lies in that size.
    pub at: Point,
    /// Another size in which it may lie off as well.
    pub or: Option<usize>,
    /// How far from where the others have it.
    pub off: Vec2,
    /// Whether it is the handle of a curve.
    pub is_handle: bool,
    /// Whether no one size alone explains it: the point grows by leaps, this far at least and at most.
    pub leaps: Option<(f64, f64)>,
}

/// The points of an outline that lie off in one size. Sizes have to have equally many points.
pub fn astray(courses: &[&Course]) -> Vec<Astray> {
    let Some(shifts) = shifts(courses) else { return Vec::new() };
    let count = courses.first().map_or(0, |course| course.nodes());
    let node = |size: usize, at: usize| -> usize { (at + shifts.get(size).copied().unwrap_or(0)) % count };
    let points: Vec<Vec<Point>> = courses
        .iter()
        .enumerate()
        .map(|(size, course)| (0..count).map(|at| course.node(node(size, at))).collect())
        .collect();
    let is_said = |at: usize| {
        courses.iter().enumerate().all(|(size, course)| course.said(node(size, at)) == TracedPoint::Corner)
    };
    let turns = |at: usize| -> f64 {
        let each = courses.iter().enumerate().map(|(size, course)| course.turn(node(size, at)));
        median(each.collect())
    };
    let is_corner: Vec<bool> = (0..count).map(|at| turns(at) >= CORNER || is_said(at)).collect();
    // A joint that only parts an arc lies where it lies.
    let is_of_arc = |at: usize| {
        courses.iter().enumerate().any(|(size, course)| {
            let own = |at: usize| course.segments.get(node(size, at)).and_then(|one| one.arc);
            own(at).is_some() && own(at) == own(at + count - 1)
        })
    };
    let is_joint: Vec<bool> = (0..count).map(is_of_arc).collect();
    match among(&points, &is_corner, &is_joint) {
        Some(found) => found,
        None => handles_astray(courses, &points, &node),
    }
}

/// The handles of curves that lie off in one size, where the points do not. A curve goes along with its handle less than by
/// half.
fn handles_astray(
    courses: &[&Course],
    points: &[Vec<Point>],
    node: &dyn Fn(usize, usize) -> usize,
) -> Vec<Astray> {
    let count = points.first().map_or(0, Vec::len);
    let curve = |size: usize, at: usize| {
        let segment = courses.get(size)?.segments.get(node(size, at))?;
        let is_curve = !matches!(segment.course, PathSeg::Line(_)) && segment.arc.is_none();
        is_curve.then(|| controls(&segment.course))
    };
    let mut whole: Vec<Vec<Point>> = points.to_vec();
    let mut ends: Vec<[usize; 2]> = Vec::new();
    for at in 0..count {
        let curves: Option<Vec<[Point; 4]>> = (0..courses.len()).map(|size| curve(size, at)).collect();
        for (own, [_, first, second, _]) in whole.iter_mut().zip(curves.into_iter().flatten()) {
            own.extend([first, second]);
        }
        if whole.first().is_some_and(|own| own.len() > count + ends.len()) {
            ends.extend([[at, (at + 1) % count]; 2]);
        }
    }
    let (sizes, growth) = (points.len(), Growth::of(&whole));
    let centre = growth.centre();
    let mut found: Vec<(f64, Astray)> = Vec::new();
    for (at, ends) in ends.iter().enumerate().map(|(at, ends)| (count + at, *ends)) {
        let Some(own) = growth.odd(at, &[(middle_growth(&growth, ends), 0.0)], centre) else { continue };
        let least = 2.0 * CORNER_OFF + steps(own.size, sizes) * own.step;
        if own.off.hypot() > least.max(UNEVEN * own.uneven) && !is_held_between(&whole, &own, at) {
            let Some(place) = whole.get(own.size).and_then(|points| points.get(at)) else { continue };
            found.push((
                own.off.hypot(),
                Astray { size: own.size, at: *place, or: own.or, off: own.off, is_handle: true, leaps: None },
            ));
        }
    }
    // What moves several handles is another curve.
    let most = found.iter().map(|(off, _)| *off).fold(0.0, f64::max);
    let few = found.len() <= MOST_TOLD;
    found.into_iter().filter(|(off, _)| few && *off > most / 2.0).map(|(_, own)| own).collect()
}

/// How many times as far as it moves on from size to size a corner may lie off in that one.
fn steps(size: usize, sizes: usize) -> f64 {
    if size > 0 && size + 1 < sizes { STEPS_BETWEEN } else { STEPS }
}

/// The same of outlines whose corners answer to one another, where sizes have unlike numbers of points between them: at equal
/// shares of each stretch from corner to corner.
pub fn along(courses: &[&Course], places: &[Vec<usize>]) -> Vec<Astray> {
    let count = courses.first().map_or(0, |course| course.nodes());
    let runs = places.first().map_or(0, Vec::len);
    let is_asked = courses.len() >= SIZES
        && courses.iter().all(|course| course.closed)
        && courses.iter().any(|course| course.nodes() != count)
        && (1..=MOST_POINTS / SHARES).contains(&runs);
    if !is_asked {
        return Vec::new();
    }
    let of_size = |(course, places): (&&Course, &Vec<usize>)| -> Vec<Point> {
        let each = places.iter().zip(places.iter().cycle().skip(1));
        each.flat_map(|(from, to)| shared_out(&course.between(*from, *to), SHARES)).collect()
    };
    let points: Vec<Vec<Point>> = courses.iter().zip(places).map(of_size).collect();
    let is_corner: Vec<bool> = (0..runs * SHARES).map(|at| at % SHARES == 0).collect();
    if points.iter().any(|own| own.len() != is_corner.len()) {
        return Vec::new();
    }
    among(&points, &is_corner, &[]).unwrap_or_default()
}

/// Points at so many equal shares of some segments, the first one among them and the last one not.
pub fn shared_out(segments: &[TracedSegment], shares: usize) -> Vec<Point> {
    let lengths: Vec<f64> = segments.iter().map(|one| length(&one.course, 0.1)).collect();
    let whole: f64 = lengths.iter().sum();
    let (mut found, mut before) = (Vec::with_capacity(shares), 0.0);
    for (segment, long) in segments.iter().zip(&lengths) {
        let next = |found: &Vec<Point>| whole * found.len() as f64 / shares as f64;
        while found.len() < shares && next(&found) < before + long {
            found.push(segment.course.eval(((next(&found) - before) / long).clamp(0.0, 1.0)));
        }
        before += long;
    }
    found
}

/// The points, by size, that lie off; of each it is known whether it is a corner, and whether it is none of the drawing's. Of too
/// many none is told; nothing where there is none.
fn among(points: &[Vec<Point>], is_corner: &[bool], is_joint: &[bool]) -> Option<Vec<Astray>> {
    let (sizes, count) = (points.len(), is_corner.len());
    let growth = Growth::of(points);
    let centre = growth.centre();
    let beside = |at: usize| [(at + count - 1) % count, (at + 1) % count];
    let beside_curve = |size: usize, at: usize| growth.beside_curve(points, size, at, beside(at));
    // How far points usually lie off in each size: beside their curve, and altogether.
    let usual: Vec<[f64; 2]> = (0..sizes)
        .map(|size| {
            let off = |at: usize| growth.off(size, at).map_or(0.0, |(off, ..)| off.hypot());
            let traced = (0..count).map(|at| beside_curve(size, at).hypot()).collect();
            [median(traced), median((0..count).map(off).collect())]
        })
        .collect();
    let corners: Vec<usize> = (0..count)
        .filter(|at| is_corner.get(*at) == Some(&true) && is_joint.get(*at) != Some(&true))
        .collect();
    // How a point may grow: as those beside it, and a corner, less likely, as any other.
    let known = |at: usize| -> Vec<(Vec2, f64)> {
        let position = corners.iter().position(|own| *own == at);
        let next = position.map(|own| {
            let around =
                [own + corners.len() - 1, own + 1].map(|own| corners.get(own % corners.len()).copied());
            around.into_iter().flatten().chain(beside(at)).collect::<Vec<usize>>()
        });
        let near = next.unwrap_or_else(|| beside(at).to_vec());
        let others = corners.iter().filter(|other| position.is_some() && **other != at);
        let near = near.iter().map(|at| (growth.whole(*at), 0.0));
        near.chain(others.map(|at| (growth.whole(*at), ELSEWHERE))).collect()
    };
    // Whether all other corners of that size grow evenly to a hair: then one that does not is no other way of growing.
    let is_lone = |size: usize, at: usize| {
        let others = corners.iter().filter(|other| **other != at);
        let mut off = others.filter_map(|other| Some(growth.off(size, *other)?.0.hypot()));
        corners.len() > LONE_AMONG && off.all(|off| off < EVENLY)
    };
    let mut found: Vec<(usize, f64, Astray)> = Vec::new();
    for at in (0..count).filter(|at| is_joint.get(*at) != Some(&true)) {
        let Some(own) = growth.odd(at, &known(at), centre) else { continue };
        let [traced, all] = usual.get(own.size).copied().unwrap_or_default();
        let is_traced = is_traced(points, is_corner, at, beside(at));
        let is_lone = !is_traced && is_lone(own.size, at) && !is_held(points, &own, at, false);
        let (off, least) = match (is_traced, is_lone) {
            (true, _) => (beside_curve(own.size, at), TRACED_OFF + USUAL * traced),
            (_, true) => (own.off, CORNER_OFF + steps(own.size, sizes).min(STEPS_LONE) * own.step),
            _ => (own.off, CORNER_OFF + steps(own.size, sizes) * own.step + USUAL * all),
        };
        // Beside a point that lies off one that does not seems to.
        let is_its_own = own.off.hypot() > off.hypot() / 2.0;
        if is_its_own
            && off.hypot() > least.max(UNEVEN * own.uneven)
            && (is_lone || !is_held_between(points, &own, at))
        {
            let Some(place) = points.get(own.size).and_then(|points| points.get(at)) else { continue };
            found.push((
                at,
                off.hypot(),
                Astray {
                    size: own.size,
                    at: *place,
                    or: own.or.filter(|_| !is_traced),
                    off,
                    is_handle: false,
                    leaps: None,
                },
            ));
        }
    }
    if found.is_empty() {
        let leaping = leaping(points, &growth, is_corner, is_joint);
        return leaping.map(|own| vec![own]);
    }
    Some(told(found, count))
}

/// The corner that grows most by leaps, where no one size alone explains it and the others grow evenly.
fn leaping(points: &[Vec<Point>], growth: &Growth, is_corner: &[bool], is_joint: &[bool]) -> Option<Astray> {
    let sizes = points.len();
    if sizes <= SIZES {
        return None;
    }
    // Where a point lies off from growing evenly by all sizes, in the worst of them.
    let off = |at: usize| -> (usize, Vec2) {
        let ((x, wide), (y, high)) = (growth.across.line(at, None), growth.up.line(at, None));
        let each = (0..sizes).map(|size| {
            let share = |axis: &Axis| axis.shares.get(size).copied().unwrap_or(0.0);
            let expected = Vec2::new(x + wide * share(&growth.across), y + high * share(&growth.up));
            (size, Vec2::new(growth.across.at(size, at), growth.up.at(size, at)) - expected)
        });
        each.max_by(|one, other| one.1.hypot().total_cmp(&other.1.hypot())).unwrap_or((0, Vec2::ZERO))
    };
    let all: Vec<(usize, Vec2)> = (0..is_corner.len()).map(off).collect();
    let usual = median(all.iter().map(|(_, off)| off.hypot()).collect());
    let corners = all
        .iter()
        .enumerate()
        .filter(|(at, _)| is_corner.get(*at).copied().unwrap_or(false) && is_joint.get(*at) != Some(&true));
    let (at, (size, off)) =
        corners.max_by(|(_, one), (_, other)| one.1.hypot().total_cmp(&other.1.hypot()))?;
    let place = |size: usize| Vec2::new(growth.across.at(size, at), growth.up.at(size, at));
    let steps: Vec<f64> = (1..sizes).map(|size| (place(size) - place(size - 1)).hypot()).collect();
    let (least, most) = steps
        .iter()
        .fold((f64::INFINITY, 0.0_f64), |(least, most), step| (least.min(*step), most.max(*step)));
    let is_told = off.hypot() > CORNER_OFF + UNEVEN * usual && most - least > LEAP;
    let at = *points.get(*size)?.get(at)?;
    is_told.then_some(Astray {
        size: *size,
        at,
        or: None,
        off: *off,
        is_handle: false,
        leaps: Some((least, most)),
    })
}

/// Those that stand out: a point that lies off takes those beside it along a little.
fn told(found: Vec<(usize, f64, Astray)>, count: usize) -> Vec<Astray> {
    let stands_out = |(at, off, _): &(usize, f64, Astray)| {
        !found.iter().any(|(other, further, _)| {
            let apart = at.abs_diff(*other).min(count - at.abs_diff(*other));
            (1..=2).contains(&apart) && further > off
        })
    };
    let out: Vec<Astray> = found.iter().filter(|one| stands_out(one)).map(|(.., own)| *own).collect();
    let in_size = |size: usize| out.iter().filter(|own| own.size == size).count();
    out.iter().filter(|own| in_size(own.size) <= MOST_TOLD).copied().collect()
}

/// By how many places the points of each size are to be turned; none where sizes are not to be compared point by point.
fn shifts(courses: &[&Course]) -> Option<Vec<usize>> {
    let first = courses.first()?;
    let count = first.nodes();
    let comparable = courses.len() >= SIZES
        && (3..=MOST_POINTS).contains(&count)
        && courses.iter().all(|course| course.closed && course.nodes() == count);
    if !comparable {
        return None;
    }
    // Point answers to point as they are drawn, if most of them lie where those of the first size do.
    let bounds = first.bounds();
    let wide = bounds.width().max(bounds.height());
    let begins_alike = |course: &&Course| {
        let moved: Vec<Vec2> = (0..count).map(|at| course.node(at) - first.node(at)).collect();
        let by = Vec2::new(
            median(moved.iter().map(|own| own.x).collect()),
            median(moved.iter().map(|own| own.y).collect()),
        );
        median(moved.iter().map(|own| (*own - by).hypot()).collect()) < ALIKE * wide
    };
    match courses.iter().all(begins_alike) {
        true => Some(courses.iter().map(|course| nearest_start(first, course, count)).collect()),
        false => answering_by(courses),
    }
}

/// By how many places the points of a size are to be turned to lie nearest to those of the first one, where that is far nearer than
/// as they are drawn: sizes may begin one point beside one another.
fn nearest_start(first: &Course, course: &Course, count: usize) -> usize {
    let about =
        |own: &Course| (0..count).fold(Vec2::ZERO, |sum, at| sum + own.node(at).to_vec2()) / count as f64;
    let by = about(course) - about(first);
    let apart = |shift: usize| -> f64 {
        let each = (0..count).map(|at| (course.node((at + shift) % count) - first.node(at) - by).hypot());
        each.sum()
    };
    let near = (1..count.min(BESIDE_START)).flat_map(|shift| [shift, count - shift]);
    let best = near.map(|shift| (apart(shift), shift)).min_by(|one, other| one.0.total_cmp(&other.0));
    best.filter(|(best, _)| NEARER_START * best < apart(0)).map_or(0, |(_, shift)| shift)
}

fn is_traced(points: &[Vec<Point>], is_corner: &[bool], at: usize, beside: [usize; 2]) -> bool {
    let corner = |at: usize| is_corner.get(at).copied().unwrap_or(true);
    let is_short = points.iter().all(|points| {
        let place = |at: usize| points.get(at).copied().unwrap_or_default();
        beside.iter().all(|beside| place(*beside).distance(place(at)) < TRACED_STEP)
    });
    !corner(at) && is_short
}

/// How far those two points grow from the first size to the last, in the middle.
fn middle_growth(growth: &Growth, beside: [usize; 2]) -> Vec2 {
    beside.iter().map(|at| growth.whole(*at)).fold(Vec2::ZERO, |sum, own| sum + own) / 2.0
}

/// Whether a point of the middle one of three sizes stays where it is in one of the others: between two sizes a measure may stay as it
/// is.
fn is_held_between(points: &[Vec<Point>], own: &Odd, at: usize) -> bool {
    own.size == 1 && is_held(points, own, at, true)
}

/// Whether a point of one of three sizes stays where it is in the one beside it, as it is drawn or seen from the middle of the piece, the
/// way that it lies off.
fn is_held(points: &[Vec<Point>], own: &Odd, at: usize, from_middle: bool) -> bool {
    let place = |size: usize| points.get(size).and_then(|own| own.get(at)).copied().unwrap_or_default();
    let centre = |size: usize| {
        let all = points.get(size).map_or(&[] as &[Point], Vec::as_slice);
        all.iter().fold(Vec2::ZERO, |sum, at| sum + at.to_vec2()) / all.len().max(1) as f64
    };
    let along = own.off / own.off.hypot().max(f64::MIN_POSITIVE);
    let stays = |other: usize| {
        let by = place(own.size) - place(other);
        let from_centre = by - (centre(own.size) - centre(other));
        by.dot(along).abs() < STAYS || from_middle && from_centre.dot(along).abs() < STAYS
    };
    let beside = [own.size.checked_sub(1), Some(own.size + 1)].into_iter().flatten();
    points.len() == SIZES && beside.filter(|other| *other < SIZES).any(stays)
}
