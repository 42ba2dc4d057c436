//! The chain: a first file, the bases it varies, and the libraries that any of them uses.

use crate::limits;
use crate::report::catalogue::Entry;
use crate::report::{Diagnostic, Remedy, catalogue};
use crate::source::{FileId, LoadError, Loader, SourceMap, Span, pin_of};
use crate::syntax::tree::{File, Pin, Statement, StatementNode, Text};
use indexmap::IndexMap;
use std::borrow::Cow;
use std::sync::Arc;

/// A file of the chain, read and parsed.
#[derive(Clone, Debug)]
pub struct ChainFile {
    /// Which file.
    pub id: FileId,
    /// All of it.
    pub span: Span,
    /// What it says.
    pub tree: File,
    /// What it is, by its first heading; none where it has no heading (already reported).
    pub kind: Option<FileKind>,
    /// Its mistakes of reading have lost statements: what seems to be missing may be among them.
    pub damaged: bool,
    /// The loader's name for it.
    key: Arc<str>,
}

/// What a file is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileKind {
    /// `garment "…"`
    Garment,
    /// `variation "…" of "…"`
    Variation,
    /// `library "…"`
    Library,
}

impl FileKind {
    /// "a garment", for messages.
    pub fn words(self) -> &'static str {
        match self {
            FileKind::Garment => "a garment",
            FileKind::Variation => "a variation",
            FileKind::Library => "a library",
        }
    }
}

/// How a file came into the chain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Link {
    /// The path as the other file writes it, quotes included.
    pub span: Span,
    /// By `use`; otherwise by `of`.
    pub used: bool,
}

/// Every file that makes up one garment.
#[derive(Clone, Debug, Default)]
pub struct LoadedChain {
    /// All of them, by id.
    pub files: IndexMap<FileId, ChainFile>,
    /// The first file, its base, that one's base and so on. Empty where the first could not be
    /// had.
    pub lineage: Vec<FileId>,
    /// Which library each `use` means, by the span of its path.
    pub used: IndexMap<Span, FileId>,
    /// How each file but the first came into the chain.
    pub links: IndexMap<FileId, Link>,
    /// A file of the chain could not be had: what it would have said is not known.
    pub incomplete: bool,
    /// Words inside damaged statements: a name among them may have been declared there.
    pub lost_words: Vec<Arc<str>>,
    /// Every mistake of reading and parsing.
    pub mistakes: Vec<Diagnostic>,
}

/// Loads the file at `first_path`, the bases it varies and the libraries that they use.
///
/// The first file is the first of the map. What cannot be had is reported in the chain's mistakes,
/// and the chain is then `incomplete`. Where not even the first can be had, an empty text stands
/// for it in the map, so that the mistake has a place.
pub fn load(loader: &dyn Loader, map: &mut SourceMap, first_path: &str) -> LoadedChain {
    let mut loading = Loading { loader, map, chain: LoadedChain::default(), by_key: IndexMap::new() };
    loading.bases(first_path);
    loading.libraries();
    loading.chain
}

struct Loading<'a> {
    loader: &'a dyn Loader,
    map: &'a mut SourceMap,
    chain: LoadedChain,
    /// None for a file that was found and is not usable (already reported).
    by_key: IndexMap<Arc<str>, Option<FileId>>,
}

/// Where a file is named: by whom, in which words, with which pin.
struct Naming<'a> {
    from: Arc<str>,
    path: &'a Text,
    pin: Option<&'a Pin>,
    used: bool,
}

