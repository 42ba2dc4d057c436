//! What is said of sizes that differ: in what a piece is cut from, and in capitals alone.

use crate::bring::read::letters::shown;
use crate::report::listed;
use indexmap::{IndexMap, IndexSet};

/// What is said of a piece that is cut of another cloth in one size than in the first that says of which.
pub(super) fn of_other_cloth(piece: &str, cloths: &[(String, String)]) -> Option<String> {
    let (first_size, first) = cloths.first()?;
    let (size, other) = cloths.iter().find(|(_, other)| !other.eq_ignore_ascii_case(first))?;
    Some(format!(
        "{} is cut of {} in {} and of {} in {}: the first was taken for every size.",
        shown(piece),
        shown(first),
        shown(first_size),
        shown(other),
        shown(size)
    ))
}

/// What is said of sizes whose names differ in capitals alone.
pub(super) fn alike<'a>(sizes: impl Iterator<Item = &'a str>) -> Vec<String> {
    let mut known: IndexMap<String, IndexSet<&str>> = IndexMap::new();
    for size in sizes {
        known.entry(size.to_lowercase()).or_default().insert(size);
    }
    let twice = known.values().filter(|names| names.len() > 1);
    let named = |names: &IndexSet<&str>| {
        let names: Vec<String> = names.iter().map(|name| shown(name)).collect();
        format!(
            "the sizes {} differ in capitals alone, and are taken for several; if they are one, write them alike.",
            listed(&names)
        )
    };
    twice.map(named).collect()
}
