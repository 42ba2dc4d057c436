use super::analysis::Analysis;
use super::document::Documents;
use crate::report::{self, Severity};
use lsp_types::{Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, NumberOrString};

/// Who speaks, as an editor shows it.
pub(super) const SOURCE: &str = "fustian";

/// A message as an editor shows it: at its first place, with the others linked, and with its
/// figures and its way out in its words. None where its place is not to be had.
pub(super) fn to_lsp(
    documents: &Documents,
    analysis: &Analysis,
    one: &report::Diagnostic,
) -> Option<Diagnostic> {
    let place = analysis.place(one.span())?;
    let others = one.labels.iter().skip(1).filter_map(|label| {
        let location = analysis.location(documents, label.span)?;
        let message = if label.text.is_empty() { "see also".to_owned() } else { label.text.clone() };
        Some(DiagnosticRelatedInformation { location, message })
    });
    let others: Vec<DiagnosticRelatedInformation> = others.collect();
    Some(Diagnostic {
        range: analysis.range(&place)?,
        severity: Some(match one.severity() {
            Severity::Mistake => DiagnosticSeverity::ERROR,
            Severity::Warning | Severity::Caution => DiagnosticSeverity::WARNING,
            Severity::Advice => DiagnosticSeverity::INFORMATION,
        }),
        code: Some(NumberOrString::String(one.slug().to_owned())),
        source: Some(SOURCE.to_owned()),
        message: words(one),
        related_information: (!others.is_empty()).then_some(others),
        ..Diagnostic::default()
    })
}

fn words(one: &report::Diagnostic) -> String {
    let mut words = one.title.to_string();
    if let Some(label) = one.labels.first().filter(|label| !label.text.is_empty()) {
        words.push_str(&format!("\n{}", label.text));
    }
    if let Some(table) = &one.table {
        for (size, figures) in &table.rows {
            let figures: Vec<String> = table
                .columns
                .iter()
                .zip(figures)
                .map(|(column, figure)| format!("{column} {figure}"))
                .collect();
            words.push_str(&format!("\n{size}: {}", figures.join(", ")));
        }
    }
    if let Some(help) = one.help_words() {
        words.push_str(&format!("\nhelp: {help}"));
    }
    words
}
