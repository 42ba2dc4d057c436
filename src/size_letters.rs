//! Sizes that are called by letters: S, M, L, and further from them XS, XXL, 3XL.

/// The most crosses before S or L.
const MOST_CROSSES: usize = 5;

/// Where a size of letters stands, M at 0, the larger ones above; none of a word that is no such size.
pub fn place_of(word: &str) -> Option<i32> {
    let upper = word.to_uppercase();
    let letters = upper.trim_start_matches(|letter: char| letter.is_ascii_digit());
    let figures = upper.strip_suffix(letters)?;
    let crosses = letters.len() - letters.trim_start_matches('X').len();
    // A number before it stands for so many crosses, and then one is written.
    let far = match (figures, crosses) {
        ("", crosses) if crosses <= MOST_CROSSES => i32::try_from(crosses).ok()?,
        (figures, 1) if figures.len() <= 2 => figures.parse().ok().filter(|many| *many > 0)?,
        _ => return None,
    };
    match letters.trim_start_matches('X') {
        "M" if far == 0 => Some(0),
        "L" => Some(1 + far),
        "S" => Some(-1 - far),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::place_of;

    #[test]
    fn sizes_of_letters_follow_one_another() {
        let all = ["4XS", "3XS", "XXS", "xs", "S", "m", "L", "XL", "2XL", "XXXL", "4XL"];
        assert_eq!(all.map(place_of), [-5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5].map(Some));
        assert_eq!(place_of("2XL"), place_of("XXL"));
        for word in ["", "X", "XM", "2M", "3XXL", "0XL", "SX", "ML", "38", "\u{df}", "123XL"] {
            assert_eq!(place_of(word), None, "{word}");
        }
    }
}
