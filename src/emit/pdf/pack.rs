//! Pieces packed together on paper: each at the place that adds the fewest pages, looked for on a grid.
//!
//! Paper has no grain, but words are to be read upright, so that pieces are not turned. What counts is not how long the
//! strip becomes, as with cloth, but how many pages bear a line. Where a line of a piece would lie along a
//! frame at which pages are trimmed, the piece is moved by less than a cell, and covers the next cells too.

use super::along::Along;
use super::cells::{Cover, DEEPEST, Spans, Strip, spans};
use super::stretches::{GAP, INSET};
use kurbo::{Point, Vec2};
use std::collections::BTreeSet;

/// A piece is moved in steps of so much within its cell, in millimetres.
const STEP: f64 = 1.0;

/// In which order pieces are put down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Order {
    /// The largest first.
    Largest,
    /// The tallest first.
    Tallest,
    /// The widest first.
    Widest,
}

impl Order {
    /// All of them.
    pub const ALL: [Order; 3] = [Order::Largest, Order::Tallest, Order::Widest];

    /// The pieces in this order.
    pub fn of(self, pieces: &[ToPack]) -> Vec<usize> {
        let size = |at: usize| match self {
            Order::Largest => pieces[at].cover.bounds.area(),
            Order::Tallest => pieces[at].cover.bounds.height(),
            Order::Widest => pieces[at].cover.bounds.width(),
        };
        let mut turn: Vec<usize> = (0..pieces.len()).collect();
        turn.sort_by(|&one, &other| size(other).total_cmp(&size(one)).then(one.cmp(&other)));
        turn
    }
}

/// From a page's edge to the next one's, across and down, in millimetres.
pub(super) type Page = (f64, f64);

/// Where pieces lie.
#[derive(Clone, Debug)]
pub(super) struct Packed {
    /// By group: how far it is moved.
    pub moves: Vec<Vec2>,
    /// How high all of it is, in millimetres.
    pub height: f64,
    /// How many pieces have a line along a frame, and about how many pages all take.
    pub cost: (usize, usize),
}

/// A piece to put down: what it covers, and where lines of it run along a frame.
pub(super) struct ToPack {
    /// What it covers.
    pub cover: Cover,
    /// Where its lines run.
    pub along: Along,
}

/// Puts pieces onto a strip that is so wide, in millimetres, one after another in that order. `page`: where it is parted into pages. None where a piece is
/// wider than the strip, or where it costs more than `most`.
pub(super) fn pack(
    pieces: &[ToPack],
    width: f64,
    page: Option<Page>,
    turn: &[usize],
    most: Option<(usize, usize)>,
) -> Option<Packed> {
    let cell = pieces.first().map_or(1.0, |piece| piece.cover.cell);
    let across = ((width - INSET) / cell).floor().max(1.0) as usize;
    let mut strip = Strip::default();
    let mut pages: BTreeSet<(usize, usize)> = BTreeSet::new();
    let mut packed = Packed { moves: vec![Vec2::ZERO; pieces.len()], height: 0.0, cost: (0, 0) };
    for &at in turn {
        let cover = &pieces[at].cover;
        let place = best_place(&strip, &pieces[at], across, page, &pages)?;
        strip.take(&cover.moved((place.by.x > 0.0, place.by.y > 0.0)), (place.row, place.column));
        if let Some(page) = page {
            pages.extend(pages_of(cover, place.corner(cell), page));
            packed.cost = (packed.cost.0 + usize::from(place.is_along), pages.len());
        }
        if most.is_some_and(|most| packed.cost > most) {
            return None;
        }
        let corner = place.corner(cell);
        packed.moves[at] = Vec2::new(corner.x - cover.bounds.x0, corner.y - cover.bounds.y1);
        packed.height = packed.height.max(cover.bounds.height() - corner.y);
    }
    Some(packed)
}

/// What it costs where pieces lie so: how many have a line along a frame, and about how many pages all take.
pub(super) fn cost_of(pieces: &[ToPack], moves: &[Vec2], page: Page) -> (usize, usize) {
    let mut pages: BTreeSet<(usize, usize)> = BTreeSet::new();
    let mut along = 0;
    for (piece, by) in pieces.iter().zip(moves) {
        let bounds = piece.cover.bounds;
        let corner = Point::new(bounds.x0 + by.x, bounds.y1 + by.y);
        pages.extend(pages_of(&piece.cover, corner, page));
        let is_clear =
            piece.along.is_upright_clear(corner.x, page.0) && piece.along.is_level_clear(-corner.y, page.1);
        along += usize::from(!is_clear);
    }
    (along, pages.len())
}

