//! Walks from corner to corner, in all sizes at once.

use super::course::Course;
use super::figures::TextUnit;
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
    each_point(walk, |points| {
        for (point, shift) in points.iter_mut().zip(shifts) {
            *point = Affine::translate(*shift) * *point;
        }
    });
}

/// The walk as the text says it. Middles of arcs, which are written more finely, stay where they are.
pub fn as_written(walk: &Walk, unit: TextUnit) -> Walk {
    let mut written = walk.clone();
    each_point(&mut written, |points| {
        points.iter_mut().for_each(|point| *point = unit.rounded_point(*point));
    });
    for (edge, drawn) in written.edges.iter_mut().zip(&walk.edges) {
        if matches!(edge.stretch.form, Form::Arc { .. }) {
            edge.stretch.form.clone_from(&drawn.stretch.form);
        }
    }
    written
}

/// Corners, handles and middles, each a list by size.
fn each_point(walk: &mut Walk, mut moved: impl FnMut(&mut Vec<Point>)) {
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
