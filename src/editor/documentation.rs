//! What a word of the language means, out of the reference: the rows of its tables, and the
//! sentences on what is measured.

use super::tokens::{TokenKind, tokens};
use std::sync::LazyLock;

const REFERENCE: &str = include_str!("../../grammar/REFERENCE.md");
/// How many rows are shown of a word that many forms have.
const SHOWN: usize = 6;

/// A row of a table: how something is written, and what that means.
struct Row {
    section: &'static str,
    form: &'static str,
    means: &'static str,
    /// The words of its forms, each form's first word first.
    first: Vec<&'static str>,
    words: Vec<&'static str>,
}

static ROWS: LazyLock<Vec<Row>> = LazyLock::new(rows);

/// The rows on a word, as a table; none where the reference has none.
pub(super) fn meaning(word: &str) -> Option<String> {
    let begins: Vec<&Row> = ROWS.iter().filter(|row| row.first.contains(&word)).collect();
    let holds = ROWS.iter().filter(|row| row.words.contains(&word) && !row.first.contains(&word));
    let mut picked = begins;
    if picked.is_empty() {
        picked.extend(holds.take(SHOWN));
    }
    picked.truncate(SHOWN);
    let Some(section) = picked.first().map(|row| row.section) else { return measured(word) };
    let mut table = format!("**{word}** ({section})\n\n| written | means |\n|---|---|\n");
    for row in picked {
        table.push_str(&format!("| {} | {} |\n", row.form, row.means));
    }
    Some(table)
}

/// Of a function, its part of the sentences on measuring: what stands between `;` and `;` or `.`.
fn measured(function: &str) -> Option<String> {
    let sentences = REFERENCE.split_once("Measured on pieces: ")?.1;
    let sentences = sentences.split_once("\n\n").map_or(sentences, |(sentences, _)| sentences);
    let names = |part: &&str| {
        let codes: String = part.split('`').skip(1).step_by(2).collect::<Vec<&str>>().join(" ");
        codes.split([' ', '\n']).any(|word| word.split_once('(').is_some_and(|(name, _)| name == function))
    };
    let part = sentences.split(';').find(names)?;
    let end = part.find(". ").unwrap_or(part.len());
    let words: Vec<&str> = part.get(..end)?.split_whitespace().collect();
    Some(words.join(" "))
}

fn rows() -> Vec<Row> {
    let mut section = "";
    let mut rows = Vec::new();
    for line in REFERENCE.lines() {
        if let Some(title) = line.strip_prefix("## ") {
            section = title;
        }
        let cells = line.strip_prefix("| ").filter(|rest| rest.starts_with('`'));
        let cells = cells.and_then(|rest| rest.strip_suffix('|'));
        let Some((form, means)) = cells.and_then(|cells| cells.split_once(" | ")) else { continue };
        let means = means.trim();
        let mut first = Vec::new();
        let mut words = Vec::new();
        for code in codes(line) {
            let found = tokens(code);
            let named = found.iter().filter(|token| token.kind == TokenKind::Word);
            let found: Vec<&'static str> = named.map(|token| token.text(code)).collect();
            let begins = code.starts_with(|c: char| c.is_alphabetic());
            let led = code.starts_with('…') || code.starts_with('{');
            if begins || led {
                first.extend(found.first().copied());
            }
            words.extend(found);
        }
        rows.push(Row { section, form, means, first, words });
    }
    rows
}

/// What stands between backquotes.
fn codes(line: &'static str) -> impl Iterator<Item = &'static str> {
    line.split('`').skip(1).step_by(2)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_explained_by_their_rows() {
        for (word, part) in [
            ("seam", "both sides equal"),
            ("lengthen", "along the grain"),
            ("nap", "pieces lie one way"),
            ("easing", "longer by this much"),
            ("tolerance", "still match"),
            ("length", "as drawn"),
            ("distance", "of points"),
        ] {
            let meant = meaning(word).unwrap_or_default();
            assert!(meant.contains(part), "{word}: {meant}");
        }
        assert_eq!(meaning("pocket_corner_of_nothing"), None);
    }
}
