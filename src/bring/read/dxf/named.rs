//! Sizes that are parts of names.

use super::one::One;
use crate::bring::SizesFrom;
use crate::bring::read::letters::shown;
use crate::bring::read::said::{ending_in_size, split_last};
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
