//! Where every piece lies at one moment of the search, how deep any two overlap, and the weights
//! that have grown on those overlaps.

use super::depth::Depths;
use super::field::{Field, Low};
use super::half_planes::TOUCH;
use super::near::Near;
use super::orientation::{Orientation, Orientations};
use super::press::Plane;

/// An overlap no deeper than this, in millimetres, is rounding of `f32`.
const NOTHING: f32 = 5e-4;
/// So many sums of the field take as long as evaluating a place, and to come to the grid of another piece as so many sums.
const SUMS_PER_EVALUATION: usize = 384;
const SUMS_PER_PIECE: usize = 100;
/// The more orientations there are, the fewer of their grids are still at hand when they are come to.
const SUMS_PER_ORIENTATION: usize = 2;
/// The greatest weight of an overlap.
const HEAVIEST: f32 = 1e9;
/// A large piece is harder to place elsewhere than a small one: its overlaps start with a weight
/// that grows with its area to this power.
const SIZE_COUNTS: f64 = 0.3;

/// Where every piece lies, on which length of cloth.
#[derive(Clone, Debug)]
pub struct Layout {
    /// Length of the cloth, in millimetres.
    pub length: f32,
    /// For each piece its orientation and the place of its centre.
    pub placements: Vec<(usize, f32, f32)>,
}

/// The state of one search.
pub struct State<'a> {
    /// All orientations.
    pub orientations: &'a Orientations,
    depths: &'a Depths<'a>,
    /// The layout as it is now.
    pub layout: Layout,
    near: Near,
    field: Field,
    /// Of the cloth.
    width: f32,
    space: f32,
    /// Weight of the overlap of each two pieces, row by row.
    weight: Vec<f32>,
    /// Depth of the overlap of each two pieces, row by row.
    depth: Vec<f32>,
    /// How many places have been evaluated.
    pub evaluations: u64,
    /// The pieces last gathered.
    neighbours: Vec<u32>,
    /// How much the size of each piece counts in the weight of its overlaps.
    size: Vec<f32>,
}

impl<'a> State<'a> {
    /// A state with a layout on it and fresh weights.
    pub fn new(orientations: &'a Orientations, depths: &'a Depths<'a>, space: f64, layout: Layout) -> Self {
        let count = orientations.copies.len();
        let mean = orientations.copies.iter().map(|&item| orientations.area[item]).sum::<f64>()
            / count.max(1) as f64;
        let size = orientations
            .copies
            .iter()
            .map(|&item| libm::pow(orientations.area[item] / mean, SIZE_COUNTS) as f32)
            .collect();
        let far =
            orientations.orientations.iter().map(|orientation| orientation.across.1 + orientation.half.1);
        let width = far.fold(0.0, f32::max);
        let mut state = State {
            orientations,
            depths,
            layout: layout.clone(),
            near: Near::new(count),
            field: Field::default(),
            width,
            space: space as f32,
            weight: vec![1.0; count * count],
            depth: vec![0.0; count * count],
            evaluations: 0,
            size,
            neighbours: Vec::with_capacity(count),
        };
        state.lay(layout);
        state
    }

    /// How many pieces there are.
    pub fn count(&self) -> usize {
        self.orientations.copies.len()
    }

