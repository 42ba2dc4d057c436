//! The depth of two orientations worked out afresh each time, for lays of so many different shapes that
//! tables would fill the memory. The half-planes are the same as those of the tables; each costs a
//! pass over every corner of the other part (the separating axes of two convex polygons).

use super::half_planes::{TOUCH, edge_normals, rounded_corners};
use super::orientation::Orientations;
use super::request::Point;

/// One convex part: its corners, and the outward normals and reaches of its sides.
struct Part {
    corners: Vec<(f32, f32)>,
    sides: Vec<(f32, f32, f32)>,
    low: (f32, f32),
    high: (f32, f32),
}

/// Whether the bounds of two parts, the first moved by an offset, lie so far apart.
fn are_apart(a: &Part, b: &Part, (x, y): (f32, f32), by: f32) -> bool {
    x + a.low.0 >= b.high.0 + by
        || x + a.high.0 <= b.low.0 - by
        || y + a.low.1 >= b.high.1 + by
        || y + a.high.1 <= b.low.1 - by
}

/// The parts of every orientation.
pub struct Direct {
    parts: Vec<Vec<Part>>,
    grown: f32,
}

impl Direct {
    /// Prepares every orientation.
    pub fn new(orientations: &Orientations, space: f64) -> Self {
        let part = |corners: &Vec<Point>| {
            let mut normals = edge_normals(corners, 1.0);
            if space > 0.0 {
                normals = rounded_corners(&normals);
            }
            let reach =
                |n: Point| corners.iter().map(|p| n.0 * p.0 + n.1 * p.1).fold(f64::NEG_INFINITY, f64::max);
            Part {
                corners: corners.iter().map(|p| (p.0 as f32, p.1 as f32)).collect(),
                sides: normals.iter().map(|&n| (n.0 as f32, n.1 as f32, reach(n) as f32)).collect(),
                low: (-reach((-1.0, 0.0)) as f32, -reach((0.0, -1.0)) as f32),
                high: (reach((1.0, 0.0)) as f32, reach((0.0, 1.0)) as f32),
            }
        };
        let parts = orientations
            .orientations
            .iter()
            .map(|orientation| orientation.parts.iter().map(part).collect())
            .collect();
        Direct { parts, grown: (space - TOUCH) as f32 }
    }

    /// Calls `side` with every half-plane of the sum of two parts: inside where
    /// `c − nx·x − ny·y` is above 0. Stops when `side` answers false.
    fn sides(&self, a: &Part, b: &Part, side: &mut dyn FnMut(f32, f32, f32) -> bool) {
        for &(nx, ny, reach) in &b.sides {
            let least = a.corners.iter().fold(f32::MAX, |least, p| least.min(nx * p.0 + ny * p.1));
            if !side(nx, ny, reach - least + self.grown) {
                return;
            }
        }
        for &(nx, ny, reach) in &a.sides {
            let least = b.corners.iter().fold(f32::MAX, |least, p| least.min(nx * p.0 + ny * p.1));
            if !side(-nx, -ny, reach - least + self.grown) {
                return;
            }
        }
    }

    /// See [`super::depth::Depths::slope`].
    pub fn slope(&self, first: usize, second: usize, x: f32, y: f32) -> (f32, f32, f32) {
        let mut deepest = (0.0f32, 0.0, 0.0);
        for a in &self.parts[first] {
            for b in &self.parts[second] {
                if are_apart(a, b, (x, y), self.grown) {
                    continue;
                }
                let mut least = (f32::MAX, 0.0, 0.0);
                self.sides(a, b, &mut |nx, ny, c| {
                    let depth = c - nx * x - ny * y;
                    if depth < least.0 {
                        least = (depth, nx, ny);
                    }
                    depth > deepest.0
                });
                if least.0 > deepest.0 && least.0 < f32::MAX {
                    deepest = least;
                }
            }
        }
        deepest
    }

    /// See [`super::depth::Depths::planes`].
    pub fn planes(
        &self,
        first: usize,
        second: usize,
        (x, y): (f32, f32),
        reach: f32,
        plane: &mut dyn FnMut(f32, f32, f32),
    ) {
        let grown = self.grown + reach;
        for a in &self.parts[first] {
            for b in &self.parts[second] {
                if are_apart(a, b, (x, y), grown) {
                    continue;
                }
                let mut least = (f32::MAX, 0.0, 0.0);
                self.sides(a, b, &mut |nx, ny, c| {
                    let depth = c - nx * x - ny * y;
                    if depth < least.0 {
                        least = (depth, nx, ny);
                    }
                    depth > -reach
                });
                if least.0 > -reach && least.0 < f32::MAX {
                    plane(least.1, least.2, least.0);
                }
            }
        }
    }

    /// See [`super::depth::Depths::blocked_along`].
    pub fn blocked_along(&self, first: usize, second: usize, y: f32, out: &mut Vec<(f32, f32)>) {
        for a in &self.parts[first] {
            for b in &self.parts[second] {
                let (mut low, mut high) = (b.low.0 - a.high.0 - self.grown, b.high.0 - a.low.0 + self.grown);
                self.sides(a, b, &mut |nx, ny, c| {
                    let rest = c - ny * y;
                    if nx > 1e-7 {
                        high = high.min(rest / nx);
                    } else if nx < -1e-7 {
                        low = low.max(rest / nx);
                    } else if rest <= 0.0 {
                        high = f32::NEG_INFINITY;
                    }
                    low < high
                });
                if low < high {
                    out.push((low, high));
                }
            }
        }
    }
}
