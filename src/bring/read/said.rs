//! What is written on pieces and beside them: the texts that ASTM D6673 names, sizes, numbers of copies.

use crate::bring::size_letters::place_of;
use crate::bring::traced::TracedCut;

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

/// How many are cut, of texts such as `cut 2, one of each hand` or `Cut 1 pair`.
pub(super) fn cut(texts: &[String]) -> Option<TracedCut> {
    texts.iter().find_map(|text| {
        let text = text.to_lowercase();
        let after = behind_cut(&text)?.trim_start_matches([' ', ':']);
        let figures = after.find(|letter: char| !letter.is_ascii_digit()).unwrap_or(after.len());
        let (count, behind) = after.split_at(figures);
        let count: u32 = count.parse().ok().filter(|_| !behind.starts_with(char::is_alphanumeric))?;
        let is_pair = are_pairs(behind);
        let count = if is_pair { count.checked_mul(2)? } else { count };
        (count > 0).then_some(TracedCut { count, mirrored: is_pair || is_mirrored(&text) })
    })
}

/// What stands behind the word.
fn behind_cut(text: &str) -> Option<&str> {
    text.match_indices("cut").find_map(|(at, word)| {
        let before = text.get(..at)?.chars().next_back();
        let after = text.get(at + word.len()..)?;
        let is_word = |letter: Option<char>| letter.is_none_or(|letter| !letter.is_alphanumeric());
        (is_word(before) && is_word(after.chars().next())).then_some(after)
    })
}

/// Whether what stands behind a count says that it counts pairs: `2 pairs`, `1 mirrored pair`. In brackets or behind a comma it only says
/// again how those that are counted lie: `4 (2 mirrored pairs)`, `2, a pair`.
pub(in crate::bring) fn are_pairs(behind: &str) -> bool {
    let end = behind.find(|letter: char| !(letter.is_alphanumeric() || [' ', '-', '_'].contains(&letter)));
    let own = behind.get(..end.unwrap_or(behind.len())).unwrap_or_default().to_lowercase();
    let mut words = own.split([' ', '-', '_']).filter(|word| !word.is_empty());
    // What says of which kind they are may stand between.
    words.find(|word| !OF_PAIRS.contains(word)).is_some_and(|word| word == "pair" || word == "pairs")
}

/// Words that say of which kind pairs are.
const OF_PAIRS: [&str; 10] = [
    "mirror",
    "mirrored",
    "mirrorimage",
    "matching",
    "matched",
    "handed",
    "opposite",
    "reversed",
    "left",
    "right",
];

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
            let is_pair = are_pairs(behind);
            let count = if is_pair { first.checked_mul(2)? } else { first };
            TracedCut { count, mirrored: is_pair }
        }
    };
    (cut.count > 0).then_some((cut, if is_two { "" } else { behind }))
}

/// What stands before the count in a text that says both: `gore cut 6`, `Front, cut 2 on the fold`. All of a text that says no count.
pub(super) fn before_count(text: &str) -> &str {
    // Letters whose capitals take another number of bytes stand in no count.
    let lower = text.to_ascii_lowercase();
    let counts = lower.match_indices("cut").find(|(at, word)| {
        let before = lower.get(..*at).and_then(|before| before.chars().next_back());
        let after = lower.get(at + word.len()..).unwrap_or_default();
        let figure = after.trim_start_matches([' ', ':', '-', '×']);
        before.is_none_or(|letter| !letter.is_alphanumeric())
            && figure.len() < after.len()
            && figure.starts_with(|letter: char| letter.is_ascii_digit())
    });
    match counts {
        Some((at, _)) => text
            .get(..at)
            .unwrap_or(text)
            .trim_end_matches([' ', ',', ';', ':', '-', '–', '—', '(', '/', '.']),
        None => text,
    }
}

/// Whether a text says that copies are left and right.
pub(super) fn is_mirrored(text: &str) -> bool {
    let text = text.to_lowercase();
    ["mirrored", "of each hand", "left and right", "right and left", " pair"]
        .iter()
        .any(|words| text.contains(words))
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
        let said = |text: &str| cut(&[text.to_owned()]);
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
