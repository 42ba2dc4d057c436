//! Paper as a grid of cells: which of them a piece covers, and where it is free.
//!
//! What a piece covers is its outline, filled, and all that is drawn round it; no two pieces share a cell. A row of cells
//! is one number, a bit a cell: at which columns a piece is free in a row of the strip is told at once by shifting
//! what is taken.

use super::stretches::{GAP, Ink};
use crate::emit::drawing::DrawnGroup;
use kurbo::{Point, Rect};

/// The side of a cell, in millimetres; of a strip that would have more than [`WIDEST`] of them more.
pub(super) const CELL: f64 = 10.0;
/// No strip is more cells wide, nor a bit more that a piece may reach beyond it.
const WIDEST: f64 = 120.0;
/// A strip of more cells than this down is not looked at.
pub(super) const DEEPEST: usize = 20_000;
/// The side of a cell on a strip that is at most so wide.
pub(super) fn cell_of(widest: f64) -> f64 {
    CELL.max(widest / WIDEST)
}

/// What a piece covers.
pub(super) struct Cover {
    /// Round all that is drawn.
    pub bounds: Rect,
    /// The side of a cell.
    pub cell: f64,
    /// By row from the top, a bit a cell.
    pub rows: Vec<u128>,
    /// The cells that lines and words pass through, in the same way.
    pub inked: Vec<u128>,
}

impl Cover {
    /// Of a group as it is drawn.
    pub fn of(group: &DrawnGroup, ink: &[Ink], cell: f64) -> Self {
        let mut cover = Cover::empty(group.bounds, cell);
        for pair in ink.iter().flat_map(|ink| &ink.chains).flat_map(|chain| chain.windows(2)) {
            let &[from, to] = pair else { continue };
            let steps = (from.distance(to) / cell).ceil().max(1.0) as usize;
            let part = |at: usize| from.lerp(to, at as f64 / steps as f64);
            for step in 0..steps.min(DEEPEST) {
                cover.mark(Rect::from_points(part(step), part(step + 1)));
            }
        }
        cover.rows.clone_from(&cover.inked);
        for (_, outline) in &group.outlines {
            cover.fill(outline);
        }
        cover
    }

    /// Of nothing yet.
    pub fn empty(bounds: Rect, cell: f64) -> Self {
        let down = (((bounds.height() + GAP) / cell).ceil().max(1.0) as usize).min(DEEPEST);
        Cover { bounds, cell, rows: vec![0; down], inked: vec![0; down] }
    }

    fn column(&self, x: f64) -> u32 {
        ((x - self.bounds.x0 + GAP / 2.0) / self.cell).floor().clamp(0.0, 127.0) as u32
    }

    fn row(&self, y: f64) -> usize {
        ((self.bounds.y1 + GAP / 2.0 - y) / self.cell).floor().max(0.0) as usize
    }

    /// The cells of a rectangle, and room round it.
    pub fn mark(&mut self, own: Rect) {
        let own = own.inflate(GAP / 2.0, GAP / 2.0);
        let bits = bits(self.column(own.x0), self.column(own.x1));
        for row in self.row(own.y1)..=self.row(own.y0) {
            if let Some(row) = self.inked.get_mut(row) {
                *row |= bits;
            }
        }
    }

    /// The cells inside a ring: along the middle of each row, from crossing to crossing.
    pub fn fill(&mut self, ring: &[Point]) {
        for number in 0..self.rows.len() {
            let y = self.bounds.y1 + GAP / 2.0 - (number as f64 + 0.5) * self.cell;
            let nexts = ring.iter().cycle().skip(1);
            let crossed = ring.iter().zip(nexts).filter(|(a, b)| (a.y > y) != (b.y > y));
            let mut crossings: Vec<f64> =
                crossed.map(|(a, b)| a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y)).collect();
            crossings.sort_by(f64::total_cmp);
            for pair in crossings.chunks_exact(2) {
                let bits = bits(self.column(pair[0]), self.column(pair[1]));
                self.rows[number] |= bits;
            }
        }
    }

    /// What it covers where it is moved within its cell: to the right, down.
    pub fn moved(&self, (right, down): (bool, bool)) -> Vec<u128> {
        let mut rows: Vec<u128> = match right {
            true => self.rows.iter().map(|row| row | row << 1).collect(),
            false => self.rows.clone(),
        };
        if down {
            rows.push(0);
            for row in (1..rows.len()).rev() {
                rows[row] |= rows[row - 1];
            }
        }
        rows
    }
}

/// The bits from the first to the last, both included.
fn bits(first: u32, last: u32) -> u128 {
    (u128::MAX << first.min(127)) & (u128::MAX >> (127 - last.min(127)))
}

/// A strip of paper, filled from the top.
#[derive(Default)]
pub(super) struct Strip {
    /// By row from the top the cells that are covered.
    pub rows: Vec<u128>,
}

impl Strip {
    /// The columns at which rows of cells would cover something that is covered already, put down in that row.
    pub fn taken(&self, cover: &[Spans], row: usize) -> u128 {
        let mut taken = 0;
        for (own, spans) in self.rows.iter().skip(row).zip(cover) {
            if *own == 0 {
                continue;
            }
            for &(first, long) in spans {
                let (mut spread, mut done) = (*own, 1);
                while done < long {
                    let by = done.min(long - done);
                    spread |= spread >> by;
                    done += by;
                }
                taken |= spread >> first;
            }
        }
        taken
    }

    /// Puts down what covers these rows.
    pub fn take(&mut self, cover: &[u128], (row, column): (usize, u32)) {
        let deep = row + cover.len();
        if self.rows.len() < deep {
            self.rows.resize(deep, 0);
        }
        for (taken, own) in self.rows.iter_mut().skip(row).zip(cover) {
            *taken |= own << column;
        }
    }
}

/// Stretches of neighbouring cells of a row: the first one, and how many.
pub(super) type Spans = Vec<(u32, u32)>;

/// Each row as stretches of neighbouring cells.
pub(super) fn spans(rows: &[u128]) -> Vec<Spans> {
    let of_row = |row: &u128| {
        let (mut rest, mut spans) = (*row, Vec::new());
        while rest != 0 {
            let first = rest.trailing_zeros();
            let long = (rest >> first).trailing_ones();
            spans.push((first, long));
            rest &= !bits(first, first + long - 1);
        }
        spans
    };
    rows.iter().map(of_row).collect()
}
