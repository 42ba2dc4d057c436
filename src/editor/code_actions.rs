use super::analysis::Analysis;
use super::diagnostics::to_lsp;
use super::rename::document_edit;
use super::workspace::OpenDocument;
use crate::report::Fix;
use indexmap::IndexMap;
use lsp_types::{Diagnostic, OneOf, Range, TextDocumentEdit, TextEdit};
use std::sync::Arc;

/// A way out of a message that an editor can take.
pub(super) struct CodeAction {
    pub title: String,
    pub edits: Vec<TextDocumentEdit>,
    pub diagnostic: Diagnostic,
}

/// The ways out of the messages in a range of a document, of all garments that it is part of.
pub(super) fn code_actions(open: &OpenDocument<'_>, range: Range) -> Vec<CodeAction> {
    let mut found: Vec<CodeAction> = Vec::new();
    for analysis in open.workspace.analyses().values() {
        if analysis.file(&open.path).is_none() {
            continue;
        }
        for one in &analysis.compiled.diagnostics {
            let Some(fix) = &one.fix else { continue };
            let here = analysis.place(one.span()).filter(|place| place.path == open.path);
            let at = here.and_then(|place| analysis.range(&place));
            let Some(at) = at.filter(|at| at.start <= range.end && range.start <= at.end) else { continue };
            let known = |way: &CodeAction| way.title == fix.title && way.diagnostic.range == at;
            if found.iter().any(known) {
                continue;
            }
            if let Some(edits) = edits(open, analysis, fix)
                && let Some(diagnostic) = to_lsp(open.workspace.documents(), analysis, one)
            {
                found.push(CodeAction { title: fix.title.clone(), edits, diagnostic });
            }
        }
    }
    found
}

fn edits(open: &OpenDocument<'_>, analysis: &Analysis, fix: &Fix) -> Option<Vec<TextDocumentEdit>> {
    let mut by_file: IndexMap<Arc<str>, Vec<OneOf<TextEdit, lsp_types::AnnotatedTextEdit>>> = IndexMap::new();
    for (span, new_text) in &fix.edits {
        let place = analysis.place(*span)?;
        let range = analysis.range(&place)?;
        let edit = OneOf::Left(TextEdit { range, new_text: new_text.clone() });
        by_file.entry(place.path).or_default().push(edit);
    }
    by_file.into_iter().map(|(path, edits)| document_edit(open.workspace, &path, edits)).collect()
}
