use super::document::{Documents, uri_in};
use super::line_index::LineIndex;
use super::overlay::{Disk, Overlay, whole};
use crate::compile::{Compiled, compile_again};
use crate::garment::{NameUse, Symbol};
use crate::kept::Kept;
use crate::source::{FileId, Span};
use lsp_types::{Location, Range};
use std::sync::Arc;

/// A garment, compiled from the open documents and the disk, and where its files are.
#[derive(Clone, Debug)]
pub struct Analysis {
    /// The garment and what is to be said of it.
    pub compiled: Compiled,
    /// The path of each file, by its id.
    pub paths: Vec<Arc<str>>,
    lines: Vec<LineIndex>,
}

/// A place in a file, in bytes of its own text.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Place {
    /// The file.
    pub path: Arc<str>,
    /// First byte.
    pub lo: usize,
    /// One past the last byte.
    pub hi: usize,
}

impl Analysis {
    /// Compiles the garment in the file at `first`; nothing outside of `folder` is read.
    pub(super) fn new(
        documents: &Documents,
        disk: &dyn Disk,
        first: &str,
        folder: &str,
        kept: &mut Kept,
    ) -> Self {
        let overlay = Overlay { documents, disk: disk.loader(first, folder), first, folder };
        let name = first.rsplit_once('/').map_or(first, |(_, name)| name);
        let compiled = compile_again(&overlay, name, kept);
        let files = compiled.map.files();
        let path = |file: &crate::source::SourceFile| -> Arc<str> { whole(folder, &file.name).into() };
        let mut paths: Vec<Arc<str>> = files.iter().map(path).collect();
        // A first file that cannot be read is called by the words it was asked for with.
        if let Some(own) = paths.first_mut() {
            *own = first.into();
        }
        let lines = files.iter().map(|file| LineIndex::new(&file.text)).collect();
        Analysis { compiled, paths, lines }
    }

    /// The id of a file of the chain.
    pub fn file(&self, path: &str) -> Option<FileId> {
        self.paths.iter().position(|own| &**own == path).map(|at| FileId(at as u32))
    }

    /// The text of a file of the chain.
    pub fn text(&self, path: &str) -> Option<&Arc<str>> {
        self.file(path).map(|id| &self.compiled.map.file(id).text)
    }

    /// Where a span stands.
    pub fn place(&self, span: Span) -> Option<Place> {
        let id = self.compiled.map.file_of(span);
        let file = self.compiled.map.files().get(id.0 as usize)?;
        let inside = |offset: u32| (offset.saturating_sub(file.base) as usize).min(file.text.len());
        let path = self.paths.get(id.0 as usize)?.clone();
        Some(Place { path, lo: inside(span.lo), hi: inside(span.hi.max(span.lo)) })
    }

    /// The same as an editor counts.
    pub fn range(&self, place: &Place) -> Option<Range> {
        let id = self.file(&place.path)?;
        let text = &self.compiled.map.file(id).text;
        Some(self.lines.get(id.0 as usize)?.range(text, place.lo, place.hi))
    }

    /// Where a span stands, for an editor.
    pub fn location(&self, documents: &Documents, span: Span) -> Option<Location> {
        let place = self.place(span)?;
        Some(Location::new(uri_in(documents, &place.path)?, self.range(&place)?))
    }

    /// The names that stand at a byte of a file, or that end there: several where several pieces
    /// share the word.
    pub fn names_at(&self, path: &str, offset: usize) -> Vec<NameUse> {
        let Some(id) = self.file(path) else { return Vec::new() };
        let at = self.compiled.map.file(id).base + offset as u32;
        let uses = &self.compiled.garment.name_uses;
        let before = uses.partition_point(|one| one.span.lo <= at);
        let near = |one: &&NameUse| one.span.lo <= at && at <= one.span.hi;
        // Names are short; what starts long before cannot reach here.
        let from = uses.partition_point(|one| one.span.lo + (crate::limits::NAME_BYTES as u32) < at);
        let found: Vec<NameUse> =
            uses.get(from..before).unwrap_or_default().iter().filter(near).copied().collect();
        let covers = |one: &&NameUse| at < one.span.hi;
        match found.iter().any(|one| covers(&one)) {
            true => found.iter().filter(covers).copied().collect(),
            false => found,
        }
    }

    /// Where the name is declared that this one is: its own, or the one that a band, a facing or a placket has, after which
    /// what it stands for is called.
    pub fn given_at(&self, symbol: Symbol) -> Option<Place> {
        let garment = &self.compiled.garment;
        let (name, span) = garment.declared(garment.origin(symbol));
        let place = self.place(span)?;
        let text = self.text(&place.path)?.get(place.lo..place.hi)?;
        let is_after = || name.strip_prefix(text).is_some_and(|rest| rest.starts_with('_'));
        (same_word(text, &name) || is_after()).then_some(place)
    }

    /// Where a name is declared in the text; none of what is never written there.
    pub fn declared(&self, symbol: Symbol) -> Option<Place> {
        let garment = &self.compiled.garment;
        let (name, span) = garment.declared(garment.origin(symbol));
        let place = self.place(span)?;
        let text = self.text(&place.path)?.get(place.lo..place.hi)?;
        same_word(text, &name).then_some(place)
    }
}

/// Whether a word of a text is that name, which is in composed form.
pub(super) fn same_word(text: &str, name: &str) -> bool {
    use unicode_normalization::UnicodeNormalization;
    text == name || text.nfc().eq(name.chars())
}
