use super::view::SourceView;
use super::{Diagnostic, Severity};
use crate::source::SourceMap;
use schemars::JsonSchema;
use serde::Serialize;

/// A message for programs: the same words as on the terminal, with its places counted.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "Message")]
#[non_exhaustive]
pub struct ReportedDiagnostic {
    /// What kind of message it is: `seam/unequal`. `fustian explain` tells the trade reason.
    pub slug: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// What was found and what was expected.
    pub title: String,
    /// The sizes it happens in; empty when it is not of a size.
    pub sizes: Vec<String>,
    /// The words that the maker would change first, then the other places that disagree.
    pub places: Vec<ReportedPlace>,
    /// Figures by size, where they differ.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub table: Option<ReportedTable>,
    /// The way out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub help: Option<String>,
}

/// A place in a file. Lines and columns count from 1, columns in characters; the end is the first
/// character after it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(rename = "Place")]
#[non_exhaustive]
pub struct ReportedPlace {
    /// The file.
    pub file: String,
    /// The line it starts in.
    pub line: usize,
    /// The column it starts at.
    pub column: usize,
    /// The line it ends in.
    pub end_line: usize,
    /// The column it ends before.
    pub end_column: usize,
    /// What is said of it; may be empty.
    pub text: String,
}

/// Figures by size.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(rename = "Figures")]
pub struct ReportedTable {
    /// Titles of the figures.
    pub columns: Vec<String>,
    /// One a size.
    pub rows: Vec<ReportedRow>,
}

/// The figures of one size.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[schemars(rename = "FiguresOfSize")]
pub struct ReportedRow {
    /// The size.
    pub size: String,
    /// Its figures, one a column.
    pub figures: Vec<String>,
}

/// All messages as data for programs.
pub fn reported(map: &SourceMap, diagnostics: &[Diagnostic]) -> Vec<ReportedDiagnostic> {
    let view = SourceView::new(map);
    diagnostics.iter().map(|diagnostic| one(&view, diagnostic)).collect()
}

fn one(view: &SourceView, diagnostic: &Diagnostic) -> ReportedDiagnostic {
    let places = diagnostic.labels.iter().filter_map(|label| {
        let (file, start, end) = view.place(label.span)?;
        Some(ReportedPlace {
            file: file.to_owned(),
            line: start.line,
            column: start.column,
            end_line: end.line,
            end_column: end.column,
            text: label.text.clone(),
        })
    });
    let table = diagnostic.table.as_ref().map(|table| ReportedTable {
        columns: table.columns.clone(),
        rows: table
            .rows
            .iter()
            .map(|(size, figures)| ReportedRow { size: size.clone(), figures: figures.clone() })
            .collect(),
    });
    ReportedDiagnostic {
        slug: diagnostic.slug(),
        severity: diagnostic.severity(),
        title: diagnostic.title.to_string(),
        sizes: diagnostic.sizes.clone(),
        places: places.collect(),
        table,
        help: diagnostic.help_words(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::catalogue;
    use crate::source::Span;

    #[test]
    fn places_are_counted_in_characters() {
        let mut map = SourceMap::default();
        map.add("a.fus", "garment \"A\"\n");
        map.add("b.fus", "piece ä\n  cut ½ on\n");
        let base = map.files()[1].base;
        let at = "piece ä\n  cut ½ ".len() as u32;
        let message = Diagnostic::new(&catalogue::SYNTAX_EXPECTED, Span::new(base + at, base + at + 2), "no");
        let reported = reported(&map, &[message]);
        let place = &reported[0].places[0];
        assert_eq!((place.file.as_str(), place.line, place.column), ("b.fus", 2, 9));
        assert_eq!((place.end_line, place.end_column), (2, 11));
    }
}
