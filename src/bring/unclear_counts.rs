//! Words on a piece that seem to say how many are cut, and are not understood.

use super::at_most::at_most;
use super::names::one_line;
use super::pattern::Pattern;
use super::traced::{Traced, TracedPiece};

/// What follows “cut” where it is said where or how, and not how many.
const NO_COUNTS: [&str; 24] = [
    "line", "lines", "here", "along", "edge", "edges", "out", "outs", "on", "off", "away", "from", "slit",
    "open", "to", "at", "in", "the", "this", "of", "with", "and", "through", "last",
];

/// A sentence on each piece of which nothing else says how many are cut.
pub fn told(traced: &Traced, pattern: &Pattern) -> Vec<String> {
    let pieces = traced.pieces.iter().zip(&pattern.pieces).filter(|(_, piece)| piece.cut.is_none());
    let each = pieces.filter_map(|(drawn, piece)| {
        let words = unclear(drawn)?;
        Some(format!(
            "{} ({}): “{words}” seems to say how many are cut, and is not understood: 1 is taken; “cut 2”, “cut 2 mirrored” and “cut 1 \
             pair” are",
            piece.name, piece.origin
        ))
    });
    at_most(each, |more| {
        format!("{more} more pieces say something of how many are cut that is not understood")
    })
}

fn unclear(piece: &TracedPiece) -> Option<String> {
    let mut texts = piece.sizes.values().flat_map(|size| &size.texts).map(|text| one_line(text));
    texts.find(|text| seems_to_count(text))
}

/// Whether a text begins as those do that say how many are cut: `cut two`, `2x mirrored`.
fn seems_to_count(text: &str) -> bool {
    let lower = text.to_lowercase();
    let mut words = lower
        .split(|letter: char| !letter.is_alphanumeric() && letter != '×')
        .filter(|word| !word.is_empty());
    let (first, second) = (words.next().unwrap_or_default(), words.next());
    let is_figure = |word: &str| !word.is_empty() && word.bytes().all(|one| one.is_ascii_digit());
    let is_times = first.strip_suffix(['x', '×']).is_some_and(is_figure)
        || is_figure(first) && second.is_some_and(|word| matches!(word, "x" | "×"));
    // `cut 1 cm outside` says a length.
    let is_unit = |word: &str| {
        matches!(word.trim_start_matches(|one: char| one.is_ascii_digit()), "mm" | "cm" | "inch" | "inches")
    };
    let is_length = second.into_iter().chain(words).find(|word| !is_figure(word)).is_some_and(is_unit);
    is_times || first == "cut" && !is_length && second.is_some_and(|word| !NO_COUNTS.contains(&word))
}

#[cfg(test)]
mod tests {
    use super::seems_to_count;

    #[test]
    fn what_seems_to_count_is_told_from_what_does_not() {
        for text in ["cut tow mirrored", "Cut two", "cut: pair", "2x mirrored", "2 x", "2× mirrored"] {
            assert!(seems_to_count(text), "{text}");
        }
        for text in [
            "cut",
            "cutting line",
            "Cut on fold",
            "cut here",
            "size 2",
            "lining, cut out",
            "cut 2.5 cm in",
            "cut 1cm",
        ] {
            assert!(!seems_to_count(text), "{text}");
        }
    }
}
