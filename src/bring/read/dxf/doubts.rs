//! What is in doubt of a drawing's pieces once they have names: lines in them that could be pieces, and pieces over one another.

use super::one::One;
use crate::bring::course::Course;
use crate::bring::read::inside::Inside;
use crate::bring::read::letters::shown;
use crate::bring::spikes::spike;
use crate::limits::LENGTH_MM;
use kurbo::Rect;

/// Pieces lie over one another where they share more than this, mm, across and up.
const LEAST_OVERLAP: f64 = 1.0;
/// Of more pieces than this it is not asked which lie over which.
const MOST_COMPARED: usize = 500;
/// How many corners of outlines may be asked whether they lie over one another, each some two dozen times: what is not asked is not told.
const MOST_WORK: usize = 1_000_000;
/// Of a drawing in which all lies over all no more pairs are told.
const MOST_TOLD: usize = 20;
/// Of lines in no piece no more are named.
const MOST_NAMED: usize = 5;

/// What is said of closed lines that lie in a piece.
pub(super) fn nested(all: &[One], file: &str) -> Vec<String> {
    let each = all.iter().flat_map(|one| one.within.iter().map(move |within| (one, within)));
    let words = each.map(|(one, within)| {
        let piece = called(one);
        let in_size = in_size(one);
        match (within.is_twin, one.line) {
            (true, Some(line)) => format!(
                "the outline of {piece}{in_size} is drawn twice, in line {line} and in line {} of {file}; it is taken once",
                within.line
            ),
            (true, None) => format!(
                "the outline of {piece}{in_size} is drawn twice in {}, once more in line {}; it is taken once",
                one.origin, within.line
            ),
            (false, _) => {
                let way = match (one.size.is_some(), within.is_beside) {
                    (true, true) => ", and another size on a layer of its own: are two layers called alike?",
                    (false, false) => "; where layers are sizes, `sizes-from` says so",
                    _ => "",
                };
                format!(
                    "a closed line on layer {} (line {} of {file}) lies inside {piece}{in_size}, and is taken for a line on it; a \
                     piece has to lie beside{way}",
                    shown(&within.layer),
                    within.line
                )
            }
        }
    });
    words.collect()
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
            left = left.saturating_sub(inside.cost() + around.cost());
            if !are_sound || left == 0 || words.len() >= MOST_TOLD {
                continue;
            }
            let Some(over) = overlap(inside, around) else { continue };
            words.push(format!(
                "{} and {} of {file} lie over one another{}, {:.0} mm across and {:.0} mm up: what lies there may be taken for the \
                 wrong one's; draw them apart",
                called(other),
                called(one),
                in_size(one),
                over.width(),
                over.height()
            ));
            found.extend([*at, *beside]);
        }
    }
    (found, words)
}

fn overlap(one: &Inside, other: &Inside) -> Option<Rect> {
    let both = one.bounds().intersect(other.bounds());
    if both.width() < LEAST_OVERLAP || both.height() < LEAST_OVERLAP {
        return None;
    }
    let held = |own: &Inside, around: &Inside| -> Vec<_> {
        own.samples().into_iter().filter(|at| around.holds(*at)).collect()
    };
    (!held(one, other).is_empty() || !held(other, one).is_empty()).then_some(both)
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
