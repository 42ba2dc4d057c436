//! Walks from corner to corner, in all sizes at once.

use super::course::Course;
use super::mirrored::mirrored;
use super::pattern::{Edge, Walk};
use super::runs::{Form, Run, run};
use super::traced::TracedSegment;
use kurbo::{Affine, Point, Vec2};

/// Of so many fitted runs mirror images are looked for: no piece has more curves that are alike.
const MOST_KEPT: usize = 32;

/// The walk from corner to corner, and how far it misses what was drawn, in millimetres.
pub fn walk(courses: &[&Course], places: &[Vec<usize>], tolerance: f64) -> Option<(Walk, f64)> {
    let (first, own) = (courses.first()?, places.first()?);
    let from = courses
        .iter()
        .zip(places)
        .map(|(course, own)| course.node(own.first().copied().unwrap_or(0)))
        .collect();
    let count = if first.closed { own.len() } else { own.len().saturating_sub(1) };
    let mut walk = Walk { from, edges: Vec::new() };
    let mut error = 0.0_f64;
    // What was fitted, so that a mirror image of it comes out alike.
    let mut fitted: Vec<(Vec<Vec<TracedSegment>>, Run)> = Vec::new();
    for number in 0..count {
        let place = |own: &[usize], at: usize| own.get(at % own.len().max(1)).copied().unwrap_or(0);
        let parts: Vec<Vec<TracedSegment>> = courses
            .iter()
            .zip(places)
            .map(|(course, own)| course.between(place(own, number), place(own, number + 1)))
            .collect();
        let alike = fitted.iter().find_map(|(known, run)| mirrored(known, run, &parts));
        let found = match alike {
            Some(found) => found,
            None => {
                let found = run(&parts, tolerance)?;
                if found.error > 0.0 && fitted.len() < MOST_KEPT {
                    fitted.push((parts, found.clone()));
                }
                found
            }
        };
        error = error.max(found.error);
        let edges =
            found.stretches.into_iter().map(|stretch| Edge { name: String::new(), run: number, stretch });
        walk.edges.extend(edges);
    }
    Some((walk, error))
}

/// The walk moved, by size.
pub fn move_walk(walk: &mut Walk, shifts: &[Vec2]) {
    let moved = |points: &mut Vec<Point>| {
        for (point, shift) in points.iter_mut().zip(shifts) {
            *point = Affine::translate(*shift) * *point;
        }
    };
    moved(&mut walk.from);
    for edge in &mut walk.edges {
        moved(&mut edge.stretch.ends);
        match &mut edge.stretch.form {
            Form::Straight => {}
            Form::Arc { centres, .. } => moved(centres),
            Form::Handles { first, second } => {
                moved(first);
                moved(second);
            }
        }
    }
}
