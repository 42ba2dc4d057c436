use super::analysis::Analysis;
use super::diagnostics::to_lsp;
use super::formatting::difference;
use super::partner_seams::partner_seams;
use super::rename::document_edit;
use super::workspace::OpenDocument;
use crate::emit::with_steps;
use crate::report::{Fix, catalogue};
use crate::source::FileId;
use indexmap::IndexMap;
use lsp_types::{Diagnostic, OneOf, Range, TextDocumentEdit, TextEdit};
use std::sync::Arc;

/// A way out of a message that an editor can take.
pub(super) struct CodeAction {
    pub title: String,
    pub edits: Vec<TextDocumentEdit>,
    /// The message; none where there is nothing to mend.
    pub diagnostic: Option<Diagnostic>,
}

/// The ways out of the messages in a range of a document, of all garments that it is part of.
pub(super) fn code_actions(open: &OpenDocument<'_>, range: Range) -> Vec<CodeAction> {
    let mut found: Vec<CodeAction> = Vec::new();
    for analysis in open.workspace.analyses().values() {
        if analysis.file(&open.path).is_none() {
            continue;
        }
        for one in &analysis.compiled.diagnostics {
            let (title, edits) = match &one.fix {
                Some(fix) => (fix.title.as_str(), edits(open, analysis, fix)),
                None if is_about_missing_steps(one) => (WRITE_STEPS, steps_written(open, analysis)),
                None => continue,
            };
            let here = analysis.place(one.span()).filter(|place| place.path == open.path);
            let at = here.and_then(|place| analysis.range(&place));
            let Some(at) = at.filter(|at| at.start <= range.end && range.start <= at.end) else { continue };
            let known = |way: &CodeAction| {
                way.title == title && way.diagnostic.as_ref().is_some_and(|one| one.range == at)
            };
            if found.iter().any(known) {
                continue;
            }
            if let Some(edits) = edits
                && let Some(diagnostic) = to_lsp(open.workspace.documents(), analysis, one)
            {
                found.push(CodeAction { title: title.to_owned(), edits, diagnostic: Some(diagnostic) });
            }
        }
    }
    found.extend(seams_offered(open, range));
    found
}

/// Seams for the edges in a range that nothing takes yet, of the garment whose own file it is.
fn seams_offered(open: &OpenDocument<'_>, range: Range) -> Vec<CodeAction> {
    let analysis = open.analysis;
    if analysis.file(&open.path) != Some(FileId(0)) {
        return Vec::new();
    }
    let offers = partner_seams(analysis).into_iter().filter_map(|offer| {
        let here = analysis.place(offer.at).filter(|place| place.path == open.path)?;
        let at = analysis.range(&here)?;
        let on_line = at.start.line <= range.end.line && range.start.line <= at.end.line;
        let edits = on_line.then(|| edits(open, analysis, &offer.fix)).flatten()?;
        Some(CodeAction { title: offer.fix.title, edits, diagnostic: None })
    });
    offers.collect()
}

const WRITE_STEPS: &str = "write the steps that are worked out";

/// Whether a message says that the order of work, or a part of it, is worked out.
fn is_about_missing_steps(one: &crate::report::Diagnostic) -> bool {
    [catalogue::STEPS_NONE.slug, catalogue::STEP_FORGOTTEN.slug, catalogue::STEP_UNFUSED.slug]
        .contains(&one.slug())
}

/// The steps that are worked out, put into the garment's own file, which is laid out anew; none where that is
/// another one, or has mistakes.
fn steps_written(open: &OpenDocument<'_>, analysis: &Analysis) -> Option<Vec<TextDocumentEdit>> {
    let compiled = &analysis.compiled;
    if analysis.file(&open.path) != Some(FileId(0)) || compiled.has_mistakes() {
        return None;
    }
    let new = with_steps(&compiled.map, &compiled.garment, compiled.sizes.first()?).ok()?;
    let edits = difference(open.document, &new).into_iter().map(OneOf::Left).collect();
    Some(vec![document_edit(open.workspace, &open.path, edits)?])
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
