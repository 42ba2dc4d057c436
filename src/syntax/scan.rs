//! One linear pass before the grammar: notes, texts that never close, characters that have no
//! business in a text file, and brackets that stand too deep inside one another. What would harm
//! the parser is blanked at equal length, so that every offset stays true.

use super::build::Context;
use super::forms;
use crate::limits::DEPTH;
use std::borrow::Cow;

/// What the pass found. All offsets are of the file's own text.
pub(super) struct Scan<'t> {
    /// The text, of equal length, with odd characters and what is too deep blanked.
    pub text: Cow<'t, str>,
    /// Every note, from its `#` to the end of its line.
    pub notes: Vec<(usize, usize)>,
    /// Where a text opens that does not close on its line.
    pub open_texts: Vec<usize>,
    /// What stood too deep, opener and closer included.
    pub deep: Vec<(usize, usize)>,
    /// Characters that cannot stand in a file.
    pub odd: Vec<(usize, char)>,
    /// Where a line begins outside all brackets, with a small letter and not in the middle of a list.
    pub begins: Vec<usize>,
    /// A round bracket never closes.
    pub is_open: bool,
}

/// Looks through a text once.
pub(super) fn scan(text: &str) -> Scan<'_> {
    let mut found = Scan {
        text: Cow::Borrowed(text),
        notes: vec![],
        open_texts: vec![],
        deep: vec![],
        odd: vec![],
        begins: vec![],
        is_open: false,
    };
    let mut after_comma = false;
    let mut nesting = Nesting::default();
    let bytes = text.as_bytes();
    let mut at = 0;
    while let Some(&byte) = bytes.get(at) {
        match byte {
            b'#' => {
                let end = line_end(bytes, at);
                found.notes.push((at, end));
                odd_characters(text, at, end, &mut found.odd);
                at = end;
                continue;
            }
            b'"' if !inch_mark(text, at) => {
                let end = match text_end(bytes, at) {
                    Some(end) => end,
                    None => {
                        found.open_texts.push(at);
                        line_end(bytes, at)
                    }
                };
                odd_characters(text, at, end, &mut found.odd);
                at = end;
                after_comma = false;
                continue;
            }
            b'(' | b'{' => nesting.open(byte, at, &mut found.deep),
            b')' | b'}' => nesting.close(byte, at, &mut found.deep),
            b'\n' if nesting.in_round() && begins_statement(text, at + 1) => {
                nesting.forget_round(at, &mut found.deep);
            }
            b'\n' if nesting.is_outside() && !after_comma && begins_small(bytes, at + 1) => {
                found.begins.push(at + 1);
            }
            _ => {}
        }
        if !matches!(byte, b' ' | b'\t' | b'\r' | b'\n') {
            after_comma = byte == b',';
        }
        let width = text.get(at..).and_then(|rest| rest.chars().next()).map_or(1, char::len_utf8);
        if !(0x20..0x7f).contains(&byte) {
            odd_characters(text, at, at + width, &mut found.odd);
        }
        at += width;
    }
    nesting.end(text.len(), &mut found.deep);
    found.is_open = nesting.forgot;
    if !found.odd.is_empty() || !found.deep.is_empty() {
        found.text = Cow::Owned(blanked(text, &found));
    }
    found
}

/// Whether a line begins a statement rather than going on in brackets: two words in a row, the first
/// of them one that a statement begins with. (No expression has that.)
fn begins_statement(text: &str, from: usize) -> bool {
    let line = text.get(from..).unwrap_or("").trim_start_matches([' ', '\t']);
    let end = line.bytes().take(16).position(|byte| !byte.is_ascii_lowercase());
    let (word, rest) = line.split_at_checked(end.unwrap_or(0)).unwrap_or_default();
    let next = rest.trim_start_matches([' ', '\t']);
    let known = [Context::File, Context::Piece];
    !word.is_empty()
        && next.len() < rest.len()
        && next.starts_with(|character: char| character.is_alphabetic() || character == '"')
        && word != "in"
        && known.iter().any(|&context| forms::starters(context).any(|starter| starter == word))
}

fn begins_small(bytes: &[u8], at: usize) -> bool {
    bytes.get(at).is_some_and(u8::is_ascii_lowercase)
}

/// Brackets that are open. Round ones cannot hold braces, so a brace ends those never closed; so
/// does a line that begins a statement.
#[derive(Default)]
struct Nesting {
    open: Vec<u8>,
    deep_from: Option<usize>,
    /// A round one was never closed.
    forgot: bool,
}

