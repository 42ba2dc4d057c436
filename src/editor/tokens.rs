//! A text cut into words and signs, damaged or not: what an editor needs while something is still
//! being written and the grammar has not yet anything to say.

use unicode_normalization::char::is_combining_mark;

/// What kind of token.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum TokenKind {
    Word,
    Number,
    /// In `"…"`, closed or not.
    Text,
    Note,
    LineEnd,
    Sign(char),
}

/// A token, as offsets of the text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Token {
    pub lo: usize,
    pub hi: usize,
    pub kind: TokenKind,
}

impl Token {
    pub fn is(self, sign: char) -> bool {
        self.kind == TokenKind::Sign(sign)
    }

    pub fn text(self, text: &str) -> &str {
        text.get(self.lo..self.hi).unwrap_or("")
    }
}

/// All tokens, in order.
pub(super) fn tokens(text: &str) -> Vec<Token> {
    let mut tokens = Vec::new();
    let mut at = 0;
    while let Some(first) = text.get(at..).and_then(|rest| rest.chars().next()) {
        let rest = text.get(at..).unwrap_or("");
        let (kind, length) = match first {
            '\n' => (Some(TokenKind::LineEnd), 1),
            '\r' => (Some(TokenKind::LineEnd), if rest.starts_with("\r\n") { 2 } else { 1 }),
            '#' => (Some(TokenKind::Note), rest.find(['\n', '\r']).unwrap_or(rest.len())),
            '"' => (Some(TokenKind::Text), text_length(rest)),
            digit if digit.is_ascii_digit() => (Some(TokenKind::Number), number_length(rest)),
            letter if is_letter(letter) => {
                (Some(TokenKind::Word), rest.find(|c| !in_word(c)).unwrap_or(rest.len()))
            }
            blank if blank.is_whitespace() => (None, blank.len_utf8()),
            sign => (Some(TokenKind::Sign(sign)), sign.len_utf8()),
        };
        if let Some(kind) = kind {
            tokens.push(Token { lo: at, hi: at + length, kind });
        }
        at += length.max(1);
    }
    tokens
}

pub(super) fn is_letter(character: char) -> bool {
    character.is_alphabetic()
}

pub(super) fn in_word(character: char) -> bool {
    character == '_'
        || character.is_ascii_digit()
        || character.is_alphabetic()
        || is_combining_mark(character)
}

/// Whether a word can be a name of the language.
pub(super) fn is_name(word: &str) -> bool {
    word.starts_with(is_letter) && word.chars().all(in_word) && word.len() <= crate::limits::NAME_BYTES
}

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

/// A number with its unit, or the name of a size that begins with a digit.
fn number_length(rest: &str) -> usize {
    let digits = rest.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(rest.len());
    // `0.5..2.5` is two numbers.
    let digits = rest.get(..digits).and_then(|number| number.find("..")).unwrap_or(digits).max(1);
    let behind = rest.get(digits..).unwrap_or("");
    if let Some(after) = behind.strip_prefix('"') {
        // Straight after a number it is inches, unless a word follows.
        return if after.starts_with(is_letter) { digits } else { digits + 1 };
    }
    let unit = behind.find(|c: char| !in_word(c) && !matches!(c, '%' | '°' | '½' | '¼' | '¾'));
    digits + unit.unwrap_or(behind.len())
}
