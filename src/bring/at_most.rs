//! Of many sentences of one kind the first are told, and how many more there are: a drawing that is damaged all over would bury
//! what else is said of it.

/// Of one kind no more are told.
pub const MOST_TOLD: usize = 20;

/// The first of them, and a sentence on the others, where there are any.
pub fn at_most(all: impl IntoIterator<Item = String>, others: impl Fn(usize) -> String) -> Vec<String> {
    let mut all = all.into_iter();
    let mut told: Vec<String> = all.by_ref().take(MOST_TOLD).collect();
    let more = all.count();
    told.extend((more > 0).then(|| others(more)));
    told
}

#[cfg(test)]
mod tests {
    use super::at_most;

    #[test]
    fn twenty_are_told_and_the_others_counted() {
        let some = |count: usize| at_most((0..count).map(|at| at.to_string()), |more| format!("{more} more"));
        assert_eq!(some(20).len(), 20);
        assert_eq!(some(23).last().map(String::as_str), Some("3 more"));
    }
}
