use super::analysis::{Analysis, Place};
use super::diagnostics::to_lsp;
use super::document::{Document, Documents, uri_in};
use super::line_index::LineIndex;
use super::overlay::{Disk, folder_of};
use super::uri::path_of;
use crate::kept::Kept;
use crate::source::Span;
use crate::syntax::{Mark, Parsed};
use indexmap::{IndexMap, IndexSet};
use lsp_types::{Diagnostic, Location, Position, TextDocumentContentChangeEvent, Uri};
use std::sync::Arc;

/// The open documents, and the garment that begins in each. Of a text that was changed only that is remembered
/// which it still says.
pub struct Workspace {
    disk: Box<dyn Disk>,
    documents: Documents,
    /// The garment that begins in each open document.
    analyses: IndexMap<Arc<str>, Analysis>,
    /// What was worked out of each.
    kept: IndexMap<Arc<str>, Kept>,
    /// OpenDocument documents whose garment is to be compiled again.
    stale: IndexSet<Arc<str>>,
    /// Some garment was compiled, or put away, since the diagnostics were last asked for.
    changed: bool,
}

impl Workspace {
    /// An empty workspace.
    pub fn new(disk: impl Disk + 'static) -> Self {
        Workspace {
            disk: Box::new(disk),
            documents: IndexMap::new(),
            analyses: IndexMap::new(),
            kept: IndexMap::new(),
            stale: IndexSet::new(),
            changed: false,
        }
    }

    /// The path of a file as the workspace knows it; of what is no file here, its URI.
    pub fn path(&self, uri: &Uri) -> Arc<str> {
        // An open document keeps its path, whatever becomes of its file.
        if let Some((path, _)) = self.documents.iter().find(|(_, document)| document.uri == *uri) {
            return path.clone();
        }
        match path_of(uri.as_str()) {
            Some(path) => self.disk.real(&path).into(),
            None => uri.as_str().into(),
        }
    }

    /// Takes a document on, or the whole of its text again.
    pub fn open(&mut self, uri: Uri, text: String, version: i32) {
        let path = self.path(&uri);
        let lines = LineIndex::new(&text);
        self.documents.insert(path.clone(), Document { uri, text: text.into(), version, lines });
        self.stale.insert(path.clone());
        self.invalidate(&path);
    }

    /// Makes the editor's changes, one after the other; false for a document that is not open.
    pub fn change(&mut self, uri: &Uri, changes: Vec<TextDocumentContentChangeEvent>, version: i32) -> bool {
        let path = self.path(uri);
        let Some(document) = self.documents.get_mut(&path) else { return false };
        for change in changes {
            let text = match change.range {
                None => change.text,
                Some(range) => {
                    let lo = document.lines.offset(&document.text, range.start);
                    let hi = document.lines.offset(&document.text, range.end);
                    let (lo, hi) = (lo.min(hi), lo.max(hi));
                    let mut text = String::with_capacity(document.text.len() + change.text.len());
                    text.push_str(document.text.get(..lo).unwrap_or_default());
                    text.push_str(&change.text);
                    text.push_str(document.text.get(hi..).unwrap_or_default());
                    text
                }
            };
            document.lines = LineIndex::new(&text);
            document.text = text.into();
        }
        document.version = version;
        self.invalidate(&path);
        true
    }

    /// Puts a document away.
    pub fn close(&mut self, uri: &Uri) {
        let path = self.path(uri);
        self.documents.shift_remove(&path);
        self.analyses.shift_remove(&path);
        self.kept.shift_remove(&path);
        self.stale.shift_remove(&path);
        self.changed = true;
        self.invalidate(&path);
    }

    /// Something may have changed on the disk.
    pub fn disk_changed(&mut self) {
        self.stale.extend(self.documents.keys().cloned());
    }

    /// Garments that the file is part of, or may be, are to be compiled again.
    fn invalidate(&mut self, path: &str) {
        for (first, analysis) in &self.analyses {
            // One of whose files is not there: this may be it.
            let incomplete = analysis.compiled.diagnostics.iter().any(|one| one.kind.family() == "file");
            if incomplete || analysis.file(path).is_some() {
                self.stale.insert(first.clone());
            }
        }
    }

    /// Compiles whatever is to be compiled again; true if there may be other messages than when
    /// this was last asked.
    pub fn recompile(&mut self) -> bool {
        self.recompile_stale();
        std::mem::take(&mut self.changed)
    }

    /// The same for those who ask for no messages.
    pub(super) fn recompile_stale(&mut self) {
        for path in self.stale.clone() {
            self.recompile_if_stale(&path);
        }
    }

