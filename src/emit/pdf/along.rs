//! Where lines of a piece would lie along the frame at which pages are trimmed, if one were there.
//!
//! A line that crosses a frame goes on across the join. One that runs along it is cut away with the margin, or lies half on
//! one page and half on the next, so that nobody can say where it is.

use kurbo::{Point, Rect};

/// How a line runs along a frame: no farther off than so, for at least so long, in millimetres, and leaning by no more than
/// so.
struct Run {
    off: f64,
    least: f64,
    lean: f64,
}

/// A line that is parallel to the frame, to a hundredth; and one that leans a little.
const RUNS: [Run; 2] = [Run { off: 1.5, least: 12.0, lean: 0.01 }, Run { off: 1.0, least: 40.0, lean: 0.03 }];
/// From one place that is looked at to the next, in millimetres.
const STEP: f64 = 0.5;
/// A larger piece than this, in millimetres, is not looked at so closely.
const LARGEST: f64 = 20_000.0;

/// By place, from the left and from the top of a piece, whether a line runs along a frame there.
#[derive(Clone, Debug, Default)]
pub(super) struct Along {
    upright: Vec<bool>,
    level: Vec<bool>,
}

impl Along {
    /// Of lines as chains of short stretches, within these bounds.
    pub fn of(lines: &[&[Point]], bounds: Rect) -> Self {
        let from_left = |point: &Point| (point.x - bounds.x0, point.y);
        let from_top = |point: &Point| (bounds.y1 - point.y, point.x);
        Along {
            upright: places(lines, bounds.width(), from_left),
            level: places(lines, bounds.height(), from_top),
        }
    }

    /// Whether no upright line runs along a frame, where the piece's left side lies `left` from the first one and the next ones
    /// follow in steps of `page`.
    pub fn is_upright_clear(&self, left: f64, page: f64) -> bool {
        is_clear(&self.upright, left, page)
    }

    /// The same of level lines and the piece's upper side.
    pub fn is_level_clear(&self, top: f64, page: f64) -> bool {
        is_clear(&self.level, top, page)
    }
}

fn is_clear(places: &[bool], from: f64, page: f64) -> bool {
    // Just outside a piece its outermost line is still near.
    let mut frame = ((from - WIDEST_OFF) / page).ceil().max(1.0) * page - from;
    let end = places.len() as f64 * STEP - WIDEST_OFF;
    while frame <= end {
        let at = ((frame + WIDEST_OFF) / STEP).round().max(0.0) as usize;
        if places.get(at).copied().unwrap_or(false) {
            return false;
        }
        frame += page;
    }
    true
}

/// The farthest that a line may be off a frame and run along it.
const WIDEST_OFF: f64 = 2.0;

/// By place across, from [`WIDEST_OFF`] before the piece on.
fn places(lines: &[&[Point]], wide: f64, turned: impl Fn(&Point) -> (f64, f64)) -> Vec<bool> {
    let count = ((wide.min(LARGEST) + 2.0 * WIDEST_OFF) / STEP).ceil() as usize + 1;
    let mut found = vec![false; count];
    for run in &RUNS {
        // By place: how long the line has been near, and up to which of its stretches.
        let mut near: Vec<(f64, usize)> = vec![(0.0, usize::MAX); count];
        let mut stretch = 0;
        for chain in lines {
            stretch += 2;
            for pair in chain.windows(2) {
                stretch += 1;
                let [(a, along), (b, end)] = [turned(&pair[0]), turned(&pair[1])];
                let (across, long) = ((b - a).abs(), (end - along).abs());
                if across > run.lean * long || long <= 0.0 {
                    continue;
                }
                let place = |at: f64| ((at + WIDEST_OFF) / STEP).max(0.0);
                let (first, last) = (place(a.min(b) - run.off).ceil(), place(a.max(b) + run.off).floor());
                for at in first as usize..=(last as usize).min(count - 1) {
                    let frame = at as f64 * STEP - WIDEST_OFF;
                    // What of the stretch is near.
                    let share = match across > 1e-9 {
                        true => {
                            let ends = [(frame - run.off - a) / (b - a), (frame + run.off - a) / (b - a)];
                            let (low, high) = (ends[0].min(ends[1]).max(0.0), ends[0].max(ends[1]).min(1.0));
                            (high - low).max(0.0)
                        }
                        false => 1.0,
                    };
                    let goes_on = near[at].1.wrapping_add(1) == stretch;
                    near[at] = (if goes_on { near[at].0 } else { 0.0 } + share * long, stretch);
                    found[at] |= near[at].0 >= run.least;
                }
            }
        }
    }
    found
}
