//! The true outlines against each other. The search sees outlines with fewer corners, as convex
//! parts in `f32`; a layout is a plan only where the outlines themselves, drawn in by less than
//! half of the tolerance since outlines may touch, are clear of each other in `f64`.

use super::orientation::Orientations;
use super::overlap::{Placed, apart, close_pairs, drawn_in, overlap, slide};
use super::request::Point;
use super::state::Layout;
use super::verify::TOLERANCE;

/// How far an outline is drawn in, in millimetres: less than the final check does, more than half
/// of what the search takes for touching.
const DRAWN_IN: f64 = 0.0035;
/// A place may lie off the cloth by so much.
const OFF_THE_CLOTH: f32 = 0.01;
/// A piece stops sliding so far before it meets another, in millimetres.
const STOP_BEFORE: f64 = 2e-4;
/// How often every piece slides, and the least slide after which they all slide again.
const ROUNDS: usize = 4;
const WORTH_ANOTHER: f64 = 0.01;

/// The true outlines of every orientation.
pub struct Collisions<'a> {
    orientations: &'a Orientations,
    drawn_in: Vec<Vec<Point>>,
    width: f32,
    space: f64,
}

impl<'a> Collisions<'a> {
    /// Prepares the outline of every orientation.
    pub fn new(orientations: &'a Orientations, width: f64, space: f64) -> Self {
        let by = if space > 0.0 { 0.0 } else { DRAWN_IN };
        let drawn_in =
            orientations.orientations.iter().map(|orientation| drawn_in(&orientation.outline, by)).collect();
        Collisions { orientations, drawn_in, width: width as f32, space }
    }

    fn place(&self, (orientation, x, y): (usize, f32, f32)) -> Placed {
        Placed::moved(&self.drawn_in[orientation], (f64::from(x), f64::from(y)))
    }

    /// Whether no piece collides with another, comes closer than the space or leaves the cloth.
    pub fn is_feasible(&self, layout: &Layout) -> bool {
        let on_the_cloth = layout.placements.iter().all(|&(orientation, x, y)| {
            let half = self.orientations.orientations[orientation].half;
            x - half.0 >= -OFF_THE_CLOTH
                && x + half.0 <= layout.length + OFF_THE_CLOTH
                && y - half.1 >= -OFF_THE_CLOTH
                && y + half.1 <= self.width + OFF_THE_CLOTH
        });
        let placed: Vec<Placed> = layout.placements.iter().map(|&placement| self.place(placement)).collect();
        let clear = |first: &Placed, second: &Placed| {
            if self.space > 0.0 {
                apart(first, second, self.space - TOLERANCE + 2.0 * (TOLERANCE / 2.0 - DRAWN_IN))
            } else {
                !overlap(first, second)
            }
        };
        on_the_cloth
            && close_pairs(&placed, self.space).into_iter().all(|(a, b)| clear(&placed[a], &placed[b]))
    }

    /// Lets every piece slide back along the cloth, by its true outline, until it meets another:
    /// this gives back what the search lost by seeing fewer corners. Where a space is kept or a
    /// repeat is met, pieces stay where they are.
    pub fn compact(&self, layout: &Layout) -> Layout {
        let mut compacted = layout.clone();
        if self.space > 0.0 {
            return compacted;
        }
        let mut placed: Vec<Placed> =
            layout.placements.iter().map(|&placement| self.place(placement)).collect();
        for _ in 0..ROUNDS {
            let mut order: Vec<usize> = (0..placed.len()).collect();
            order.sort_by(|&a, &b| placed[a].low.0.total_cmp(&placed[b].low.0).then(a.cmp(&b)));
            let mut farthest = 0.0f64;
            for piece in order {
                let (orientation, x, y) = compacted.placements[piece];
                let shape = &self.orientations.orientations[orientation];
                if shape.lattice_x.step > 0.0 {
                    continue;
                }
                let room = f64::from(x) - shape.half_exact.0;
                let free = self.free_slide(&placed, piece, room) - STOP_BEFORE;
                // Rounded away from what it would meet.
                let to = ((f64::from(x) - free) as f32).next_up().max(shape.half.0);
                if free > 0.0 && to < x {
                    farthest = farthest.max(f64::from(x - to));
                    compacted.placements[piece].1 = to;
                    placed[piece] = self.place((orientation, to, y));
                }
            }
            if farthest < WORTH_ANOTHER {
                break;
            }
        }
        compacted
    }

    /// How far a piece may slide back before it meets another, at most `room`.
    fn free_slide(&self, placed: &[Placed], piece: usize, room: f64) -> f64 {
        let mover = &placed[piece];
        let mut ahead: Vec<&Placed> = placed
            .iter()
            .enumerate()
            .filter(|&(other, at)| {
                other != piece
                    && at.low.1 <= mover.high.1
                    && mover.low.1 <= at.high.1
                    && at.low.0 <= mover.high.0
                    && at.high.0 >= mover.low.0 - room
            })
            .map(|(_, at)| at)
            .collect();
        // The nearest first: it shortens the way for the others.
        ahead.sort_by(|a, b| b.high.0.total_cmp(&a.high.0));
        ahead.into_iter().fold(room, |free, other| {
            if other.high.0 < mover.low.0 - free { free } else { slide(mover, other, free) }
        })
    }
}
