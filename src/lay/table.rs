//! The forbidden offsets of two orientations, worked out once and looked up often: one convex sum for
//! each two of their convex parts, as half-planes.

use super::half_planes::{TOUCH, edge_normals, rounded_corners};
use super::request::Point;

/// Half-planes are kept in blocks of this many, so that a compiler can work on them together.
const LANES: usize = 8;

/// Half-planes of one sum: inside where `c − nx·x − ny·y` is above 0 for all.
type Block = [[f32; LANES]; 3];

#[derive(Clone, Debug)]
struct Sum {
    low: (f32, f32),
    high: (f32, f32),
    blocks: (u32, u32),
}

/// The sums of all parts of one orientation with all parts of another.
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

    /// Depths, as [`Pair::depth`], at offsets of the same `y`, which are raised to them. Whoever asks for many is answered
    /// sooner than by asking for each.
    pub fn depths_along(&self, y: f32, along: &[f32], deepest: &mut [f32]) {
        let mut least = vec![0.0f32; along.len()];
        for sum in self.sums.iter().filter(|sum| y > sum.low.1 && y < sum.high.1) {
            least.fill(f32::MAX);
            for block in &self.blocks[sum.blocks.0 as usize..sum.blocks.1 as usize] {
                for ((nx, ny), c) in block[0].iter().zip(&block[1]).zip(&block[2]) {
                    for (least, x) in least.iter_mut().zip(along) {
                        let depth = c - nx * x - ny * y;
                        *least = if depth < *least { depth } else { *least };
                    }
                }
            }
            for ((deepest, &least), &x) in deepest.iter_mut().zip(&least).zip(along) {
                let within = x > sum.low.0 && x < sum.high.0 && least > *deepest;
                *deepest = if within { least } else { *deepest };
            }
        }
    }

    /// Depth, as [`Pair::depth`], and the direction (of unit length) in which the first lies
    /// nearest to being clear.
    pub fn slope(&self, x: f32, y: f32) -> (f32, f32, f32) {
        let mut deepest = (0.0f32, 0.0, 0.0);
        for sum in &self.sums {
            let outside = (x <= sum.low.0) | (x >= sum.high.0) | (y <= sum.low.1) | (y >= sum.high.1);
            if outside {
                continue;
            }
            let mut least = [f32::MAX; LANES];
            let mut normal = [[0.0f32; LANES]; 2];
            for block in &self.blocks[sum.blocks.0 as usize..sum.blocks.1 as usize] {
                for lane in 0..LANES {
                    let depth = block[2][lane] - block[0][lane] * x - block[1][lane] * y;
                    let less = depth < least[lane];
                    least[lane] = if less { depth } else { least[lane] };
                    normal[0][lane] = if less { block[0][lane] } else { normal[0][lane] };
                    normal[1][lane] = if less { block[1][lane] } else { normal[1][lane] };
                }
            }
            let mut at = 0;
            for lane in 1..LANES {
                at = if least[lane] < least[at] { lane } else { at };
            }
            if least[at] > deepest.0 {
                deepest = (least[at], normal[0][at], normal[1][at]);
            }
        }
        deepest
    }

    /// Calls `plane` with the half-plane of each sum that lies nearest to an offset within `reach` of it: its normal, and how
    /// deep inside the offset lies, below 0 outside.
    pub fn planes(&self, x: f32, y: f32, reach: f32, plane: &mut dyn FnMut(f32, f32, f32)) {
        for sum in &self.sums {
            let outside = (x <= sum.low.0 - reach)
                | (x >= sum.high.0 + reach)
                | (y <= sum.low.1 - reach)
                | (y >= sum.high.1 + reach);
            if outside {
                continue;
            }
            let mut least = (f32::MAX, 0.0, 0.0);
            for block in &self.blocks[sum.blocks.0 as usize..sum.blocks.1 as usize] {
                for ((nx, ny), c) in block[0].iter().zip(&block[1]).zip(&block[2]) {
                    let depth = c - nx * x - ny * y;
                    if depth < least.0 {
                        least = (depth, *nx, *ny);
                    }
                }
            }
            if least.0 > -reach && least.0 < f32::MAX {
                plane(least.1, least.2, least.0);
            }
        }
    }

    /// The stretches of x at which the two overlap when the offset across is `y`.
    pub fn blocked_along(&self, y: f32, out: &mut Vec<(f32, f32)>) {
        for sum in &self.sums {
            if y <= sum.low.1 || y >= sum.high.1 {
                continue;
            }
            let (mut low, mut high) = (sum.low.0, sum.high.0);
            for block in &self.blocks[sum.blocks.0 as usize..sum.blocks.1 as usize] {
                for ((nx, ny), c) in block[0].iter().zip(&block[1]).zip(&block[2]) {
                    let rest = c - ny * y;
                    if *nx > 1e-7 {
                        high = high.min(rest / nx);
                    } else if *nx < -1e-7 {
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

    /// The sums of all parts of `first` with all parts of `second`.
    pub fn of(first: &[Vec<Point>], second: &[Vec<Point>], space: f64) -> Pair {
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
        let mut normals = edge_normals(b, 1.0);
        normals.extend(edge_normals(a, -1.0));
        let angle = |n: &Point| libm::atan2(n.1, n.0);
        normals.sort_by(|m, n| angle(m).total_cmp(&angle(n)));
        normals.dedup_by(|m, n| (m.0 - n.0).abs() + (m.1 - n.1).abs() < 1e-9);
        if space > 0.0 {
            normals = rounded_corners(&normals);
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
