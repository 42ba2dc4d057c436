//! The chain: a first file, the bases it varies, what is combined with them, and the libraries that any of
//! them uses.

mod circle;
mod heading;
mod lineage;
mod loading;

use crate::report::Diagnostic;
use crate::source::{FileId, Loader, SourceMap, Span};
use crate::syntax::KeptTexts;
use crate::syntax::tree::File;
pub(super) use heading::fitting_of;
use indexmap::{IndexMap, IndexSet};
use lineage::Named;
use std::sync::Arc;

/// A file of the chain, read and parsed.
#[derive(Clone, Debug)]
pub struct ChainFile {
    /// Which file.
    pub id: FileId,
    /// What it is called in messages.
    pub name: Arc<str>,
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
    /// `fitting "…" of "…"`
    Fitting,
    /// `library "…"`
    Library,
}

impl FileKind {
    /// "a garment", for messages.
    pub fn words(self) -> &'static str {
        match self {
            FileKind::Garment => "a garment",
            FileKind::Variation => "a variation",
            FileKind::Fitting => "a fitting",
            FileKind::Library => "a library",
        }
    }
}

/// How a file came into the chain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Link {
    /// The path as the other file writes it, quotes included.
    pub span: Span,
    /// After which word.
    pub by: LinkWord,
}

/// The word by which one file names another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LinkWord {
    /// `variation "…" of "…"`
    Of,
    /// `with "…"`
    With,
    /// `use "…"`
    Use,
}

/// Every file that makes up one garment.
#[derive(Clone, Debug, Default)]
pub struct LoadedChain {
    /// All of them, by id.
    pub files: IndexMap<FileId, ChainFile>,
    /// The first file, then what is merged before it: the last that it is combined with and what that
    /// brings along, and so on, its base, that one's base. Each file once, however many lead to it. Empty
    /// where the first could not be had.
    pub lineage: Vec<FileId>,
    /// Of each of them the files whose facts it goes by: its base, what it is combined with, and all that
    /// those go by.
    pub known: IndexMap<FileId, IndexSet<FileId>>,
    /// By file: the one whose unit is its own where it says none. A variation's is its base.
    pub units_from: IndexMap<FileId, FileId>,
    /// What was taken back, and where that is said.
    pub taken_back: IndexMap<FileId, Span>,
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

/// Loads the file at `first_path`, the bases it varies, what is combined with them, and the libraries that
/// they use.
///
/// The first file is the first of the map. What cannot be had is reported in the chain's mistakes,
/// and the chain is then `incomplete`. Where not even the first can be had, an empty text stands
/// for it in the map, so that the mistake has a place.
pub fn load(loader: &dyn Loader, map: &mut SourceMap, first_path: &str) -> LoadedChain {
    load_again(loader, map, first_path, None)
}

/// The same where texts are read that were read before.
pub(crate) fn load_again(
    loader: &dyn Loader,
    map: &mut SourceMap,
    first_path: &str,
    kept: Option<&mut KeptTexts>,
) -> LoadedChain {
    let mut loading = Loading {
        loader,
        map,
        kept,
        chain: LoadedChain::default(),
        by_key: IndexMap::new(),
        named: IndexMap::new(),
        too_many: false,
    };
    match loading.first(first_path) {
        Some(first) => {
            loading.variations(first);
            loading.order(first);
        }
        None => loading.chain.incomplete = true,
    }
    loading.libraries();
    loading.chain
}

struct Loading<'a> {
    loader: &'a dyn Loader,
    map: &'a mut SourceMap,
    kept: Option<&'a mut KeptTexts>,
    chain: LoadedChain,
    /// None for a file that was found and is not usable (already reported).
    by_key: IndexMap<Arc<str>, Option<FileId>>,
    /// By variation: the files that its heading names.
    named: IndexMap<FileId, Named>,
    /// Whether it was reported that there are too many files.
    too_many: bool,
}
