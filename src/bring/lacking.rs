//! Marks and lines on a piece that some sizes have and others have not.

use super::names::{Called, one_line};
use crate::report::listed;
use indexmap::IndexSet;

/// What is said of things that some sizes lack; `what` is one of them, `a mark`. What the first size alone has is drawn once for
/// all sizes, and what is there in another number is told where it is left out.
pub fn lacking(called: &[Called], sizes: &[String], what: &str) -> Vec<String> {
    let Some((first, others)) = called.split_first() else { return Vec::new() };
    let mut stems: IndexSet<&str> = first.stems().collect();
    let mut told = Vec::new();
    let in_sizes = |has: &dyn Fn(&Called) -> bool| -> Vec<String> {
        let own = called.iter().zip(sizes).filter(|(own, _)| has(own));
        own.map(|(_, size)| one_line(size)).collect()
    };
    stems.extend(others.iter().flat_map(Called::stems));
    for stem in stems {
        let count = first.count(stem);
        let has = others.iter().any(|own| own.count(stem) > 0);
        let lacks = called.iter().any(|own| own.count(stem) == 0);
        if !has || !lacks {
            continue;
        }
        let name = if stem.is_empty() { what.to_owned() } else { format!("{what} {}", one_line(stem)) };
        let (with, without) =
            (listed(&in_sizes(&|own| own.count(stem) > 0)), listed(&in_sizes(&|own| own.count(stem) == 0)));
        let what_comes = match (count, sizes.first()) {
            (0, _) => "it is left out".to_owned(),
            (_, Some(first)) => format!("it is taken to lie there as in {}", one_line(first)),
            _ => continue,
        };
        told.push(format!("{name} is drawn in {with} and not in {without}: {what_comes}"));
    }
    told
}
