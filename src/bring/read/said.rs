//! What is written on pieces and beside them: the texts that ASTM D6673 names, sizes, numbers of copies.

use crate::bring::traced::TracedCut;
use crate::bring::trade_words::{FOLD, GRAIN, has_word};
use crate::size_letters::place_of;

/// What a text says that begins with one of the words of ASTM D6673-10 and a colon (the words from memory).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Key {
    /// Of the piece.
    PieceName,
    /// Its size.
    Size,
    /// How many are cut.
    Quantity,
    /// From what.
    Material,
    /// Anything said of it.
    Annotation,
    /// Of the style: the size that it was drawn in first.
    SampleSize,
    /// Of the style: the day on which it was made.
    Date,
    /// Of the style: the hour.
    Time,
    /// Metric or English.
    Units,
    /// Of the style, and nothing that a garment needs.
    Other,
}

/// What a text says, and of what.
pub(super) fn keyed(text: &str) -> Option<(Key, &str)> {
    let (word, value) = text.split_once(':')?;
    let words: Vec<String> =
        word.split([' ', '_']).filter(|part| !part.is_empty()).map(str::to_lowercase).collect();
    let key = match words.join(" ").as_str() {
        "piece name" => Key::PieceName,
        "size" => Key::Size,
        "quantity" => Key::Quantity,
        "material" => Key::Material,
        "annotation" => Key::Annotation,
        "sample size" => Key::SampleSize,
        "units" => Key::Units,
        "creation date" => Key::Date,
        "creation time" => Key::Time,
        "style name" | "author" | "grading rule table" | "rule table" | "category" => Key::Other,
        _ => return None,
    };
    Some((key, value.trim()))
}

/// How many are cut, as it is usually written on pieces: `cut 2 mirrored`, `Cut 1 pair`, `Front, cut 2 on the fold`. A line that
/// ends in a comma goes on in the next.
pub(in crate::bring) fn cut_of(texts: &[String]) -> Option<TracedCut> {
    let mut whole: Vec<String> = Vec::with_capacity(texts.len());
    for text in texts {
        match whole.last_mut().filter(|last| last.trim_end().ends_with(',')) {
            Some(last) => *last += &format!(" {text}"),
            None => whole.push(text.clone()),
        }
    }
    whole.iter().find_map(|text| {
        let counted = Counted::in_text(text)?;
        let behind = counted.behind.to_ascii_lowercase();
        let mirrored = is_mirrored(text)
            || has_word(&behind, &["mirror"]) && !has_word(&behind, &["not mirror", "no mirror"]);
        let count = if counts_pairs(&behind) { counted.number * 2 } else { counted.number };
        Some(TracedCut { count, mirrored: mirrored && count.is_multiple_of(2) })
    })
}

/// Where a text says how many are cut.
struct Counted<'a> {
    /// Where its `cut` begins.
    at: usize,
    /// The number behind that.
    number: u32,
    /// What stands behind the number.
    behind: &'a str,
}

/// Of a piece no more are cut.
const MOST_CUT: u32 = 1_000;
/// What makes a length or an order of a number that it stands right behind.
const NO_COUNTS: [&str; 10] = ["st", "nd", "rd", "th", "mm", "cm", "m", "in", "inch", "inches"];
/// The same of words with a space before them: `cut 2 in lining` is a count.
const LENGTHS: [&str; 4] = ["mm", "cm", "inch", "inches"];

impl<'a> Counted<'a> {
    fn in_text(text: &'a str) -> Option<Self> {
        // Letters whose capitals take another number of bytes stand in no count.
        let lower = text.to_ascii_lowercase();
        lower.match_indices("cut").find_map(|(at, word)| {
            let before = lower.get(..at)?.chars().next_back();
            let figures = text.get(at + word.len()..)?.trim_start_matches([' ', ':', '-', '×']);
            let end = figures.find(|letter: char| !letter.is_ascii_digit()).unwrap_or(figures.len());
            let (number, behind) = figures.split_at_checked(end)?;
            let number = number.parse().ok().filter(|number| (1..=MOST_CUT).contains(number))?;
            let is_word = before.is_none_or(|letter| !letter.is_alphanumeric());
            (is_word && !goes_on(behind)).then_some(Counted { at, number, behind })
        })
    }
}

