//! How deep one pose lies in another.
//!
//! For two convex parts A and B, the places of B relative to A at which they overlap form the
//! Minkowski sum of A and −B, again convex; the depth is the distance to its nearest side, the
//! least translation that parts them. It is worked out once for each two parts and then costs one
//! pass over a few half-planes. The depth of two poses is that of their deepest parts. (The
//! Minkowski sum as the space of forbidden places: Cuninghame-Green 1989; depth as the measure of
//! overlap for strip packing: Umetani et al. 2009, Imamichi et al. 2009.)

use super::pose::Poses;
use super::request::Point;
use std::sync::OnceLock;

/// An overlap no deeper than this, in millimetres, is touching.
pub const TOUCH: f64 = 0.004;
/// Half-planes are kept in blocks of this many, so that a compiler can work on them together.
const LANES: usize = 8;
/// Corners of the grown sum turn by no more than this, in radians, where a space is kept.
const FINE_TURN: f64 = 0.6;

/// Half-planes of one sum: inside where `c − nx·x − ny·y` is above 0 for all.
type Block = [[f32; LANES]; 3];

#[derive(Clone, Debug)]
struct Sum {
    low: (f32, f32),
    high: (f32, f32),
    blocks: (u32, u32),
}

/// The sums of all parts of one pose with all parts of another.
#[derive(Clone, Debug)]
pub struct Pair {
    sums: Vec<Sum>,
    blocks: Vec<Block>,
}

impl Pair {
    /// Depth at an offset (place of the first minus place of the second); 0 or less where clear.
    pub fn depth(&self, x: f32, y: f32) -> f32 {
        let mut deepest = 0.0f32;
        for sum in &self.sums {
            let outside = (x <= sum.low.0) | (x >= sum.high.0) | (y <= sum.low.1) | (y >= sum.high.1);
            if outside {
                continue;
            }
            let mut least = [f32::MAX; LANES];
            for block in &self.blocks[sum.blocks.0 as usize..sum.blocks.1 as usize] {
                for lane in 0..LANES {
                    let depth = block[2][lane] - block[0][lane] * x - block[1][lane] * y;
                    least[lane] = if depth < least[lane] { depth } else { least[lane] };
                }
            }
            let depth = least.iter().fold(f32::MAX, |a, &b| if b < a { b } else { a });
            deepest = if depth > deepest { depth } else { deepest };
        }
        deepest
    }

    /// The stretches of x at which the two overlap when the offset across is `y`.
    pub fn blocked_along(&self, y: f32, out: &mut Vec<(f32, f32)>) {
        for sum in &self.sums {
            if y <= sum.low.1 || y >= sum.high.1 {
                continue;
            }
            let (mut low, mut high) = (sum.low.0, sum.high.0);
            for block in &self.blocks[sum.blocks.0 as usize..sum.blocks.1 as usize] {
                for lane in 0..LANES {
                    let rest = block[2][lane] - block[1][lane] * y;
                    let nx = block[0][lane];
                    if nx > 1e-7 {
                        high = high.min(rest / nx);
                    } else if nx < -1e-7 {
                        low = low.max(rest / nx);
                    } else if rest <= 0.0 {
                        high = f32::NEG_INFINITY;
                    }
                }
            }
            if low < high {
                out.push((low, high));
            }
        }
    }

    fn of(first: &[Vec<Point>], second: &[Vec<Point>], space: f64) -> Pair {
        let mut pair = Pair { sums: Vec::new(), blocks: Vec::new() };
        for a in first {
            for b in second {
                pair.push(a, b, space);
            }
        }
        pair
    }

    /// The offsets at which convex `a` overlaps convex `b`: b ⊕ −a, grown by the space.
    fn push(&mut self, a: &[Point], b: &[Point], space: f64) {
        let grown = space - TOUCH;
        let edge_normals = |part: &[Point], sign: f64| -> Vec<Point> {
            (0..part.len())
                .filter_map(|i| {
                    let (p, q) = (part[i], part[(i + 1) % part.len()]);
                    let (x, y) = (q.1 - p.1, p.0 - q.0);
                    let length = libm::hypot(x, y);
                    (length > 1e-9).then(|| (sign * x / length, sign * y / length))
                })
                .collect()
        };
        let mut normals = edge_normals(b, 1.0);
        normals.extend(edge_normals(a, -1.0));
        let angle = |n: &Point| libm::atan2(n.1, n.0);
        normals.sort_by(|m, n| angle(m).total_cmp(&angle(n)));
        normals.dedup_by(|m, n| (m.0 - n.0).abs() + (m.1 - n.1).abs() < 1e-9);
        if space > 0.0 {
            round_corners(&mut normals);
        }
        let reach = |n: Point| {
            let far = b.iter().map(|p| n.0 * p.0 + n.1 * p.1).fold(f64::NEG_INFINITY, f64::max);
            let near = a.iter().map(|p| n.0 * p.0 + n.1 * p.1).fold(f64::INFINITY, f64::min);
            far - near + grown
        };
        let from = self.blocks.len() as u32;
        for group in normals.chunks(LANES) {
            let mut block: Block = [[0.0; LANES], [0.0; LANES], [f32::MAX; LANES]];
            for (lane, &n) in group.iter().enumerate() {
                block[0][lane] = n.0 as f32;
                block[1][lane] = n.1 as f32;
                block[2][lane] = reach(n) as f32;
            }
            self.blocks.push(block);
        }
        self.sums.push(Sum {
            low: (-reach((-1.0, 0.0)) as f32, -reach((0.0, -1.0)) as f32),
            high: (reach((1.0, 0.0)) as f32, reach((0.0, 1.0)) as f32),
            blocks: (from, self.blocks.len() as u32),
        });
    }
}

/// Puts normals between normals that are far apart: tangents of the circle that a space draws
/// round a corner.
fn round_corners(normals: &mut Vec<Point>) {
    let sharp = std::mem::take(normals);
    let count = sharp.len();
    for i in 0..count {
        let (n, m) = (sharp[i], sharp[(i + 1) % count]);
        normals.push(n);
        let start = libm::atan2(n.1, n.0);
        let gap = (libm::atan2(m.1, m.0) - start).rem_euclid(std::f64::consts::TAU);
        let pieces = (gap / FINE_TURN).ceil();
        for k in 1..pieces as usize {
            let at = start + gap * k as f64 / pieces;
            normals.push((libm::cos(at), libm::sin(at)));
        }
    }
}

/// The sums of any two poses, made when first asked for.
pub struct Depths<'a> {
    poses: &'a Poses,
    space: f64,
    pairs: Vec<OnceLock<Pair>>,
}

impl<'a> Depths<'a> {
    /// Nothing is worked out yet.
    pub fn new(poses: &'a Poses, space: f64) -> Self {
        let count = poses.poses.len();
        Depths { poses, space, pairs: (0..count * count).map(|_| OnceLock::new()).collect() }
    }

    /// The table for two poses.
    pub fn pair(&self, first: usize, second: usize) -> &Pair {
        let poses = &self.poses.poses;
        self.pairs[first * poses.len() + second]
            .get_or_init(|| Pair::of(&poses[first].parts, &poses[second].parts, self.space))
    }
}
