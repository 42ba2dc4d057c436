//! What lies in or round something else, and is no piece: frames of the sheet, sizes that nothing tells apart, a layer drawn twice.

use super::elements::Elements;
use super::outline::{NESTED, Outline, shared, together};
use crate::bring::at_most::at_most;
use crate::bring::read::letters::base_name;
use indexmap::{IndexMap, IndexSet};
use kurbo::{ParamCurve, PathSeg};

/// A rectangle that holds all other outlines and has no name of its own is the frame of a sheet, if it holds so many without a name.
const HOLDS: usize = 3;
/// What a frame is called.
const FRAMES: [&str; 8] = ["frame", "border", "page", "sheet", "paper", "background", "artboard", "canvas"];
/// Of layers no more are named.
const MOST_NAMED: usize = 6;

/// Takes out a rectangle round all other outlines, the largest of which stands first; what is said of it.
pub fn without_frame(outlines: &mut Vec<Outline>, file: &str) -> Option<String> {
    let (first, others) = outlines.split_first()?;
    let is_called_so = first.owner.piece.iter().chain([&first.name]).any(|name| {
        let name = name.to_lowercase();
        FRAMES.iter().any(|frame| name.trim_end_matches(|one: char| !one.is_alphabetic()) == *frame)
    });
    let has_name = first.owner.piece.is_some() || first.owner.size.is_some();
    let holds_all = others.iter().all(|own| {
        let both = first.bounds.union(own.bounds);
        both.width() <= first.bounds.width() + 0.1 && both.height() <= first.bounds.height() + 0.1
    });
    let are_named = others.len() > 1 && others.iter().any(|own| own.owner.piece.is_some());
    let is_frame = is_upright(first)
        && holds_all
        && !others.is_empty()
        && (is_called_so || (!has_name && (are_named || others.len() >= HOLDS)));
    if !is_frame {
        return None;
    }
    let first = outlines.remove(0);
    Some(format!(
        "a rectangle goes round all pieces (line {} of {}, {:.0} mm wide and {:.0} mm high): it is taken for the frame of the sheet, and \
         left out",
        first.line,
        base_name(file),
        first.bounds.width(),
        first.bounds.height()
    ))
}

fn is_upright(own: &Outline) -> bool {
    own.path.segments.len() == 4
        && own.path.segments.iter().all(|one| match one.course {
            PathSeg::Line(line) => {
                let way = line.end() - line.start();
                way.x.abs().min(way.y.abs()) < 1e-3 * way.hypot()
            }
            _ => false,
        })
}

/// A layer that has the name of another one.
pub struct Doubled {
    /// It.
    group: usize,
    /// What is said of it.
    pub words: String,
}

impl Doubled {
    /// Whether something in these groups stands in it.
    pub fn holds(&self, groups: &[usize]) -> bool {
        groups.contains(&self.group)
    }
}

/// The second of two layers of one size that both draw two pieces or more of the same names, or all that they draw.
pub fn doubled(outlines: &[Outline], drawing: &Elements) -> Option<Doubled> {
    // By size and layer its pieces, and where the first of them begins.
    let mut layers: IndexMap<(&String, usize), (IndexSet<&String>, usize)> = IndexMap::new();
    for own in outlines {
        let (Some(size), Some(piece)) = (&own.owner.size, &own.owner.piece) else { continue };
        let is_size = |group: &&usize| {
            let name = drawing.groups.get(**group).and_then(Option::as_ref);
            name.is_some_and(|name| name.to_lowercase().ends_with(&size.to_lowercase()))
        };
        let Some(layer) = own.groups.iter().find(is_size) else { continue };
        let known = layers.entry((size, *layer)).or_insert_with(|| (IndexSet::new(), own.line));
        known.0.insert(piece);
        known.1 = known.1.min(own.line);
    }
    let mut all: Vec<(&String, usize, &IndexSet<&String>, usize)> =
        layers.iter().map(|((size, layer), (pieces, line))| (*size, *layer, pieces, *line)).collect();
    all.sort_by_key(|(_, layer, ..)| *layer);
    all.iter().enumerate().find_map(|(at, (size, layer, pieces, line))| {
        let same = |other: &&(&String, usize, &IndexSet<&String>, usize)| {
            other.0 == *size && pieces.len() > 1 && pieces.iter().all(|piece| other.2.contains(piece))
        };
        let (.., before) = all.iter().take(at).find(same)?;
        Some(Doubled {
            group: *layer,
            words: format!(
                "two layers are called {size}, the one with outlines from line {before} on, the other from line {line} on, and both draw {}: \
                 the second is left out; is it another size?",
                pieces.iter().map(|piece| piece.as_str()).collect::<Vec<_>>().join(", ")
            ),
        })
    })
}