/// Whether what stands behind a number makes something else of it than a count: `cut 2.5 cm outside`, `cut 2nd`.
fn goes_on(behind: &str) -> bool {
    let mut letters = behind.chars();
    let (first, second) = (letters.next(), letters.next());
    let is_fraction =
        matches!(first, Some('.' | ',' | '/')) && second.is_some_and(|one| one.is_ascii_digit());
    let is_sign = matches!(first, Some('"' | '″' | '′' | '\'' | '%' | '°'));
    let word = |text: &str| -> String {
        text.chars().take_while(|one| one.is_alphabetic()).collect::<String>().to_lowercase()
    };
    let apart = behind.strip_prefix(' ').map(|rest| word(rest.trim_start()));
    is_fraction
        || is_sign
        || NO_COUNTS.contains(&word(behind).as_str())
        || apart.is_some_and(|word| LENGTHS.contains(&word.as_str()))
}

/// Whether what stands behind a number, in small letters, says that it is one of pairs: `2 mirrored pairs` are four, and
/// `4 (2 mirrored pairs)` are four.
fn counts_pairs(behind: &str) -> bool {
    const HOW: [&str; 13] = [
        "x",
        "×",
        "mirror",
        "mirrored",
        "image",
        "mirrorimage",
        "matching",
        "matched",
        "opposite",
        "handed",
        "reversed",
        "left",
        "right",
    ];
    let mut words = behind.split([' ', '-', '_']).filter(|word| !word.is_empty());
    let word = words.find(|word| !HOW.contains(word)).unwrap_or_default();
    matches!(word.trim_end_matches(|letter: char| !letter.is_alphanumeric()), "pair" | "pairs")
}

/// How many are cut, of what stands behind the word for it, and what else stands there: `2`, `2, left and right`, `1 pair`, and
/// `1,1`, one and one turned over.
pub(super) fn quantity(text: &str) -> Option<(TracedCut, &str)> {
    let figures = |text: &str| text.find(|letter: char| !letter.is_ascii_digit()).unwrap_or(text.len());
    let (first, rest) = text.split_at(figures(text));
    let first: u32 = first.parse().ok()?;
    let behind = rest.trim_start_matches([',', '+', '/', ' ']);
    let (second, last) = behind.split_at(figures(behind));
    let is_two = !second.is_empty() && last.trim().is_empty();
    let cut = match second.parse::<u32>().ok().filter(|_| is_two) {
        Some(second) => TracedCut { count: first.checked_add(second)?, mirrored: first == second },
        None => {
            let is_pair = counts_pairs(&behind.to_ascii_lowercase());
            let count = if is_pair { first.checked_mul(2)? } else { first };
            let mirrored = is_pair || count.is_multiple_of(2) && is_mirrored(behind);
            TracedCut { count, mirrored }
        }
    };
    (cut.count > 0).then_some((cut, if is_two { "" } else { behind }))
}

/// What stands before the count in a text that says both: `gore cut 6`, `Front, cut 2 on the fold`. All of a text that says no count.
pub(super) fn before_count(text: &str) -> &str {
    match Counted::in_text(text) {
        Some(counted) => text
            .get(..counted.at)
            .unwrap_or(text)
            .trim_end_matches([' ', ',', ';', ':', '-', '–', '—', '(', '/', '.']),
        None => text,
    }
}

/// Whether a text says that copies are left and right.
pub(super) fn is_mirrored(text: &str) -> bool {
    let lower = text.to_lowercase();
    let words: Vec<&str> =
        lower.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let says = |at: usize, word: &str| word == "mirrored" || at > 0 && matches!(word, "pair" | "pairs");
    let is_denied = |at: usize| {
        at.checked_sub(1)
            .and_then(|before| words.get(before))
            .is_some_and(|word| matches!(*word, "not" | "no"))
    };
    words.iter().enumerate().any(|(at, word)| says(at, word) && !is_denied(at))
        || has_word(&lower, &["each hand", "left and right", "right and left", "left right"])
}

/// Whether words on a piece are likely its name: not a size, a count or a length.
pub(super) fn is_title(text: &str) -> bool {
    const OTHERS: [&str; 11] = [
        "size",
        "sizes",
        "cut",
        "cutting",
        "cutline",
        "notch",
        "notches",
        "cm",
        "mm",
        "allowance",
        "allowances",
    ];
    text.chars().any(char::is_alphabetic)
        && text.chars().count() > 2
        && !has_word(text, &OTHERS)
        && !has_word(text, &GRAIN)
        && !has_word(text, &FOLD)
}

/// The size that a name ends with, and what stands before it: `FRONT-M` is `FRONT` in `M`. Only what is surely a size
/// counts: sizes by letters, and numbers of two figures or more.
pub(in crate::bring) fn ending_in_size(name: &str) -> Option<(&str, &str)> {
    let (stem, last) = split_last(name)?;
    is_size(last).then_some((stem, last))
}

