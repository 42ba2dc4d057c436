//! Pushing overlaps out of a layout on a fixed length of cloth, by guided local search: each
//! overlapping piece in turn moves to where its weighted overlaps are least, and the weights of
//! overlaps that persist grow until they give way (Voudouris and Tsang 1999; for polygons
//! Egeblad, Nielsen and Odgaard 2007, Umetani et al. 2009, Gardeyn et al. 2025).

use super::press::{Press, Pressing};
use super::random::Random;
use super::sample::{Samples, best_candidate};
use super::state::{Layout, State};

/// All pieces are moved at once as soon as the total has come down to this share of what it was when they last were.
const PRESS_AGAIN: f32 = 0.9;
const PARTING: Pressing = Pressing { reach: 20.0, rounds: 4, sweeps: 150 };

/// How long to persist.
#[derive(Clone, Copy, Debug)]
pub struct Budget {
    /// Passes without a new least total before a strike.
    pub passes: u32,
    /// Strikes before giving up.
    pub strikes: u32,
    /// How thoroughly places are looked for.
    pub samples: Samples,
}

/// What one pass came to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Not there yet.
    Going,
    /// No overlap is left.
    Clear,
    /// Given up.
    Stuck,
}

/// One attempt to push all overlaps out; pass by pass, so that it can be interrupted.
pub struct Attempt {
    budget: Budget,
    least: f32,
    /// The layout with the least total so far.
    pub least_layout: Layout,
    at_strike: f32,
    idle: u32,
    strikes: u32,
    /// Passes made.
    pub passes: u32,
    /// The total when all pieces were last moved at once.
    pressed_at: f32,
}

impl Attempt {
    /// Starts from the state as it is, with fresh weights.
    pub fn new(state: &mut State, budget: Budget) -> Self {
        state.forget_weights();
        let total = state.total();
        Attempt {
            budget,
            least: total,
            least_layout: state.layout.clone(),
            at_strike: total,
            idle: 0,
            strikes: 0,
            passes: 0,
            pressed_at: f32::INFINITY,
        }
    }

    /// The least total so far.
    pub fn least(&self) -> f32 {
        self.least
    }

    /// Moves every overlapping piece once, in random order.
    pub fn pass(&mut self, state: &mut State, random: &mut Random, press: &mut Press) -> Outcome {
        let mut order: Vec<usize> = (0..state.count()).filter(|&piece| state.overlaps(piece)).collect();
        if order.is_empty() {
            return Outcome::Clear;
        }
        self.passes += 1;
        random.shuffle(&mut order);
        for piece in order {
            if state.overlaps(piece) {
                let candidate = best_candidate(state, piece, self.budget.samples, random);
                state.put(piece, candidate.orientation, candidate.x, candidate.y);
            }
        }
        let total = state.total();
        if total <= 0.0 {
            return Outcome::Clear;
        }
        if total < self.least {
            if total < 0.98 * self.least {
                self.idle = 0;
            }
            self.least = total;
            self.least_layout = state.layout.clone();
            if total < PRESS_AGAIN * self.pressed_at {
                self.pressed_at = total;
                if press.part(state, PARTING) {
                    return Outcome::Clear;
                }
                state.lay(self.least_layout.clone());
            }
        } else {
            self.idle += 1;
        }
        state.reweigh();
        if self.idle >= self.budget.passes {
            self.strikes = if self.least > 0.98 * self.at_strike { self.strikes + 1 } else { 0 };
            if self.strikes >= self.budget.strikes {
                return Outcome::Stuck;
            }
            self.at_strike = self.least;
            self.idle = 0;
            state.lay(self.least_layout.clone());
        }
        Outcome::Going
    }
}
