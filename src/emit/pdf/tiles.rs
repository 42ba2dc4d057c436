//! Which pages a drawing needs.

use super::Unprintable;
use super::paper::Paper;
use crate::emit::drawing::{Arranged, DrawnGroup, Hanging, Shape, What, arrange};
use crate::limits::PAGES;
use kurbo::{Point, Rect, Vec2};
use std::collections::BTreeSet;

/// White all round a page, which printers leave, in millimetres.
pub(super) const MARGIN: f64 = 12.0;
/// How far neighbouring pages lie over each other, in millimetres.
pub(super) const OVERLAP: f64 = 12.0;
/// Between two pieces on paper, in millimetres.
const GAP: f64 = 6.0;

/// A drawing parted into pages.
#[derive(Clone, Debug)]
pub(super) struct Tiling {
    /// Where each group lies.
    pub moves: Vec<Vec2>,
    /// What is drawn on a page: width and height.
    pub field: (f64, f64),
    /// The pages that carry something: row and column, from 0, row by row.
    pub pages: Vec<(usize, usize)>,
}

impl Tiling {
    /// What of the drawing is on that page.
    pub fn part(&self, (row, column): (usize, usize)) -> Rect {
        let (width, height) = self.field;
        let left = column as f64 * (width - OVERLAP);
        let top = -(row as f64 * (height - OVERLAP));
        Rect::new(left, top - height, left + width, top)
    }
}

/// Lays groups out so that they take few pages: rows as wide as one page, two, three and so on are
/// tried, and the fewest pages win; of equals the narrower.
pub(super) fn tile(groups: &[DrawnGroup], paper: Paper) -> Result<Tiling, Unprintable> {
    let (width, height) = paper.size();
    let field = (width - 2.0 * MARGIN, height - 2.0 * MARGIN);
    let (across, down) = (field.0 - OVERLAP, field.1 - OVERLAP);
    let widest = groups.iter().map(|group| group.bounds.width()).fold(1.0, f64::max);
    let all: f64 = groups.iter().map(|group| group.bounds.width() + GAP).sum();
    let least = (widest / across).ceil().max(1.0);
    let most = (all / across).ceil().clamp(least, least + 11.0);
    let mut best: Option<Tiling> = None;
    let mut columns = least;
    while columns <= most {
        let hanging = Hanging { width: columns * across, gap: GAP, headed: false };
        let Arranged { moves, width, height, .. } = arrange(groups, hanging);
        if (width / across).ceil() * (height / down).ceil() > CELLS {
            return Err(Unprintable::Pages);
        }
        let mut cells = BTreeSet::new();
        for (group, by) in groups.iter().zip(&moves) {
            mark(group, *by, (across, down), &mut cells);
        }
        if best.as_ref().is_none_or(|best| cells.len() < best.pages.len()) {
            best = Some(Tiling { moves, field, pages: cells.into_iter().collect() });
        }
        columns += 1.0;
    }
    best.filter(|best| best.pages.len() <= PAGES).ok_or(Unprintable::Pages)
}

/// Marks the cells that a group's lines, words or cloth lie in.
fn mark(group: &DrawnGroup, by: Vec2, cell: (f64, f64), cells: &mut BTreeSet<(usize, usize)>) {
    let ring: Vec<Point> = group.outline.iter().map(|&point| point + by).collect();
    stretch_cells(&ring, true, cell, cells);
    let inner = group.bounds + by;
    for shape in &group.shapes {
        let outside = !ring_box(&ring).is_some_and(|own| holds(own, shape.bounds() + by));
        if outside {
            stretch_cells(&points_of(shape, by), false, cell, cells);
        }
    }
    // Pages of nothing but cloth.
    let (first_row, first_column) = cell_of(Point::new(inner.x0, inner.y1), cell);
    let (last_row, last_column) = cell_of(Point::new(inner.x1, inner.y0), cell);
    for row in first_row..=last_row {
        for column in first_column..=last_column {
            let middle = Point::new((column as f64 + 0.5) * cell.0, -(row as f64 + 0.5) * cell.1);
            if !cells.contains(&(row, column)) && crate::emit::drawing::inside(&ring, middle) {
                cells.insert((row, column));
            }
        }
    }
}

fn ring_box(ring: &[Point]) -> Option<Rect> {
    let first = ring.first()?;
    Some(ring.iter().fold(Rect::from_points(*first, *first), |all, &point| all.union_pt(point)))
}

fn holds(outer: Rect, inner: Rect) -> bool {
    inner.x0 >= outer.x0 && inner.x1 <= outer.x1 && inner.y0 >= outer.y0 && inner.y1 <= outer.y1
}

/// A shape as short stretches; of words the box round them.
fn points_of(shape: &Shape, by: Vec2) -> Vec<Point> {
    match &shape.what {
        What::Words(words) => {
            let [a, b, c, d] = words.corners();
            [a, b, c, d, a].map(|point| point + by).to_vec()
        }
        What::Stroke(path, _) | What::Fill(path, _) => {
            let own = path.control_box() + by;
            vec![
                Point::new(own.x0, own.y0),
                Point::new(own.x1, own.y0),
                Point::new(own.x1, own.y1),
                Point::new(own.x0, own.y1),
                Point::new(own.x0, own.y0),
            ]
        }
    }
}

/// The cell that a point lies in.
fn cell_of(point: Point, cell: (f64, f64)) -> (usize, usize) {
    let count = |length: f64| if length.is_finite() { length.floor().clamp(0.0, CELLS) as usize } else { 0 };
    (count(-point.y / cell.1), count(point.x / cell.0))
}

/// Marks the cells that stretches pass through: a long one is walked in steps of a hundredth of a
/// cell, and each step marks the cells of its box.
fn stretch_cells(points: &[Point], closed: bool, cell: (f64, f64), cells: &mut BTreeSet<(usize, usize)>) {
    let wrapped = closed.then(|| points.last().copied().zip(points.first().copied())).flatten();
    let pairs = points.windows(2).filter_map(|pair| match pair {
        &[from, to] => Some((from, to)),
        _ => None,
    });
    for (from, to) in pairs.chain(wrapped) {
        let steps = (from.distance(to) / (cell.0.min(cell.1) * 0.01)).ceil().clamp(1.0, 1e6) as usize;
        let mut before = from;
        for step in 1..=steps {
            let now = from.lerp(to, step as f64 / steps as f64);
            let own = Rect::from_points(before, now).inflate(LINE, LINE);
            let (first_row, first_column) = cell_of(Point::new(own.x0, own.y1), cell);
            let (last_row, last_column) = cell_of(Point::new(own.x1, own.y0), cell);
            for row in first_row..=last_row {
                for column in first_column..=last_column {
                    cells.insert((row, column));
                }
            }
            before = now;
        }
    }
}

/// Half the width of the widest line.
const LINE: f64 = 0.45;
/// The most cells that are looked at.
const CELLS: f64 = 250_000.0;
