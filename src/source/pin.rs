use sha2::{Digest, Sha256};

/// The pin of a text: the first 16 hexadecimal digits of the SHA-256 (FIPS 180-4) of what it
/// says, comments and spacing apart. Words are told apart by one space where the text has any
/// space between them, and a line's end counts, because it ends a statement.
pub fn pin_of(text: &str) -> String {
    let mut hasher = Sha256::new();
    for line in text.lines() {
        let bare = without_note(line);
        let mut words = bare.split_whitespace().peekable();
        if words.peek().is_none() {
            continue;
        }
        for word in words {
            hasher.update(word.as_bytes());
            hasher.update(b" ");
        }
        hasher.update(b"\n");
    }
    hasher.finalize().iter().take(8).map(|byte| format!("{byte:02x}")).collect()
}

/// The line without its `# note`; a `#` inside text does not start one. A `"` straight after a
/// digit or a fraction is an inch mark and opens no text.
fn without_note(line: &str) -> &str {
    let mut in_text = false;
    let mut before = ' ';
    for (at, character) in line.char_indices() {
        match character {
            '"' if in_text => in_text = before == '\\',
            '"' => {
                in_text = !(before.is_ascii_digit()
                    || ('\u{bc}'..='\u{be}').contains(&before)
                    || ('\u{2150}'..='\u{215e}').contains(&before))
            }
            '#' if !in_text => return &line[..at],
            _ => {}
        }
        before = character;
    }
    line
}
