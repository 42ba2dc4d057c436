use super::document::{Document, uri_in};
use super::document_symbols::{Entry, document_symbols};
use super::line_index::LineIndex;
use super::workspace::Workspace;
use crate::source::FileId;
use crate::syntax::parse_text;
use indexmap::IndexSet;
use lsp_types::{Location, SymbolKind, Uri};
use serde::Serialize;
use std::sync::Arc;

/// The most names that are offered at once: who looks for one types more of it.
const MOST: usize = 500;

/// A name in some file (LSP 3.17, `SymbolInformation`).
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Found {
    /// What it is called.
    pub name: String,
    /// What it is.
    pub kind: SymbolKind,
    /// Where.
    pub location: Location,
    /// What it stands in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub container_name: Option<String>,
}

/// What is declared in the open documents and in all files of their garments, and has these letters in its name, in
/// that order.
pub(super) fn workspace_symbols(workspace: &Workspace, letters: &str) -> Vec<Found> {
    let open = workspace.documents().keys();
    let of_garments = workspace.analyses().values().flat_map(|analysis| &analysis.paths);
    let paths: IndexSet<&Arc<str>> = open.chain(of_garments).collect();
    let mut found = Vec::new();
    for path in paths {
        let Some(uri) = uri_in(workspace.documents(), path) else { continue };
        let beside = || {
            let text = workspace.analyses().values().find_map(|analysis| analysis.text(path))?.clone();
            Some(Document { uri: uri.clone(), lines: LineIndex::new(&text), text, version: 0 })
        };
        let Some(document) = workspace.documents().get(path).cloned().or_else(beside) else { continue };
        let read = parse_text(&document.text, 0, FileId(0));
        gather(document_symbols(&document, &read), None, &uri, letters, &mut found);
    }
    found.truncate(MOST);
    found
}

fn gather(entries: Vec<Entry>, within: Option<&str>, uri: &Uri, letters: &str, found: &mut Vec<Found>) {
    for entry in entries {
        if has_letters(&entry.name, letters) {
            found.push(Found {
                name: entry.name.clone(),
                kind: entry.kind,
                location: Location::new(uri.clone(), entry.selection_range),
                container_name: within.map(str::to_owned),
            });
        }
        gather(entry.children, Some(&entry.name), uri, letters, found);
    }
}

/// Whether a name has these letters one after another, others between them or not, large or small.
fn has_letters(name: &str, letters: &str) -> bool {
    let mut own = name.chars().flat_map(char::to_lowercase);
    letters.chars().flat_map(char::to_lowercase).all(|letter| own.any(|one| one == letter))
}

#[cfg(test)]
mod tests {
    use super::has_letters;

    #[test]
    fn letters_are_found_in_their_order() {
        for (name, letters, has) in
            [("hem_band", "hb", true), ("hem_band", "bh", false), ("Cuff", "cuf", true), ("cuff", "", true)]
        {
            assert_eq!(has_letters(name, letters), has, "{name} {letters}");
        }
    }
}
