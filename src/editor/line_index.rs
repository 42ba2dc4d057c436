use lsp_types::{Position, Range};

/// Where the lines of a text start, to turn bytes into an editor's positions and back.
///
/// Positions count lines from 0 and UTF-16 units from the line's start; a line ends at `\n`,
/// `\r\n` or `\r` (LSP 3.17, "Text Documents").
#[derive(Clone, Debug, Default)]
pub struct LineIndex {
    starts: Vec<usize>,
}

impl LineIndex {
    /// Of that text.
    pub fn new(text: &str) -> Self {
        let bytes = text.as_bytes();
        let mut starts = vec![0];
        for (at, &byte) in bytes.iter().enumerate() {
            match byte {
                b'\n' => starts.push(at + 1),
                b'\r' if bytes.get(at + 1) != Some(&b'\n') => starts.push(at + 1),
                _ => {}
            }
        }
        LineIndex { starts }
    }

    /// The position of a byte. Inside a character it is the character's, inside a line's end the
    /// place before it, behind the text its end.
    pub fn position(&self, text: &str, offset: usize) -> Position {
        let offset = offset.min(text.len());
        let line = self.starts.partition_point(|&start| start <= offset).saturating_sub(1);
        let mut units = 0;
        for (at, character) in self.content(text, line).1.char_indices() {
            let start = self.starts.get(line).copied().unwrap_or(0);
            if start + at + character.len_utf8() > offset {
                break;
            }
            units += character.len_utf16() as u32;
        }
        Position::new(line as u32, units)
    }

    /// The byte of a position. Inside a surrogate pair it is the character's first byte, behind a
    /// line its end, behind the text its end.
    pub fn offset(&self, text: &str, position: Position) -> usize {
        let line = position.line as usize;
        if line >= self.starts.len() {
            return text.len();
        }
        let (start, content) = self.content(text, line);
        let mut units = 0;
        for (at, character) in content.char_indices() {
            units += character.len_utf16() as u32;
            if units > position.character {
                return start + at;
            }
        }
        start + content.len()
    }

    /// The range of bytes.
    pub fn range(&self, text: &str, lo: usize, hi: usize) -> Range {
        Range::new(self.position(text, lo), self.position(text, hi.max(lo)))
    }

    /// How many lines there are.
    pub fn count(&self) -> usize {
        self.starts.len()
    }

    /// Where a line starts, and what it says without its end.
    pub fn content<'t>(&self, text: &'t str, line: usize) -> (usize, &'t str) {
        let start = self.starts.get(line).copied().unwrap_or(text.len());
        let end = self.starts.get(line + 1).copied().unwrap_or(text.len());
        let content = text.get(start..end).unwrap_or("");
        let content = content.strip_suffix('\n').unwrap_or(content);
        (start, content.strip_suffix('\r').unwrap_or(content))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// U+1F9F5 takes four bytes in UTF-8 and two units in UTF-16; e + U+0301 three bytes and two
    /// units (Unicode 15, chapter 3.9).
    #[test]
    fn positions_are_utf16_units() {
        let text = "a🧵e\u{301}b\r\nsecond\rthird\n";
        let lines = LineIndex::new(text);
        for (offset, line, character) in [
            (0, 0, 0),
            (1, 0, 1),
            (5, 0, 3),
            (6, 0, 4),
            (8, 0, 5),
            (9, 0, 6),
            (11, 1, 0),
            (18, 2, 0),
            (24, 3, 0),
        ] {
            let position = Position::new(line, character);
            assert_eq!(lines.position(text, offset), position, "byte {offset}");
            assert_eq!(lines.offset(text, position), offset, "{position:?}");
        }
        assert_eq!(lines.offset(text, Position::new(0, 2)), 1, "inside a surrogate pair");
        assert_eq!(lines.offset(text, Position::new(0, 99)), 9, "behind a line");
        assert_eq!(lines.offset(text, Position::new(99, 0)), text.len(), "behind the text");
        assert_eq!(lines.position(text, 3), Position::new(0, 1), "inside a character");
    }
}
