use super::document::Document;
use super::tokens::{TokenKind, tokens};
use lsp_types::{FoldingRange, FoldingRangeKind};

/// What can be folded away: braces, and notes over several lines. From the words alone, so that
/// damage elsewhere unfolds nothing.
pub(super) fn folding(document: &Document) -> Vec<FoldingRange> {
    let text = &*document.text;
    let line = |offset: usize| document.lines.position(text, offset).line;
    let mut ranges = Vec::new();
    let mut open: Vec<u32> = Vec::new();
    let mut notes: Option<(u32, u32)> = None;
    let mut line_has_words = false;
    for token in tokens(text) {
        match token.kind {
            TokenKind::LineEnd => line_has_words = false,
            TokenKind::Note if !line_has_words => {
                let at = line(token.lo);
                notes = match notes {
                    Some((first, last)) if last + 1 == at => Some((first, at)),
                    other => {
                        ranges.extend(other.and_then(of_notes));
                        Some((at, at))
                    }
                };
            }
            TokenKind::Note => {}
            kind => {
                line_has_words = true;
                ranges.extend(notes.take().and_then(of_notes));
                match kind {
                    TokenKind::Sign('{') => open.push(line(token.lo)),
                    TokenKind::Sign('}') => {
                        // The line of the closing brace stays in sight.
                        let end = line(token.lo).saturating_sub(1);
                        let start = open.pop().filter(|&start| start < end);
                        ranges.extend(start.map(|start| range(start, end, None)));
                    }
                    _ => {}
                }
            }
        }
    }
    ranges.extend(notes.and_then(of_notes));
    ranges.sort_by_key(|range| (range.start_line, std::cmp::Reverse(range.end_line)));
    ranges
}

fn of_notes((first, last): (u32, u32)) -> Option<FoldingRange> {
    (first < last).then(|| range(first, last, Some(FoldingRangeKind::Comment)))
}

fn range(start_line: u32, end_line: u32, kind: Option<FoldingRangeKind>) -> FoldingRange {
    FoldingRange { start_line, end_line, kind, ..FoldingRange::default() }
}
