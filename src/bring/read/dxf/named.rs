//! Sizes that are parts of names.

use super::one::One;
use crate::bring::SizesFrom;
use crate::bring::read::letters::shown;
use crate::bring::read::said::{ending_in_size, split_last};
use crate::report::listed;
use indexmap::IndexMap;
use std::collections::HashSet;

/// Sizes that nothing writes: they are what names end with, or the one that the drawing names.
pub(super) fn find_sizes(
    all: &mut [One],
    from: Option<SizesFrom>,
    sample_size: Option<&str>,
    remarks: &mut Vec<String>,
) {
    let ends_so = |one: &One| {
        let size = one.size.as_deref()?;
        split_last(&one.name).map(|(_, last)| last.eq_ignore_ascii_case(size))
    };
    let all_end_so = all.len() > 1 && all.iter().all(|one| ends_so(one) == Some(true));
    for one in &mut *all {
        // A block that is named for its size too; names that are written, if all of them are.
        if let Some(size) = one.size.as_deref().filter(|_| !one.is_written || all_end_so)
            && let Some((stem, last)) = split_last(&one.name)
            && last.eq_ignore_ascii_case(size)
        {
            one.name = stem.to_owned();
        }
    }
    written_with_sizes(all);
    if from.is_none() && all.iter().all(|one| one.size.is_none()) {
        remarks.extend(by_blocks(all));
    }
    let is_by_names = match from {
        Some(SizesFrom::Names) => true,
        Some(SizesFrom::Layers) => false,
        None => all.iter().all(|one| one.size.is_none()) && names_end_in_sizes(all),
    };
    if is_by_names {
        let is_said = from.is_some();
        for one in all.iter_mut().filter(|one| one.size.is_none()) {
            let split = if is_said { split_last(&one.name) } else { ending_in_size(&one.name) };
            if let Some((stem, size)) = split.map(|(stem, size)| (stem.to_owned(), size.to_owned())) {
                (one.name, one.size) = (stem, Some(size));
            }
        }
    } else if let Some(sample) = sample_size
        && all.iter().all(|one| one.size.is_none())
    {
        remarks.push(format!(
            "Only the sample size, {}, is drawn; how it is graded is not in the drawing.",
            shown(sample)
        ));
        all.iter_mut().for_each(|one| one.size = Some(sample.to_owned()));
    }
}

/// A name that is written with its own size behind it, `Front 30` in 30, is the piece's without it: where that is so of all that
/// are called so, in several sizes, or of all that is drawn. The eighth of several gores in size 8 is called by its number.
fn written_with_sizes(all: &mut [One]) {
    let own = |one: &One| -> Option<String> {
        let size = one.size.as_deref()?;
        let (stem, _) = split_last(&one.name).filter(|(_, last)| last.eq_ignore_ascii_case(size))?;
        Some(stem.to_owned())
    };
    let is_every = all.iter().all(|one| own(one).is_some());
    let mut stems: IndexMap<String, (HashSet<String>, bool)> = IndexMap::new();
    for one in all.iter() {
        let Some((stem, _)) = split_last(&one.name) else { continue };
        let (sizes, is_own) = stems.entry(stem.to_lowercase()).or_insert_with(|| (HashSet::new(), true));
        *is_own &= own(one).is_some();
        sizes.extend(one.size.clone());
    }
    for one in all.iter_mut().filter(|one| one.is_written) {
        let Some(stem) = own(one) else { continue };
        let are_sizes = stems
            .get(&stem.to_lowercase())
            .is_some_and(|(sizes, is_own)| *is_own && (sizes.len() > 1 || is_every));
        if are_sizes {
            one.name = stem;
        }
    }
}

/// Blocks of one written name whose own names end with sizes are that piece in these sizes, where all blocks are so and all
/// pieces come in the same; what is said of it.
fn by_blocks(all: &mut [One]) -> Option<String> {
    let mut sizes: IndexMap<String, Vec<String>> = IndexMap::new();
    for one in all.iter().filter(|one| one.is_written) {
        let (_, size) = ending_in_size(one.block.as_ref()?)?;
        sizes.entry(one.name.to_lowercase()).or_default().push(size.to_owned());
    }
    let first = sizes.values().next()?;
    let known: HashSet<&String> = first.iter().collect();
    let is_alike =
        |own: &Vec<String>| own.len() == first.len() && own.iter().collect::<HashSet<_>>() == known;
    if first.len() < 2 || known.len() != first.len() || !sizes.values().all(is_alike) {
        return None;
    }
    let words = format!(
        "no text says a size; the blocks' names end with {}, which are taken for sizes.",
        listed(&first.iter().map(|size| shown(size)).collect::<Vec<_>>())
    );
    for one in all.iter_mut().filter(|one| one.is_written) {
        one.size = one.block.as_deref().and_then(ending_in_size).map(|(_, size)| size.to_owned());
    }
    Some(words)
}

/// Whether names end in sizes: some stem comes in two or more, and wherever one does its sizes are those of the
/// others.
fn names_end_in_sizes(all: &[One]) -> bool {
    let mut by_stem: IndexMap<String, Vec<String>> = IndexMap::new();
    for one in all {
        if let Some((stem, size)) = ending_in_size(&one.name) {
            by_stem.entry(stem.to_lowercase()).or_default().push(size.to_uppercase());
        }
    }
    let Some(first) = by_stem.values().find(|sizes| sizes.len() > 1) else { return false };
    let known: HashSet<&String> = first.iter().collect();
    let same =
        |sizes: &Vec<String>| sizes.len() == first.len() && sizes.iter().all(|size| known.contains(size));
    by_stem.values().all(same)
}
