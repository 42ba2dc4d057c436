use sha2::{Digest, Sha256};

/// The pin of a text: the first 16 hexadecimal digits of the SHA-256 (FIPS 180-4) of what it
/// says, notes and spacing apart: a file that was only laid out anew keeps its pin.
///
/// The words and signs of the text are taken one by one. A line's end counts, or a `;`, where it
/// ends a statement: not in round brackets, next to a comma, behind `{` or before `}`. Blanks
/// count nowhere but in `1 / 2`, which divides, where `1/2` is a fraction.
pub fn pin_of(text: &str) -> String {
    let tokens = tokens(text);
    let mut hasher = Sha256::new();
    let mut depth = 0_usize;
    let mut before = "{";
    for (at, token) in tokens.iter().enumerate() {
        let ends = token.after_end && depth == 0;
        if ends && !matches!(before, "{" | ",") && !matches!(token.text, "}" | ",") {
            hasher.update(b"\n");
        }
        match token.text {
            "(" => depth += 1,
            ")" => depth = depth.saturating_sub(1),
            _ => {}
        }
        hasher.update(token.text.as_bytes());
        let next = tokens.get(at + 1);
        let spaced = token.after_blank || next.is_some_and(|next| next.after_blank);
        if token.text == "/" && spaced && is_whole(before) && next.is_some_and(|next| is_whole(next.text)) {
            hasher.update(b"/");
        }
        hasher.update(b" ");
        before = token.text;
    }
    hasher.finalize().iter().take(8).map(|byte| format!("{byte:02x}")).collect()
}

/// A word, a text or a sign.
struct Token<'t> {
    text: &'t str,
    /// Blanks or a line's end stand before it.
    after_blank: bool,
    /// A line's end or a `;` stands before it.
    after_end: bool,
}

fn is_whole(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit())
}

fn tokens(text: &str) -> Vec<Token<'_>> {
    let mut tokens = Vec::new();
    let (mut after_blank, mut after_end) = (false, false);
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let length = match first {
            '#' => rest.find(['\n', '\r']).unwrap_or(rest.len()),
            '"' => text_length(rest),
            _ if is_of_word(first) => word_length(rest),
            _ => first.len_utf8(),
        };
        let Some((token, after)) = rest.split_at_checked(length) else { break };
        rest = after;
        match first {
            '#' => {}
            '\n' | '\r' | ';' => (after_blank, after_end) = (true, true),
            _ if first.is_whitespace() => after_blank = true,
            _ => {
                tokens.push(Token { text: token, after_blank, after_end });
                (after_blank, after_end) = (false, false);
            }
        }
    }
    tokens
}

/// Letters, digits and what touches them in names and numbers.
fn is_of_word(character: char) -> bool {
    character.is_alphanumeric() || matches!(character, '_' | '.' | '%' | '°' | '″') || is_mark(character)
}

/// A mark that combines with the letter before it; more than there are does no harm here.
fn is_mark(character: char) -> bool {
    !character.is_ascii() && !character.is_whitespace()
}

/// A word ends before `..`; a `"` straight after a digit or a fraction is an inch mark and belongs
/// to it.
fn word_length(rest: &str) -> usize {
    if rest.starts_with("..") {
        return 2;
    }
    let mut before = ' ';
    for (at, character) in rest.char_indices() {
        let inch = character == '"' && (before.is_ascii_digit() || is_vulgar(before));
        if inch {
            return at + 1;
        }
        if !is_of_word(character) || rest.get(at..).is_some_and(|rest| rest.starts_with("..")) {
            return at;
        }
        before = character;
    }
    rest.len()
}

fn is_vulgar(character: char) -> bool {
    ('\u{bc}'..='\u{be}').contains(&character) || ('\u{2150}'..='\u{215e}').contains(&character)
}

/// A text and its quotes; it ends with its line.
fn text_length(rest: &str) -> usize {
    let mut escaped = false;
    for (at, character) in rest.char_indices().skip(1) {
        match character {
            '\n' | '\r' => return at,
            '"' if !escaped => return at + 1,
            _ => escaped = character == '\\' && !escaped,
        }
    }
    rest.len()
}
