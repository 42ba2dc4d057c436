use crate::source::{SourceMap, Span};
use miette::{MietteError, MietteSpanContents, SourceCode, SourceSpan, SpanContents};

/// Lines longer than this are shown in part only, in bytes.
const LONG_LINE: usize = 240;
/// How much of a long line is shown on each side of a place, in bytes.
const ROUND_A_PLACE: usize = 80;
/// What is longer than this is pointed at by its first line only, in bytes.
const LONG_PLACE: usize = 600;
/// A place over more lines than this is pointed at by its first line only.
const TALL_PLACE: usize = 4;

/// Every text of a run, ready to be shown: lines counted once, and what a terminal would obey
/// instead of showing put out of the way.
///
/// As miette's source it answers a span with the file that it stands in, so that one message can
/// show places in several files; a span over two files is refused, which keeps their pictures apart.
pub(super) struct SourceView {
    files: Vec<ShownFile>,
}

struct ShownFile {
    name: String,
    base: usize,
    /// As long as the text, byte for byte.
    shown: String,
    /// Where each line starts.
    lines: Vec<usize>,
}

/// A place for people: both count from 1, columns in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Place {
    pub line: usize,
    pub column: usize,
}

impl SourceView {
    pub(super) fn new(map: &SourceMap) -> Self {
        let files = map.files().iter().map(|file| ShownFile {
            name: harmless(&file.name),
            base: file.base as usize,
            shown: sanitized_in_place(&file.text),
            lines: std::iter::once(0).chain(file.text.match_indices('\n').map(|(at, _)| at + 1)).collect(),
        });
        SourceView { files: files.collect() }
    }

    fn file_of(&self, offset: usize) -> Option<&ShownFile> {
        let after = self.files.partition_point(|file| file.base <= offset);
        self.files.get(after.checked_sub(1)?)
    }

    /// The file's name and the places where the span starts and ends.
    pub(super) fn place(&self, span: Span) -> Option<(&str, Place, Place)> {
        let file = self.file_of(span.lo as usize)?;
        let start = file.place((span.lo as usize).saturating_sub(file.base));
        let end = file.place((span.hi.max(span.lo) as usize).saturating_sub(file.base));
        Some((&file.name, start, end))
    }

    /// Whether the span stands in a file without any text, and what that file is called.
    pub(super) fn empty_file(&self, span: Span) -> Option<&str> {
        self.file_of(span.lo as usize).filter(|file| file.shown.is_empty()).map(|file| file.name.as_str())
    }

    /// The part of a span that is pointed at: without the blanks at its end, of something long
    /// its first line, and at the end of a file the last thing that stands there.
    pub(super) fn pointed(&self, span: Span) -> Option<SourceSpan> {
        let file = self.file_of(span.lo as usize)?;
        let text = &file.shown;
        let lo = floor(text, (span.lo as usize).saturating_sub(file.base));
        let hi = floor(text, (span.hi as usize).saturating_sub(file.base)).max(lo);
        let mut picked = text.get(lo..hi).unwrap_or("").trim_end();
        if picked.len() > LONG_PLACE || picked.lines().nth(TALL_PLACE).is_some() {
            picked = picked.lines().next().unwrap_or("").trim_end();
        }
        let most = if picked.len() > LONG_LINE { ROUND_A_PLACE } else { LONG_LINE };
        let cut = floor(picked, picked.len().min(most));
        let (mut lo, mut len) = (lo, cut);
        if lo >= text.len() {
            let last = text.trim_end().char_indices().next_back();
            (lo, len) = last.map_or((0, 0), |(at, character)| (at, character.len_utf8()));
        }
        Some(SourceSpan::from((file.base + lo, len)))
    }
}

impl ShownFile {
    fn line_of(&self, at: usize) -> usize {
        self.lines.partition_point(|&start| start <= at).saturating_sub(1)
    }

    fn line_start(&self, line: usize) -> usize {
        self.lines.get(line).copied().unwrap_or(self.shown.len())
    }

    fn place(&self, at: usize) -> Place {
        let at = floor(&self.shown, at);
        let line = self.line_of(at);
        let before = self.shown.get(self.line_start(line)..at).unwrap_or("");
        Place { line: line + 1, column: before.chars().count() + 1 }
    }
}

impl SourceCode for SourceView {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        lines_before: usize,
        lines_after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let file = self.file_of(span.offset()).ok_or(MietteError::OutOfBounds)?;
        let text = &file.shown;
        let lo = span.offset() - file.base;
        let hi = lo + span.len();
        if hi > text.len() {
            return Err(MietteError::OutOfBounds);
        }
        let (first, last) = (file.line_of(lo), file.line_of(hi.saturating_sub(1).max(lo)));
        let mut from = file.line_start(first.saturating_sub(lines_before));
        let mut to = file.line_start(last + 1 + lines_after);
        if lines_before == 0 {
            from = lo;
        }
        let line_is_long = |line: usize| file.line_start(line + 1) - file.line_start(line) > LONG_LINE;
        let shown_lines = first.saturating_sub(lines_before)..=last + lines_after;
        if hi - lo > 4 * LONG_PLACE {
            return Err(MietteError::OutOfBounds);
        }
        if shown_lines.into_iter().any(line_is_long) {
            // The lines around are left out: of a long one only an end would be seen.
            from = from.max(file.line_start(first)).max(ceiling(text, lo.saturating_sub(ROUND_A_PLACE)));
            to = to.min(file.line_start(last + 1)).min(floor(text, hi + ROUND_A_PLACE));
        }
        let start = file.line_of(from);
        let column = text.get(file.line_start(start)..from).map_or(0, |before| before.chars().count());
        let data = text.get(from..to.max(from)).unwrap_or("").as_bytes();
        let covered = SourceSpan::from((file.base + from, data.len()));
        let count = data.iter().filter(|&&byte| byte == b'\n').count();
        Ok(Box::new(MietteSpanContents::new_named(file.name.clone(), data, covered, start, column, count)))
    }
}

fn floor(text: &str, at: usize) -> usize {
    let mut at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

fn ceiling(text: &str, at: usize) -> usize {
    let mut at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at += 1;
    }
    at
}

/// Whether a terminal would do something else with it than show it: controls, and signs that
/// change the direction of writing so that text reads otherwise than it is.
fn is_control_sign(character: char) -> bool {
    character.is_control() || matches!(character, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Words for a message, with nothing in them that a terminal would obey.
pub fn harmless(text: &str) -> String {
    let show =
        |character| if is_control_sign(character) && character != '\n' { '\u{fffd}' } else { character };
    text.chars().map(show).collect()
}

/// The same at equal length, so that offsets stay true.
fn sanitized_in_place(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    let mut rest = text.chars().peekable();
    while let Some(character) = rest.next() {
        let line_end = character == '\r' && rest.peek() == Some(&'\n');
        if !is_control_sign(character) || character == '\n' || character == '\t' || line_end {
            shown.push(character);
        } else {
            shown.push_str(match character.len_utf8() {
                1 => "?",
                2 => "\u{bf}",
                _ => "\u{fffd}",
            });
        }
    }
    shown
}
