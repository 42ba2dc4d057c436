//! Pieces packed together on paper: each at the place that adds the fewest pages, looked for on a grid.
//!
//! Paper has no grain, but words are to be read upright, so that pieces are not turned. What a piece covers is a set of
//! cells of the grid, its outline filled and all that is drawn round it; no two pieces share a cell. What counts is not how
//! long the strip becomes, as with cloth, but how many pages bear a line.

use super::stretches::{GAP, INSET, stretches};
use crate::emit::drawing::DrawnGroup;
use kurbo::{Point, Rect, Vec2};
use std::collections::BTreeSet;

/// The side of a cell, in millimetres.
const CELL: f64 = 15.0;
/// Nearer to where pages join than this, in millimetres, no straight side of a piece lies: it would be trimmed off.
const OFF_JOIN: f64 = 3.0;
/// A strip of more cells than this down is not looked at.
const DEEPEST: usize = 20_000;

/// In which order pieces are put down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Order {
    /// The largest first.
    Largest,
    /// The tallest first.
    Tallest,
}

/// Where pieces lie.
#[derive(Clone, Debug)]
pub(super) struct Packed {
    /// By group: how far it is moved.
    pub moves: Vec<Vec2>,
    /// How high all of it is, in millimetres.
    pub height: f64,
    /// About how many pages it takes.
    pub pages: usize,
}

/// What a piece covers.
pub(super) struct Cover {
    bounds: Rect,
    /// By row from the top, a bit a cell.
    rows: Vec<Vec<u64>>,
    /// The cells that lines and words pass through: row and column.
    inked: Vec<(usize, usize)>,
}

impl Cover {
    /// Of a group as it is drawn.
    pub fn of(group: &DrawnGroup) -> Self {
        let bounds = group.bounds;
        let count = |length: f64| ((length / CELL).ceil().max(1.0) as usize).min(DEEPEST);
        let (across, down) = (count(bounds.width() + GAP), count(bounds.height() + GAP));
        let mut cover = Cover { bounds, rows: vec![vec![0; across.div_ceil(64)]; down], inked: Vec::new() };
        let mut inked: BTreeSet<(usize, usize)> = BTreeSet::new();
        for shape in &group.shapes {
            for pair in stretches(shape, Vec2::ZERO).iter().flat_map(|chain| chain.windows(2)) {
                let &[from, to] = pair else { continue };
                let steps = (from.distance(to) / CELL).ceil().max(1.0) as usize;
                for step in 0..steps.min(DEEPEST) {
                    let part = |at: usize| from.lerp(to, at as f64 / steps as f64);
                    let own = Rect::from_points(part(step), part(step + 1));
                    cover.mark(own, &mut inked);
                }
            }
        }
        for (_, outline) in &group.outlines {
            cover.fill(outline);
        }
        cover.inked = inked.into_iter().collect();
        cover
    }

    /// The cells of a rectangle, and room round it.
    fn mark(&mut self, own: Rect, inked: &mut BTreeSet<(usize, usize)>) {
        let own = own.inflate(GAP / 2.0, GAP / 2.0);
        let column = |x: f64| ((x - self.bounds.x0 + GAP / 2.0) / CELL).floor().max(0.0) as usize;
        let row = |y: f64| ((self.bounds.y1 + GAP / 2.0 - y) / CELL).floor().max(0.0) as usize;
        for row in row(own.y1)..=row(own.y0) {
            for column in column(own.x0)..=column(own.x1) {
                if let Some(word) = self.rows.get_mut(row).and_then(|row| row.get_mut(column / 64)) {
                    *word |= 1 << (column % 64);
                    inked.insert((row, column));
                }
            }
        }
    }

    /// The cells inside a ring: along the middle of each row, from crossing to crossing.
    fn fill(&mut self, ring: &[Point]) {
        for (number, row) in self.rows.iter_mut().enumerate() {
            let y = self.bounds.y1 + GAP / 2.0 - (number as f64 + 0.5) * CELL;
            let nexts = ring.iter().cycle().skip(1);
            let crossed = ring.iter().zip(nexts).filter(|(a, b)| (a.y > y) != (b.y > y));
            let mut crossings: Vec<f64> =
                crossed.map(|(a, b)| a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y)).collect();
            crossings.sort_by(f64::total_cmp);
            for pair in crossings.chunks_exact(2) {
                let cell = |x: f64| ((x - self.bounds.x0 + GAP / 2.0) / CELL).floor().max(0.0) as usize;
                for column in cell(pair[0])..=cell(pair[1]) {
                    if let Some(word) = row.get_mut(column / 64) {
                        *word |= 1 << (column % 64);
                    }
                }
            }
        }
    }

    fn size(&self, order: Order) -> f64 {
        match order {
            Order::Largest => self.bounds.area(),
            Order::Tallest => self.bounds.height(),
        }
    }
}

