//! Files are read, each once, and what cannot be had is told.

use super::{ChainFile, FileKind, Link, LinkWord, Loading};
use crate::limits;
use crate::report::catalogue::Entry;
use crate::report::{Diagnostic, Remedy, catalogue};
use crate::source::{FileId, LoadError, Span, pin_of};
use crate::syntax::tree::{NamedFile, Pin, StatementNode, Text};
use std::borrow::Cow;
use std::sync::Arc;

impl Loading<'_> {
    /// The libraries that each file of the lineage uses.
    pub(super) fn libraries(&mut self) {
        for id in self.chain.lineage.clone() {
            let Some(file) = self.chain.files.get(&id) else { continue };
            let (key, kind) = (file.key.clone(), file.kind);
            let uses: Vec<_> = file
                .tree
                .statements
                .iter()
                .filter_map(|statement| match &statement.node {
                    StatementNode::Use(one) => Some((statement.span, one.clone())),
                    _ => None,
                })
                .collect();
            for (span, one) in uses {
                if kind == Some(FileKind::Library) {
                    self.library_uses(id, span);
                    continue;
                }
                match self.named(&key, &one, "library") {
                    Some(library) => self.take_in(id, library, &one.path),
                    None => self.chain.incomplete = true,
                }
            }
        }
    }

    fn take_in(&mut self, user: FileId, library: FileId, path: &Text) {
        if library == user {
            let mistake =
                Diagnostic::new(&catalogue::FILE_CIRCLE, path.span, format!("\"{}\" uses itself", path.text))
                    .label("this is the file that you are in")
                    .help("remove this line");
            self.chain.mistakes.push(mistake);
            return;
        }
        let kind = self.chain.files.get(&library).and_then(|file| file.kind);
        if let Some(kind @ (FileKind::Garment | FileKind::Variation | FileKind::Fitting)) = kind {
            let title = format!("\"{}\" is {}, and only a library can be used", path.text, kind.words());
            let mistake = Diagnostic::new(&catalogue::FILE_KIND, path.span, title)
                .label("used here")
                .also(self.heading_of(library), kind.words())
                .help(
                    "put the fabrics, sizes and notions that both need into a library of their own, \
                     or make this file a variation of that one",
                );
            self.chain.mistakes.push(mistake);
            self.chain.incomplete = true;
            return;
        }
        self.chain.used.insert(path.span, library);
        let seen = self.chain.links.contains_key(&library);
        self.chain.links.entry(library).or_insert(Link { span: path.span, by: LinkWord::Use });
        let uses: Vec<Span> = self.chain.files.get(&library).map_or(Vec::new(), |file| {
            let statements = file.tree.statements.iter();
            statements.filter(|one| matches!(one.node, StatementNode::Use(_))).map(|one| one.span).collect()
        });
        for span in uses.into_iter().filter(|_| !seen) {
            self.library_uses(library, span);
        }
    }

    fn library_uses(&mut self, library: FileId, span: Span) {
        let mistake = Diagnostic::new(&catalogue::FILE_KIND, span, "a library uses no other library")
            .label("used here")
            .also(self.heading_of(library), "this is a library")
            .help("let the garment use both");
        self.chain.mistakes.push(mistake);
    }

    pub(super) fn first(&mut self, path: &str) -> Option<FileId> {
        match self.loader.load(None, path) {
            Ok(loaded) if loaded.bytes.len() > limits::FILE_BYTES => {
                self.first_refused(path, &LoadError::TooLarge)
            }
            Ok(loaded) => self.parse(loaded.key, &loaded.name, loaded.bytes, None),
            Err(error) => self.first_refused(path, &error),
        }
    }

    fn first_refused(&mut self, path: &str, error: &LoadError) -> Option<FileId> {
        let id = self.map.add(path, "");
        let span = self.map.file(id).span();
        let mistake = refused(path, error, "file", span);
        let help =
            mistake.help.clone().unwrap_or_else(|| "paths start from the folder that you are in".to_owned());
        self.chain.mistakes.push(mistake.help(help));
        None
    }

    /// The file that another names, loaded now or before; none where it cannot be had (reported).
    pub(super) fn named(&mut self, from: &str, naming: &NamedFile, what: &str) -> Option<FileId> {
        let path = &naming.path.text;
        let loaded = match self.loader.load(Some(from), path) {
            Ok(loaded) if loaded.bytes.len() > limits::FILE_BYTES => Err(LoadError::TooLarge),
            other => other,
        };
        let loaded = match loaded {
            Ok(loaded) => loaded,
            Err(error) => {
                let mistake = refused(path, &error, what, naming.path.span).label("named here");
                let help = mistake.help.clone().unwrap_or_else(|| {
                    let (file, ..) = self.map.place(naming.path.span);
                    format!("paths start from the folder of the file that names them, here {file}")
                });
                self.chain.mistakes.push(mistake.help(help));
                return None;
            }
        };
        let id = match self.by_key.get(&loaded.key) {
            Some(known) => (*known)?,
            // One message is enough: it stands where the first file was too many.
            None if self.too_many => return None,
            None if self.by_key.len() >= limits::FILES => {
                self.too_many = true;
                let title = format!("this garment is made up of more than {} files", limits::FILES);
                let mistake = Diagnostic::new(&catalogue::FILE_TOO_MANY, naming.path.span, title)
                    .label("this would be one more")
                    .help("write some of the variations as one");
                self.chain.mistakes.push(mistake);
                return None;
            }
            None => self.parse(loaded.key, &loaded.name, loaded.bytes, Some(naming.path.span))?,
        };
        if let Some(pin) = &naming.pin {
            self.compare_pin(pin, id, what, &naming.path);
        }
        Some(id)
    }

    fn parse(&mut self, key: Arc<str>, name: &str, bytes: Vec<u8>, named: Option<Span>) -> Option<FileId> {
        let text = match String::from_utf8(bytes) {
            Ok(text) => text,
            Err(error) => {
                self.not_text(key, name, error, named);
                return None;
            }
        };
        let id = self.map.add(name, text);
        self.by_key.insert(key.clone(), Some(id));
        let parsed = match &mut self.kept {
            Some(kept) => kept.parse(self.map, id, &key),
            None => crate::syntax::parse(self.map, id),
        };
        if parsed.mistakes.iter().any(|one| one.is(&catalogue::FILE_UNMERGED)) {
            self.chain.mistakes.extend(parsed.mistakes);
            self.by_key.insert(key, None);
            return None;
        }
        self.chain.lost_words.extend(parsed.lost_words);
        let damaged = !parsed.mistakes.is_empty();
        // A damaged line that names a file may be the one that brings it in.
        self.chain.incomplete |= parsed.mistakes.iter().any(|reported| {
            reported.kind.family() == "syntax"
                && self.map.text(self.map.line_of(reported.span())).contains(".fus\"")
        });
        let kind = self.kind_of(&parsed.file, &parsed.mistakes);
        self.chain.mistakes.extend(parsed.mistakes);
        let span = self.map.file(id).span();
        self.chain
            .files
            .insert(id, ChainFile { id, name: name.into(), span, tree: parsed.file, kind, damaged, key });
        Some(id)
    }

    /// Only what stands before the first byte that is no text is shown.
    fn not_text(
        &mut self,
        key: Arc<str>,
        name: &str,
        error: std::string::FromUtf8Error,
        named: Option<Span>,
    ) {
        let valid = error.utf8_error().valid_up_to();
        let bytes = error.into_bytes();
        let before = String::from_utf8_lossy(bytes.get(..valid).unwrap_or_default()).into_owned();
        let id = self.map.add(name, before);
        self.by_key.insert(key, None);
        let end = self.map.file(id).span().hi;
        let place = Span::new(end, end);
        let (_, line, column) = self.map.place(place);
        let title =
            format!("{name} is not text: line {line}, column {column} holds bytes that are not UTF-8");
        let mut mistake = Diagnostic::new(&catalogue::FILE_NOT_TEXT, place, title)
            .label("readable up to here")
            .help("save the file as UTF-8 text");
        if let Some(named) = named {
            mistake = mistake.also(named, "named here");
        }
        self.chain.mistakes.push(mistake);
    }

    fn compare_pin(&mut self, pin: &Pin, id: FileId, what: &str, path: &Text) {
        let now = pin_of(&self.map.file(id).text);
        if now.starts_with(&pin.digits.to_lowercase()) {
            return;
        }
        let title = format!("the {what} \"{}\" has changed since it was pinned", path.text);
        let warning = Diagnostic::new(&catalogue::FILE_CHANGED, pin.span, title)
            .label(format!("pinned as {}, now {now}", pin.digits))
            .help(format!("check the changes, then write as of {now}"));
        self.chain.mistakes.push(warning);
    }
}

