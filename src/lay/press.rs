//! All pieces moved at once: where hardly more is wrong than that a row of pieces is a little too
//! long, each would have to wait for its neighbours to make room.
//!
//! Round each offset of two pieces their forbidden offsets are bounded by half-planes; those nearest
//! to where they lie are kept, so that what is asked of all small moves together is linear (the
//! compaction and separation of Li and Milenkovic 1995). The moves are found by turns, each half-plane
//! in turn pushing its two pieces apart by what is missing (projections onto convex sets, Agmon 1954).

use super::state::State;

/// What the offset of two pieces must keep to: `nx·x + ny·y ≥ least` of the move of the first less
/// that of the second.
#[derive(Clone, Copy, Debug)]
pub struct Plane {
    pub first: u32,
    pub second: u32,
    pub nx: f32,
    pub ny: f32,
    pub least: f32,
}

/// How far beyond what is asked a push goes, and by how much it clears, in millimetres.
const OVERSHOOT: f32 = 1.5;
const CLEAR_BY: f32 = 5e-4;
const SWEEPS_PER_EVALUATION: u64 = 32;

/// Room for the work, kept.
#[derive(Default)]
pub struct Press {
    planes: Vec<Plane>,
    moves: Vec<(f32, f32)>,
}

/// How far all pieces are moved at most, how often the half-planes are looked for anew and how often each pushes.
#[derive(Clone, Copy, Debug)]
pub struct Pressing {
    pub reach: f32,
    pub rounds: usize,
    pub sweeps: usize,
}

impl Press {
    /// Moves all pieces until no two overlap, or nothing is won any more. Whether none do.
    pub fn part(&mut self, state: &mut State, pressing: Pressing) -> bool {
        let mut total = state.total();
        for _ in 0..pressing.rounds {
            if total <= 0.0 {
                return true;
            }
            state.planes(2.0 * pressing.reach, &mut self.planes);
            self.sweep(state, pressing);
            let length = state.layout.length;
            let mut layout = state.layout.clone();
            for ((orientation, x, y), moved) in layout.placements.iter_mut().zip(&self.moves) {
                let shape = &state.orientations.orientations[*orientation];
                if let Some(place) = shape.place_near((*x + moved.0, *y + moved.1), length) {
                    (*x, *y) = place;
                }
            }
            state.lay(layout);
            let now = state.total();
            if now > 0.8 * total {
                return now <= 0.0;
            }
            total = now;
        }
        total <= 0.0
    }

    fn sweep(&mut self, state: &mut State, pressing: Pressing) {
        let length = state.layout.length;
        self.moves.clear();
        self.moves.resize(state.count(), (0.0, 0.0));
        // Where each piece may move to.
        let rooms: Vec<[f32; 4]> = state
            .layout
            .placements
            .iter()
            .map(|&(orientation, x, y)| {
                let shape = &state.orientations.orientations[orientation];
                let (low, high) = shape.along(length);
                let r = pressing.reach;
                let along = if shape.lattice_x.step > 0.0 {
                    (0.0, 0.0)
                } else {
                    ((low - x).max(-r), (high - x).min(r))
                };
                let across = if shape.lattice_y.step > 0.0 {
                    (0.0, 0.0)
                } else {
                    ((shape.across.0 - y).max(-r), (shape.across.1 - y).min(r))
                };
                [along.0.min(0.0), along.1.max(0.0), across.0.min(0.0), across.1.max(0.0)]
            })
            .collect();
        let mut sweeps = 0;
        for _ in 0..pressing.sweeps {
            sweeps += 1;
            let mut worst = 0.0f32;
            for plane in &self.planes {
                let (a, b) = (plane.first as usize, plane.second as usize);
                let (p, q) = (self.moves[a], self.moves[b]);
                let missing = plane.least + CLEAR_BY - plane.nx * (p.0 - q.0) - plane.ny * (p.1 - q.1);
                if missing > 0.0 {
                    worst = worst.max(missing);
                    let by = 0.5 * OVERSHOOT * missing;
                    let (ra, rb) = (&rooms[a], &rooms[b]);
                    self.moves[a] = (
                        (p.0 + by * plane.nx).clamp(ra[0], ra[1]),
                        (p.1 + by * plane.ny).clamp(ra[2], ra[3]),
                    );
                    self.moves[b] = (
                        (q.0 - by * plane.nx).clamp(rb[0], rb[1]),
                        (q.1 - by * plane.ny).clamp(rb[2], rb[3]),
                    );
                }
            }
            if worst < CLEAR_BY {
                break;
            }
        }
        state.evaluations += sweeps * self.planes.len() as u64 / SWEEPS_PER_EVALUATION;
    }
}

#[cfg(test)]
mod tests {
    use super::super::depth::Depths;
    use super::super::state::Layout;
    use super::*;
    use crate::Repeat;
    use crate::squares::three_squares;

    const PRESSING: Pressing = Pressing { reach: 5.0, rounds: 6, sweeps: 200 };

    /// Three squares of 10 in a row on so much cloth 10 wide, each pushed into the one before by what is missing to 30.
    fn row(length: f32, repeat: Option<Repeat>) -> (bool, Layout) {
        let orientations = three_squares(repeat);
        let depths = Depths::new(&orientations, 0.0);
        let placements = vec![(0, 6.0, 5.0), (0, 14.0, 5.0), (0, length - 5.0, 5.0)];
        let mut state = State::new(&orientations, &depths, 0.0, Layout { length, placements });
        let clear = Press::default().part(&mut state, PRESSING);
        (clear, state.layout)
    }

    /// On 30 the squares have just enough room: their centres come to 5, 15 and 25. On 29 they have not.
    #[test]
    fn a_row_that_is_too_tight_parts_where_there_is_room() {
        let (clear, layout) = row(30.0, None);
        assert!(clear);
        for (placement, x) in layout.placements.iter().zip([5.0, 15.0, 25.0]) {
            assert!((placement.1 - x).abs() < 0.01, "{placement:?}");
        }
        assert!(!row(29.0, None).0);
    }

    /// A square whose corner is held to a repeat of 4 does not leave it: at 6 and 14 the first two lie 8 apart, and none moves.
    #[test]
    fn what_lies_on_a_repeat_stays_there() {
        let repeat = Repeat { point: (0.0, 0.0), along: Some((4.0, 1.0)), across: None };
        let (clear, layout) = row(31.0, Some(repeat));
        assert!(!clear);
        assert_eq!((layout.placements[0].1, layout.placements[1].1), (6.0, 14.0));
    }
}
