//! The penalty of a piece all over the cloth at once: the grids of all other pieces, weighted and laid
//! over one another. Where the sum is low there is room, or hardly too little of it; places drawn at
//! random seldom meet a gap that is just large enough.

use super::grid::{Grid, LANES};
use super::orientation::Orientation;

/// So many places are passed over at once where none of them is low enough.
const CHUNK: usize = 16;
/// More steps than any cloth is long: what is above 0 with them added can be rounded by cutting off.
const FAR: f32 = 1e6;

/// A place and the sum there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Low {
    /// The sum.
    pub penalty: f32,
    /// Along the cloth.
    pub x: f32,
    /// Across the cloth.
    pub y: f32,
}

/// Sums at places every so many millimetres along and across, from the least allowed place on.
#[derive(Debug, Default)]
pub struct Field {
    /// Line by line; before and behind each there is room for a block that reaches over its end.
    sums: Vec<f32>,
    columns: usize,
    lines: usize,
    step: f32,
    low: (f32, f32),
    high: (f32, f32),
}

impl Field {
    /// Nothing anywhere yet, for an orientation on a length of cloth.
    pub fn clear(&mut self, shape: &Orientation, length: f32, step: f32) {
        let (low, high) = shape.along(length);
        self.step = step;
        self.low = (low, shape.across.0);
        self.high = (high, shape.across.1);
        let count = |low: f32, high: f32| ((high - low) / step).ceil().max(0.0) as usize + 1;
        self.columns = count(self.low.0, self.high.0);
        self.lines = count(self.low.1, self.high.1);
        self.sums.clear();
        self.sums.resize(self.stride() * self.lines, 0.0);
    }

    /// How many places there are.
    pub fn len(&self) -> usize {
        self.columns * self.lines
    }

    /// From one line to the next.
    fn stride(&self) -> usize {
        self.columns + 2 * LANES
    }

    /// Adds the depths in a piece that lies at a place, by its weight.
    pub fn add(&mut self, grid: &Grid, (x, y): (f32, f32), weight: f32) {
        let step = self.step;
        // The call to round is not inlined where a processor need not have it.
        let steps = |from: f32, to: f32| ((to - from) / step + FAR + 0.5) as i32 - FAR as i32;
        let (centre, top) = (steps(self.low.0, x), steps(self.low.1, y) + grid.low);
        let stride = self.stride();
        let lines = self.sums.get_mut(top.max(0) as usize * stride..).unwrap_or_default();
        let rows = grid.rows_from((-top).max(0) as usize);
        for (line, (first, blocks)) in lines.chunks_exact_mut(stride).zip(rows) {
            let left = centre + first + LANES as i32;
            // Blocks that lie off the cloth, before the room for one.
            let off = ((-left).max(0) as usize).div_ceil(LANES);
            let sums = line.get_mut((left + (off * LANES) as i32) as usize..).unwrap_or_default();
            let blocks = blocks.get(off..).unwrap_or_default();
            for (sums, depths) in sums.as_chunks_mut::<LANES>().0.iter_mut().zip(blocks) {
                *sums = std::array::from_fn(|lane| sums[lane] + weight * depths[lane]);
            }
        }
    }

    /// The lowest places that are no higher than those around them, the lowest first, at most so many.
    pub fn lowest(&self, most: usize, out: &mut Vec<Low>) {
        out.clear();
        let mut bound = f32::INFINITY;
        for (row, line) in self.sums.chunks_exact(self.stride()).enumerate() {
            let line = line.get(LANES..LANES + self.columns).unwrap_or_default();
            for (chunk, sums) in line.chunks(CHUNK).enumerate() {
                if !sums.iter().fold(false, |any, &sum| any | (sum < bound)) {
                    continue;
                }
                for (index, &penalty) in sums.iter().enumerate() {
                    let column = chunk * CHUNK + index;
                    if penalty >= bound || !self.is_lowest_around(row, column, penalty) {
                        continue;
                    }
                    let x = (self.low.0 + column as f32 * self.step).min(self.high.0);
                    let y = (self.low.1 + row as f32 * self.step).min(self.high.1);
                    let at = out.partition_point(|low| low.penalty <= penalty);
                    out.insert(at, Low { penalty, x, y });
                    out.truncate(most);
                    if out.len() == most {
                        bound = out.last().map_or(bound, |last| last.penalty);
                    }
                }
            }
        }
    }

    /// Whether no place beside this one is lower; of places alike the first along and across.
    fn is_lowest_around(&self, row: usize, column: usize, penalty: f32) -> bool {
        let stride = self.stride();
        let at = row * stride + LANES + column;
        let sum = |at: usize| self.sums.get(at).copied().unwrap_or(f32::INFINITY);
        (column == 0 || sum(at - 1) > penalty)
            && (column + 1 == self.columns || sum(at + 1) >= penalty)
            && (row == 0 || sum(at - stride) > penalty)
            && sum(at + stride) >= penalty
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::squares::three_squares;

    /// Squares of 10 on cloth 10 wide and 40 long, so that one may lie at 5 to 35. Two that lie at 5 and at 32, taken for 30
    /// on a grid of 5, the second of three times the weight, are lain in by 10, 5, 0, 0, 15, 30 and 15: of the two places
    /// without any overlap the first is told, and that at the end is lower than the one before it.
    #[test]
    fn the_lowest_places_lie_between_what_is_laid() {
        let orientations = three_squares(None);
        let grid = Grid::of(5.0, 10.0, 10.0, |y, columns, out| {
            out.iter_mut().zip(columns).for_each(|(out, x)| *out = (10.0 - x.abs().max(y.abs())).max(0.0));
        });
        let mut field = Field::default();
        field.clear(&orientations.orientations[0], 40.0, 5.0);
        assert_eq!(field.len(), 7);
        field.add(&grid, (5.0, 5.0), 1.0);
        field.add(&grid, (32.0, 5.0), 3.0);
        let mut lowest = Vec::new();
        field.lowest(3, &mut lowest);
        let low = |penalty: f32, x: f32| Low { penalty, x, y: 5.0 };
        assert_eq!(lowest, [low(0.0, 15.0), low(15.0, 35.0)]);
        field.lowest(1, &mut lowest);
        assert_eq!(lowest, [low(0.0, 15.0)]);
    }
}
