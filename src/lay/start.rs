//! The first layout: the largest pieces first, each as far left as it goes (the bottom-left rule
//! of Baker, Coffman and Rivest 1980, on exact stretches of free cloth).

use super::board::{Board, Layout};
use super::depth::Depths;
use super::pose::Poses;

/// How many places across the cloth are tried for a piece; fewer in a large lay.
const ACROSS: usize = 40;
const ACROSS_IN_LARGE_LAY: usize = 12;
const LARGE_LAY: usize = 300;

/// Lays all pieces, none over another.
pub fn first_layout(poses: &Poses, depths: &Depths, space: f64) -> Layout {
    let count = poses.copies.len();
    let nowhere = poses.copies.iter().map(|&item| (poses.of_item[item][0], f32::MAX / 4.0, 0.0)).collect();
    let mut board = Board::new(poses, depths, space, Layout { length: f32::MAX / 2.0, lies: nowhere });
    let mut order: Vec<usize> = (0..count).collect();
    // Pieces held to an edge of the cloth come first: nothing else may take their place there.
    let held = |piece: usize| {
        let poses_of = &poses.of_item[poses.copies[piece]];
        poses_of.iter().all(|&pose| poses.poses[pose].turn.against.is_some())
    };
    order.sort_by(|&a, &b| {
        let area = |piece: usize| poses.area[poses.copies[piece]];
        held(b).cmp(&held(a)).then(area(b).total_cmp(&area(a))).then(a.cmp(&b))
    });
    let steps = if count > LARGE_LAY { ACROSS_IN_LARGE_LAY } else { ACROSS };
    let mut stretches = Vec::new();
    let mut length = 0.0f32;
    for (laid, &piece) in order.iter().enumerate() {
        let mut best: Option<(f32, f32, usize, f32, f32)> = None;
        for &pose in &poses.of_item[poses.copies[piece]] {
            let shape = &poses.poses[pose];
            for step in 0..=steps {
                let wish = shape.across.0 + (shape.across.1 - shape.across.0) * step as f32 / steps as f32;
                let Some(y) = shape.lattice_y.nearest(wish, shape.across.0, shape.across.1) else { continue };
                board.blocked(pose, y, &order[..laid], &mut stretches);
                stretches.sort_by(|a, b| a.0.total_cmp(&b.0));
                let x = leftmost(shape.half.0, shape.lattice_x.first, shape.lattice_x.step, &stretches);
                let end = x + shape.half.0;
                if best.is_none_or(|(e, across, ..)| end < e - 1e-3 || (end < e + 1e-3 && y < across)) {
                    best = Some((end, y, pose, x, y));
                }
            }
        }
        if let Some((end, _, pose, x, y)) = best {
            board.put(piece, pose, x, y);
            length = length.max(end);
        }
    }
    Layout { length, lies: board.layout.lies }
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
pub fn row_layout(poses: &Poses, space: f64) -> Layout {
    let mut end = -space as f32;
    let mut lies = Vec::with_capacity(poses.copies.len());
    for &item in &poses.copies {
        let pose = poses.of_item[item][0];
        let shape = &poses.poses[pose];
        // A little more than the bounds, for the rounding of f32.
        let low = end + space as f32 + shape.half.0 + 0.01;
        let x = leftmost(low, shape.lattice_x.first, shape.lattice_x.step, &[]);
        let y = shape.any_across();
        end = x + shape.half.0;
        lies.push((pose, x, y));
    }
    Layout { length: end, lies }
}
