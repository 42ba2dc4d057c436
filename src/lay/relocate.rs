//! A better place for one piece: places drawn at random over the cloth and around where it lies,
//! the best few of them improved step by step.

use super::board::Board;
use super::random::Random;

/// How thoroughly a better place is looked for.
#[derive(Clone, Copy, Debug)]
pub struct Care {
    /// Places drawn over the whole cloth.
    pub anywhere: usize,
    /// Places drawn with its bounds in line with those of two other pieces.
    pub beside: usize,
    /// Places drawn around where the piece lies.
    pub nearby: usize,
    /// How many of the best are improved.
    pub kept: usize,
}

/// A pose, a place, and the weighted depth of the overlaps there.
#[derive(Clone, Copy, Debug)]
pub struct Spot {
    pub pose: usize,
    pub x: f32,
    pub y: f32,
    pub burden: f32,
}

/// The best place found for a piece: never worse than where it lies.
pub fn best_spot(board: &mut Board, piece: usize, care: Care, random: &mut Random) -> Spot {
    let (pose, x, y) = board.layout.lies[piece];
    let here = Spot { pose, x, y, burden: board.burden(piece) };
    let length = board.layout.length;
    let choices = &board.poses.of_item[board.poses.copies[piece]];
    let size = board.pose_of(piece).half;
    let size = size.0.min(size.1);
    let mut kept: Vec<Spot> = Vec::with_capacity(care.kept + 1);
    kept.push(here);
    for draw in 0..care.nearby + care.beside + care.anywhere {
        let (pose, wish) = if draw < care.nearby {
            let spread = 0.6 * size;
            (pose, (x + spread * random.bell(), y + spread * random.bell()))
        } else {
            let pose = choices[random.below(choices.len())];
            if draw < care.nearby + care.beside {
                (pose, beside(board, pose, random))
            } else {
                let shape = &board.poses.poses[pose];
                let (low, high) = shape.along(length);
                (pose, (random.between(low, high), random.between(shape.across.0, shape.across.1)))
            }
        };
        let Some((x, y)) = board.poses.poses[pose].place_near(wish, length) else { continue };
        let bound = if kept.len() < care.kept { f32::INFINITY } else { kept[kept.len() - 1].burden };
        let burden = board.look(piece, pose, x, y, bound);
        if burden < bound {
            let at = kept.partition_point(|spot| spot.burden <= burden);
            kept.insert(at, Spot { pose, x, y, burden });
            kept.truncate(care.kept);
        }
    }
    let mut best = here;
    for mut spot in kept {
        glide(board, piece, &mut spot, 5);
        descend(board, piece, &mut spot, size * 0.2, size * 0.01, random);
        if spot.burden < best.burden {
            best = spot;
        }
    }
    if best.burden > 0.0 {
        glide(board, piece, &mut best, 4);
        descend(board, piece, &mut best, size * 0.02, size * 0.0005, random);
    }
    best
}

/// A place at which the bounds of a pose are in line with those of one piece along the cloth and
/// with those of another, or with an edge of the cloth, across it: straight pieces fit together
/// there and hardly anywhere else.
fn beside(board: &Board, pose: usize, random: &mut Random) -> (f32, f32) {
    let shape = &board.poses.poses[pose];
    let (first, second) = (random.below(board.count()), random.below(board.count() + 2));
    let half = board.pose_of(first).half.0;
    let x = board.layout.lies[first].1;
    let x = match random.below(4) {
        0 => x - half - shape.half.0,
        1 => x - half + shape.half.0,
        _ => x + half + shape.half.0,
    };
    if second >= board.count() {
        return (x, if second == board.count() { shape.across.0 } else { shape.across.1 });
    }
    let half = board.pose_of(second).half.1;
    let y = board.layout.lies[second].2;
    let y = match random.below(4) {
        0 => y - half - shape.half.1,
        1 => y - half + shape.half.1,
        2 => y + half - shape.half.1,
        _ => y + half + shape.half.1,
    };
    (x, y)
}

/// Steps that undo all overlaps at once, as far as they can be undone, shortened where a whole step
/// does not help.
fn glide(board: &mut Board, piece: usize, spot: &mut Spot, rounds: usize) {
    let length = board.layout.length;
    for _ in 0..rounds {
        if spot.burden <= 0.0 {
            return;
        }
        board.gather(piece, spot.pose, spot.x, spot.y, 0.0);
        let (_, dx, dy) = board.look_for_step(spot.pose, piece, spot.x, spot.y);
        if !(dx.is_finite() && dy.is_finite()) {
            return;
        }
        let mut part = 1.02;
        let mut better = false;
        for _ in 0..3 {
            let wish = (spot.x + part * dx, spot.y + part * dy);
            part *= 0.4;
            let Some((x, y)) = board.poses.poses[spot.pose].place_near(wish, length) else { continue };
            if x == spot.x && y == spot.y {
                continue;
            }
            let burden = board.look(piece, spot.pose, x, y, spot.burden);
            if burden < spot.burden {
                (spot.x, spot.y, spot.burden) = (x, y, burden);
                better = true;
                break;
            }
        }
        if !better {
            return;
        }
    }
}

/// Steps along the axes and the diagonals, longer after a success and shorter after a failure
/// (pattern search, Hooke and Jeeves 1961).
fn descend(board: &mut Board, piece: usize, spot: &mut Spot, first: f32, last: f32, random: &mut Random) {
    let (mut step_x, mut step_y) = (first, first);
    let length = board.layout.length;
    let margin = 2.0 * first;
    let mut centre = (f32::MAX, f32::MAX);
    while (step_x > last || step_y > last) && spot.burden > 0.0 {
        let axis = random.below(4);
        let (dx, dy) = match axis {
            0 => (step_x, 0.0),
            1 => (0.0, step_y),
            2 => (step_x, step_y),
            _ => (step_x, -step_y),
        };
        let mut better = false;
        for sign in [1.0f32, -1.0] {
            let wish = (spot.x + sign * dx, spot.y + sign * dy);
            let Some((x, y)) = board.poses.poses[spot.pose].place_near(wish, length) else { continue };
            if x == spot.x && y == spot.y {
                continue;
            }
            if (x - centre.0).abs() > margin || (y - centre.1).abs() > margin {
                centre = (x, y);
                board.gather(piece, spot.pose, x, y, margin);
            }
            let burden = board.look_at_met(piece, spot.pose, x, y, spot.burden);
            if burden < spot.burden {
                (spot.x, spot.y, spot.burden) = (x, y, burden);
                better = true;
                break;
            }
        }
        let factor: f32 = if better { 1.1 } else { 0.5 };
        let (fx, fy) = match axis {
            0 => (factor, 1.0),
            1 => (1.0, factor),
            _ => (factor.max(0.7), factor.max(0.7)),
        };
        step_x *= fx;
        step_y *= fy;
    }
}
