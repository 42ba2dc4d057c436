//! Which pages a drawing needs.

use super::Unprintable;
use super::along::Along;
use super::cells::{Cover, cell_of};
use super::pack::{Order, ToPack, cost_of, pack};
use super::paper::Paper;
use super::stretches::{GAP, INSET, Ink, lines};
use crate::emit::drawing::{Arranged, DrawnGroup, Hanging, arrange};
use crate::garment::SizeId;
use crate::limits::PAGES;
use kurbo::{Point, Rect, Vec2};
use rayon::prelude::*;
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
    /// All pages that carry something: row and column, from 0, row by row.
    pub all: Vec<(usize, usize)>,
    /// Those of them that are printed.
    pub pages: Vec<(usize, usize)>,
    /// By size: the pages that carry its lines, or what all sizes share.
    pub needed: BTreeMap<SizeId, BTreeSet<(usize, usize)>>,
}

impl Tiling {
    /// Groups that lie so, on pages of which so much is drawn on.
    pub fn of(inks: &[Vec<Ink>], groups: &[DrawnGroup], moves: Vec<Vec2>, field: (f64, f64)) -> Self {
        let mut needed = BTreeMap::new();
        for ((group, ink), by) in groups.iter().zip(inks).zip(&moves) {
            mark(group, ink, *by, (field.0 - OVERLAP, field.1 - OVERLAP), &mut needed);
        }
        let pages: BTreeSet<(usize, usize)> = needed.values().flatten().copied().collect();
        let all: Vec<(usize, usize)> = pages.into_iter().collect();
        Tiling { moves, field, pages: all.clone(), all, needed }
    }

    /// Only the pages that these sizes need are printed.
    pub fn leave_out_all_but(&mut self, sizes: &[SizeId]) {
        let is_needed = |page: &(usize, usize)| {
            sizes.iter().any(|size| self.needed.get(size).is_some_and(|pages| pages.contains(page)))
        };
        self.pages = self.all.iter().copied().filter(is_needed).collect();
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

/// Lays groups out so that no line lies along a frame and they take few pages: in rows, and packed together, as wide as one
/// page, two, three and so on; the fewest pages win; of equals the narrower.
pub(super) fn tile(groups: &[DrawnGroup], inks: &[Vec<Ink>], paper: Paper) -> Result<Tiling, Unprintable> {
    let (width, height) = paper.size();
    let field = (width - 2.0 * MARGIN, height - 2.0 * MARGIN);
    let (across, down) = (field.0 - OVERLAP, field.1 - OVERLAP);
    let widest = groups.iter().map(|group| group.bounds.width()).fold(1.0, f64::max) + INSET;
    let all: f64 = groups.iter().map(|group| group.bounds.width() + GAP).sum::<f64>() + INSET;
    let least = (widest / across).ceil().max(1.0);
    let most = (all / across).ceil().clamp(least, least + 7.0);
    let cell = cell_of((least + PACKED).min(most) * across);
    let pieces: Vec<ToPack> = (groups.par_iter().zip(inks))
        .map(|(group, ink)| ToPack {
            cover: Cover::of(group, ink, cell),
            along: Along::of(&lines(ink), group.bounds),
        })
        .collect();
    let mut best: Option<((usize, usize), Vec<Vec2>)> = None;
    let mut orders: Vec<Vec<usize>> = Order::ALL.iter().map(|order| order.of(&pieces)).collect();
    orders.dedup();
    // The packing that costs least: on how many columns, and in which order.
    let mut packed: Option<((usize, usize), f64, Vec<usize>)> = None;
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
        let in_rows = cost_of(&pieces, &moves, (across, down));
        if best.as_ref().is_none_or(|(least, _)| in_rows < *least) {
            best = Some((in_rows, moves));
        }
        for order in orders.iter().filter(|_| columns < least + PACKED) {
            let bound = packed.as_ref().map(|(cost, ..)| *cost);
            if let Some(tried) = pack(&pieces, columns * across, Some((across, down)), order, bound)
                && bound.is_none_or(|bound| tried.cost < bound)
            {
                packed = Some((tried.cost, columns, order.clone()));
                if best.as_ref().is_none_or(|(cost, _)| tried.cost < *cost) {
                    best = Some((tried.cost, tried.moves));
                }
            }
        }
        columns += 1.0;
    }
    // Two that change places in the order may save a page.
    if let Some((mut cost, columns, mut order)) = packed {
        let count = order.len();
        for first in (0..count.saturating_sub(1)).take(SWAPS) {
            for second in [first + 1, first + 2].into_iter().filter(|second| *second < count) {
                order.swap(first, second);
                let tried = pack(&pieces, columns * across, Some((across, down)), &order, Some(cost));
                match tried {
                    Some(tried) if tried.cost < cost => {
                        cost = tried.cost;
                        if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                            best = Some((cost, tried.moves));
                        }
                    }
                    _ => order.swap(first, second),
                }
            }
        }
    }
    let (_, moves) = best.ok_or(Unprintable::Pages)?;
    Some(Tiling::of(inks, groups, moves, field))
        .filter(|best| best.pages.len() <= PAGES)
        .ok_or(Unprintable::Pages)
}

