//! A boundary that was drawn in parts whose ends do not meet.

use super::item::{Item, What};
use super::roles::{Role, by_number};
use crate::bring::read::letters::shown;
use crate::bring::read::line_work::ends;
use kurbo::Point;

/// Of more parts than this it is not asked which ends belong together.
const MOST_PARTS: usize = 50;
/// Of more places none are named.
const MOST_TOLD: usize = 4;

/// An end of a part: of which part, where, and in which line of the file that begins.
#[derive(Clone, Copy)]
struct End {
    part: usize,
    at: Point,
    line: usize,
}

/// What is said of a boundary in several parts, and in which line: between which ends it is open, the nearest ones taken to belong
/// together.
pub(super) fn in_several_places(items: &[Item], whose: &str) -> Option<(usize, String)> {
    let parts = items.iter().filter(|item| by_number(&item.layer) == Role::Boundary).filter_map(|item| {
        match &item.what {
            What::Path(path) if !path.closed => Some((item.line, ends(path)?)),
            _ => None,
        }
    });
    let mut free: Vec<End> = Vec::new();
    for (part, (line, (start, end))) in parts.enumerate() {
        free.extend([End { part, at: start, line }, End { part, at: end, line }]);
    }
    if !(4..=2 * MOST_PARTS).contains(&free.len()) {
        return None;
    }
    let mut gaps: Vec<(f64, End, End)> = Vec::new();
    while let Some((gap, one, other)) = nearest(&free) {
        gaps.push((gap, one, other));
        free.retain(|own| ![one, other].iter().any(|gone| gone.part == own.part && gone.at == own.at));
    }
    let each = gaps.iter().take(MOST_TOLD).map(|(gap, one, other)| {
        let lines = match one.line == other.line {
            true => format!("line {}", one.line),
            false => format!("lines {} and {}", one.line.min(other.line), one.line.max(other.line)),
        };
        format!(
            "({:.1}, {:.1}) and ({:.1}, {:.1}) mm, {gap:.1} mm apart ({lines})",
            one.at.x, one.at.y, other.at.x, other.at.y
        )
    });
    let each: Vec<String> = each.collect();
    let more = if gaps.len() > MOST_TOLD { " …" } else { "" };
    let why = format!(
        "the boundary of {} is open in {} places, between the ends {}{more}: let them meet",
        shown(whose),
        gaps.len(),
        each.join("; ")
    );
    Some((gaps.first()?.1.line, why))
}

/// The two ends that lie nearest to one another; the two of one part only where nothing else is left.
fn nearest(free: &[End]) -> Option<(f64, End, End)> {
    let mut best: Option<(f64, End, End)> = None;
    for (at, one) in free.iter().enumerate() {
        for other in free.iter().skip(at + 1).filter(|other| free.len() == 2 || other.part != one.part) {
            let gap = one.at.distance(other.at);
            if best.as_ref().is_none_or(|(least, ..)| gap < *least) {
                best = Some((gap, *one, *other));
            }
        }
    }
    best
}
