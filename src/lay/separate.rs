//! Pushing overlaps out of a layout on a fixed length of cloth, by guided local search: each
//! overlapping piece in turn moves to where its weighted overlaps are least, and the weights of
//! overlaps that persist grow until they give way (Voudouris and Tsang 1999; for polygons
//! Egeblad, Nielsen and Odgaard 2007, Umetani et al. 2009, Gardeyn et al. 2025).

use super::board::{Board, Layout};
use super::random::Random;
use super::relocate::{Care, best_spot};

/// How long to persist.
#[derive(Clone, Copy, Debug)]
pub struct Patience {
    /// Passes without a new least total before a strike.
    pub passes: u32,
    /// Strikes before giving up.
    pub strikes: u32,
    /// How thoroughly places are looked for.
    pub care: Care,
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
    patience: Patience,
    least: f32,
    /// The layout with the least total so far.
    pub least_layout: Layout,
    at_strike: f32,
    idle: u32,
    strikes: u32,
    /// Passes made.
    pub passes: u32,
}

impl Attempt {
    /// Starts from the board as it is, with fresh weights.
    pub fn new(board: &mut Board, patience: Patience) -> Self {
        board.forget_weights();
        let total = board.total();
        Attempt {
            patience,
            least: total,
            least_layout: board.layout.clone(),
            at_strike: total,
            idle: 0,
            strikes: 0,
            passes: 0,
        }
    }

    /// The least total so far.
    pub fn least(&self) -> f32 {
        self.least
    }

    /// Moves every overlapping piece once, in random order.
    pub fn pass(&mut self, board: &mut Board, random: &mut Random) -> Outcome {
        let mut order: Vec<usize> = (0..board.count()).filter(|&piece| board.overlaps(piece)).collect();
        if order.is_empty() {
            return Outcome::Clear;
        }
        self.passes += 1;
        random.shuffle(&mut order);
        for piece in order {
            if board.overlaps(piece) {
                let spot = best_spot(board, piece, self.patience.care, random);
                board.put(piece, spot.pose, spot.x, spot.y);
            }
        }
        let total = board.total();
        if total <= 0.0 {
            return Outcome::Clear;
        }
        if total < self.least {
            if total < 0.98 * self.least {
                self.idle = 0;
            }
            self.least = total;
            self.least_layout = board.layout.clone();
        } else {
            self.idle += 1;
        }
        board.reweigh();
        if self.idle >= self.patience.passes {
            self.strikes = if self.least > 0.98 * self.at_strike { self.strikes + 1 } else { 0 };
            if self.strikes >= self.patience.strikes {
                return Outcome::Stuck;
            }
            self.at_strike = self.least;
            self.idle = 0;
            board.lay(self.least_layout.clone());
        }
        Outcome::Going
    }
}
