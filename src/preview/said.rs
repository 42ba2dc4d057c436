//! Messages for the page: what `check` says, with the line that each place stands in.

use crate::limits::MESSAGES_SHOWN;
use crate::report::{Diagnostic, ReportedTable, Severity, reported};
use crate::source::SourceMap;
use serde::Serialize;

/// A message.
#[derive(Clone, Debug, Serialize)]
pub struct MessageView {
    /// How much it matters.
    pub severity: Severity,
    /// What kind of message it is.
    pub slug: &'static str,
    /// What was found and what was expected.
    pub title: String,
    /// Where.
    pub places: Vec<PlaceView>,
    /// Figures by size, where they differ.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub table: Option<ReportedTable>,
    /// The way out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub help: Option<String>,
}

/// A place in a file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PlaceView {
    /// The file.
    pub file: String,
    /// The line, from 1.
    pub line: usize,
    /// The column, from 1, in characters.
    pub column: usize,
    /// What is said of it; may be empty.
    pub text: String,
    /// The words of the line before the place, those that it is about, and those after it.
    pub words: [String; 3],
}

/// The messages as the page shows them: what must be mended first, and of very many the first ones.
pub(super) fn messages(map: &SourceMap, diagnostics: &[Diagnostic]) -> Vec<MessageView> {
    let mut shown = diagnostics.to_vec();
    shown.sort_by_key(Diagnostic::severity);
    shown.truncate(MESSAGES_SHOWN);
    let reported = reported(map, &shown);
    reported
        .into_iter()
        .zip(&shown)
        .map(|(message, diagnostic)| MessageView {
            severity: message.severity,
            slug: message.slug,
            title: message.title,
            places: message
                .places
                .into_iter()
                .zip(&diagnostic.labels)
                .map(|(place, label)| PlaceView {
                    file: place.file,
                    line: place.line,
                    column: place.column,
                    text: place.text,
                    words: words(map.text(map.line_of(label.span)), place.column, {
                        if place.end_line == place.line { Some(place.end_column) } else { None }
                    }),
                })
                .collect(),
            table: message.table,
            help: message.help,
        })
        .collect()
}

/// A line in three: before a place, at it and after it. Of a long line only what is near the place.
fn words(line: &str, column: usize, end: Option<usize>) -> [String; 3] {
    let from = column.saturating_sub(1);
    let to = end.map_or(usize::MAX, |end| end.saturating_sub(1)).max(from);
    let part = |skip: usize, take: usize| -> String {
        let shown = |letter: char| if letter.is_control() { ' ' } else { letter };
        line.chars().skip(skip).take(take).map(shown).collect()
    };
    let mut before = part(from.saturating_sub(NEAR), from.min(NEAR)).trim_start().to_owned();
    let own = part(from, (to - from).min(LONG));
    let beyond = from.saturating_add(own.chars().count());
    let mut after = part(beyond, NEAR).trim_end().to_owned();
    if from > NEAR {
        before.insert(0, CUT_SHORT);
    }
    if line.chars().nth(beyond.saturating_add(NEAR)).is_some() {
        after.push(CUT_SHORT);
    }
    [before, own, after]
}

/// What stands where a line goes on that is not shown.
const CUT_SHORT: char = '…';
/// How much of a line is shown on each side of a place, in characters.
const NEAR: usize = 60;
/// How much of a place is shown, in characters.
const LONG: usize = 120;

#[cfg(test)]
mod tests {
    use super::words;

    #[test]
    fn a_line_is_shown_round_its_place() {
        assert_eq!(words("  seam side a.b to c.d", 8, Some(12)), ["seam ", "side", " a.b to c.d"]);
        // To the end of the line where the place goes on in the next.
        assert_eq!(words("piece ä {", 7, None), ["piece ", "ä {", ""]);
        assert_eq!(words("", 1, Some(1)), ["", "", ""]);
        let long = "x".repeat(1000);
        assert_eq!(words(&long, 500, Some(502)).map(|part| part.chars().count()), [61, 2, 61]);
    }
}