impl Nesting {
    fn open(&mut self, bracket: u8, at: usize, deep: &mut Vec<(usize, usize)>) {
        if bracket == b'{' {
            self.forget_round(at, deep);
        }
        self.open.push(bracket);
        if self.open.len() > DEPTH && self.deep_from.is_none() {
            self.deep_from = Some(at);
        }
    }

    fn close(&mut self, bracket: u8, at: usize, deep: &mut Vec<(usize, usize)>) {
        let partner = if bracket == b')' { b'(' } else { b'{' };
        if bracket == b'}' {
            self.forget_round(at, deep);
        }
        if self.open.last() == Some(&partner) {
            self.open.pop();
            if self.open.len() == DEPTH {
                self.finish(at + 1, deep);
            }
        }
    }

    fn in_round(&self) -> bool {
        self.open.last() == Some(&b'(')
    }

    fn is_outside(&self) -> bool {
        self.open.is_empty()
    }

    fn forget_round(&mut self, at: usize, deep: &mut Vec<(usize, usize)>) {
        while self.open.last() == Some(&b'(') {
            self.open.pop();
            self.forgot = true;
        }
        if self.open.len() <= DEPTH {
            self.finish(at, deep);
        }
    }

    fn end(&mut self, at: usize, deep: &mut Vec<(usize, usize)>) {
        self.finish(at, deep);
    }

    fn finish(&mut self, at: usize, deep: &mut Vec<(usize, usize)>) {
        if let Some(from) = self.deep_from.take() {
            deep.push((from, at));
        }
    }
}

/// Whether the `"` there is an inch mark: straight after a number, and not the slip of a text that
/// touches the number before it (`24"wearing ease"`).
fn inch_mark(text: &str, at: usize) -> bool {
    let before = text.get(..at).and_then(|head| head.chars().next_back()).unwrap_or(' ');
    if !before.is_ascii_digit() && !is_vulgar(before) {
        return false;
    }
    let after = text.get(at + 1..).unwrap_or("");
    let line = after.split(['\n', '\r', '"']).next().unwrap_or("");
    !(after.starts_with(char::is_alphabetic) && after.as_bytes().get(line.len()) == Some(&b'"'))
}

/// Whether the character is a fraction of its own, like `½`.
pub(super) fn is_vulgar(character: char) -> bool {
    ('\u{bc}'..='\u{be}').contains(&character) || ('\u{2150}'..='\u{215e}').contains(&character)
}

/// One past the `"` that closes the text opened there, if one does on that line.
fn text_end(bytes: &[u8], open: usize) -> Option<usize> {
    let mut at = open + 1;
    loop {
        match bytes.get(at)? {
            b'"' => return Some(at + 1),
            b'\n' | b'\r' => return None,
            b'\\' if !matches!(bytes.get(at + 1), Some(b'\n' | b'\r')) => at += 2,
            _ => at += 1,
        }
    }
}

fn line_end(bytes: &[u8], from: usize) -> usize {
    let rest = bytes.get(from..).unwrap_or_default();
    rest.iter().position(|byte| matches!(byte, b'\n' | b'\r')).map_or(bytes.len(), |length| from + length)
}

/// Control characters, and those that turn the direction of what follows and so hide what it says
/// (Unicode Standard Annex 9, section 2).
fn odd_characters(text: &str, from: usize, to: usize, odd: &mut Vec<(usize, char)>) {
    let Some(part) = text.get(from..to) else { return };
    if part.bytes().all(|byte| (0x20..0x7f).contains(&byte)) {
        return;
    }
    for (at, character) in part.char_indices() {
        let hidden = matches!(character, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
        let control = character.is_control() && !matches!(character, '\t' | '\n' | '\r');
        if hidden || control {
            odd.push((from + at, character));
        }
    }
}

fn blanked(text: &str, found: &Scan) -> String {
    let mut bytes = text.as_bytes().to_vec();
    for &(at, character) in &found.odd {
        fill(&mut bytes, at, at + character.len_utf8());
    }
    for &(from, to) in &found.deep {
        fill(&mut bytes, from, to);
    }
    // Whole characters were replaced by spaces, so this is still UTF-8.
    String::from_utf8(bytes).unwrap_or_else(|_| " ".repeat(text.len()))
}

fn fill(bytes: &mut [u8], from: usize, to: usize) {
    for byte in bytes.get_mut(from..to).unwrap_or_default() {
        if !matches!(byte, b'\n' | b'\r') {
            *byte = b' ';
        }
    }
}
