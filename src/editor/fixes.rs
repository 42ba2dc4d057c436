use super::analysis::Analysis;
use super::desk::Open;
use super::messages::message;
use super::rename::document_edit;
use crate::report::Fix;
use indexmap::IndexMap;
use lsp_types::{Diagnostic, OneOf, Range, TextDocumentEdit, TextEdit};
use std::sync::Arc;

/// A way out of a message that an editor can take.
pub(super) struct WayOut {
    pub title: String,
    pub edits: Vec<TextDocumentEdit>,
    pub diagnostic: Diagnostic,
}

/// The ways out of the messages in a range of a document, of all garments that it is part of.
pub(super) fn ways_out(open: &Open<'_>, range: Range) -> Vec<WayOut> {
    let mut found: Vec<WayOut> = Vec::new();
    for analysis in open.desk.analyses().values() {
        if analysis.file(&open.path).is_none() {
            continue;
        }
        for one in &analysis.compiled.diagnostics {
            let Some(fix) = &one.fix else { continue };
            let here = analysis.place(one.span()).filter(|place| place.path == open.path);
            let at = here.and_then(|place| analysis.range(&place));
            let Some(at) = at.filter(|at| at.start <= range.end && range.start <= at.end) else { continue };
            let known = |way: &WayOut| way.title == fix.title && way.diagnostic.range == at;
            if found.iter().any(known) {
                continue;
            }
            if let Some(edits) = edits(open, analysis, fix)
                && let Some(diagnostic) = message(open.desk.documents(), analysis, one)
            {
                found.push(WayOut { title: fix.title.clone(), edits, diagnostic });
            }
        }
    }
    found
}

fn edits(open: &Open<'_>, analysis: &Analysis, fix: &Fix) -> Option<Vec<TextDocumentEdit>> {
    let mut by_file: IndexMap<Arc<str>, Vec<OneOf<TextEdit, lsp_types::AnnotatedTextEdit>>> = IndexMap::new();
    for (span, new_text) in &fix.edits {
        let place = analysis.place(*span)?;
        let range = analysis.range(&place)?;
        let edit = OneOf::Left(TextEdit { range, new_text: new_text.clone() });
        by_file.entry(place.path).or_default().push(edit);
    }
    by_file.into_iter().map(|(path, edits)| document_edit(open.desk, &path, edits)).collect()
}