/// Marks the cells that a group's lines and words lie in, size by size. A page within a piece that has neither is not
/// needed: nothing is cut there.
fn mark(
    group: &DrawnGroup,
    ink: &[Ink],
    by: Vec2,
    cell: (f64, f64),
    needed: &mut BTreeMap<SizeId, BTreeSet<(usize, usize)>>,
) {
    let mut shared = BTreeSet::new();
    let mut own = BTreeSet::new();
    for ink in ink {
        match ink.sizes.as_slice() {
            [] => stretch_cells(&ink.chains, by, cell, &mut shared),
            [one] => stretch_cells(&ink.chains, by, cell, needed.entry(*one).or_default()),
            several => {
                own.clear();
                stretch_cells(&ink.chains, by, cell, &mut own);
                for size in several {
                    needed.entry(*size).or_default().extend(&own);
                }
            }
        }
    }
    for (size, _) in &group.outlines {
        needed.entry(*size).or_default().extend(&shared);
    }
}

/// The cell that a point lies in.
fn cell_of_point(point: Point, cell: (f64, f64)) -> (usize, usize) {
    let count = |length: f64| if length.is_finite() { length.floor().clamp(0.0, CELLS) as usize } else { 0 };
    (count(-point.y / cell.1), count(point.x / cell.0))
}

/// Marks the cells that stretches pass through: most lie in one; a longer one is parted where it leaves a cell.
fn stretch_cells(chains: &[Vec<Point>], by: Vec2, cell: (f64, f64), cells: &mut BTreeSet<(usize, usize)>) {
    let mut marked = None;
    let mut mark = |own: (usize, usize)| {
        if marked != Some(own) {
            cells.insert(own);
            marked = Some(own);
        }
    };
    for chain in chains {
        let mut before: Option<(Point, (usize, usize))> = None;
        for point in chain {
            let to = *point + by;
            let its = cell_of_point(to, cell);
            if let Some((from, own)) = before
                && own != its
            {
                let mut stops = vec![0.0, 1.0];
                for (a, b, side) in [(from.x, to.x, cell.0), (from.y, to.y, cell.1)] {
                    let (first, last) = ((a.min(b) / side).ceil(), (a.max(b) / side).floor());
                    let lines = (0..).map(|at| first + f64::from(at)).take_while(|at| *at <= last);
                    stops.extend(lines.map(|at| (at * side - a) / (b - a)).filter(|at| at.is_finite()));
                }
                stops.sort_by(f64::total_cmp);
                for pair in stops.windows(2) {
                    mark(cell_of_point(from.lerp(to, f64::midpoint(pair[0], pair[1])), cell));
                }
            }
            mark(its);
            before = Some((to, its));
        }
    }
}
/// So many of the first pieces change places.
const SWAPS: usize = 16;
/// Pieces are packed on so many widths in pages: on wider paper they take no fewer.
const PACKED: f64 = 4.0;
/// The most cells that are looked at.
const CELLS: f64 = 250_000.0;
