//! How deep one orientation lies in another.
//!
//! For two convex parts A and B, the places of B relative to A at which they overlap form the
//! Minkowski sum of A and −B, again convex; the depth is the distance to its nearest side, the
//! least translation that parts them. The depth of two orientations is that of their deepest parts. (The
//! Minkowski sum as the space of forbidden places: Cuninghame-Green 1989; depth as the measure of
//! overlap for strip packing: Umetani et al. 2009, Imamichi et al. 2009.)
//!
//! The sums of two orientations are kept in a table as long as there are not too many; in a lay of
//! very many different shapes they are worked out each time. Beside the tables the depths at offsets on a
//! coarse grid are kept, for looking all over the cloth at once.

use super::direct::Direct;
use super::grid::Grid;
use super::orientation::Orientations;
use super::table::Pair;
use std::sync::OnceLock;

/// With more orientations than this the tables would fill the memory.
const MOST_ORIENTATIONS_IN_TABLES: usize = 320;
/// All over the cloth the grid has about so many places.
const PLACES_ON_THE_CLOTH: f32 = 3000.0;

/// The depths of any two orientations.
pub struct Depths<'a> {
    orientations: &'a Orientations,
    space: f64,
    /// For each orientation and each orientation not before it; made when first asked for.
    tables: Vec<OnceLock<Pair>>,
    direct: Option<Direct>,
    /// For each orientation and each other; made when first asked for. None where they are not worth it.
    grids: Vec<OnceLock<Grid>>,
    /// Between two places of a grid, in millimetres.
    pub step: f32,
}

/// The area of the pieces or of the cloth as long as the longest of them, in square millimetres: no two pieces reach over more
/// than four times as much of each other.
fn area_of_the_cloth(orientations: &Orientations) -> f32 {
    let pieces: f64 = orientations.copies.iter().map(|&item| orientations.area[item]).sum();
    let all = &orientations.orientations;
    let width = all.iter().map(|shape| shape.across.1 + shape.half.1).fold(0.0, f32::max);
    let longest = all.iter().map(|shape| 2.0 * shape.half.0).fold(0.0, f32::max);
    (pieces as f32).max(width * longest)
}

impl<'a> Depths<'a> {
    /// Nothing is worked out yet.
    pub fn new(orientations: &'a Orientations, space: f64) -> Self {
        Depths::with_limit(orientations, space, MOST_ORIENTATIONS_IN_TABLES)
    }

    /// With grids, which take longer to make than the tables: worth it for a long search. There are none where there are no
    /// tables.
    pub fn with_grids(mut self) -> Self {
        self.grids = (0..self.tables.len()).map(|_| OnceLock::new()).collect();
        self
    }

    fn with_limit(orientations: &'a Orientations, space: f64, most: usize) -> Self {
        let count = orientations.orientations.len();
        let (kept, direct) =
            if count <= most { (count * count, None) } else { (0, Some(Direct::new(orientations, space))) };
        Depths {
            orientations,
            space,
            tables: (0..kept).map(|_| OnceLock::new()).collect(),
            direct,
            grids: Vec::new(),
            step: (area_of_the_cloth(orientations) / PLACES_ON_THE_CLOTH).sqrt(),
        }
    }

    fn table(&self, first: usize, second: usize) -> &Pair {
        let orientations = &self.orientations.orientations;
        self.tables[first * orientations.len() + second]
            .get_or_init(|| Pair::of(&orientations[first].parts, &orientations[second].parts, self.space))
    }

    /// Whether depths are kept on grids.
    pub fn has_grids(&self) -> bool {
        !self.grids.is_empty()
    }

    /// The depths of one orientation in another on a grid, where such are kept.
    pub fn grid(&self, first: usize, second: usize) -> Option<&Grid> {
        let all = &self.orientations.orientations;
        let grid = self.grids.get(first * all.len() + second)?;
        Some(grid.get_or_init(|| {
            let (a, b, space) = (all[first].half, all[second].half, self.space as f32);
            let (table, sign) = if first <= second {
                (self.table(first, second), 1.0)
            } else {
                (self.table(second, first), -1.0)
            };
            let mut turned = Vec::new();
            Grid::of(self.step, a.0 + b.0 + space, a.1 + b.1 + space, |y, columns, out| {
                turned.clear();
                turned.extend(columns.iter().map(|x| sign * x));
                table.depths_along(sign * y, &turned, out);
            })
        }))
    }

    /// Depth at an offset (place of the first minus place of the second); 0 where clear.
    pub fn depth(&self, first: usize, second: usize, x: f32, y: f32) -> f32 {
        match &self.direct {
            Some(direct) => direct.slope(first, second, x, y).0,
            None if first <= second => self.table(first, second).depth(x, y),
            None => self.table(second, first).depth(-x, -y),
        }
    }

    /// Depth, and the direction (of unit length) in which the first is nearest to being clear.
    pub fn slope(&self, first: usize, second: usize, x: f32, y: f32) -> (f32, f32, f32) {
        match &self.direct {
            Some(direct) => direct.slope(first, second, x, y),
            None if first <= second => self.table(first, second).slope(x, y),
            None => {
                let (depth, nx, ny) = self.table(second, first).slope(-x, -y);
                (depth, -nx, -ny)
            }
        }
    }

