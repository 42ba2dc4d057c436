//! Which pages a drawing needs.

use super::Unprintable;
use super::pack::{Cover, Order, Packed, pack};
use super::paper::Paper;
use super::stretches::{GAP, INSET, stretches};
use crate::emit::drawing::{Arranged, DrawnGroup, Hanging, arrange};
use crate::garment::SizeId;
use crate::limits::PAGES;
use kurbo::{Point, Rect, Vec2};
use std::collections::{BTreeMap, BTreeSet};

/// White all round a page, which printers leave, in millimetres.
pub(super) const MARGIN: f64 = 12.0;
/// How far neighbouring pages lie over each other, in millimetres.
pub(super) const OVERLAP: f64 = 12.0;
/// A drawing parted into pages.
#[derive(Clone, Debug)]
pub(super) struct Tiling {
    /// Where each group lies.
    pub moves: Vec<Vec2>,
    /// What is drawn on a page: width and height.
    pub field: (f64, f64),
    /// The pages that carry something: row and column, from 0, row by row.
    pub pages: Vec<(usize, usize)>,
    /// By size: the pages that carry its lines, or what all sizes share.
    pub needed: BTreeMap<SizeId, BTreeSet<(usize, usize)>>,
}

impl Tiling {
    /// Groups that lie so, on pages of which so much is drawn on.
    pub fn of(groups: &[DrawnGroup], moves: Vec<Vec2>, field: (f64, f64)) -> Self {
        let mut needed = BTreeMap::new();
        for (group, by) in groups.iter().zip(&moves) {
            mark(group, *by, (field.0 - OVERLAP, field.1 - OVERLAP), &mut needed);
        }
        let pages: BTreeSet<(usize, usize)> = needed.values().flatten().copied().collect();
        Tiling { moves, field, pages: pages.into_iter().collect(), needed }
    }

    /// Where pages are trimmed across a group, on its own paper.
    pub fn joins(&self, group: &DrawnGroup, by: Vec2) -> Vec<(Point, Point)> {
        let own = group.bounds.inflate(OVERLAP, OVERLAP);
        let (across, down) = (self.field.0 - OVERLAP, self.field.1 - OVERLAP);
        let multiples = |from: f64, to: f64, step: f64| {
            let (first, last) = ((from / step).ceil().max(1.0), (to / step).floor());
            (0..)
                .map(move |at| first + f64::from(at))
                .take_while(move |at| *at <= last)
                .map(move |at| at * step)
        };
        let upright = multiples(own.x0 + by.x, own.x1 + by.x, across)
            .map(|x| (Point::new(x - by.x, own.y0), Point::new(x - by.x, own.y1)));
        let level = multiples(-own.y1 - by.y, -own.y0 - by.y, down)
            .map(|y| (Point::new(own.x0, -y - by.y), Point::new(own.x1, -y - by.y)));
        upright.chain(level).collect()
    }

    /// What of the drawing is on that page.
    pub fn part(&self, (row, column): (usize, usize)) -> Rect {
        let (width, height) = self.field;
        let left = column as f64 * (width - OVERLAP);
        let top = -(row as f64 * (height - OVERLAP));
        Rect::new(left, top - height, left + width, top)
    }
}

/// Lays groups out so that they take few pages: in rows, and packed together, as wide as one page, two, three and so
/// on; the fewest pages win; of equals the narrower.
pub(super) fn tile(groups: &[DrawnGroup], paper: Paper) -> Result<Tiling, Unprintable> {
    let (width, height) = paper.size();
    let field = (width - 2.0 * MARGIN, height - 2.0 * MARGIN);
    let (across, down) = (field.0 - OVERLAP, field.1 - OVERLAP);
    let widest = groups.iter().map(|group| group.bounds.width()).fold(1.0, f64::max) + INSET;
    let all: f64 = groups.iter().map(|group| group.bounds.width() + GAP).sum::<f64>() + INSET;
    let least = (widest / across).ceil().max(1.0);
    let most = (all / across).ceil().clamp(least, least + 7.0);
    let covers: Vec<Cover> = groups.iter().map(Cover::of).collect();
    let (mut best, mut packed): (Option<Tiling>, Option<Packed>) = (None, None);
    let mut columns = least;
    while columns <= most {
        let hanging = Hanging { width: columns * across - INSET, gap: GAP, headed: false };
        let Arranged { mut moves, width, height, .. } = arrange(groups, hanging);
        for by in &mut moves {
            *by += Vec2::new(INSET, -INSET);
        }
        let (width, height) = (width + INSET, height + INSET);
        if (width / across).ceil() * (height / down).ceil() > CELLS {
            return Err(Unprintable::Pages);
        }
        keep(&mut best, Tiling::of(groups, moves, field));
        for order in [Order::Largest, Order::Tallest].into_iter().filter(|_| columns < least + PACKED) {
            let tried = pack(&covers, columns * across, Some((across, down)), order);
            if let Some(tried) = tried
                && packed.as_ref().is_none_or(|packed| tried.pages < packed.pages)
            {
                packed = Some(tried);
            }
        }
        columns += 1.0;
    }
    if let Some(packed) = packed {
        keep(&mut best, Tiling::of(groups, packed.moves, field));
    }
    best.filter(|best| best.pages.len() <= PAGES).ok_or(Unprintable::Pages)
}

/// The one that takes fewer pages; of equals the one that came first.
fn keep(best: &mut Option<Tiling>, tried: Tiling) {
    if best.as_ref().is_none_or(|best| tried.pages.len() < best.pages.len()) {
        *best = Some(tried);
    }
}

/// Marks the cells that a group's lines and words lie in, size by size. A page within a piece that has neither is not
/// needed: nothing is cut there.
fn mark(
    group: &DrawnGroup,
    by: Vec2,
    cell: (f64, f64),
    needed: &mut BTreeMap<SizeId, BTreeSet<(usize, usize)>>,
) {
    let mut shared = BTreeSet::new();
    for shape in &group.shapes {
        match shape.size {
            Some(size) => stretch_cells(&stretches(shape, by), cell, needed.entry(size).or_default()),
            None => stretch_cells(&stretches(shape, by), cell, &mut shared),
        }
    }
    for (size, _) in &group.outlines {
        needed.entry(*size).or_default().extend(&shared);
    }
}

/// The cell that a point lies in.
fn cell_of(point: Point, cell: (f64, f64)) -> (usize, usize) {
    let count = |length: f64| if length.is_finite() { length.floor().clamp(0.0, CELLS) as usize } else { 0 };
    (count(-point.y / cell.1), count(point.x / cell.0))
}

/// Marks the cells that stretches pass through: a long one is walked in steps of a hundredth of a
/// cell, and each step marks the cells of its box.
fn stretch_cells(chains: &[Vec<Point>], cell: (f64, f64), cells: &mut BTreeSet<(usize, usize)>) {
    let pairs = chains.iter().flat_map(|chain| chain.windows(2)).filter_map(|pair| match pair {
        &[from, to] => Some((from, to)),
        _ => None,
    });
    for (from, to) in pairs {
        let steps = (from.distance(to) / (cell.0.min(cell.1) * 0.01)).ceil().clamp(1.0, 1e6) as usize;
        let mut before = from;
        for step in 1..=steps {
            let now = from.lerp(to, step as f64 / steps as f64);
            let own = Rect::from_points(before, now);
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
/// Pieces are packed on so many widths in pages: on wider paper they take no fewer.
const PACKED: f64 = 4.0;
/// The most cells that are looked at.
const CELLS: f64 = 250_000.0;
