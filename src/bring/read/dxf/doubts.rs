//! What is in doubt of a drawing's pieces once they have names: lines in them that could be pieces, and pieces over one another.

use super::one::One;
use crate::bring::read::letters::shown;
use crate::bring::read::overlaps::{self, Lying};

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
    let placed: Vec<(usize, &One)> = all.iter().enumerate().filter(|(_, one)| one.inside.is_some()).collect();
    let sizes: Vec<Option<String>> =
        placed.iter().map(|(_, one)| one.size.as_ref().map(|size| shown(size))).collect();
    let all: Vec<Lying> = placed
        .iter()
        .zip(&sizes)
        .map(|((_, one), size)| Lying {
            called: called(one),
            size: size.as_deref(),
            path: &one.sized.outline,
        })
        .collect();
    let (found, words) = overlaps::overlapping(&all, file, |_, _| false);
    let places = found.into_iter().filter_map(|at| placed.get(at).map(|(at, _)| *at));
    (places.collect(), words)
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
