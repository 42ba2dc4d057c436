//! Names of the language out of whatever a drawing calls things.

use crate::limits::NAME_BYTES;
use indexmap::IndexSet;
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// A name of the language that says what the text says, or `fallback` where nothing of it can stand in a name.
pub fn name_of(text: &str, fallback: &str) -> String {
    let mut name = String::new();
    for letter in text.trim().to_lowercase().nfc() {
        let fits = letter.is_ascii_digit() || letter.is_alphabetic() || is_combining_mark(letter);
        let next = if fits { letter } else { '_' };
        if next == '_' && (name.is_empty() || name.ends_with('_')) {
            continue;
        }
        if name.is_empty() && !next.is_alphabetic() {
            name.push_str(fallback);
            name.push('_');
        }
        // Room for what makes it unlike others.
        if name.len() + next.len_utf8() + 8 > NAME_BYTES {
            break;
        }
        name.push(next);
    }
    let name = name.trim_end_matches('_');
    if name.is_empty() { fallback.to_owned() } else { name.to_owned() }
}

/// The name, or with a number behind it the first that is not taken; takes it.
pub fn unlike(name: &str, taken: &mut IndexSet<String>) -> String {
    if taken.insert(name.to_owned()) {
        return name.to_owned();
    }
    let mut number = 2;
    loop {
        let other = format!("{name}_{number}");
        if taken.insert(other.clone()) {
            return other;
        }
        number += 1;
    }
}

/// What can stand in a text of one line: no control characters, none that turn the direction of what follows (Unicode Standard
/// Annex 9, section 2), no run of blanks, not endless.
pub fn one_line(text: &str) -> String {
    let turns = |letter: char| matches!(letter, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let words: Vec<&str> =
        text.split(|letter: char| letter.is_control() || letter.is_whitespace() || turns(letter)).collect();
    let words: Vec<&str> = words.into_iter().filter(|word| !word.is_empty()).collect();
    words.join(" ").chars().take(120).collect()
}

/// A name without the number behind it: names that have to differ in a drawing often differ by that alone.
pub fn stem(name: &str) -> String {
    let word =
        name.trim_end_matches(|one: char| one.is_ascii_digit() || matches!(one, ' ' | '-' | '_' | '.'));
    word.to_lowercase()
}

/// What answers to the one of that number in the first size's list: of the same stem, it is the one that comes as late.
/// Where a list has none of that stem, it is drawn once for all sizes. None where one has more or fewer of them.
pub fn answering<'a, T>(
    first: &'a [T],
    list: &'a [T],
    number: usize,
    name: impl Fn(&T) -> &str,
) -> Option<&'a T> {
    let wanted = first.get(number)?;
    let same = |own: &&T| name(own) == name(wanted);
    let mut called = list.iter().filter(same);
    if let (Some(only), None, false) = (called.next(), called.next(), name(wanted).is_empty()) {
        return Some(only);
    }
    let of_stem = |own: &&T| stem(name(own)) == stem(name(wanted));
    let place = first.iter().take(number).filter(of_stem).count();
    match (first.iter().filter(of_stem).count(), list.iter().filter(of_stem).count()) {
        (_, 0) => Some(wanted),
        (here, there) if here == there => list.iter().filter(of_stem).nth(place),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::{name_of, one_line, unlike};
    use indexmap::IndexSet;

    #[test]
    fn what_a_drawing_says_becomes_a_name() {
        assert_eq!(name_of("Front, left", "piece"), "front_left");
        assert_eq!(name_of("  38-Vorderteil ", "piece"), "piece_38_vorderteil");
        assert_eq!(name_of("Ärmel", "piece"), "ärmel");
        assert_eq!(name_of("***", "piece"), "piece");
        let mut taken = IndexSet::new();
        assert_eq!(
            [unlike("a", &mut taken), unlike("a", &mut taken), unlike("a", &mut taken)],
            ["a", "a_2", "a_3"]
        );
        assert_eq!(one_line("a\u{7}b\n  c"), "a b c");
    }
}
