//! Words of the trade in what drawings call things, found whole: `fold` in `centre-fold` and `FoldLine2`, and not in `manifold`.

/// What a fold is called.
pub const FOLD: [&str; 7] = ["fold", "folds", "foldline", "foldlines", "onfold", "centrefold", "centerfold"];
/// What a grain line is called.
pub const GRAIN: [&str; 4] = ["grain", "grains", "grainline", "grainlines"];
/// What a notch is called.
pub const NOTCH: [&str; 4] = ["notch", "notches", "vnotch", "tnotch"];
/// What a sew line is called, whatever else stands with it.
pub const SEWN: [&str; 16] = [
    "sew",
    "sewn",
    "sewing",
    "sewline",
    "sewlines",
    "sewingline",
    "stitch",
    "stitches",
    "stitching",
    "stitchline",
    "stitchlines",
    "stitchingline",
    "seamline",
    "seamlines",
    "seam line",
    "seam lines",
];
/// What stitches on top of a piece are called.
pub const ON_TOP: [&str; 6] =
    ["topstitch", "topstitches", "topstitching", "top stitch", "top stitches", "top stitching"];

/// Whether one of these stands in a text as a word of its own, or as several one after the other. They are written in small
/// letters; the text may be in any.
pub fn has_word(text: &str, wanted: &[&str]) -> bool {
    let words = words_of(text);
    wanted.iter().any(|wanted| {
        let count = wanted.split(' ').count();
        words.windows(count).any(|own| {
            own.iter().zip(wanted.split(' ')).all(|(own, wanted)| own.eq_ignore_ascii_case(wanted))
        })
    })
}

/// The words of a text: parted by all that is no letter, and before a capital behind a small letter.
fn words_of(text: &str) -> Vec<&str> {
    let mut words = Vec::new();
    for run in text.split(|letter: char| !letter.is_alphabetic()) {
        let mut rest = run;
        let mut is_small = false;
        for (at, letter) in run.char_indices() {
            let begun = run.len() - rest.len();
            if is_small
                && letter.is_uppercase()
                && let Some((word, after)) = rest.split_at_checked(at - begun)
            {
                words.push(word);
                rest = after;
            }
            is_small = letter.is_lowercase();
        }
        words.push(rest);
    }
    words.retain(|word| !word.is_empty());
    words
}

#[cfg(test)]
mod tests {
    use super::{FOLD, SEWN, has_word, words_of};

    #[test]
    fn words_are_parted_by_signs_figures_and_capitals() {
        assert_eq!(words_of("centre-fold_2b FoldLine3"), ["centre", "fold", "b", "Fold", "Line"]);
        assert_eq!(words_of("GRAINLINE größeXL"), ["GRAINLINE", "größe", "XL"]);
        assert!(words_of("12 - 3").is_empty());
    }

    #[test]
    fn words_are_found_whole() {
        for text in ["fold", "FOLD LINE", "centre_fold2", "FoldLine", "foldline", "cut on fold"] {
            assert!(has_word(text, &FOLD), "{text}");
        }
        for text in ["unfold", "manifold", "folded collar", "Folder", ""] {
            assert!(!has_word(text, &FOLD), "{text}");
        }
        assert!(has_word("SEAM_LINE", &SEWN) && has_word("seam line 2", &SEWN));
        assert!(!has_word("seam allowance line", &SEWN) && !has_word("seamless", &SEWN));
    }
}