    /// Compiles the garment of one open document if that is due. Other documents can wait.
    fn recompile_if_stale(&mut self, path: &str) {
        if self.stale.shift_remove(path) && self.documents.contains_key(path) {
            let kept = self.kept.entry(path.into()).or_default();
            let analysis = Analysis::new(&self.documents, &*self.disk, path, folder_of(path), kept);
            let before = self.analyses.insert(path.into(), analysis);
            // Whoever waits for an answer need not wait until all of the last one is put away.
            rayon::spawn(move || drop(before));
            self.changed = true;
        }
    }

    /// An open document and the garment that begins in it, as they are now.
    pub(super) fn up_to_date(&mut self, uri: &Uri) -> Option<OpenDocument<'_>> {
        let path = self.path(uri);
        self.recompile_if_stale(&path);
        let document = self.documents.get(&path)?;
        let analysis = self.analyses.get(&path)?;
        Some(OpenDocument { path, document, analysis, workspace: self })
    }

    /// An open document, and its text read by itself, which needs no compiling.
    pub(super) fn read_alone(&mut self, uri: &Uri) -> Option<(&Document, Parsed)> {
        let path = self.path(uri);
        let document = self.documents.get(&path)?;
        let kept = self.kept.entry(path.clone()).or_default();
        Some((document, kept.texts.parse_alone(&path, &document.text)))
    }

    /// The words of an open document's text that could be read.
    pub(super) fn marks(&mut self, uri: &Uri) -> Option<Vec<Mark>> {
        let path = self.path(uri);
        let document = self.documents.get(&path)?;
        let kept = self.kept.entry(path.clone()).or_default();
        Some(kept.texts.marks(&path, &document.text))
    }

    /// An open document's text alone, which needs no compiling.
    pub fn document(&self, uri: &Uri) -> Option<&Document> {
        self.documents.get(&self.path(uri))
    }

    /// Every open document, by path.
    pub fn documents(&self) -> &Documents {
        &self.documents
    }

    /// The garments of the open documents, by their first file's path.
    pub fn analyses(&self) -> &IndexMap<Arc<str>, Analysis> {
        &self.analyses
    }

    /// The garment in a file of another's chain, in that one's folder.
    pub(super) fn compile_beside(&self, path: &str, folder: &str) -> Analysis {
        Analysis::new(&self.documents, &*self.disk, path, folder, &mut Kept::default())
    }

    /// The same with other texts in place of some.
    pub(super) fn compile_with(&self, texts: &IndexMap<Arc<str>, String>, first: &str) -> Option<Analysis> {
        let mut documents = self.documents.clone();
        for (path, text) in texts {
            let (uri, lines) = (uri_in(&documents, path)?, LineIndex::new(text));
            documents.insert(path.clone(), Document { uri, text: text.as_str().into(), version: 0, lines });
        }
        Some(Analysis::new(&documents, &*self.disk, first, folder_of(first), &mut Kept::default()))
    }

    /// All messages by the file of their first place, of every open document and every file that
    /// one of their garments is made of. What several garments say alike is known once.
    pub fn diagnostics(&self) -> IndexMap<Arc<str>, Vec<Diagnostic>> {
        let mut by_file: IndexMap<Arc<str>, Vec<Diagnostic>> = IndexMap::new();
        let mut known: IndexSet<(Place, &str, &str)> = IndexSet::new();
        for path in self.documents.keys() {
            by_file.insert(path.clone(), Vec::new());
        }
        // What a file says by itself comes before what it says as a part of others.
        for own in [true, false] {
            for (first, analysis) in &self.analyses {
                for path in &analysis.paths {
                    by_file.entry(path.clone()).or_default();
                }
                for one in &analysis.compiled.diagnostics {
                    let Some(place) = analysis.place(one.span()) else { continue };
                    if own != (place.path == *first) {
                        continue;
                    }
                    let path = place.path.clone();
                    if known.insert((place, one.slug(), &one.title))
                        && let Some(message) = to_lsp(&self.documents, analysis, one)
                    {
                        by_file.entry(path).or_default().push(message);
                    }
                }
            }
        }
        for messages in by_file.values_mut() {
            messages.sort_by_key(|message| (message.range.start, message.range.end));
        }
        by_file
    }
}

/// An open document, the garment that begins in it, and everything around it.
pub(super) struct OpenDocument<'d> {
    pub path: Arc<str>,
    pub document: &'d Document,
    pub analysis: &'d Analysis,
    pub workspace: &'d Workspace,
}

impl OpenDocument<'_> {
    /// The byte at a position of the document.
    pub fn offset(&self, position: Position) -> usize {
        self.document.lines.offset(&self.document.text, position)
    }

    /// Where a span of the garment stands.
    pub fn location(&self, span: Span) -> Option<Location> {
        self.analysis.location(&self.workspace.documents, span)
    }
}
