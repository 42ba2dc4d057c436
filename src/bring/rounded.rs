//! A size whose points were rounded more than those of the others: its curves go in steps.

use super::course::Course;
use super::displaced::named;
use crate::report::INCH;

/// Figures that are rounded to, in millimetres and parts of an inch.
const STEPS: [(f64, &str); 5] = [
    (10.0, "whole centimetres"),
    (5.0, "half centimetres"),
    (INCH, "whole inches"),
    (12.7, "half inches"),
    (6.35, "quarters of an inch"),
];
/// Fewer points may all be drafted so.
const LEAST_POINTS: usize = 12;
/// So many of them are points of a curve in another size: no curve passes whole figures alone.
const OF_CURVES: usize = 8;
/// A point of a curve turns by so much, in radians (0.5° to 25°).
const CURVED: std::ops::Range<f64> = 0.0087..0.436;
/// What is nearer to a figure than this, in millimetres, is it.
const SAME: f64 = 1e-3;

/// What is said of that size: a sentence's end, behind the piece's name.
pub fn told(courses: &[Course], sizes: &[String]) -> Option<String> {
    if courses.len() < 2 || courses.iter().any(|course| course.nodes() < LEAST_POINTS) {
        return None;
    }
    let (size, words) = STEPS.iter().find_map(|(step, words)| {
        let shares: Vec<f64> = courses.iter().map(|course| share(course, *step)).collect();
        let mut rounded = shares.iter().enumerate().filter(|(_, share)| **share >= 1.0);
        let (size, _) = rounded.next().filter(|_| rounded.next().is_none())?;
        let are_others_free = shares.iter().enumerate().all(|(at, share)| at == size || *share < 0.5);
        are_others_free.then_some((size, words))
    })?;
    let is_curved = |course: &Course| {
        (0..course.nodes()).filter(|at| CURVED.contains(&course.turn(*at))).count() >= OF_CURVES
    };
    let are_curved = courses.iter().enumerate().any(|(at, course)| at != size && is_curved(course));
    let (name, others) = named(sizes, size);
    are_curved.then(|| {
        format!(
            "all points of {name} lie by {words} from its first one, and those of {others} do not: were its figures rounded? Its curves \
             go in steps then"
        )
    })
}

/// Of how many points both figures are multiples of a step, seen from the first one.
fn share(course: &Course, step: f64) -> f64 {
    let is_multiple = |figure: f64| ((figure / step).round() * step - figure).abs() < SAME;
    let first = course.node(0);
    let own = (0..course.nodes()).map(|at| course.node(at) - first);
    own.filter(|by| is_multiple(by.x) && is_multiple(by.y)).count() as f64 / course.nodes().max(1) as f64
}