/// A place of a piece on the strip.
#[derive(Clone, Copy, Debug)]
struct Place {
    row: usize,
    column: u32,
    /// Moved so far within the cell: to the right, down.
    by: Vec2,
    /// A line lies along a frame.
    is_along: bool,
}

impl Place {
    /// Where the upper left corner of the piece lies.
    fn corner(&self, cell: f64) -> Point {
        Point::new(
            INSET + f64::from(self.column) * cell + self.by.x,
            -INSET - self.row as f64 * cell - self.by.y,
        )
    }
}

/// The place that costs least: where no line lies along a frame, then with the fewest new pages, farthest up, farthest to the
/// left. Of each column the first free row is looked at, and the first at the head of a page.
fn best_place(
    strip: &Strip,
    piece: &ToPack,
    across: usize,
    page: Option<Page>,
    known: &BTreeSet<(usize, usize)>,
) -> Option<Place> {
    let (cover, cell) = (&piece.cover, piece.cover.cell);
    let wide = (cover.bounds.width() / cell).ceil() as usize;
    let last = u32::try_from(across.checked_sub(wide)?).ok().filter(|last| *last < 128)?;
    // How far it is moved in each column so that no upright line lies along a frame; none where it cannot be.
    let columns: Vec<Option<f64>> = (0..=last)
        .map(|column| match page {
            Some(page) => step_off(cell, |by| {
                piece.along.is_upright_clear(INSET + f64::from(column) * cell + by, page.0)
            }),
            None => Some(0.0),
        })
        .collect();
    let of_columns = |wanted: fn(&Option<f64>) -> bool| {
        let all = columns.iter().enumerate().filter(|(_, by)| wanted(by));
        all.fold(0u128, |all, (at, _)| all | 1 << at)
    };
    let straight = of_columns(|by| by.is_none_or(|by| by <= 0.0));
    let aside = of_columns(|by| by.is_some_and(|by| by > 0.0));
    let along = of_columns(Option::is_none);
    let shapes: [[Vec<Spans>; 2]; 2] =
        [false, true].map(|down| [false, true].map(|right| spans(&cover.moved((right, down)))));
    let mut best: Option<((bool, usize, usize, u32), Place)> = None;
    // Columns that are still looked for, and those whose next head of a page is, with the row it lies in.
    let mut open = straight | aside;
    let mut heads: Vec<(usize, u128)> = Vec::new();
    let mut later = 0u128;
    let deepest = strip.rows.len() + 2 * page.map_or(0, |page| (page.1 / cell).ceil() as usize + 1);
    for row in 0..=deepest.min(DEEPEST) {
        later |= heads.iter().filter(|(head, _)| *head == row).fold(0, |all, (_, columns)| all | columns);
        if open | later == 0 && heads.iter().all(|(head, _)| *head <= row) {
            break;
        }
        if open | later == 0 {
            continue;
        }
        let down = match page {
            Some(page) => {
                step_off(cell, |by| piece.along.is_level_clear(INSET + row as f64 * cell + by, page.1))
            }
            None => Some(0.0),
        };
        let shape = &shapes[usize::from(down.is_some_and(|by| by > 0.0))];
        let mut free = 0;
        if (open | later) & straight != 0 {
            free |= straight & !strip.taken(&shape[0], row);
        }
        if (open | later) & aside != 0 {
            free |= aside & !strip.taken(&shape[1], row);
        }
        let found = free & (open | later);
        let mut rest = found;
        while rest != 0 {
            let column = rest.trailing_zeros();
            rest &= rest - 1;
            let by = Vec2::new(columns[column as usize].unwrap_or(0.0), down.unwrap_or(0.0));
            let is_along = down.is_none() || along >> column & 1 == 1;
            let place = Place { row, column, by, is_along };
            let new = page.map_or(0, |page| {
                pages_of(cover, place.corner(cell), page)
                    .into_iter()
                    .filter(|page| !known.contains(page))
                    .count()
            });
            let cost = (is_along, new, row + cover.rows.len(), column);
            if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                best = Some((cost, place));
            }
        }
        // A row in which lines lie along a frame is taken only where there is no other.
        if down.is_some() {
            let first = found & open;
            open &= !found;
            later &= !found;
            if let Some(page) = page.filter(|_| first != 0) {
                let head = ((row as f64 * cell / page.1).ceil() * page.1 / cell).ceil() as usize;
                if head > row {
                    heads.push((head, first));
                }
            }
        }
    }
    best.map(|(_, place)| place)
}

