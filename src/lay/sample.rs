//! A better place for one piece: the lowest places of a coarse look all over the cloth and places drawn
//! at random around where it lies, the best few of them improved step by step.

use super::field::Low;
use super::random::Random;
use super::state::State;

/// How thoroughly a better place is looked for.
#[derive(Clone, Copy, Debug)]
pub struct Samples {
    /// Lowest places of a look all over the cloth, in each orientation.
    pub lowest: usize,
    /// Places drawn over the whole cloth where it cannot be looked over.
    pub anywhere: usize,
    /// Places drawn with its bounds in line with those of two other pieces.
    pub beside: usize,
    /// Places drawn around where the piece lies.
    pub nearby: usize,
    /// How many of the best are improved.
    pub kept: usize,
}

/// An orientation, a place, and the weighted depth of the overlaps there.
#[derive(Clone, Copy, Debug)]
pub struct Candidate {
    pub orientation: usize,
    pub x: f32,
    pub y: f32,
    pub penalty: f32,
}

/// The best few candidates so far, the least penalty first.
struct Kept {
    most: usize,
    candidates: Vec<Candidate>,
}

impl Kept {
    /// Takes in the allowed place nearest to a wish, where it is among the best.
    fn offer(&mut self, state: &mut State, piece: usize, orientation: usize, wish: (f32, f32)) {
        let shape = &state.orientations.orientations[orientation];
        let Some((x, y)) = shape.place_near(wish, state.layout.length) else { return };
        let worst = self.candidates.get(self.most - 1);
        let bound = worst.map_or(f32::INFINITY, |worst| worst.penalty);
        let penalty = state.evaluate(piece, orientation, x, y, bound);
        if penalty < bound {
            let at = self.candidates.partition_point(|candidate| candidate.penalty <= penalty);
            self.candidates.insert(at, Candidate { orientation, x, y, penalty });
            self.candidates.truncate(self.most);
        }
    }
}

/// The best place found for a piece: never worse than where it lies.
pub fn best_candidate(state: &mut State, piece: usize, samples: Samples, random: &mut Random) -> Candidate {
    let (orientation, x, y) = state.layout.placements[piece];
    let here = Candidate { orientation, x, y, penalty: state.penalty(piece) };
    let size = state.orientation_of(piece).half;
    let size = size.0.min(size.1);
    let mut kept = Kept { most: samples.kept.max(1), candidates: Vec::with_capacity(samples.kept + 1) };
    kept.candidates.push(here);
    let anywhere = if offer_lowest(state, piece, samples.lowest, &mut kept) { 0 } else { samples.anywhere };
    for _ in 0..samples.nearby {
        let spread = 0.6 * size;
        let wish = (x + spread * random.bell(), y + spread * random.bell());
        kept.offer(state, piece, orientation, wish);
    }
    let choices = &state.orientations.of_item[state.orientations.copies[piece]];
    for draw in 0..samples.beside + anywhere {
        let orientation = choices[random.below(choices.len())];
        let wish = if draw < samples.beside {
            beside(state, orientation, random)
        } else {
            let shape = &state.orientations.orientations[orientation];
            let (low, high) = shape.along(state.layout.length);
            (random.between(low, high), random.between(shape.across.0, shape.across.1))
        };
        kept.offer(state, piece, orientation, wish);
    }
    let mut best = here;
    for mut candidate in kept.candidates {
        step_apart(state, piece, &mut candidate, 5);
        descend(state, piece, &mut candidate, size * 0.2, size * 0.01, random);
        if candidate.penalty < best.penalty {
            best = candidate;
        }
    }
    if best.penalty > 0.0 {
        step_apart(state, piece, &mut best, 4);
        descend(state, piece, &mut best, size * 0.02, size * 0.0005, random);
    }
    best
}

