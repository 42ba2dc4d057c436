//! Where every piece lies at one moment of the search, how deep any two overlap, and the weights
//! that have grown on those overlaps.

use super::depth::{Depths, TOUCH};
use super::pose::{Pose, Poses};

/// Pieces are looked through in blocks of this many.
const LANES: usize = 8;
/// An overlap no deeper than this, in millimetres, is rounding of `f32`.
const NOTHING: f32 = 5e-4;

/// Where every piece lies, on which length of cloth.
#[derive(Clone, Debug)]
pub struct Layout {
    /// Length of the cloth, in millimetres.
    pub length: f32,
    /// For each piece its pose and the place of its centre.
    pub lies: Vec<(usize, f32, f32)>,
}

/// The bounds of all pieces, side by side for quick looking through; padded to whole blocks.
#[derive(Clone, Debug, Default)]
struct Bounds {
    low_x: Vec<f32>,
    high_x: Vec<f32>,
    low_y: Vec<f32>,
    high_y: Vec<f32>,
}

/// The state of one search.
pub struct Board<'a> {
    /// All poses.
    pub poses: &'a Poses,
    depths: &'a Depths<'a>,
    /// The layout as it is now.
    pub layout: Layout,
    bounds: Bounds,
    space: f32,
    /// Weight of the overlap of each two pieces, row by row.
    weight: Vec<f32>,
    /// Depth of the overlap of each two pieces, row by row.
    depth: Vec<f32>,
    /// How many places have been looked at.
    pub looks: u64,
    hits: Vec<u32>,
}

impl<'a> Board<'a> {
    /// A board with a layout on it, all weights 1.
    pub fn new(poses: &'a Poses, depths: &'a Depths<'a>, space: f64, layout: Layout) -> Self {
        let count = poses.copies.len();
        let padded = count.div_ceil(LANES) * LANES;
        let empty = || vec![f32::MAX; padded];
        let mut board = Board {
            poses,
            depths,
            layout: layout.clone(),
            bounds: Bounds {
                low_x: empty(),
                high_x: vec![f32::MIN; padded],
                low_y: empty(),
                high_y: empty(),
            },
            space: space as f32,
            weight: vec![1.0; count * count],
            depth: vec![0.0; count * count],
            looks: 0,
            hits: Vec::with_capacity(padded),
        };
        board.lay(layout);
        board
    }

    /// How many pieces there are.
    pub fn count(&self) -> usize {
        self.poses.copies.len()
    }

    /// The pose of a piece.
    pub fn pose_of(&self, piece: usize) -> &'a Pose {
        &self.poses.poses[self.layout.lies[piece].0]
    }

    /// Lays all pieces anew, keeping the weights.
    pub fn lay(&mut self, layout: Layout) {
        self.layout = layout;
        for piece in 0..self.count() {
            self.bound(piece);
        }
        for piece in 0..self.count() {
            self.measure(piece);
        }
    }

    fn bound(&mut self, piece: usize) {
        let (pose, x, y) = self.layout.lies[piece];
        let half = self.poses.poses[pose].half;
        self.bounds.low_x[piece] = x - half.0;
        self.bounds.high_x[piece] = x + half.0;
        self.bounds.low_y[piece] = y - half.1;
        self.bounds.high_y[piece] = y + half.1;
    }

    /// Collects the pieces whose bounds meet those of a pose at a place.
    fn meet(&mut self, piece: usize, pose: usize, x: f32, y: f32) {
        let half = self.poses.poses[pose].half;
        let grow = self.space - TOUCH as f32;
        let (low_x, high_x) = (x - half.0 - grow, x + half.0 + grow);
        let (low_y, high_y) = (y - half.1 - grow, y + half.1 + grow);
        self.hits.clear();
        let bounds = &self.bounds;
        let blocks = bounds
            .low_x
            .chunks_exact(LANES)
            .zip(bounds.high_x.chunks_exact(LANES))
            .zip(bounds.low_y.chunks_exact(LANES).zip(bounds.high_y.chunks_exact(LANES)));
        for (block, ((lx, hx), (ly, hy))) in blocks.enumerate() {
            let mut mask = 0u32;
            for lane in 0..LANES {
                let meets =
                    (lx[lane] < high_x) & (hx[lane] > low_x) & (ly[lane] < high_y) & (hy[lane] > low_y);
                mask |= u32::from(meets) << lane;
            }
            while mask != 0 {
                let other = block * LANES + mask.trailing_zeros() as usize;
                mask &= mask - 1;
                if other != piece {
                    self.hits.push(other as u32);
                }
            }
        }
    }

    /// The weighted depth of all overlaps that a piece would have at a place; `f32::INFINITY` as
    /// soon as it is known to reach `bound`.
    pub fn look(&mut self, piece: usize, pose: usize, x: f32, y: f32, bound: f32) -> f32 {
        self.looks += 1;
        self.meet(piece, pose, x, y);
        let row = &self.weight[piece * self.poses.copies.len()..];
        let mut sum = 0.0;
        for &other in &self.hits {
            let other = other as usize;
            let (other_pose, ox, oy) = self.layout.lies[other];
            let depth = self.depths.pair(pose, other_pose).depth(x - ox, y - oy);
            if depth > NOTHING {
                sum += row[other] * depth;
                if sum >= bound {
                    return f32::INFINITY;
                }
            }
        }
        sum
    }

    /// Moves a piece and measures its overlaps.
    pub fn put(&mut self, piece: usize, pose: usize, x: f32, y: f32) {
        self.layout.lies[piece] = (pose, x, y);
        self.bound(piece);
        self.measure(piece);
    }

    fn measure(&mut self, piece: usize) {
        let count = self.count();
        let (pose, x, y) = self.layout.lies[piece];
        self.meet(piece, pose, x, y);
        for other in 0..count {
            self.depth[piece * count + other] = 0.0;
            self.depth[other * count + piece] = 0.0;
        }
        for &other in &self.hits {
            let other = other as usize;
            let (other_pose, ox, oy) = self.layout.lies[other];
            let depth = self.depths.pair(pose, other_pose).depth(x - ox, y - oy);
            let depth = if depth > NOTHING { depth } else { 0.0 };
            self.depth[piece * count + other] = depth;
            self.depth[other * count + piece] = depth;
        }
    }

    /// The weighted depth of all overlaps of a piece where it lies.
    pub fn burden(&self, piece: usize) -> f32 {
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
        for (weight, &depth) in self.weight.iter_mut().zip(&self.depth) {
            *weight =
                if depth > 0.0 { *weight * (1.2 + 0.8 * depth / deepest) } else { (*weight * 0.95).max(1.0) };
        }
    }

    /// All weights 1 again.
    pub fn forget_weights(&mut self) {
        self.weight.fill(1.0);
    }

    /// The stretches of the cloth along x that are blocked for the centre of a pose at `y` by the
    /// first `laid` pieces of an order.
    pub fn blocked(&self, pose: usize, y: f32, laid: &[usize], out: &mut Vec<(f32, f32)>) {
        out.clear();
        let half = self.poses.poses[pose].half.1 + self.space;
        for &other in laid {
            let (other_pose, ox, oy) = self.layout.lies[other];
            if (oy - y).abs() < half + self.poses.poses[other_pose].half.1 {
                let from = out.len();
                self.depths.pair(pose, other_pose).blocked_along(y - oy, out);
                for stretch in &mut out[from..] {
                    *stretch = (stretch.0 + ox, stretch.1 + ox);
                }
            }
        }
    }
}