/// A path as it is reported: what no message can hold is left out of its middle.
fn shortened(path: &str) -> Cow<'_, str> {
    let letters = path.chars().count();
    if letters <= 200 {
        return path.into();
    }
    let (start, end) = (path.chars().take(80), path.chars().skip(letters - 80));
    start.chain(['…']).chain(end).collect::<String>().into()
}

/// The message about a file that cannot be had, with its way out where that does not depend on who asks.
fn refused(path: &str, error: &LoadError, what: &str, span: Span) -> Diagnostic {
    let path = shortened(path);
    let mistake = |kind: &'static Entry, title: String| Diagnostic::new(kind, span, title);
    match error {
        LoadError::Missing if path.contains('\\') => {
            mistake(&catalogue::FILE_MISSING, format!("there is no {what} \"{path}\""))
                .help(format!("write / between folders and files: \"{}\"", path.replace('\\', "/")))
        }
        LoadError::Missing => mistake(&catalogue::FILE_MISSING, format!("there is no {what} \"{path}\"")),
        LoadError::Outside => mistake(
            &catalogue::FILE_OUTSIDE,
            format!("the {what} \"{path}\" lies outside the folder of the first file"),
        )
        .help("move it into that folder")
        .remedy(Remedy::WidenRoot),
        LoadError::TooLarge => mistake(
            &catalogue::FILE_TOO_LARGE,
            format!("the {what} \"{path}\" is larger than {} MB", limits::FILE_BYTES / (1024 * 1024)),
        )
        .help("no garment needs so much text: is it the right file?"),
        LoadError::Unreadable(why) => {
            mistake(&catalogue::FILE_UNREADABLE, format!("the {what} \"{path}\" cannot be read: {why}"))
                .help("see that the file may be read, and that it is not a folder")
        }
    }
}
