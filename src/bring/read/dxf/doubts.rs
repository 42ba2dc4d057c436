//! What is in doubt of a drawing's pieces once they have names: lines in them that could be pieces, and pieces over one another.

use super::one::One;
use super::outlines::{Within, extent};
use crate::bring::allowances::listed;
use crate::bring::at_most::{MOST_TOLD, at_most};
use crate::bring::course::Course;
use crate::bring::read::inside::Inside;
use crate::bring::read::letters::shown;
use crate::bring::spikes::spike;
use crate::limits::LENGTH_MM;
use indexmap::IndexMap;
use kurbo::Rect;

/// Pieces lie over one another where they share more than this, mm, across and up.
const LEAST_OVERLAP: f64 = 1.0;
/// Of more pieces than this it is not asked which lie over which.
const MOST_COMPARED: usize = 500;
/// How many corners of outlines may be asked whether they lie over one another, each some two dozen times: what is not asked is not told.
const MOST_WORK: usize = 1_000_000;
/// A line in a piece that holds so much of it, as a share, is rather the piece in another size.
const LIKE_A_SIZE: f64 = 0.5;
/// Of lines in no piece no more are named.
const MOST_NAMED: usize = 5;

/// What is said of closed lines that lie in a piece.
pub(super) fn nested(all: &[One], file: &str) -> Vec<String> {
    let each = all.iter().flat_map(|one| one.within.iter().enumerate().map(move |own| (one, own)));
    // What is drawn in several sizes of a piece is one thing, and told of the first.
    let mut things: IndexMap<(String, usize), Vec<(&One, &Within)>> = IndexMap::new();
    for (at, (one, (number, within))) in each.enumerate() {
        let alone = || (String::new(), at);
        let key = one.matched.map_or_else(alone, |matched| (format!("{matched} {}", within.is_twin), number));
        things.entry(key).or_default().push((one, within));
    }
    let words = things.values().filter_map(|all| {
        let ((one, within), others) = all.split_first()?;
        let words = match within.is_twin {
            true => twin(one, within, file),
            false => inner(one, within, !others.is_empty(), file),
        };
        let sizes: Vec<String> =
            others.iter().filter_map(|(one, _)| one.size.as_ref()).map(|size| shown(size)).collect();
        Some(if sizes.is_empty() { words } else { format!("{words}; so it is in {}", listed(&sizes)) })
    });
    at_most(words, |more| {
        format!("{more} more closed lines of {file} lie inside pieces, or are outlines that are drawn twice")
    })
}

fn twin(one: &One, within: &Within, file: &str) -> String {
    let (piece, in_size) = (called(one), in_size(one));
    match one.line {
        Some(line) => format!(
            "the outline of {piece}{in_size} is drawn twice, in line {line} and in line {} of {file}; it is taken once",
            within.line
        ),
        None => format!(
            "the outline of {piece}{in_size} is drawn twice in {}, once more in line {}; it is taken once",
            one.origin, within.line
        ),
    }
}

fn inner(one: &One, within: &Within, is_in_others: bool, file: &str) -> String {
    let (piece, in_size) = (called(one), in_size(one));
    let own = within.name.as_ref().filter(|name| !name.eq_ignore_ascii_case(&one.name));
    let name = own.map_or_else(String::new, |name| format!("{}, ", shown(name)));
    let (layer, line) = (shown(&within.layer), within.line);
    let what =
        format!("{name}a closed line on layer {layer} (line {line} of {file}), {},", extent(within.bounds));
    let way = match (one.size.is_some(), within.is_beside) {
        (_, true) if within.share > LIKE_A_SIZE => {
            ", and another size on a layer or in a block of its own: it is nearly as large as the piece"
        }
        (true, true) if !is_in_others => {
            ", and another size on a layer of its own: are two layers called alike?"
        }
        (false, false) => "; where layers are sizes, `sizes-from` says so",
        _ => "",
    };
    format!(
        "{what} lies inside {piece}{in_size}, {:.0} mm from its left and {:.0} mm from its lower end, and is taken for a line on it; \
         a piece has to lie beside{way}",
        within.bounds.x0 - one.bounds.x0,
        within.bounds.y0 - one.bounds.y0
    )
}

