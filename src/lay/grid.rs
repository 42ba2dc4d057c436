//! Depths of one orientation in another at offsets on a grid: coarse, but all of them at hand at once (forbidden places on a
//! grid: the no-fit raster of Mundim, Andretta and de Queiroz 2017; here with the depth in place of a yes or no).

/// The depths row by row, each row from its first to its last above 0.
#[derive(Clone, Debug)]
pub struct Grid {
    /// The least offset across, in steps.
    pub low: i32,
    /// For each row the offset along of its first depth, in steps, and where its depths begin and end.
    rows: Vec<(i32, u32, u32)>,
    depths: Vec<f32>,
}

impl Grid {
    /// Depths at every offset of whole steps within so much along and across.
    pub fn of(step: f32, along: f32, across: f32, depth: impl Fn(f32, f32) -> f32) -> Grid {
        let steps = |reach: f32| (reach / step) as i32;
        let (along, across) = (steps(along), steps(across));
        let mut grid = Grid { low: -across, rows: Vec::new(), depths: Vec::new() };
        let mut line: Vec<f32> = Vec::new();
        for row in -across..=across {
            line.clear();
            line.extend((-along..=along).map(|column| depth(column as f32 * step, row as f32 * step)));
            let begin = line.iter().take_while(|&&depth| depth <= 0.0).count();
            let empty_behind = line.iter().rev().take_while(|&&depth| depth <= 0.0).count();
            let some = line.iter().take(line.len() - empty_behind).skip(begin);
            let from = grid.depths.len() as u32;
            grid.depths.extend(some);
            grid.rows.push((begin as i32 - along, from, grid.depths.len() as u32));
        }
        grid
    }

    /// How many depths it holds.
    pub fn len(&self) -> usize {
        self.depths.len()
    }

    /// From a row on, for each the offset along of its first depth, in steps, and its depths.
    pub fn rows_from(&self, row: usize) -> impl Iterator<Item = (i32, &[f32])> + '_ {
        let rows = self.rows.iter().skip(row);
        rows.map(|&(first, begin, end)| {
            (first, self.depths.get(begin as usize..end as usize).unwrap_or_default())
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Depths of a square of 10 in one of 20, their centres so far apart: 15 less the greater of the two distances. On a
    /// grid of 5 that is above 0 from −10 to 10 either way, 5 in the outermost places and 15 in the middle.
    #[test]
    fn rows_hold_what_is_above_nothing() {
        let grid = Grid::of(5.0, 15.0, 15.0, |x, y| (15.0 - x.abs().max(y.abs())).max(0.0));
        assert_eq!(grid.low, -3);
        let rows: Vec<(i32, &[f32])> = grid.rows_from(0).collect();
        assert_eq!(rows.len(), 7);
        assert!(rows[0].1.is_empty() && rows[6].1.is_empty());
        assert_eq!(rows[1], (-2, &[5.0; 5][..]));
        assert_eq!(rows[3], (-2, &[5.0, 10.0, 15.0, 10.0, 5.0][..]));
        assert_eq!(grid.rows_from(6).count(), 1);
    }
}
