//! Did you mean …

/// The word among those given that is nearest to `word`, if one is near enough: at most a third
/// of its letters, and always one, may be missing, extra, wrong or swapped (Damerau-Levenshtein
/// distance). Of equally near words the first given.
pub fn nearest<'a>(word: &str, among: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let letters = word.chars().count();
    let most = (letters / 3).max(1);
    let mut best: Option<(usize, &str)> = None;
    for other in among {
        if other == word || other.chars().count().abs_diff(letters) > most {
            continue;
        }
        let distance = strsim::damerau_levenshtein(word, other);
        if distance <= most && distance < letters && best.is_none_or(|(least, _)| distance < least) {
            best = Some((distance, other));
        }
    }
    best.map(|(_, other)| other)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn swapped_letters_are_one_slip() {
        assert_eq!(nearest("colalr", ["cuff", "collar", "cellar"].into_iter()), Some("collar"));
    }

    #[test]
    fn a_word_far_from_all_has_no_neighbour() {
        assert_eq!(nearest("hood", ["cuff", "band", "neck"].into_iter()), None);
    }
}
