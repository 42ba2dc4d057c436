use super::Span;
use std::sync::Arc;

/// One file of a [`SourceMap`].
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct FileId(pub u32);

/// A text and what it is called.
#[derive(Clone, Debug)]
pub struct SourceFile {
    /// The name shown to people: the path as the maker would write it.
    pub name: Arc<str>,
    /// The whole text, valid UTF-8.
    pub text: Arc<str>,
    /// Offset of its first byte among all files.
    pub base: u32,
}

impl SourceFile {
    /// The file's own span.
    pub fn span(&self) -> Span {
        Span::new(self.base, self.base + self.text.len() as u32)
    }
}

/// Every text of a run, append-only.
#[derive(Clone, Debug, Default)]
pub struct SourceMap {
    files: Vec<SourceFile>,
}

impl SourceMap {
    /// Adds a text; its spans start where the last file's ended, with one byte between, so that
    /// no offset belongs to two files.
    ///
    /// The caller keeps each text below [`crate::limits::FILE_BYTES`] and their number below
    /// [`crate::limits::FILES`], so offsets fit `u32`.
    pub fn add(&mut self, name: impl Into<Arc<str>>, text: impl Into<Arc<str>>) -> FileId {
        let base = self.files.last().map_or(0, |last| last.span().hi + 1);
        self.files.push(SourceFile { name: name.into(), text: text.into(), base });
        FileId((self.files.len() - 1) as u32)
    }

    /// All files, in the order they were added.
    pub fn files(&self) -> &[SourceFile] {
        &self.files
    }

    /// The file of that id.
    pub fn file(&self, id: FileId) -> &SourceFile {
        &self.files[id.0 as usize]
    }

    /// Which file a span stands in.
    pub fn file_of(&self, span: Span) -> FileId {
        let after = self.files.partition_point(|file| file.base <= span.lo);
        FileId(after.saturating_sub(1) as u32)
    }

    /// The text that a span covers.
    pub fn text(&self, span: Span) -> &str {
        let file = self.file(self.file_of(span));
        let (lo, hi) = ((span.lo - file.base) as usize, (span.hi - file.base) as usize);
        file.text.get(lo..hi).unwrap_or("")
    }

    /// The whole line in which a span starts, without its end.
    pub fn line_of(&self, span: Span) -> Span {
        let file = self.file(self.file_of(span));
        let at = (span.lo - file.base) as usize;
        let (before, after) = (file.text.get(..at).unwrap_or(""), file.text.get(at..).unwrap_or(""));
        let from = before.rfind('\n').map_or(0, |newline| newline + 1);
        let to = at + after.find(['\n', '\r']).unwrap_or(after.len());
        Span::new(file.base + from as u32, file.base + to as u32)
    }

    /// File name, line and column of a span's start; both count from 1, columns in characters.
    pub fn place(&self, span: Span) -> (&str, usize, usize) {
        let file = self.file(self.file_of(span));
        let at = ((span.lo - file.base) as usize).min(file.text.len());
        let before = &file.text.as_bytes()[..at];
        let line_start = before.iter().rposition(|&byte| byte == b'\n').map_or(0, |nl| nl + 1);
        let line = before.iter().filter(|&&byte| byte == b'\n').count() + 1;
        let column = file.text.get(line_start..at).map_or(1, |text| text.chars().count() + 1);
        (&file.name, line, column)
    }
}