/// Offers the lowest places of a look all over the cloth. Whether there were any: where a repeat must be met the places
/// allowed are few, and the look would miss them.
fn offer_lowest(state: &mut State, piece: usize, most: usize, kept: &mut Kept) -> bool {
    let mut lowest: Vec<Low> = Vec::with_capacity(most + 1);
    let mut any = false;
    for &orientation in &state.orientations.of_item[state.orientations.copies[piece]] {
        let shape = &state.orientations.orientations[orientation];
        if shape.lattice_x.step > 0.0 || shape.lattice_y.step > 0.0 {
            continue;
        }
        state.lowest(piece, orientation, most, &mut lowest);
        any |= !lowest.is_empty();
        for low in &lowest {
            kept.offer(state, piece, orientation, (low.x, low.y));
        }
    }
    any
}

/// A place at which the bounds of an orientation are in line with those of one piece along the cloth and
/// with those of another, or with an edge of the cloth, across it: straight pieces fit together
/// there and hardly anywhere else.
fn beside(state: &State, orientation: usize, random: &mut Random) -> (f32, f32) {
    let shape = &state.orientations.orientations[orientation];
    let (first, second) = (random.below(state.count()), random.below(state.count() + 2));
    let half = state.orientation_of(first).half.0;
    let x = state.layout.placements[first].1;
    let x = match random.below(4) {
        0 => x - half - shape.half.0,
        1 => x - half + shape.half.0,
        _ => x + half + shape.half.0,
    };
    if second >= state.count() {
        return (x, if second == state.count() { shape.across.0 } else { shape.across.1 });
    }
    let half = state.orientation_of(second).half.1;
    let y = state.layout.placements[second].2;
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
fn step_apart(state: &mut State, piece: usize, candidate: &mut Candidate, rounds: usize) {
    let length = state.layout.length;
    for _ in 0..rounds {
        if candidate.penalty <= 0.0 {
            return;
        }
        state.gather(piece, candidate.orientation, candidate.x, candidate.y, 0.0);
        let (_, dx, dy) = state.separating_step(candidate.orientation, piece, candidate.x, candidate.y);
        if !(dx.is_finite() && dy.is_finite()) {
            return;
        }
        let mut part = 1.02;
        let mut better = false;
        for _ in 0..3 {
            let wish = (candidate.x + part * dx, candidate.y + part * dy);
            part *= 0.4;
            let Some((x, y)) =
                state.orientations.orientations[candidate.orientation].place_near(wish, length)
            else {
                continue;
            };
            if x == candidate.x && y == candidate.y {
                continue;
            }
            let penalty = state.evaluate(piece, candidate.orientation, x, y, candidate.penalty);
            if penalty < candidate.penalty {
                (candidate.x, candidate.y, candidate.penalty) = (x, y, penalty);
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
fn descend(
    state: &mut State,
    piece: usize,
    candidate: &mut Candidate,
    first: f32,
    last: f32,
    random: &mut Random,
) {
    let (mut step_x, mut step_y) = (first, first);
    let length = state.layout.length;
    let margin = 2.0 * first;
    let mut centre = (f32::MAX, f32::MAX);
    while (step_x > last || step_y > last) && candidate.penalty > 0.0 {
        let axis = random.below(4);
        let (dx, dy) = match axis {
            0 => (step_x, 0.0),
            1 => (0.0, step_y),
            2 => (step_x, step_y),
            _ => (step_x, -step_y),
        };
        let mut better = false;
        for sign in [1.0f32, -1.0] {
            let wish = (candidate.x + sign * dx, candidate.y + sign * dy);
            let Some((x, y)) =
                state.orientations.orientations[candidate.orientation].place_near(wish, length)
            else {
                continue;
            };
            if x == candidate.x && y == candidate.y {
                continue;
            }
            if (x - centre.0).abs() > margin || (y - centre.1).abs() > margin {
                centre = (x, y);
                state.gather(piece, candidate.orientation, x, y, margin);
            }
            let penalty = state.evaluate_gathered(piece, candidate.orientation, x, y, candidate.penalty);
            if penalty < candidate.penalty {
                (candidate.x, candidate.y, candidate.penalty) = (x, y, penalty);
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
