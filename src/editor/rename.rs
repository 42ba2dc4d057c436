use super::analysis::{Analysis, Place};
use super::document::uri_in;
use super::references::{ReferenceIndex, References};
use super::tokens::is_name;
use super::workspace::Workspace;
use crate::garment::Symbol;
use crate::report::catalogue;
use crate::source::FileId;
use crate::syntax::parse_text;
use indexmap::IndexMap;
use lsp_types::{
    OneOf, OptionalVersionedTextDocumentIdentifier, Position, Range, TextDocumentEdit, TextEdit, Uri,
};
use std::sync::Arc;

/// What an editor asks before it lets a name be written anew: its range and its word.
pub(super) fn prepare(
    workspace: &mut Workspace,
    uri: &Uri,
    position: Position,
) -> Result<Option<(Range, String)>, String> {
    workspace.recompile_stale();
    let Some(open) = workspace.up_to_date(uri) else { return Ok(None) };
    let offset = open.offset(position);
    let Some((here, references)) = ReferenceIndex::new(open.workspace).references_at(&open.path, offset)
    else {
        return Ok(None);
    };
    let word = open.document.text.get(here.lo..here.hi).unwrap_or("").to_owned();
    may_be_renamed(&references, &word)?;
    Ok(Some((open.document.lines.range(&open.document.text, here.lo, here.hi), word)))
}

/// The edits that give what is named at a position another name, in every file that names it; or
/// why that will not do, in words for the maker.
pub(super) fn rename(
    workspace: &mut Workspace,
    uri: &Uri,
    position: Position,
    name: &str,
) -> Result<Vec<TextDocumentEdit>, String> {
    workspace.recompile_stale();
    let Some(open) = workspace.up_to_date(uri) else { return Err("this document is not open".to_owned()) };
    let offset = open.offset(position);
    let Some((here, references)) = ReferenceIndex::new(open.workspace).references_at(&open.path, offset)
    else {
        return Err("there is no name here that can be changed".to_owned());
    };
    let old = open.document.text.get(here.lo..here.hi).unwrap_or("").to_owned();
    may_be_renamed(&references, &old)?;
    if !is_name(name) {
        return Err(format!(
            "\"{name}\" is not a name: a name is a letter, then letters, digits and _, {} bytes at most",
            crate::limits::NAME_BYTES
        ));
    }
    if name == old {
        return Ok(Vec::new());
    }
    let texts = texts(open.workspace, &references);
    lost(&texts, &[&old, name])?;
    let changed = changed(&texts, &references, name);
    would_do(open.workspace, &changed, &old, name)?;
    Ok(edits(open.workspace, &references, name))
}

fn may_be_renamed(references: &References, word: &str) -> Result<(), String> {
    match references.given {
        true => Err(format!("{word} is a name that the language gives, and cannot be another")),
        false => Ok(()),
    }
}

/// The texts of all files in which it is named.
fn texts(workspace: &Workspace, references: &References) -> IndexMap<Arc<str>, Arc<str>> {
    let mut texts: IndexMap<Arc<str>, Arc<str>> = IndexMap::new();
    for place in &references.places {
        let text = workspace.analyses().values().find_map(|analysis| analysis.text(&place.path));
        if let Some(text) = text {
            texts.entry(place.path.clone()).or_insert_with(|| text.clone());
        }
    }
    texts
}

/// Refuses where the name stands in a line that cannot be read: it would stay as it is there.
fn lost(texts: &IndexMap<Arc<str>, Arc<str>>, names: &[&str]) -> Result<(), String> {
    for (path, text) in texts {
        let parsed = parse_text(text, 0, FileId(0));
        let is_of = |word: &str, name: &str| {
            word.strip_prefix(name).is_some_and(|rest| rest.is_empty() || rest.starts_with('_'))
        };
        let lost = |name: &&&str| parsed.lost_words.iter().any(|word| is_of(word, name));
        if let Some(name) = names.iter().find(lost) {
            let file = path.rsplit('/').next().unwrap_or(path);
            return Err(format!(
                "{name} is in a line of {file} that cannot be read; fix that line first, so that it can change too"
            ));
        }
    }
    Ok(())
}

fn changed(
    texts: &IndexMap<Arc<str>, Arc<str>>,
    references: &References,
    name: &str,
) -> IndexMap<Arc<str>, String> {
    let mut changed: IndexMap<Arc<str>, String> =
        texts.iter().map(|(path, text)| (path.clone(), text.to_string())).collect();
    for place in references.places.iter().rev() {
        if let Some(text) = changed.get_mut(&place.path)
            && text.get(place.lo..place.hi).is_some()
        {
            text.replace_range(place.lo..place.hi, name);
        }
    }
    changed
}

/// Compiles every open garment as it would be, and refuses where that says anything new, or where
/// a name would mean something else.
fn would_do(
    workspace: &Workspace,
    changed: &IndexMap<Arc<str>, String>,
    old: &str,
    name: &str,
) -> Result<(), String> {
    let meanings = |analysis: &Analysis| -> Vec<Symbol> {
        analysis.compiled.garment.name_uses.iter().map(|one| one.symbol).collect()
    };
    for (first, before) in workspace.analyses() {
        if !before.paths.iter().any(|path| changed.contains_key(path)) {
            continue;
        }
        let Some(after) = workspace.compile_with(changed, first) else { continue };
        let mut slugs: Vec<&str> = before.compiled.diagnostics.iter().map(|one| one.slug()).collect();
        for one in &after.compiled.diagnostics {
            match slugs.iter().position(|slug| *slug == one.slug()) {
                Some(at) => drop(slugs.swap_remove(at)),
                // A pin tells that the base has changed, which is so.
                None if one.is(&catalogue::FILE_CHANGED) => {}
                None => return Err(format!("{old} cannot be called {name}: {}", one.title)),
            }
        }
        if meanings(before) != meanings(&after) {
            return Err(format!(
                "{old} cannot be called {name}: {name} means something else already where {old} is used"
            ));
        }
    }
    Ok(())
}

fn edits(workspace: &Workspace, references: &References, name: &str) -> Vec<TextDocumentEdit> {
    let mut by_file: IndexMap<Arc<str>, Vec<&Place>> = IndexMap::new();
    for place in &references.places {
        by_file.entry(place.path.clone()).or_default().push(place);
    }
    let edits = by_file.into_iter().filter_map(|(path, places)| {
        let analysis = workspace.analyses().values().find(|analysis| analysis.file(&path).is_some())?;
        let edit = |place: &&Place| {
            Some(OneOf::Left(TextEdit { range: analysis.range(place)?, new_text: name.to_owned() }))
        };
        document_edit(workspace, &path, places.iter().filter_map(edit).collect())
    });
    edits.collect()
}

/// Edits of one file, for the version that is open.
pub(super) fn document_edit(
    workspace: &Workspace,
    path: &str,
    edits: Vec<OneOf<TextEdit, lsp_types::AnnotatedTextEdit>>,
) -> Option<TextDocumentEdit> {
    let version = workspace.documents().get(path).map(|document| document.version);
    let text_document =
        OptionalVersionedTextDocumentIdentifier { uri: uri_in(workspace.documents(), path)?, version };
    Some(TextDocumentEdit { text_document, edits })
}
