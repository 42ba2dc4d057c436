//! Which of the new is which of the old.

use super::worded::tokens;
use crate::syntax::tidy::Said;
use indexmap::IndexMap;
use std::hash::Hash;

/// Beyond so many pairs nothing is looked for among what has no name of its own.
const LOOKED_AT: usize = 40_000;
/// Two that share so much of their words are one that was changed.
const ALIKE: f64 = 0.5;

/// Places of the old and of the new one, in the order of the new; what is gone comes last. What is called alike is the
/// same; then what is alike.
pub(super) fn paired<'a, T, K: Hash + Eq>(
    old: &'a [T],
    new: &'a [T],
    name: impl Fn(&'a T) -> K,
    is_alike: impl Fn(&T, &T) -> bool,
) -> Vec<(Option<usize>, Option<usize>)> {
    // Names that stand several times are used up in their order: the last of each list is the first.
    let mut known: IndexMap<K, Vec<usize>> = IndexMap::new();
    for (at, one) in old.iter().enumerate().rev() {
        known.entry(name(one)).or_default().push(at);
    }
    let mut pairs: Vec<(Option<usize>, Option<usize>)> = new
        .iter()
        .enumerate()
        .map(|(at, one)| (known.get_mut(&name(one)).and_then(Vec::pop), Some(at)))
        .collect();
    let mut left: Vec<usize> = known.into_values().flatten().collect();
    left.sort_unstable();
    let without = pairs.iter().filter(|(was, _)| was.is_none()).count();
    if without * left.len() <= LOOKED_AT {
        for pair in pairs.iter_mut().filter(|(was, _)| was.is_none()) {
            let Some(is) = pair.1.and_then(|at| new.get(at)) else { continue };
            let found = left.iter().position(|&was| old.get(was).is_some_and(|was| is_alike(was, is)));
            pair.0 = found.map(|at| left.remove(at));
        }
    }
    pairs.extend(left.into_iter().map(|was| (Some(was), None)));
    pairs
}

/// Whether two that are not said alike are the same one, changed. What is altered is the same where it is done to
/// the same, or at the same place.
pub(super) fn are_alike(one: &Said, other: &Said, is_alteration: bool) -> bool {
    let words = |said: &'_ Said| -> Vec<String> {
        tokens(&said.means).into_iter().map(|word| word.trim_end_matches(',').to_owned()).collect()
    };
    let (one, other) = (words(one), words(other));
    let first = one.first() == other.first();
    let second = one.get(1) == other.get(1) && one.len() > 2 && other.len() > 2;
    let is_named = first && second && !is_alteration;
    let longest = one.len().max(other.len()).max(1);
    let shared = one.iter().filter(|word| other.contains(word)).count();
    // A list that has grown, or of which something was taken away.
    let shortest = one.len().min(other.len());
    let is_part = shortest > 1 && shared == shortest;
    let is_short = one.len() == 2 && other.len() == 2;
    is_named || first && (is_short || is_part || shared as f64 > ALIKE * longest as f64)
}

/// What was put to another place among those that stayed, and what it now stands after.
pub(super) fn moved(pairs: &[(Option<usize>, Option<usize>)]) -> Option<(usize, Option<usize>)> {
    let both: Vec<(usize, usize)> = pairs.iter().filter_map(|&(was, is)| Some((was?, is?))).collect();
    let mut in_old = both.clone();
    in_old.sort_unstable();
    if in_old == both {
        return None;
    }
    // The one that went farthest, counted in those that stayed.
    let rank = |one: &(usize, usize)| in_old.binary_search(one).unwrap_or(0);
    let (at, (_, is)) = both.iter().enumerate().max_by_key(|(at, one)| at.abs_diff(rank(one)))?;
    let beside = at.checked_sub(1).and_then(|before| both.get(before)).map(|(_, is)| *is);
    Some((*is, beside))
}
