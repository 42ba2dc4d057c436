//! Edges without length: two corners that lie on one another.

use super::course::Course;
use super::figures::TextUnit;
use super::pattern::{Walk, of_size};
use super::runs::Form;
use super::unmatched::place;
use kurbo::{Point, Vec2};

/// Why an outline cannot be written, of the first size in which an edge has no length once it is rounded as the text says it, where
/// one has none; `at` says where the corners lie.
pub fn flat(
    outline: &Walk,
    courses: &[Course],
    shifts: &[Vec2],
    unit: TextUnit,
    sizes: &[String],
) -> Option<(usize, String)> {
    for (size, (course, shift)) in courses.iter().zip(shifts).enumerate() {
        let Some(edge) = (0..outline.edges.len()).find(|edge| is_flat(outline, *edge, size, unit)) else {
            continue;
        };
        let at = of_size(outline.start(edge), size)? - *shift;
        let apart = (0..courses.len()).find(|other| !is_flat(outline, edge, *other, unit));
        let apart = apart.and_then(|other| sizes.get(other)).filter(|name| !name.is_empty());
        let way = match apart {
            Some(other) => format!("draw them apart as in {other}, or take one of them out in every size"),
            None => "take one of them out, or draw them apart".to_owned(),
        };
        return Some((size, format!("two corners lie on one another {}: {way}", place(course, at))));
    }
    None
}

fn is_flat(outline: &Walk, edge: usize, size: usize, unit: TextUnit) -> bool {
    let Some(one) = outline.edges.get(edge) else { return false };
    let point = |all: &[Point]| of_size(all, size).map(|point| unit.rounded_point(point));
    let (from, to) = (point(outline.start(edge)), point(&one.stretch.ends));
    let is_there = |point: Option<Point>| point == from;
    is_there(to)
        && match &one.stretch.form {
            Form::Straight | Form::Arc { .. } => true,
            Form::Handles { first, second } => is_there(point(first)) && is_there(point(second)),
        }
}