/// A name parted at its last sign that is no letter and no figure.
pub(super) fn split_last(name: &str) -> Option<(&str, &str)> {
    let (stem, last) = name.rsplit_once([' ', '-', '_', '.', '/', ','])?;
    let stem = stem.trim_end_matches([' ', '-', '_', '.', '/', ',']);
    let stem = match stem.to_lowercase() {
        lower if lower.ends_with(" size") || lower.ends_with("_size") || lower.ends_with("-size") => {
            stem.get(..stem.len() - 5).unwrap_or(stem)
        }
        _ => stem,
    };
    (!stem.is_empty() && !last.is_empty()).then_some((stem, last))
}

/// Whether a word is a size by itself: letters such as S, XL, 3XL, XXS, or a number from 10 to 999, that of a child's
/// age or height, a woman's or a man's size.
pub(super) fn is_size(word: &str) -> bool {
    let is_figures = word.bytes().all(|letter| letter.is_ascii_digit());
    let by_number = is_figures && matches!(word.len(), 2 | 3) && !word.starts_with('0');
    by_number || place_of(word).is_some()
}

/// The size that a layer or a group is named for: `M`, `Size M`, `size_38`.
pub(super) fn named_size(name: &str) -> Option<&str> {
    let name = name.trim();
    if is_size(name) {
        return Some(name);
    }
    let rest = name.get(..4).filter(|word| word.eq_ignore_ascii_case("size")).and_then(|_| name.get(4..))?;
    let rest = rest.trim_start_matches([' ', '-', '_', ':']);
    (!rest.is_empty() && rest.len() < name.len()).then_some(rest)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_say_what_they_name() {
        assert_eq!(keyed("Piece Name: Front"), Some((Key::PieceName, "Front")));
        assert_eq!(keyed("SAMPLE_SIZE:M"), Some((Key::SampleSize, "M")));
        assert_eq!(keyed("front: the left one"), None);
        let said = |text: &str| cut_of(&[text.to_owned()]);
        assert_eq!(said("cut 2, one of each hand"), Some(TracedCut { count: 2, mirrored: true }));
        assert_eq!(said("Cut 1 pair in shell"), Some(TracedCut { count: 2, mirrored: true }));
        assert_eq!(said("cut 2 mirrored pairs"), Some(TracedCut { count: 4, mirrored: true }));
        assert_eq!(said("cut 1 mirrored pair"), Some(TracedCut { count: 2, mirrored: true }));
        assert_eq!(said("cut 4 (2 mirrored pairs)"), Some(TracedCut { count: 4, mirrored: true }));
        assert_eq!(said("cut 1 on the fold"), Some(TracedCut { count: 1, mirrored: false }));
        assert_eq!(said("cutting line"), None);
        for text in ["gore cut 6", "gore, Cut: 6", "gore (cut 6 of oilskin)"] {
            assert_eq!(before_count(text), "gore", "{text}");
        }
        let many = |text: &str| quantity(text).map(|(cut, _)| (cut.count, cut.mirrored));
        assert_eq!(many("2"), Some((2, false)));
        assert_eq!(many("1,1"), Some((2, true)));
        assert_eq!(many("2 pair"), Some((4, true)));
        assert_eq!(many("2 mirrored pairs"), Some((4, true)));
        assert_eq!(many("4 (2 mirrored pairs)"), Some((4, true)));
        assert_eq!(quantity("2, left and right").map(|(_, rest)| rest), Some("left and right"));
        assert_eq!(many("two").or(many("0")), None);
        assert_eq!(before_count("cut 2"), "");
        assert_eq!(before_count("undercut 2 cutter"), "undercut 2 cutter");
    }

    /// A left front and a pocket's number are no sizes.
    #[test]
    fn only_sizes_are_sizes() {
        for word in ["S", "m", "XL", "XXS", "3XL", "38", "104"] {
            assert!(is_size(word), "{word}");
        }
        for word in ["", "2", "02", "LEFT", "MM", "X", "3XXL", "1000", "ML", "SX"] {
            assert!(!is_size(word), "{word}");
        }
        assert_eq!(ending_in_size("FRONT-M"), Some(("FRONT", "M")));
        assert_eq!(ending_in_size("front size 38"), Some(("front", "38")));
        assert_eq!(ending_in_size("POCKET_2"), None);
        assert_eq!(named_size("Size M"), Some("M"));
        assert_eq!(named_size("sleeve"), None);
    }
}
