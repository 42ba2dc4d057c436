//! Running checks: the sizes side by side, of those that hang together alike one for all where that tells enough.

use super::{Check, Run, forms, words};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding};
use rayon::prelude::*;

/// What checks find in a size, each by its place among them; most find nothing.
type Found = Vec<(usize, Vec<Finding>)>;

/// Runs some checks over a garment and its sizes, as [`super::check`] runs all.
pub fn run(checks: &[&Check], garment: &Garment, sizes: &[WorkedSize]) -> Vec<Diagnostic> {
    let names = words::size_names(garment);
    let alike = Alike { checks, garment, first: forms::first_alike(sizes) };
    let of_all: Vec<(usize, &Check)> = (checks.iter().copied().enumerate())
        .filter(|(_, check)| matches!(check.run, Run::Once(_) | Run::OverSizes(_)))
        .collect();
    // What looks at all of it waits for no size.
    let (by_size, over): (Vec<Found>, Vec<Vec<Diagnostic>>) = rayon::join(
        || sizes.par_iter().enumerate().map(|(at, size)| alike.found(at, size)).collect(),
        || of_all.par_iter().map(|(_, check)| check.over_sizes(garment, sizes)).collect(),
    );
    let others: Vec<Found> =
        sizes.par_iter().enumerate().map(|(at, size)| alike.found_after(at, size, &by_size)).collect();
    let mut by_check: Vec<(Vec<Finding>, Vec<Diagnostic>)> = vec![Default::default(); checks.len()];
    for (nth, found) in
        by_size.into_iter().zip(others).flat_map(|(asked, after)| asked.into_iter().chain(after))
    {
        if let Some((all, _)) = by_check.get_mut(nth) {
            all.extend(found);
        }
    }
    for ((nth, _), diagnostics) in of_all.into_iter().zip(over) {
        if let Some((_, own)) = by_check.get_mut(nth) {
            *own = diagnostics;
        }
    }
    let reported = checks.iter().zip(by_check).map(|(check, (found, over))| {
        let mut diagnostics = check.of_sizes(garment, sizes, found, &names);
        diagnostics.extend(over);
        diagnostics
    });
    reported.flatten().collect()
}

/// Sizes of which one stands for others.
struct Alike<'a> {
    checks: &'a [&'a Check],
    garment: &'a Garment,
    /// Of each size the one that stands for it.
    first: Vec<usize>,
}

impl Alike<'_> {
    fn is_asked(&self, check: &Check, at: usize) -> bool {
        !matches!(check.run, Run::PerForm(_)) || self.first.get(at) == Some(&at)
    }

    /// What is found in a size of which others do not stand for it.
    fn found(&self, at: usize, size: &WorkedSize) -> Found {
        let asked = self.checks.iter().enumerate().filter(|(_, check)| self.is_asked(check, at));
        let found = asked.map(|(nth, check)| (nth, check.in_size(self.garment, size)));
        found.filter(|(_, found)| !found.is_empty()).collect()
    }

    /// What else is found in it: where the size that stands for it has something, it is looked at too.
    fn found_after(&self, at: usize, size: &WorkedSize, by_size: &[Found]) -> Found {
        let first = self.first.get(at).filter(|first| **first != at).and_then(|first| by_size.get(*first));
        let there = first.into_iter().flatten().filter_map(|(nth, _)| Some((*nth, self.checks.get(*nth)?)));
        let not_asked = there.filter(|(_, check)| !self.is_asked(check, at));
        not_asked.map(|(nth, check)| (nth, check.in_size(self.garment, size))).collect()
    }
}
