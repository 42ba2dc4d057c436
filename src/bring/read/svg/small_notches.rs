//! Small Vs, triangles and boxes that stand on an outline: notches, and no pieces.

use super::outline::Work;
use super::roles::{Role, Shape};
use crate::bring::read::small_notches::{foot, lies_on};
use kurbo::{ParamCurve, Point};

/// What may stand on the outline of another shape lies no farther from what it covers, in millimetres.
const NEAR: f64 = 1.0;

/// A shape and its place in the drawing.
type Numbered = (usize, Shape);

/// The closed paths that are no notches; the others, and open Vs, are notches among the rest.
pub fn told_apart(closed: Vec<Shape>, rest: &mut Vec<Shape>, work: &Work) -> Vec<Shape> {
    let anywhere = |_: Point| true;
    // The form alone is asked here, of which the foot are two corners that lie one after the other.
    let is_small = |shape: &Shape| {
        let two: Vec<Point> = shape.path.segments.iter().take(2).map(|one| one.course.end()).collect();
        foot(&shape.path, |at| two.contains(&at)).is_some()
    };
    let (small, large): (Vec<Numbered>, Vec<Numbered>) =
        closed.into_iter().enumerate().partition(|(_, shape)| is_small(shape));
    let standing = |shape: &Shape| -> Option<Point> {
        let around = shape.bounds().inflate(NEAR, NEAR);
        large.iter().find_map(|(_, other)| {
            let is_of_size = shape.owner.size.is_none()
                || other.owner.size.is_none()
                || shape.owner.size == other.owner.size;
            let is_near = is_of_size && other.bounds().overlaps(around);
            let may = is_near && work.may(4 * other.path.segments.len());
            may.then(|| foot(&shape.path, |at| lies_on(&other.path, at))).flatten()
        })
    };
    for shape in rest.iter_mut().filter(|shape| shape.role == Role::Line && !shape.path.closed) {
        if foot(&shape.path, anywhere).is_some()
            && let Some(at) = standing(shape)
        {
            shape.role = Role::Notch(at);
        }
    }
    let mut pieces: Vec<Numbered> = Vec::new();
    for (number, mut shape) in small {
        match standing(&shape) {
            Some(at) => {
                shape.role = Role::Notch(at);
                rest.push(shape);
            }
            None => pieces.push((number, shape)),
        }
    }
    pieces.extend(large);
    // In the order of the drawing.
    pieces.sort_by_key(|(number, _)| *number);
    pieces.into_iter().map(|(_, shape)| shape).collect()
}