/// A strip of paper, filled from the top.
struct Strip {
    rows: Vec<Vec<u64>>,
    words: usize,
}

impl Strip {
    fn row(&mut self, number: usize) -> &mut Vec<u64> {
        let words = self.words;
        while self.rows.len() <= number {
            self.rows.push(vec![0; words]);
        }
        &mut self.rows[number]
    }

    /// Whether a piece covers nothing there that is covered already.
    fn is_free(&self, cover: &Cover, (row, column): (usize, usize)) -> bool {
        let (first, bit) = (column / 64, column % 64);
        cover.rows.iter().enumerate().all(|(down, own)| {
            let Some(taken) = self.rows.get(row + down) else { return true };
            own.iter().enumerate().all(|(at, word)| {
                let low = taken.get(first + at).copied().unwrap_or(0) & (word << bit);
                let high = match bit {
                    0 => 0,
                    bit => taken.get(first + at + 1).copied().unwrap_or(0) & (word >> (64 - bit)),
                };
                low == 0 && high == 0
            })
        })
    }

    fn take(&mut self, cover: &Cover, (row, column): (usize, usize)) {
        let (first, bit) = (column / 64, column % 64);
        for (down, own) in cover.rows.iter().enumerate() {
            let taken = self.row(row + down);
            for (at, word) in own.iter().enumerate() {
                if let Some(low) = taken.get_mut(first + at) {
                    *low |= word << bit;
                }
                if let (true, Some(high)) = (bit > 0, taken.get_mut(first + at + 1)) {
                    *high |= word >> (64 - bit);
                }
            }
        }
    }
}

/// Puts pieces onto a strip that is so wide, in millimetres. `page`: from a page's edge to the next one's, across and
/// down, where it is parted into pages. None where a piece is wider than the strip.
pub(super) fn pack(covers: &[Cover], width: f64, page: Option<(f64, f64)>, order: Order) -> Option<Packed> {
    let across = ((width - INSET) / CELL).floor().max(1.0) as usize;
    let mut strip = Strip { rows: Vec::new(), words: across.div_ceil(64) + 2 };
    let mut turn: Vec<usize> = (0..covers.len()).collect();
    turn.sort_by(|&one, &other| {
        covers[other].size(order).total_cmp(&covers[one].size(order)).then(one.cmp(&other))
    });
    let mut packed = Packed { moves: vec![Vec2::ZERO; covers.len()], height: 0.0, pages: 0 };
    let mut pages: BTreeSet<(usize, usize)> = BTreeSet::new();
    for at in turn {
        let cover = &covers[at];
        let wide = (cover.bounds.width() / CELL).ceil() as usize;
        let last = across.checked_sub(wide)?;
        let mut best: Option<(Cost, (usize, usize))> = None;
        for column in 0..=last {
            for row in rows_to_try(&strip, cover, column, page) {
                let new = page.map_or(0, |page| new_pages(cover, (row, column), page, &pages));
                let trimmed = page.is_some_and(|page| is_trimmed(cover, (row, column), page));
                let cost = (trimmed, new, row + cover.rows.len(), column);
                if best.is_none_or(|(least, _)| cost < least) {
                    best = Some((cost, (row, column)));
                }
            }
        }
        let (_, place) = best?;
        strip.take(cover, place);
        if let Some(page) = page {
            pages.extend(cover.inked.iter().map(|&cell| page_of(cell, place, page)));
        }
        let corner = corner(place);
        packed.moves[at] = Vec2::new(corner.x - cover.bounds.x0, corner.y - cover.bounds.y1);
        packed.height = packed.height.max(cover.bounds.height() - corner.y);
    }
    packed.pages = pages.len();
    Some(packed)
}

/// What a place costs, the worst first: whether a piece lies on the trimming frame there, how many new pages it takes,
/// how far down and how far to the right.
type Cost = (bool, usize, usize, usize);

/// Where the upper left corner of a piece lies that is put down at a cell.
fn corner((row, column): (usize, usize)) -> Point {
    Point::new(INSET + column as f64 * CELL, -INSET - row as f64 * CELL)
}

