//! Letters of files that may be older than Unicode.

use std::borrow::Cow;

/// UTF-8 where it is that, else code page 1252.
pub(super) fn letters(bytes: &[u8]) -> Cow<'_, str> {
    match std::str::from_utf8(bytes) {
        Ok(text) => Cow::Borrowed(text),
        Err(_) => Cow::Owned(bytes.iter().map(|&byte| code_page_1252(byte)).collect()),
    }
}

/// Bytes 80 to 9F of code page 1252, as the Unicode Consortium maps them; all others are those of Latin 1.
fn code_page_1252(byte: u8) -> char {
    const HIGH: [char; 32] = [
        '€', '\u{81}', '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', '\u{8d}', 'Ž', '\u{8f}',
        '\u{90}', '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', '\u{9d}', 'ž', 'Ÿ',
    ];
    match byte {
        0x80..=0x9f => HIGH.get(usize::from(byte - 0x80)).copied().unwrap_or(' '),
        other => char::from(other),
    }
}

/// What stands there, control letters made spaces.
pub(super) fn plain(text: &str) -> String {
    text.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect()
}

/// The same, short enough for a message.
pub(super) fn shown(text: &str) -> String {
    let clean = plain(text);
    match clean.char_indices().nth(40) {
        Some((end, _)) => format!("{} …", clean.get(..end).unwrap_or_default()),
        None => clean,
    }
}

/// A file's name without the folders that it was named with: where a drawing lies says something of a machine, and nothing of
/// the pattern.
pub(in crate::bring) fn base_name(file: &str) -> &str {
    file.rsplit(['/', '\\']).next().filter(|name| !name.is_empty()).unwrap_or(file)
}