impl Loading<'_> {
    fn bases(&mut self, first_path: &str) {
        let Some(first) = self.first(first_path) else {
            self.chain.incomplete = true;
            return;
        };
        let mut at = first;
        loop {
            self.chain.lineage.push(at);
            let Some(file) = self.chain.files.get(&at) else { return };
            let Some(variation) = file.tree.statements.iter().find_map(|statement| match &statement.node {
                StatementNode::Variation(variation) => Some(variation.clone()),
                _ => None,
            }) else {
                return;
            };
            if file.kind != Some(FileKind::Variation) {
                return;
            }
            let naming = Naming {
                from: file.key.clone(),
                path: &variation.base,
                pin: variation.pin.as_ref(),
                used: false,
            };
            let Some(base) = self.named(&naming) else {
                self.chain.incomplete = true;
                return;
            };
            if self.chain.lineage.contains(&base) {
                self.circle(base, variation.base.span);
                self.chain.incomplete = true;
                return;
            }
            let kind = self.chain.files.get(&base).and_then(|file| file.kind);
            if kind == Some(FileKind::Library) {
                let title =
                    format!("\"{}\" is a library, and a library cannot be a base", variation.base.text);
                let mistake = Diagnostic::new(&catalogue::FILE_KIND, variation.base.span, title)
                    .label("varied here")
                    .also(self.heading_of(base), "a library")
                    .help("name a garment or a variation after of; take a library in with use \"…\"");
                self.chain.mistakes.push(mistake);
                self.chain.incomplete = true;
                return;
            }
            self.chain.links.entry(base).or_insert(Link { span: variation.base.span, used: false });
            at = base;
        }
    }

    fn libraries(&mut self) {
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
                let naming = Naming { from: key.clone(), path: &one.path, pin: one.pin.as_ref(), used: true };
                match self.named(&naming) {
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
        if let Some(kind @ (FileKind::Garment | FileKind::Variation)) = kind {
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
        self.chain.links.entry(library).or_insert(Link { span: path.span, used: true });
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

    fn first(&mut self, path: &str) -> Option<FileId> {
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
    fn named(&mut self, naming: &Naming) -> Option<FileId> {
        let what = if naming.used { "library" } else { "base" };
        let path = &naming.path.text;
        let loaded = match self.loader.load(Some(&naming.from), path) {
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
            None if self.by_key.len() >= limits::FILES => {
                let title = format!("this garment is made up of more than {} files", limits::FILES);
                let mistake = Diagnostic::new(&catalogue::FILE_TOO_MANY, naming.path.span, title)
                    .label("this would be one more")
                    .help("write some of the variations as one");
                self.chain.mistakes.push(mistake);
                return None;
            }
            None => self.parse(loaded.key, &loaded.name, loaded.bytes, Some(naming.path.span))?,
        };
        if let Some(pin) = naming.pin {
            self.compare_pin(pin, id, what, naming.path);
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
        let parsed = crate::syntax::parse(self.map, id);
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
        self.chain.files.insert(id, ChainFile { id, span, tree: parsed.file, kind, damaged, key });
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

    fn circle(&mut self, again: FileId, closing: Span) {
        let from = self.chain.lineage.iter().position(|&id| id == again).unwrap_or(0);
        let round = self.chain.lineage.get(from..).unwrap_or_default();
        let name = |id: FileId| self.map.file(id).name.to_string();
        let mut names: Vec<String> = round.iter().map(|&id| name(id)).collect();
        names.push(name(again));
        let title = match round.len() {
            1 => format!("{} is a variation of itself", name(again)),
            _ => format!("the bases go round in a circle: {}", names.join(" is of ")),
        };
        let mut mistake =
            Diagnostic::new(&catalogue::FILE_CIRCLE, closing, title).label("this closes the circle");
        for id in round.iter().skip(1) {
            if let Some(link) = self.chain.links.get(id) {
                mistake = mistake.also(link.span, "leads on from here");
            }
        }
        self.chain.mistakes.push(mistake.help("one of them must be a garment and not a variation"));
    }

    fn heading_of(&self, id: FileId) -> Span {
        let heading = self.chain.files.get(&id).and_then(|file| headings(&file.tree).next());
        heading.map_or(self.map.file(id).span(), |(statement, _)| statement.span)
    }

    /// What a file is by its heading, and whatever is wrong with that.
    fn kind_of(&mut self, tree: &File, reported: &[Diagnostic]) -> Option<FileKind> {
        const HELP: &str = "begin the file with garment \"…\", variation \"…\" of \"….fus\" or library \"…\"";
        let mut all = headings(tree);
        let Some((heading, kind)) = all.next() else {
            let file = self.map.file(tree.id).span();
            let first = tree.statements.first().map_or(file.hi, |statement| statement.span.lo);
            // A heading that could not be read is reported already.
            if !reported.iter().any(|mistake| mistake.span().lo <= first) {
                let place =
                    tree.statements.first().map_or(Span::new(file.lo, file.lo), |statement| statement.span);
                let mistake =
                    Diagnostic::new(&catalogue::FILE_HEADING, place, "the file does not say what it is");
                self.chain.mistakes.push(mistake.label("a heading must come before this").help(HELP));
            }
            return None;
        };
        if let Some(first) = tree.statements.first().filter(|first| first.span != heading.span) {
            let mistake = Diagnostic::new(
                &catalogue::FILE_HEADING,
                heading.span,
                "the heading is not the file's first line",
            )
            .label("the heading")
            .also(first.span, "comes before it")
            .help("move the heading to the top");
            self.chain.mistakes.push(mistake);
        }
        for (second, _) in all {
            let mistake = Diagnostic::new(&catalogue::FILE_HEADING, second.span, "the file has two headings")
                .label("a second heading")
                .also(heading.span, "the first")
                .help("one garment per file: keep one heading, and give the other a file of its own");
            self.chain.mistakes.push(mistake);
        }
        Some(kind)
    }
}

fn headings(tree: &File) -> impl Iterator<Item = (&Statement, FileKind)> {
    tree.statements.iter().filter_map(|statement| match statement.node {
        StatementNode::Garment(_) => Some((statement, FileKind::Garment)),
        StatementNode::Variation(_) => Some((statement, FileKind::Variation)),
        StatementNode::Library(_) => Some((statement, FileKind::Library)),
        _ => None,
    })
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