/// Which pieces of one size lie partly over one another, and what is said of it.
pub(super) fn overlapping(all: &[One], file: &str) -> (Vec<usize>, Vec<String>) {
    let (mut found, mut words) = (Vec::new(), Vec::new());
    let placed: Vec<(usize, &One, &Inside)> = all
        .iter()
        .enumerate()
        .filter_map(|(at, one)| Some((at, one, one.inside.as_ref()?)))
        .take(MOST_COMPARED)
        .collect();
    // A point that lies far away takes an outline over others, and is told; what is as long as no piece is refused.
    let is_sound: Vec<bool> = all
        .iter()
        .map(|one| {
            one.inside.as_ref().is_some_and(|inside| inside.size() < LENGTH_MM)
                && Course::of(&one.sized.outline).is_some_and(|course| spike(&course).is_none())
        })
        .collect();
    let mut left = MOST_WORK;
    for (number, (at, one, inside)) in placed.iter().enumerate() {
        for (beside, other, around) in placed.iter().take(number) {
            if one.size != other.size {
                continue;
            }
            let are_sound = [*at, *beside].iter().all(|at| is_sound.get(*at) == Some(&true));
            // What lies apart costs nothing.
            let Some(both) = common(inside, around).filter(|_| are_sound && words.len() < MOST_TOLD) else {
                continue;
            };
            left = left.saturating_sub(inside.cost() + around.cost());
            if left == 0 || !is_overlap(inside, around) {
                continue;
            }
            words.push(format!(
                "{} and {} of {file} lie over one another{}, {:.0} mm across and {:.0} mm up: what lies there may be taken for the \
                 wrong one's; draw them apart",
                called(other),
                called(one),
                in_size(one),
                both.width(),
                both.height()
            ));
            found.extend([*at, *beside]);
        }
    }
    (found, words)
}

/// What the rectangles round two outlines have in common, if that is more than a line's width.
fn common(one: &Inside, other: &Inside) -> Option<Rect> {
    let both = one.bounds().intersect(other.bounds());
    (both.width() >= LEAST_OVERLAP && both.height() >= LEAST_OVERLAP).then_some(both)
}

/// Whether any place of one outline lies in the other.
fn is_overlap(one: &Inside, other: &Inside) -> bool {
    let holds_any = |own: &Inside, around: &Inside| own.samples().into_iter().any(|at| around.holds(at));
    holds_any(one, other) || holds_any(other, one)
}

/// What is said of lines and points that lie in no piece.
pub(super) fn outside(lines: usize, points: usize, places: &[usize]) -> String {
    let counted = |count: usize, one: &str| match count {
        0 => None,
        1 => Some(format!("1 {one}")),
        count => Some(format!("{count} {one}s")),
    };
    let all: Vec<String> = [counted(lines, "line"), counted(points, "point")].into_iter().flatten().collect();
    let (lie, were) = if lines + points == 1 { ("lies", "was") } else { ("lie", "were") };
    let named: Vec<String> = places.iter().take(MOST_NAMED).map(|line| format!("line {line}")).collect();
    let more = if places.len() > MOST_NAMED { " …" } else { "" };
    let at = if named.is_empty() { String::new() } else { format!(" ({}{more})", named.join(", ")) };
    format!("{} {lie} in no piece and {were} left out{at}.", all.join(" and "))
}

fn called(one: &One) -> String {
    match (one.name.is_empty(), one.line) {
        (false, _) => shown(&one.name),
        (true, Some(line)) => format!("the piece in line {line}"),
        (true, None) => one.origin.clone(),
    }
}

fn in_size(one: &One) -> String {
    one.size.as_ref().map_or_else(String::new, |size| format!(" in {}", shown(size)))
}
