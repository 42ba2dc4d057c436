use super::line_index::LineIndex;
use super::uri::uri_of;
use indexmap::IndexMap;
use lsp_types::Uri;
use std::str::FromStr;
use std::sync::Arc;

/// A document that is open in the editor.
#[derive(Clone, Debug)]
pub struct Document {
    /// What the editor calls it.
    pub uri: Uri,
    /// Its text as it stands there, saved or not.
    pub text: Arc<str>,
    /// The editor's number for that text.
    pub version: i32,
    /// Where its lines start.
    pub lines: LineIndex,
}

/// The open documents, by path.
pub type Documents = IndexMap<Arc<str>, Document>;

/// What an editor calls a file: an open one as it was opened.
pub(super) fn uri_in(documents: &Documents, path: &str) -> Option<Uri> {
    match documents.get(path) {
        Some(document) => Some(document.uri.clone()),
        None => Uri::from_str(&uri_of(path)).ok(),
    }
}
