//! Pieces that are drawn more than once in one size, or in none.

use super::elements::Elements;
use super::outline::{NESTED, Outline, shared, together};
use crate::bring::names::name_of;
use crate::bring::read::letters::base_name;
use indexmap::{IndexMap, IndexSet};

/// Of pieces and layers no more are named.
const MOST_NAMED: usize = 6;

/// What is known of them.
pub struct Again<'f> {
    /// What is said of all of them at once.
    pub cause: Option<String>,
    /// Whether outlines have sizes.
    is_sized: bool,
    /// By name, a size that has no such piece.
    lacking: IndexMap<String, String>,
    file: &'f str,
}

impl<'f> Again<'f> {
    /// Of the outlines of a drawing and what they are called.
    pub fn of(outlines: &[Outline], names: &[Option<String>], drawing: &Elements, file: &'f str) -> Self {
        let is_sized = outlines.iter().any(|own| own.owner.size.is_some());
        let sizes: IndexSet<&str> = outlines.iter().filter_map(|own| own.owner.size.as_deref()).collect();
        let mut having: IndexMap<String, IndexSet<&str>> = IndexMap::new();
        for (own, name) in outlines.iter().zip(names) {
            if let (Some(name), Some(size)) = (name, &own.owner.size) {
                having.entry(name_of(name, "piece")).or_default().insert(size);
            }
        }
        let lacks = |(name, having): (String, IndexSet<&str>)| {
            let size = sizes.iter().find(|size| !having.contains(*size))?;
            Some((name, (*size).to_owned()))
        };
        let lacking = having.into_iter().filter_map(lacks).collect();
        let cause = if is_sized { None } else { over_themselves(outlines, names, drawing) };
        Again { cause, is_sized, lacking, file: base_name(file) }
    }

    /// What is said of a piece that is called like another one in two lines, and comes in under another name; none where all is
    /// said at once.
    pub fn words(
        &self,
        [name, called]: [&str; 2],
        size: &str,
        [first, second]: [usize; 2],
    ) -> Option<String> {
        let in_size = if size.is_empty() { String::new() } else { format!(" in size {size}") };
        let way = match (self.is_sized, self.lacking.get(&name_of(name, "piece"))) {
            (true, Some(lacks)) => format!(
                "; two pieces need two names, and one is drawn once in each size: is one of them that of {lacks}, which has none?"
            ),
            (true, None) => {
                "; two pieces need two names, and one is drawn once in each size: are two layers called alike?".to_owned()
            }
            (false, _) => {
                "; two pieces need two names; where they are sizes of one, `sizes-from` says how they are told apart".to_owned()
            }
        };
        self.cause.is_none().then(|| {
            format!(
                "{name} is drawn more than once{in_size}, in line {first} and in line {second} of {}: the second is taken for a piece of its \
                 own, {called}{way}",
                self.file
            )
        })
    }
}

/// What is said of pieces that nothing tells the sizes of, and that lie over themselves, each in a layer of another name.
fn over_themselves(outlines: &[Outline], names: &[Option<String>], drawing: &Elements) -> Option<String> {
    let mut by_name: IndexMap<&str, Vec<&Outline>> = IndexMap::new();
    for (own, name) in outlines.iter().zip(names) {
        by_name.entry(name.as_deref()?).or_default().push(own);
    }
    let mut layers: Option<Vec<&str>> = None;
    for all in by_name.values() {
        let first = all.first()?;
        let mut numbers: Vec<usize> = Vec::new();
        for own in all.iter().skip(1).filter(|own| shared(first, own) > NESTED) {
            let at = together(&first.groups, &own.groups);
            numbers.extend([&first.groups, &own.groups].into_iter().filter_map(|groups| groups.get(at)));
        }
        numbers.sort_unstable();
        numbers.dedup();
        let own: Option<Vec<&str>> =
            numbers.iter().map(|group| drawing.groups.get(*group)?.as_deref()).collect();
        let own = own.filter(|own| own.len() == all.len() && own.len() > 1)?;
        // All of them in the same layers.
        if layers.get_or_insert_with(|| own.clone()) != &own {
            return None;
        }
    }
    let mut layers = layers?;
    let more = if layers.len() > MOST_NAMED { " …" } else { "" };
    layers.truncate(MOST_NAMED);
    let pieces: Vec<&str> = by_name.keys().copied().take(MOST_NAMED).collect();
    Some(format!(
        "{} {} drawn several times over one another, and each comes in as a piece of its own: if the layers {}{more} are sizes, \
         `sizes-from` layers says so",
        pieces.join(", "),
        if pieces.len() == 1 { "is" } else { "are" },
        layers.join(", ")
    ))
}