/// Closed paths that lie in outlines.
#[derive(Default)]
pub struct Lying {
    /// Those of a name of their own.
    told: Vec<String>,
    /// Pieces that lie in themselves, which are sizes that nothing tells apart, and the groups of both.
    same: IndexMap<String, Vec<[Vec<usize>; 2]>>,
}

impl Lying {
    /// Looks at one.
    pub fn see(&mut self, around: &Outline, own: &Outline) {
        let name = own.owner.piece.clone().unwrap_or_default();
        if !name.is_empty() && around.owner.piece.as_ref() == Some(&name) && shared(around, own) > NESTED {
            self.same.entry(name).or_default().push([around.groups.clone(), own.groups.clone()]);
            return;
        }
        let piece = around.owner.piece.clone().unwrap_or_else(|| "a piece".to_owned());
        // What has no name of its own is called as its group is, after the piece.
        let is_own = !name.is_empty() && around.owner.piece.as_ref() != Some(&name);
        let what = if is_own { name } else { format!("a closed path in line {}", own.line) };
        let in_size = around.owner.size.as_ref().map_or(String::new(), |size| format!(" in {size}"));
        self.told.push(format!(
            "{what} lies inside {piece}{in_size}, and is taken for a line on it; a piece has to lie beside"
        ));
    }

    /// What is said of them: causes, and all else. `has_sizes`: other outlines have some.
    pub fn told(self, drawing: &Elements, has_sizes: bool) -> (Option<String>, Vec<String>) {
        let mut numbers: Vec<usize> = Vec::new();
        for [one, other] in self.same.values().flatten() {
            let at = together(one, other);
            numbers.extend([one, other].into_iter().filter_map(|groups| groups.get(at)));
        }
        // In the order in which they are drawn.
        numbers.sort_unstable();
        let layers: IndexSet<&str> =
            numbers.iter().filter_map(|group| drawing.groups.get(*group)?.as_deref()).collect();
        let pieces: Vec<&str> = self.same.keys().map(String::as_str).take(MOST_NAMED).collect();
        let cause = (!pieces.is_empty()).then(|| {
            let mut named: Vec<&str> = layers.iter().copied().collect();
            let more = if named.len() > MOST_NAMED { " …" } else { "" };
            named.truncate(MOST_NAMED);
            let way = match (named.len() > 1, has_sizes) {
                (true, _) => format!(
                    ": if the layers {}{more} are sizes, `sizes-from` layers says so",
                    named.join(", ")
                ),
                (false, true) => ": are two of its sizes called alike?".to_owned(),
                (false, false) => ": if these are sizes, `sizes-from` says how they are told apart".to_owned(),
            };
            format!(
                "{} {} drawn in one another more than once, and only the largest is taken for the piece, the others for lines on it{way}",
                pieces.join(", "),
                if pieces.len() == 1 { "is" } else { "are" }
            )
        });
        let more =
            |more| format!("{more} more closed paths lie inside pieces, and are taken for lines on them");
        (cause, at_most(self.told, more))
    }
}
