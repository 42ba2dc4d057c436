//! The first layout: the largest pieces first, each as far left as it goes (the bottom-left rule
//! of Baker, Coffman and Rivest 1980, on exact stretches of free cloth).

use super::depth::Depths;
use super::orientation::Orientations;
use super::state::{Layout, State};

/// How many places across the cloth are tried for a piece; fewer in a large lay.
const ACROSS: usize = 40;
const ACROSS_IN_LARGE_LAY: usize = 12;
const LARGE_LAY: usize = 300;

/// Lays all pieces, none over another.
pub fn first_layout(orientations: &Orientations, depths: &Depths, space: f64) -> Layout {
    let count = orientations.copies.len();
    let nowhere = orientations
        .copies
        .iter()
        .map(|&item| (orientations.of_item[item][0], f32::MAX / 4.0, 0.0))
        .collect();
    let mut state =
        State::new(orientations, depths, space, Layout { length: f32::MAX / 2.0, placements: nowhere });
    let mut order: Vec<usize> = (0..count).collect();
    // Pieces held to an edge of the cloth come first: nothing else may take their place there.
    let held = |piece: usize| {
        let orientations_of = &orientations.of_item[orientations.copies[piece]];
        orientations_of
            .iter()
            .all(|&orientation| orientations.orientations[orientation].turn.against.is_some())
    };
    order.sort_by(|&a, &b| {
        let area = |piece: usize| orientations.area[orientations.copies[piece]];
        held(b).cmp(&held(a)).then(area(b).total_cmp(&area(a))).then(a.cmp(&b))
    });
    let steps = if count > LARGE_LAY { ACROSS_IN_LARGE_LAY } else { ACROSS };
    let mut stretches = Vec::new();
    let mut length = 0.0f32;
    for (laid, &piece) in order.iter().enumerate() {
        let mut best: Option<(f32, f32, usize, f32, f32)> = None;
        for &orientation in &orientations.of_item[orientations.copies[piece]] {
            let shape = &orientations.orientations[orientation];
            for step in 0..=steps {
                let wish = shape.across.0 + (shape.across.1 - shape.across.0) * step as f32 / steps as f32;
                let Some(y) = shape.lattice_y.nearest(wish, shape.across.0, shape.across.1) else { continue };
                state.blocked(orientation, y, &order[..laid], &mut stretches);
                stretches.sort_by(|a, b| a.0.total_cmp(&b.0));
                let x = leftmost(shape.half.0, shape.lattice_x.first, shape.lattice_x.step, &stretches);
                let end = x + shape.half.0;
                if best.is_none_or(|(e, across, ..)| end < e - 1e-3 || (end < e + 1e-3 && y < across)) {
                    best = Some((end, y, orientation, x, y));
                }
            }
        }
        if let Some((end, _, orientation, x, y)) = best {
            state.put(piece, orientation, x, y);
            length = length.max(end);
        }
    }
    Layout { length, placements: state.layout.placements }
}

/// The least allowed x from `low` on that lies in no stretch; the stretches in order of their start.
fn leftmost(low: f32, first: f32, step: f32, stretches: &[(f32, f32)]) -> f32 {
    let allowed = |x: f32| if step > 0.0 { first + ((x - first) / step - 1e-4).ceil() * step } else { x };
    let mut x = allowed(low);
    for &(from, to) in stretches {
        if from < x && x < to {
            x = allowed(to);
        }
    }
    // A step over a stretch may have landed in one that starts earlier than it ends.
    for _ in 0..stretches.len() {
        match stretches.iter().find(|&&(from, to)| from < x && x < to - 1e-3) {
            Some(&(_, to)) => x = allowed(to),
            None => break,
        }
    }
    x
}

/// All pieces one behind the other: no plan to be proud of, but one that cannot overlap.
pub fn row_layout(orientations: &Orientations, space: f64) -> Layout {
    let mut end = -space as f32;
    let mut placements = Vec::with_capacity(orientations.copies.len());
    for &item in &orientations.copies {
        let orientation = orientations.of_item[item][0];
        let shape = &orientations.orientations[orientation];
        // A little more than the bounds, for the rounding of f32.
        let low = end + space as f32 + shape.half.0 + 0.01;
        let x = leftmost(low, shape.lattice_x.first, shape.lattice_x.step, &[]);
        let y = shape.any_across();
        end = x + shape.half.0;
        placements.push((orientation, x, y));
    }
    Layout { length: end, placements }
}
