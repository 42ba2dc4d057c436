//! What a tree says, without where: to compare trees of texts that are laid out differently.

use fustian::syntax::tree::File;

/// The statements in words, without their places.
pub fn tree_text(file: &File) -> String {
    let mut text = String::new();
    let debug = format!("{:#?}", file.statements);
    let mut skipping = false;
    for line in debug.lines() {
        let trimmed = line.trim_start();
        if trimmed.contains("Span {") {
            skipping = true;
        }
        if !skipping {
            text.push_str(line);
            text.push('\n');
        }
        if skipping && trimmed.starts_with('}') {
            skipping = false;
        }
    }
    text
}

/// Numbers and texts as spelt, in order: words that begin with a digit, and what stands in quotes.
pub fn words_of(text: &str) -> Vec<String> {
    let mut words = Vec::new();
    // A range's dots belong to neither number.
    for line in text.replace("..", " ").lines() {
        let mut rest = line;
        while let Some(first) = rest.chars().next() {
            let end = match first {
                '#' => break,
                '"' => rest.get(1..).and_then(|inner| inner.find('"')).map_or(rest.len(), |at| at + 2),
                _ => rest
                    .find(|character: char| {
                        !character.is_alphanumeric() && !matches!(character, '.' | '%' | '½')
                    })
                    .unwrap_or(rest.len())
                    .max(first.len_utf8()),
            };
            let (word, after) = rest.split_at(end);
            if first == '"' || first.is_ascii_digit() {
                words.push(word.to_owned());
            }
            rest = after;
        }
    }
    words
}
