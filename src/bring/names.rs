//! Names of the language out of whatever a drawing calls things.

use crate::limits::NAME_BYTES;
use indexmap::{IndexMap, IndexSet};
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

/// The name, or with a number behind it one that is not taken, the first but where numbers were left out; takes it.
pub fn unlike(name: &str, taken: &mut IndexSet<String>) -> String {
    if taken.insert(name.to_owned()) {
        return name.to_owned();
    }
    // Of thousands of one name most are taken: the number is looked for by doubling, then by halving.
    let is_taken = |number: usize, taken: &IndexSet<String>| taken.contains(&format!("{name}_{number}"));
    let (mut least, mut most) = (1, 2);
    while is_taken(most, taken) {
        (least, most) = (most, most * 2);
    }
    while most - least > 1 {
        let middle = usize::midpoint(least, most);
        match is_taken(middle, taken) {
            true => least = middle,
            false => most = middle,
        }
    }
    let other = format!("{name}_{most}");
    taken.insert(other.clone());
    other
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

/// What the things of a list are called, ready to be asked which answers to which: a piece may have thousands.
pub struct Called<'a> {
    /// By name how many there are, and the first of them.
    names: IndexMap<&'a str, (usize, usize)>,
    /// By stem all of them, in order.
    stems: IndexMap<String, Vec<usize>>,
    /// Of each its name, its stem, and how many of that stem come before it.
    each: Vec<(&'a str, String, usize)>,
}

/// What answers to something of the first size in another one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Answer {
    /// The one of that number.
    There(usize),
    /// It is drawn once for all sizes.
    Once,
}

impl<'a> Called<'a> {
    /// Of a list of these names.
    pub fn of(all: impl Iterator<Item = &'a str>) -> Self {
        let mut own = Called { names: IndexMap::new(), stems: IndexMap::new(), each: Vec::new() };
        for (at, name) in all.enumerate() {
            own.names.entry(name).or_insert((0, at)).0 += 1;
            let of_stem = own.stems.entry(stem(name)).or_default();
            own.each.push((name, stem(name), of_stem.len()));
            of_stem.push(at);
        }
        own
    }

    /// What its things are called, but for numbers behind their names.
    pub fn stems(&self) -> impl Iterator<Item = &str> {
        self.stems.keys().map(String::as_str)
    }

    /// How many are called so.
    pub fn count(&self, stem: &str) -> usize {
        self.stems.get(stem).map_or(0, Vec::len)
    }

    /// What answers to the one of that number in another size's list: of the same stem, it is the one that comes as late.
    /// Where that list has none of the stem, it is drawn once for all sizes. None where it has more or fewer of them.
    pub fn answering(&self, number: usize, list: &Called) -> Option<Answer> {
        let (name, stem, place) = self.each.get(number)?;
        if let Some((1, only)) = list.names.get(name).filter(|_| !name.is_empty()) {
            return Some(Answer::There(*only));
        }
        match (self.count(stem), list.count(stem)) {
            (_, 0) => Some(Answer::Once),
            (here, there) if here == there => Some(Answer::There(*list.stems.get(stem)?.get(*place)?)),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Answer, Called, name_of, one_line, unlike};
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

    #[test]
    fn names_of_thousands_are_found_soon() {
        let mut taken = IndexSet::new();
        let all: Vec<String> = (0..5).map(|_| unlike("a", &mut taken)).collect();
        assert_eq!(all, ["a", "a_2", "a_3", "a_4", "a_5"]);
        (0..20_000).for_each(|_| drop(unlike("mark", &mut taken)));
        assert!(taken.contains("mark_20000") && !taken.contains("mark_20001"));
    }

    #[test]
    fn things_answer_by_their_names_and_by_their_order() {
        let of = |names: &'static [&'static str]| Called::of(names.iter().copied());
        let first = of(&["rivet 1", "rivet 2", "", "hem"]);
        assert_eq!(first.answering(1, &of(&["rivet 2", "rivet 1"])), Some(Answer::There(0)));
        assert_eq!(first.answering(1, &of(&["rivet 5", "rivet 6"])), Some(Answer::There(1)));
        assert_eq!(first.answering(1, &of(&["rivet 5"])), None);
        assert_eq!(first.answering(2, &of(&["hem"])), Some(Answer::Once));
        assert_eq!(first.answering(2, &of(&["hem", ""])), Some(Answer::There(1)));
    }
}
