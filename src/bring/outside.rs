//! A size whose outline lies everywhere equally far outside of where the others have it: it holds an allowance, and theirs none.

use super::astray::shared_out;
use super::course::Course;
use super::displaced::{NEARER, named, seen_from_middle};
use super::growth::Growth;
use super::traced::TracedSize;
use kurbo::{Point, Vec2};

/// An outline that holds an allowance lies so far outside, in millimetres …
const OUTSIDE: std::ops::RangeInclusive<f64> = 4.0..=40.0;
/// … evenly to this share of it, as a rule, …
const USUAL: f64 = 0.1;
/// … and to this at most: where a curve is tight the places do not answer to one another.
const MOST: f64 = 0.3;
/// So many places of an edge are looked at.
const PLACES: usize = 8;
/// What lies no farther from the line of a fold than this, in millimetres, lies on it: no allowance goes there.
const ON_FOLD: f64 = 1.0;
/// A size that is so many times as far as a step from the next one is larger, and holds no allowance.
const STEPS: f64 = 2.5;

/// How far a place lies off in a size, and how far it grows by the others.
#[derive(Clone, Copy)]
struct Off {
    off: Vec2,
    grown: Vec2,
}

/// What is said of it: a sentence's end, behind the piece's name.
pub fn told(
    courses: &[Course],
    places: &[Vec<usize>],
    drawn: &[&TracedSize],
    sizes: &[String],
) -> Option<String> {
    let rings: Vec<Vec<Point>> = courses.iter().zip(places).map(|(course, own)| ring(course, own)).collect();
    let count = rings.first().map_or(0, Vec::len);
    if rings.iter().any(|own| own.len() != count) {
        return None;
    }
    let is_folded: Vec<bool> = (0..count).map(|at| lies_on_fold(&rings, drawn, at)).collect();
    let seen: Vec<Vec<Point>> = rings.iter().map(|own| seen_from_middle(own)).collect();
    let areas: Vec<f64> = courses.iter().map(Course::area).collect();
    let growths = [Growth::of(&seen), Growth::even(&seen)];
    let (size, wide) = growths.iter().find_map(|growth| odd(growth, &seen, &is_folded, &areas))?;
    let (name, others) = named(sizes, size);
    Some(format!(
        "{name} lies everywhere {wide:.0} mm outside of where the growth of {others} has it: does its outline hold an allowance, and \
         theirs none?"
    ))
}

/// Places along an outline, its corners among them.
fn ring(course: &Course, corners: &[usize]) -> Vec<Point> {
    let each = corners.iter().zip(corners.iter().cycle().skip(1));
    each.flat_map(|(from, to)| shared_out(&course.between(*from, *to), PLACES)).collect()
}

/// Whether the way from a place to the next lies along the fold in every size.
fn lies_on_fold(rings: &[Vec<Point>], drawn: &[&TracedSize], at: usize) -> bool {
    rings.iter().zip(drawn).all(|(own, drawn)| {
        let Some((from, to)) = drawn.fold else { return false };
        let off =
            |point: Point| (point - from).cross(to - from).abs() / from.distance(to).max(f64::MIN_POSITIVE);
        let ends = [own.get(at), own.get((at + 1) % own.len().max(1))];
        ends.into_iter().flatten().all(|point| off(*point) < ON_FOLD)
    })
}

/// The size that lies outside, and how far.
fn odd(growth: &Growth, seen: &[Vec<Point>], is_folded: &[bool], areas: &[f64]) -> Option<(usize, f64)> {
    let each = (0..seen.len()).filter_map(|size| {
        let own = seen.get(size)?;
        let off: Option<Vec<(Vec2, Vec2, f64)>> = (0..own.len()).map(|at| growth.off(size, at)).collect();
        let off = off?;
        let uneven = off.iter().map(|own| own.2).fold(0.0, f64::max);
        let all: Vec<Off> = off.iter().map(|(off, grown, _)| Off { off: *off, grown: *grown }).collect();
        let wide = evenly(own, &all, is_folded, seen.len())?;
        let grown = off.iter().map(|own| own.1.hypot()).sum::<f64>();
        (OUTSIDE.contains(&wide) && uneven < wide / NEARER).then_some((size, wide, grown))
    });
    // Of several that it may be that one which leaves the others growing least.
    let (size, wide, _) = each.min_by(|one, other| one.2.total_cmp(&other.2))?;
    // Where an outline is smaller than that of the size before, it is the one before that may be too large.
    let falls = areas.windows(2).position(|pair| matches!(pair, [one, other] if other < one));
    falls.is_none_or(|at| at == size).then_some((size, wide))
}

/// How far outside all edges lie, if all do alike wherever the whole is: by least squares, of four edges and more. None where they only
/// grow on as the others do.
fn evenly(ring: &[Point], off: &[Off], is_folded: &[bool], sizes: usize) -> Option<f64> {
    let count = ring.len();
    let free = (0..count).filter(|at| is_folded.get(*at) != Some(&true));
    let edges: Vec<(Vec2, f64, f64)> = free
        .filter_map(|at| {
            let next = (at + 1) % count;
            let along = *ring.get(next)? - *ring.get(at)?;
            // The outline goes anticlockwise: outward is to the right.
            let out = -along.turn_90() / along.hypot().max(f64::MIN_POSITIVE);
            let (one, other) = (off.get(at)?, off.get(next)?);
            let step = (one.grown + other.grown) / 2.0 / (sizes - 1).max(1) as f64;
            Some((out, ((one.off + other.off) / 2.0).dot(out), step.dot(out)))
        })
        .collect();
    if edges.len() < 4 {
        return None;
    }
    let by_off: Vec<(Vec2, f64)> = edges.iter().map(|(out, off, _)| (*out, *off)).collect();
    let wide = settled(&by_off)?;
    let grown: f64 = edges.iter().map(|(.., step)| step * step).sum();
    let share = edges.iter().map(|(_, off, step)| off * step).sum::<f64>() / grown.max(f64::MIN_POSITIVE);
    let beyond = edges.iter().map(|(_, off, step)| off - share * step);
    let grows_on = share > 0.0 && share < STEPS && are_small(beyond, wide);
    (!grows_on).then_some(wide)
}

/// How far outside all edges lie, of those that are known by which way is outward and how far.
fn settled(edges: &[(Vec2, f64)]) -> Option<f64> {
    let (mut by, mut wide) = (Vec2::ZERO, 0.0);
    // Two unknowns and one by turns: it comes to rest soon.
    for _ in 0..200 {
        wide = edges.iter().map(|(out, off)| off - by.dot(*out)).sum::<f64>() / edges.len() as f64;
        let pull = edges.iter().fold(Vec2::ZERO, |sum, (out, off)| sum + *out * (off - by.dot(*out) - wide));
        by += pull / edges.len() as f64;
    }
    are_small(edges.iter().map(|(out, off)| off - by.dot(*out) - wide), wide).then_some(wide)
}

/// Whether all of these are little beside how far outside it lies.
fn are_small(all: impl Iterator<Item = f64>, wide: f64) -> bool {
    let (count, sum, most) = all.fold((0.0, 0.0, 0.0_f64), |(count, sum, most), own| {
        (count + 1.0, sum + own * own, most.max(own.abs()))
    });
    most < MOST * wide && libm::sqrt(sum / f64::max(count, 1.0)) < USUAL * wide
}
