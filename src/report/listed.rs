//! Words one after the other, as a sentence has them.

/// "front", "front and back", "front, back and collar"; nothing of none.
pub fn listed(words: &[impl AsRef<str>]) -> String {
    let words: Vec<&str> = words.iter().map(AsRef::as_ref).collect();
    match words.split_last() {
        Some((last, before)) if !before.is_empty() => format!("{} and {last}", before.join(", ")),
        _ => words.concat(),
    }
}

#[cfg(test)]
mod tests {
    use super::listed;

    #[test]
    fn the_last_one_stands_behind_and() {
        assert_eq!(listed(&[] as &[&str]), "");
        assert_eq!(listed(&["S"]), "S");
        assert_eq!(listed(&["S", "M"]), "S and M");
        assert_eq!(listed(&["S".to_owned(), "M".to_owned(), "L".to_owned()]), "S, M and L");
    }
}