    /// Calls `plane` with the half-planes nearest to an offset: the normal of each, and how deep inside the offset lies,
    /// below 0 outside, down to `-reach`.
    pub fn planes(
        &self,
        first: usize,
        second: usize,
        (x, y): (f32, f32),
        reach: f32,
        plane: &mut dyn FnMut(f32, f32, f32),
    ) {
        match &self.direct {
            Some(direct) => direct.planes(first, second, (x, y), reach, plane),
            None if first <= second => self.table(first, second).planes(x, y, reach, plane),
            None => {
                self.table(second, first).planes(-x, -y, reach, &mut |nx, ny, depth| plane(-nx, -ny, depth))
            }
        }
    }

    /// The stretches of the offset along x at which the two overlap, the offset across being `y`.
    pub fn blocked_along(&self, first: usize, second: usize, y: f32, out: &mut Vec<(f32, f32)>) {
        let from = out.len();
        match &self.direct {
            Some(direct) => direct.blocked_along(first, second, y, out),
            None if first <= second => self.table(first, second).blocked_along(y, out),
            None => {
                self.table(second, first).blocked_along(-y, out);
                for stretch in &mut out[from..] {
                    *stretch = (-stretch.1, -stretch.0);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::half_planes::TOUCH;
    use super::*;
    use crate::{Allowance, Effort, Item, Request, Turn};

    fn squares() -> Orientations {
        let square = vec![(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)];
        let item = |outline: Vec<(f64, f64)>| Item {
            id: "patch".into(),
            outline,
            quantity: 1,
            turns: vec![Turn::free(0.0), Turn::free(45.0)],
            repeat: None,
        };
        let ell = vec![(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (20.0, 20.0), (20.0, 40.0), (0.0, 40.0)];
        Orientations::of(&Request {
            items: vec![item(square), item(ell)],
            width: 100.0,
            minimum_space: 0.0,
            allowance: Allowance::Work(Effort::Quick),
            seed: 0,
            threads: 1,
        })
        .expect("two patches can be laid")
    }

    /// Squares of 10 whose centres are 7 apart along x overlap by 3, along x.
    #[test]
    fn squares_overlap_by_what_is_missing_to_their_side() {
        let orientations = squares();
        for limit in [0, 100] {
            let (depth, nx, ny) = Depths::with_limit(&orientations, 0.0, limit).slope(0, 0, 7.0, 1.0);
            assert!((f64::from(depth) - (3.0 - TOUCH)).abs() < 1e-4, "{depth}");
            assert!((nx - 1.0).abs() < 1e-6 && ny.abs() < 1e-6);
        }
    }

    /// Depths told row by row are those that are asked for one by one, either way round.
    #[test]
    fn grids_hold_the_depths_at_their_offsets() {
        let orientations = squares();
        let depths = Depths::with_limit(&orientations, 0.0, 100).with_grids();
        for (first, second) in [(0, 1), (2, 1), (2, 3), (3, 0), (3, 3)] {
            let grid = depths.grid(first, second).expect("grids are kept");
            let mut some = 0;
            for (row, (left, blocks)) in grid.rows_from(0).enumerate() {
                let y = (grid.low + row as i32) as f32 * depths.step;
                for (column, &depth) in blocks.iter().flatten().enumerate() {
                    let x = (left + column as i32) as f32 * depths.step;
                    assert_eq!(depth, depths.depth(first, second, x, y), "{first} {second} at {x} {y}");
                    some += usize::from(depth > 0.0);
                }
            }
            assert!(some > 100);
        }
    }

    /// Tables and the direct way agree everywhere, either way round.
    #[test]
    fn tables_and_the_direct_way_agree() {
        let orientations = squares();
        let (tables, direct) =
            (Depths::with_limit(&orientations, 0.0, 100), Depths::with_limit(&orientations, 0.0, 0));
        for step in 0..400 {
            let (x, y) = (step as f32 * 0.21 - 40.0, (step * 37 % 400) as f32 * 0.2 - 40.0);
            for (first, second) in [(0, 1), (2, 1), (2, 3), (3, 0)] {
                let (a, b) = (tables.depth(first, second, x, y), direct.depth(first, second, x, y));
                assert!((a - b).abs() < 2e-4, "{first} {second} at {x} {y}: {a} {b}");
                assert!((a - tables.slope(first, second, x, y).0).abs() < 1e-6);
                assert!((a - tables.depth(second, first, -x, -y)).abs() < 2e-4);
                // The deepest of the nearest half-planes tells the depth, and none is left out by the direct way.
                let planes = |depths: &Depths| {
                    let mut found = Vec::new();
                    depths.planes(first, second, (x, y), 3.0, &mut |_, _, depth| found.push(depth));
                    found
                };
                let (from_tables, worked_out) = (planes(&tables), planes(&direct));
                let deepest = |planes: &[f32]| planes.iter().fold(0.0f32, |a, &b| a.max(b));
                assert!((deepest(&from_tables) - a).abs() < 2e-4);
                assert!((deepest(&worked_out) - a).abs() < 2e-4);
                let far_from_the_limit =
                    |planes: &[f32]| planes.iter().filter(|d| (**d + 3.0).abs() > 1e-3).count();
                assert_eq!(far_from_the_limit(&from_tables), far_from_the_limit(&worked_out));
            }
        }
    }
}
