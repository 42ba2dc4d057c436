/// The word among `among` that was probably meant by `word`: at most a third of its letters
/// wrong, missing, doubled or swapped (Damerau–Levenshtein distance), and at least one letter
/// right. Of equally near words the first.
pub fn nearest<'a>(word: &str, among: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let length = word.chars().count();
    let allowed = (length / 3).max(1);
    among
        .into_iter()
        .filter(|other| other.chars().count().abs_diff(length) <= allowed)
        .map(|other| (strsim::damerau_levenshtein(word, other), other))
        .filter(|&(distance, other)| distance <= allowed && distance < other.chars().count().max(length))
        .min_by_key(|&(distance, _)| distance)
        .map(|(_, other)| other)
}
