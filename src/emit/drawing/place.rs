//! Where words go.

use super::clear::{Clear, inside};
use super::shape::Words;
use kurbo::{Point, Rect, Vec2};

/// Places across and up that are tried for a block of words.
const TRIED: usize = 18;
/// Across a narrow piece they lie so close together, in millimetres, if these are no more than that.
const CLOSE: f64 = 0.5;
const MOST_CLOSE: f64 = 80.0;
/// The least room between a block and any line, in millimetres.
const LEAST_ROOM: f64 = 1.5;
/// More room than this is no better, in millimetres.
const ENOUGH_ROOM: f64 = 14.0;

/// The middle of the best place for a block `width` by `height` inside all the rings: the one
/// with most room round it, and of those with enough the one nearest to the middle.
pub(super) fn block(rings: &[Vec<Point>], clear: &Clear, width: f64, height: f64) -> Option<Point> {
    let mut area: Option<Rect> = None;
    for ring in rings {
        let first = ring.first()?;
        let own = ring.iter().fold(Rect::from_points(*first, *first), |all, &point| all.union_pt(point));
        area = Some(area.map_or(own, |area| area.intersect(own)));
    }
    let area = area?;
    let (free_width, free_height) = (area.width() - width, area.height() - height);
    if !(free_width > 0.0 && free_height > 0.0) {
        return None;
    }
    let middle = area.center();
    let far = middle.distance(Point::new(area.x0, area.y0)).max(1.0);
    let mut best: Option<(f64, Point)> = None;
    let (columns, rows) = (tried(free_width), tried(free_height));
    for row in 0..=rows {
        for column in 0..=columns {
            let share = |at: usize, of: usize| at as f64 / of as f64;
            let x = area.x0 + width / 2.0 + free_width * share(column, columns);
            let y = area.y0 + height / 2.0 + free_height * share(row, rows);
            let place = Point::new(x, y);
            // Nearness to the middle breaks ties, and is worth a little room.
            let nearness = 3.0 * (1.0 - place.distance(middle) / far);
            let bound = best.map_or(LEAST_ROOM, |(most, _)| (most - nearness).max(LEAST_ROOM));
            if bound >= ENOUGH_ROOM || !rings.iter().all(|ring| inside(ring, place)) {
                continue;
            }
            let own = Rect::from_center_size(place, (width, height));
            let room = clear.room(own, bound).min(ENOUGH_ROOM);
            if room > LEAST_ROOM && best.is_none_or(|(most, _)| room + nearness > most) {
                best = Some((room + nearness, place));
            }
        }
    }
    best.map(|(_, place)| place)
}

/// How many places are tried over so much free room: no farther apart than half a millimetre where there is little.
fn tried(free: f64) -> usize {
    let close = (free / CLOSE).ceil();
    if close <= MOST_CLOSE { (close as usize).max(TRIED) } else { TRIED }
}

/// Words along a stretch of line, read from the left or from below, a little above or below it,
/// clear of everything; none where there is no such place.
pub(super) fn along(words: &Words, from: Point, to: Point, clear: &Clear) -> Option<Words> {
    let (from, to) = if (to - from).x < -1e-6 || ((to - from).x.abs() <= 1e-6 && to.y < from.y) {
        (to, from)
    } else {
        (from, to)
    };
    let way = to - from;
    let stretch = way.hypot();
    let length = words.length();
    if stretch < length + 4.0 {
        return None;
    }
    let way = way / stretch;
    let angle = libm::atan2(way.y, way.x);
    for share in [0.78, 0.5, 0.22, 0.64, 0.36, 0.9, 0.1] {
        let middle = (stretch * share).clamp(length / 2.0 + 2.0, stretch - length / 2.0 - 2.0);
        for off in [0.45, -1.1] {
            let at = from + way * (middle - length / 2.0) + way.turn_90() * (words.size * off);
            let tried = Words { at, angle, ..words.clone() };
            if clear.free(&tried.corners()) {
                return Some(tried);
            }
        }
    }
    None
}

/// Words level with a place, to its right or, farther off, wherever there is room: which of several places one above the
/// other they belong to is told by their height.
pub(super) fn level(words: &Words, place: Point, off: f64, clear: &Clear) -> Option<Words> {
    let level = -words.size * 0.3;
    (0..8)
        .map(|step| off + f64::from(step) * words.size * 0.8)
        .map(|right| Words { at: place + Vec2::new(right, level), ..words.clone() })
        .find(|tried| clear.free(&tried.corners()))
}

/// Words beside a place, clear of everything; none where there is no such place.
pub(super) fn beside(words: &Words, place: Point, off: f64, clear: &Clear) -> Option<Words> {
    let length = words.length();
    let (right, left) = (off, -off - length);
    let (above, below) = (off + words.size * 0.3, -off - words.size * 0.85);
    let level = -words.size * 0.3;
    let ways = [
        Vec2::new(right, level),
        Vec2::new(right, above),
        Vec2::new(right, below),
        Vec2::new(-length / 2.0, above),
        Vec2::new(-length / 2.0, below),
        Vec2::new(left, level),
        Vec2::new(left, above),
        Vec2::new(left, below),
    ];
    ways.into_iter()
        .map(|way| Words { at: place + way, ..words.clone() })
        .find(|tried| clear.free(&tried.corners()))
}