/// How far something is moved within its cell until it is clear.
fn step_off(cell: f64, is_clear: impl Fn(f64) -> bool) -> Option<f64> {
    (0..).map(|step| f64::from(step) * STEP).take_while(|by| *by < cell).find(|by| is_clear(*by))
}

/// The pages that bear ink of a piece whose upper left corner lies there.
fn pages_of(cover: &Cover, corner: Point, (across, down): Page) -> Vec<(usize, usize)> {
    let cell = cover.cell;
    // A cell is of the page that its middle lies on; the first one begins half a gap before the piece.
    let first = (-corner.y - GAP / 2.0 + cell / 2.0, corner.x - GAP / 2.0 + cell / 2.0);
    let page_at = |from: f64, at: usize, side: f64| ((from + at as f64 * cell).max(0.0) / side) as usize;
    let mut pages = Vec::new();
    let mut at = 0;
    while at < cover.inked.len() {
        let row = page_at(first.0, at, down);
        let mut ink = 0;
        while at < cover.inked.len() && page_at(first.0, at, down) == row {
            ink |= cover.inked[at];
            at += 1;
        }
        while ink != 0 {
            let next = ink.trailing_zeros() as usize;
            let column = page_at(first.1, next, across);
            pages.push((row, column));
            // All that lies on the same page is done.
            let end = (next..128).find(|at| page_at(first.1, *at, across) != column).unwrap_or(128);
            ink &= if end > 127 { 0 } else { u128::MAX << end };
        }
    }
    pages
}

#[cfg(test)]
mod tests {
    use super::{Order, ToPack, pack};
    use crate::emit::pdf::along::Along;
    use crate::emit::pdf::cells::{CELL, Cover};
    use kurbo::{Point, Rect};

    /// A rectangle as it is covered.
    fn piece(width: f64, height: f64) -> ToPack {
        let bounds = Rect::new(0.0, 0.0, width, height);
        let ring = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height), (0.0, 0.0)].map(Point::from);
        let mut cover = Cover::empty(bounds, CELL);
        for pair in ring.windows(2) {
            cover.mark(Rect::from_points(pair[0], pair[1]));
        }
        cover.rows.clone_from(&cover.inked);
        cover.fill(&ring);
        ToPack { cover, along: Along::of(&[&ring], bounds) }
    }

    /// Pages of 200 by 200: four pieces of 80 by 80 lie on one of them, two and two, with room between and off the joins;
    /// a fifth does not.
    #[test]
    fn pieces_share_a_page() {
        let square: Vec<ToPack> = (0..4).map(|_| piece(80.0, 80.0)).collect();
        let packed = pack(&square, 600.0, Some((200.0, 200.0)), &Order::Largest.of(&square), None).unwrap();
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
        let five: Vec<ToPack> = (0..5).map(|_| piece(80.0, 80.0)).collect();
        let packed = pack(&five, 600.0, Some((200.0, 200.0)), &Order::Largest.of(&five), None).unwrap();
        assert!(packed.moves.iter().any(|by| by.x + 80.0 > 200.0 || by.y < -200.0), "{packed:?}");
        assert!(pack(&five, 60.0, None, &Order::Largest.of(&five), None).is_none(), "wider than the strip");
    }

    /// By hand: a piece of 196 mm whose left side lies 4 mm off the first frame would end upon the next one, at 200 mm.
    #[test]
    fn no_side_lies_along_a_frame() {
        let packed = pack(&[piece(196.0, 196.0)], 600.0, Some((200.0, 200.0)), &[0], None).unwrap();
        assert_eq!(packed.cost.0, 0);
        let (left, top) = (packed.moves[0].x, -packed.moves[0].y - 196.0);
        for side in [left, left + 196.0, top, top + 196.0] {
            let off = (side - (side / 200.0).round() * 200.0).abs();
            assert!(off >= 1.0, "{side} of {packed:?}");
        }
        // Lines every 3 mm over more than a page leave no place for a frame.
        let bounds = Rect::new(0.0, 0.0, 300.0, 100.0);
        let lines: Vec<[Point; 2]> = (0..=100)
            .map(|at| [(f64::from(at) * 3.0, 0.0).into(), (f64::from(at) * 3.0, 100.0).into()])
            .collect();
        let lines: Vec<&[Point]> = lines.iter().map(<[Point; 2]>::as_slice).collect();
        let pleated = ToPack { along: Along::of(&lines, bounds), ..piece(300.0, 100.0) };
        let packed = pack(&[pleated], 600.0, Some((200.0, 200.0)), &[0], None).unwrap();
        assert_eq!(packed.cost.0, 1, "it lies somewhere all the same");
    }
}
