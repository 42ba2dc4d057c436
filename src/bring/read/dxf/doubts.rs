//! What is in doubt of a drawing's pieces once they have names: lines in them that could be pieces, and pieces over one another.

use super::one::One;
use super::outlines::{Within, extent};
use crate::bring::at_most::at_most;
use crate::bring::read::letters::shown;
use crate::bring::read::overlaps::{self, Lying};
use crate::report::listed;
use indexmap::IndexMap;

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