    /// The orientation of a piece.
    pub fn orientation_of(&self, piece: usize) -> &'a Orientation {
        &self.orientations.orientations[self.layout.placements[piece].0]
    }

    /// Lays all pieces anew, keeping the weights.
    pub fn lay(&mut self, layout: Layout) {
        self.layout = layout;
        // Counted as work, so that no way of searching goes round without end.
        self.evaluations += self.count() as u64;
        self.near.clear(self.layout.length, self.width);
        for piece in 0..self.count() {
            self.bound(piece);
        }
        for piece in 0..self.count() {
            self.measure(piece);
        }
    }

    fn bound(&mut self, piece: usize) {
        let (orientation, x, y) = self.layout.placements[piece];
        let half = self.orientations.orientations[orientation].half;
        self.near.put(piece, [x - half.0, x + half.0, y - half.1, y + half.1]);
    }

    /// Collects the pieces whose bounds meet those of an orientation at a place.
    fn meet(&mut self, piece: usize, orientation: usize, x: f32, y: f32, margin: f32) {
        let half = self.orientations.orientations[orientation].half;
        let grow = self.space - TOUCH as f32 + margin;
        let bounds = [x - half.0 - grow, x + half.0 + grow, y - half.1 - grow, y + half.1 + grow];
        self.near.meet(piece, bounds, &mut self.neighbours);
    }

    /// The weighted depth of all overlaps that a piece would have at a place; `f32::INFINITY` as
    /// soon as it is known to reach `bound`.
    pub fn evaluate(&mut self, piece: usize, orientation: usize, x: f32, y: f32, bound: f32) -> f32 {
        self.meet(piece, orientation, x, y, 0.0);
        self.evaluate_gathered(piece, orientation, x, y, bound)
    }

    /// Collects the pieces that an orientation may meet within a margin of a place, for
    /// [`State::evaluate_gathered`].
    pub fn gather(&mut self, piece: usize, orientation: usize, x: f32, y: f32, margin: f32) {
        self.meet(piece, orientation, x, y, margin);
    }

    /// As [`State::evaluate`], among the pieces last gathered only.
    pub fn evaluate_gathered(&mut self, piece: usize, orientation: usize, x: f32, y: f32, bound: f32) -> f32 {
        self.evaluations += 1;
        let row = &self.weight[piece * self.orientations.copies.len()..];
        let mut sum = 0.0;
        for &other in &self.neighbours {
            let other = other as usize;
            let (other_orientation, ox, oy) = self.layout.placements[other];
            let depth = self.depths.depth(orientation, other_orientation, x - ox, y - oy);
            if depth > NOTHING {
                sum += row[other] * depth;
                if sum >= bound {
                    return f32::INFINITY;
                }
            }
        }
        sum
    }

    /// The weighted depth of the overlaps of a piece at a place, among the pieces last gathered,
    /// and the step that would best undo them all: the least squares of what is left of each
    /// depth, by its weight.
    pub fn separating_step(&mut self, orientation: usize, piece: usize, x: f32, y: f32) -> (f32, f32, f32) {
        self.evaluations += 1;
        let row = &self.weight[piece * self.orientations.copies.len()..];
        let (mut sum, mut xx, mut xy, mut yy, mut bx, mut by) =
            (0.0f32, 0.0f32, 0.0f32, 0.0f32, 0.0f32, 0.0f32);
        for &other in &self.neighbours {
            let other = other as usize;
            let (other_orientation, ox, oy) = self.layout.placements[other];
            let (depth, nx, ny) = self.depths.slope(orientation, other_orientation, x - ox, y - oy);
            if depth > NOTHING {
                let w = row[other];
                sum += w * depth;
                xx += w * nx * nx;
                xy += w * nx * ny;
                yy += w * ny * ny;
                bx += w * depth * nx;
                by += w * depth * ny;
            }
        }
        let ridge = 1e-3 * (xx + yy) + 1e-9;
        let (xx, yy) = (xx + ridge, yy + ridge);
        let determinant = xx * yy - xy * xy;
        (sum, (bx * yy - by * xy) / determinant, (by * xx - bx * xy) / determinant)
    }

    /// The places all over the cloth at which the weighted depth of the overlaps of a piece is about the lowest, at most so
    /// many; none where the depths are not kept on grids.
    pub fn lowest(&mut self, piece: usize, orientation: usize, most: usize, out: &mut Vec<Low>) {
        out.clear();
        if !self.depths.has_grids() {
            return;
        }
        let count = self.count();
        let shape = &self.orientations.orientations[orientation];
        self.field.clear(shape, self.layout.length, self.depths.step);
        let sums_per_piece = SUMS_PER_PIECE + SUMS_PER_ORIENTATION * self.orientations.orientations.len();
        let mut sums = self.field.len();
        let weights = &self.weight[piece * count..(piece + 1) * count];
        let others = self.layout.placements.iter().zip(weights).enumerate();
        for (_, (&(other_orientation, x, y), &weight)) in others.filter(|&(other, _)| other != piece) {
            let Some(grid) = self.depths.grid(orientation, other_orientation) else { return };
            self.field.add(grid, (x, y), weight);
            sums += grid.len() + sums_per_piece;
        }
        self.field.lowest(most, out);
        self.evaluations += (sums / SUMS_PER_EVALUATION) as u64;
    }

    /// The half-planes that any two pieces within reach of each other must keep to.
    pub fn planes(&mut self, reach: f32, out: &mut Vec<Plane>) {
        out.clear();
        self.evaluations += self.count() as u64;
        for piece in 0..self.count() {
            let (orientation, x, y) = self.layout.placements[piece];
            self.meet(piece, orientation, x, y, reach);
            for &other in self.neighbours.iter().filter(|&&other| other as usize > piece) {
                let (other_orientation, ox, oy) = self.layout.placements[other as usize];
                self.depths.planes(
                    orientation,
                    other_orientation,
                    (x - ox, y - oy),
                    reach,
                    &mut |nx, ny, least| {
                        out.push(Plane { first: piece as u32, second: other, nx, ny, least });
                    },
                );
            }
        }
    }

    /// Moves a piece and measures its overlaps.
    pub fn put(&mut self, piece: usize, orientation: usize, x: f32, y: f32) {
        self.layout.placements[piece] = (orientation, x, y);
        self.bound(piece);
        self.measure(piece);
    }

    fn measure(&mut self, piece: usize) {
        let count = self.count();
        let (orientation, x, y) = self.layout.placements[piece];
        self.meet(piece, orientation, x, y, 0.0);
        for other in 0..count {
            self.depth[piece * count + other] = 0.0;
            self.depth[other * count + piece] = 0.0;
        }
        for &other in &self.neighbours {
            let other = other as usize;
            let (other_orientation, ox, oy) = self.layout.placements[other];
            let depth = self.depths.depth(orientation, other_orientation, x - ox, y - oy);
            let depth = if depth > NOTHING { depth } else { 0.0 };
            self.depth[piece * count + other] = depth;
            self.depth[other * count + piece] = depth;
        }
    }

    /// The weighted depth of all overlaps of a piece where it lies.
    pub fn penalty(&self, piece: usize) -> f32 {
        let row = piece * self.count()..(piece + 1) * self.count();
        self.depth[row.clone()].iter().zip(&self.weight[row]).map(|(d, w)| d * w).sum()
    }

    /// Whether a piece overlaps any other.
    pub fn overlaps(&self, piece: usize) -> bool {
        self.depth[piece * self.count()..(piece + 1) * self.count()].iter().any(|&d| d > 0.0)
    }

    /// The depth of all overlaps, each counted once, unweighted.
    pub fn total(&self) -> f32 {
        self.depth.iter().sum::<f32>() / 2.0
    }

    /// Raises the weight of each overlap, the deepest the most, and lets the weights of pairs that
    /// are clear of each other fade.
    pub fn reweigh(&mut self) {
        let deepest = self.depth.iter().fold(0.0f32, |a, &b| a.max(b));
        if deepest <= 0.0 {
            return;
        }
        let n = self.orientations.copies.len();
        for (k, (weight, &depth)) in self.weight.iter_mut().zip(&self.depth).enumerate() {
            let base = self.size[k / n] * self.size[k % n];
            *weight = if depth > 0.0 {
                // A pair that never comes clear must not grow beyond all numbers.
                (*weight * (1.2 + 0.8 * depth / deepest)).min(HEAVIEST)
            } else {
                (*weight * 0.95).max(base)
            };
        }
    }

    /// Fresh weights.
    pub fn forget_weights(&mut self) {
        let n = self.orientations.copies.len();
        for (k, weight) in self.weight.iter_mut().enumerate() {
            *weight = self.size[k / n] * self.size[k % n];
        }
    }

    /// The stretches of the cloth along x that are blocked for the centre of an orientation at `y` by the
    /// first `laid` pieces of an order.
    pub fn blocked(&self, orientation: usize, y: f32, laid: &[usize], out: &mut Vec<(f32, f32)>) {
        out.clear();
        let half = self.orientations.orientations[orientation].half.1 + self.space;
        for &other in laid {
            let (other_orientation, ox, oy) = self.layout.placements[other];
            if (oy - y).abs() < half + self.orientations.orientations[other_orientation].half.1 {
                let from = out.len();
                self.depths.blocked_along(orientation, other_orientation, y - oy, out);
                for stretch in &mut out[from..] {
                    *stretch = (stretch.0 + ox, stretch.1 + ox);
                }
            }
        }
    }
}
