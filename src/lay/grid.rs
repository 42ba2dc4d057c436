//! Depths of one orientation in another at offsets on a grid: coarse, but all of them at hand at once (forbidden places on a
//! grid: the no-fit raster of Mundim, Andretta and de Queiroz 2017; here with the depth in place of a yes or no).

/// Depths are kept in blocks of this many, so that a compiler can work on them together.
pub const LANES: usize = 4;

/// Depths beside one another along the cloth.
pub type Block = [f32; LANES];

/// The depths row by row, each row from its first to its last above 0 and filled up with nothing.
#[derive(Clone, Debug)]
pub struct Grid {
    /// The least offset across, in steps.
    pub low: i32,
    /// For each row the offset along of its first depth, in steps, and where its blocks begin and end.
    rows: Vec<(i32, u32, u32)>,
    blocks: Vec<Block>,
    /// How many depths it holds, without what fills up.
    count: usize,
}

impl Grid {
    /// Depths at every offset of whole steps within so much along and across. `depths` tells those of a row: at the offset
    /// across, for each of the offsets along.
    pub fn of(step: f32, along: f32, across: f32, mut depths: impl FnMut(f32, &[f32], &mut [f32])) -> Grid {
        let steps = |reach: f32| (reach / step) as i32;
        let (along, across) = (steps(along), steps(across));
        let mut grid = Grid { low: -across, rows: Vec::new(), blocks: Vec::new(), count: 0 };
        let columns: Vec<f32> = (-along..=along).map(|column| column as f32 * step).collect();
        let mut line = vec![0.0f32; columns.len()];
        for row in -across..=across {
            line.fill(0.0);
            depths(row as f32 * step, &columns, &mut line);
            let begin = line.iter().take_while(|&&depth| depth <= 0.0).count();
            let empty_behind = line.iter().rev().take_while(|&&depth| depth <= 0.0).count();
            let some = line.get(begin..line.len() - empty_behind).unwrap_or_default();
            let from = grid.blocks.len() as u32;
            grid.blocks.extend(some.chunks(LANES).map(|depths| {
                let mut block = [0.0; LANES];
                block.iter_mut().zip(depths).for_each(|(to, &depth)| *to = depth);
                block
            }));
            grid.count += some.len();
            grid.rows.push((begin as i32 - along, from, grid.blocks.len() as u32));
        }
        grid
    }

    /// How many depths it holds.
    pub fn len(&self) -> usize {
        self.count
    }

    /// From a row on, for each the offset along of its first depth, in steps, and its depths.
    pub fn rows_from(&self, row: usize) -> impl Iterator<Item = (i32, &[Block])> + '_ {
        let rows = self.rows.get(row..).unwrap_or_default().iter();
        rows.map(|&(first, begin, end)| {
            (first, self.blocks.get(begin as usize..end as usize).unwrap_or_default())
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
        let grid = Grid::of(5.0, 15.0, 15.0, |y, columns, out| {
            out.iter_mut().zip(columns).for_each(|(out, x)| *out = (15.0 - x.abs().max(y.abs())).max(0.0));
        });
        assert_eq!(grid.low, -3);
        let rows: Vec<(i32, &[Block])> = grid.rows_from(0).collect();
        assert_eq!(rows.len(), 7);
        assert!(rows[0].1.is_empty() && rows[6].1.is_empty());
        assert_eq!(rows[1], (-2, &[[5.0; 4], [5.0, 0.0, 0.0, 0.0]][..]));
        assert_eq!(rows[3], (-2, &[[5.0, 10.0, 15.0, 10.0], [5.0, 0.0, 0.0, 0.0]][..]));
        assert_eq!(grid.len(), 25);
        assert_eq!(grid.rows_from(6).count(), 1);
    }
}
