//! Letters that look alike.

/// Small letters that look like a Latin one, and capitals like a Latin capital: a few of the data of
/// Unicode Technical Standard 39 (`confusables.txt`), those of alphabets that share a keyboard with ours.
const ALIKE: &[(char, char)] = &[
    // Cyrillic
    ('а', 'a'),
    ('е', 'e'),
    ('о', 'o'),
    ('р', 'p'),
    ('с', 'c'),
    ('у', 'y'),
    ('х', 'x'),
    ('і', 'i'),
    ('ј', 'j'),
    ('ѕ', 's'),
    ('һ', 'h'),
    ('ԁ', 'd'),
    ('ԛ', 'q'),
    ('ԝ', 'w'),
    ('ӏ', 'l'),
    ('ѵ', 'v'),
    ('А', 'A'),
    ('В', 'B'),
    ('Е', 'E'),
    ('К', 'K'),
    ('М', 'M'),
    ('Н', 'H'),
    ('О', 'O'),
    ('Р', 'P'),
    ('С', 'C'),
    ('Т', 'T'),
    ('У', 'Y'),
    ('Х', 'X'),
    ('І', 'I'),
    ('Ј', 'J'),
    ('Ѕ', 'S'),
    // Greek
    ('α', 'a'),
    ('ι', 'i'),
    ('κ', 'k'),
    ('ν', 'v'),
    ('ο', 'o'),
    ('ρ', 'p'),
    ('υ', 'u'),
    ('χ', 'x'),
    ('Α', 'A'),
    ('Β', 'B'),
    ('Ε', 'E'),
    ('Ζ', 'Z'),
    ('Η', 'H'),
    ('Ι', 'I'),
    ('Κ', 'K'),
    ('Μ', 'M'),
    ('Ν', 'N'),
    ('Ο', 'O'),
    ('Ρ', 'P'),
    ('Τ', 'T'),
    ('Υ', 'Y'),
    ('Χ', 'X'),
    // Latin letters of other languages, and figures
    ('ı', 'i'),
    ('ɑ', 'a'),
    ('ɡ', 'g'),
    ('1', 'l'),
    ('I', 'l'),
    ('0', 'O'),
];

/// Which alphabet a letter is of, where it is one that is taken for a Latin letter.
fn alphabet(letter: char) -> &'static str {
    match letter {
        '\u{0370}'..='\u{03ff}' => "Greek ",
        '\u{0400}'..='\u{052f}' => "Cyrillic ",
        'a'..='z' | 'A'..='Z' | '\u{00c0}'..='\u{02af}' => "Latin ",
        _ => "",
    }
}

fn plain(letter: char) -> char {
    let mut at = letter;
    // "I" looks like "l", and Cyrillic "І" like "I".
    while let Some((_, looks)) = ALIKE.iter().find(|(own, _)| *own == at) {
        at = *looks;
    }
    at
}

/// The word with a Latin letter for each that looks like one: what looks the same has the same (the
/// skeleton of Unicode Technical Standard 39). Figures stay, and so does a capital I: those are seen.
pub fn skeleton(word: &str) -> String {
    word.chars().map(|letter| if letter.is_ascii() { letter } else { plain(letter) }).collect()
}

/// The word among those given that looks like `word` and is written with other letters; and how the
/// first of them differs: "the Cyrillic letter а where it has the Latin a".
pub fn look_alike<'a>(word: &str, among: impl IntoIterator<Item = &'a str>) -> Option<(&'a str, String)> {
    let looks: Vec<char> = word.chars().map(plain).collect();
    among.into_iter().find_map(|other| {
        // Letter by letter, so that most words are done with at their first.
        if other == word || !other.chars().map(plain).eq(looks.iter().copied()) {
            return None;
        }
        let (own, its) = word.chars().zip(other.chars()).find(|(own, its)| own != its)?;
        Some((other, format!("the {}{own} where {other} has the {}{its}", alphabet(own), alphabet(its))))
    })
}

#[cfg(test)]
mod tests {
    use super::look_alike;

    #[test]
    fn cyrillic_and_greek_letters_are_told_from_latin_ones() {
        let (name, how) = look_alike("еase", ["chest", "ease"]).unwrap();
        assert_eq!((name, how.as_str()), ("ease", "the Cyrillic е where ease has the Latin e"));
        assert_eq!(look_alike("ροcket", ["pocket"]).map(|(name, _)| name), Some("pocket"));
        assert_eq!(look_alike("s1eeve", ["sleeve"]).map(|(name, _)| name), Some("sleeve"));
    }

    #[test]
    fn other_words_do_not_look_alike() {
        assert_eq!(look_alike("ease", ["ease", "ear", "easy"]), None);
    }
}