/// The first row from the top where a piece is free in that column, and the first at the head of a page.
fn rows_to_try(strip: &Strip, cover: &Cover, column: usize, page: Option<(f64, f64)>) -> Vec<usize> {
    let deepest = strip.rows.len();
    let Some(first) = (0..=deepest).find(|&row| strip.is_free(cover, (row, column))) else {
        return Vec::new();
    };
    let mut rows = vec![first];
    if let Some((_, down)) = page {
        let head = ((first as f64 * CELL / down).ceil() * down / CELL).ceil() as usize;
        if head > first && strip.is_free(cover, (head, column)) {
            rows.push(head);
        }
    }
    rows
}

/// The page that a cell of a piece lies on.
fn page_of(cell: (usize, usize), place: (usize, usize), (across, down): (f64, f64)) -> (usize, usize) {
    let corner = corner((place.0 + cell.0, place.1 + cell.1));
    let count = |length: f64, side: f64| ((length - GAP / 2.0 + CELL / 2.0).max(0.0) / side) as usize;
    (count(-corner.y, down), count(corner.x, across))
}

fn new_pages(
    cover: &Cover,
    place: (usize, usize),
    page: (f64, f64),
    known: &BTreeSet<(usize, usize)>,
) -> usize {
    let mut new: Vec<(usize, usize)> = Vec::new();
    for &cell in &cover.inked {
        let own = page_of(cell, place, page);
        if new.last() != Some(&own) && !known.contains(&own) && !new.contains(&own) {
            new.push(own);
        }
    }
    new.len()
}

/// Whether a side of a piece lies along a frame at which a page is trimmed.
fn is_trimmed(cover: &Cover, place: (usize, usize), (across, down): (f64, f64)) -> bool {
    let corner = corner(place);
    let near = |at: f64, side: f64| at > side / 2.0 && (at - (at / side).round() * side).abs() < OFF_JOIN;
    let (left, top) = (corner.x, -corner.y);
    near(left, across)
        || near(left + cover.bounds.width(), across)
        || near(top, down)
        || near(top + cover.bounds.height(), down)
}

#[cfg(test)]
mod tests {
    use super::{Cover, Order, pack};
    use kurbo::{Point, Rect};

    /// A rectangle as it is covered.
    fn cover(width: f64, height: f64) -> Cover {
        let mut cover = Cover {
            bounds: Rect::new(0.0, 0.0, width, height),
            rows: vec![vec![0; 4]; (height / 10.0) as usize + 1],
            inked: Vec::new(),
        };
        let mut inked = std::collections::BTreeSet::new();
        let corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
        for (from, to) in corners.iter().zip(corners.iter().cycle().skip(1)) {
            cover.mark(Rect::from_points(*from, *to), &mut inked);
        }
        cover.fill(&corners.map(Point::from));
        cover.inked = inked.into_iter().collect();
        cover
    }

    /// Pages of 200 by 200: four pieces of 80 by 80 lie on one of them, two and two, with room between and off the joins;
    /// a fifth does not.
    #[test]
    fn pieces_share_a_page() {
        let square: Vec<Cover> = (0..4).map(|_| cover(80.0, 80.0)).collect();
        let packed = pack(&square, 600.0, Some((200.0, 200.0)), Order::Largest).unwrap();
        let places: Vec<(f64, f64)> = packed.moves.iter().map(|by| (by.x, by.y + 80.0)).collect();
        for (x, y) in &places {
            assert!(*x > 0.0 && x + 80.0 < 200.0 && *y < 0.0 && y - 80.0 > -200.0, "{places:?}");
        }
        for (at, (x, y)) in places.iter().enumerate() {
            for (other_x, other_y) in &places[at + 1..] {
                let (across, down) = ((x - other_x).abs(), (y - other_y).abs());
                assert!(across >= 86.0 || down >= 86.0, "{places:?}");
            }
        }
        let five: Vec<Cover> = (0..5).map(|_| cover(80.0, 80.0)).collect();
        let packed = pack(&five, 600.0, Some((200.0, 200.0)), Order::Largest).unwrap();
        assert!(packed.moves.iter().any(|by| by.x + 80.0 > 200.0 || by.y < -200.0), "{packed:?}");
        assert!(pack(&five, 60.0, None, Order::Largest).is_none(), "wider than the strip");
    }
}
