//! The chain of a variation and its bases made into one flat, ordered list of declarations.

mod add;
mod along;
mod dart;
mod drop;
mod finish;
mod key;
mod place;
mod replace;
mod standing;
mod via;

pub use via::via_variation;

use super::chain::{ChainFile, FileKind, Link, LoadedChain};
use crate::report::{Diagnostic, catalogue};
use crate::source::{FileId, Span};
use crate::syntax::tree::{Statement, StatementNode, Unit};
use indexmap::IndexMap;
use standing::Standing;
use std::sync::Arc;

/// One declaration that stands after merging: never a `replace`, `set`, `drop`, `add` or `use`,
/// nor a heading, `units` or a second `about`.
#[derive(Clone, Debug)]
pub struct Declaration {
    /// What it says. A piece, layer or steps block that a variation adds to has the additions in it.
    pub statement: Arc<Statement>,
    /// The declaration of the base whose place it took, for messages.
    pub replaced: Option<Span>,
    /// It stands in a library: it may stay unused.
    pub from_library: bool,
    /// Of a `let` that was `set`: the let as the base had it, whose dimension is kept.
    pub set_over: Option<Arc<Statement>>,
}

/// What a variation dropped: whoever still names it is reported so.
#[derive(Clone, Debug)]
pub struct Dropped {
    /// The name, or the text, that is gone: a piece's, a seam's …
    pub name: Arc<str>,
    /// What kind of thing it was, as `drop` names it.
    pub kind: &'static str,
    /// Where it was declared.
    pub declared: Span,
    /// Where it was dropped.
    pub dropped: Span,
}

impl Dropped {
    /// Whether it may be what was looked for: "seam or closure", "value", "piece".
    pub fn may_be(&self, what: &str) -> bool {
        let kind = match self.kind {
            "let" | "measure" => "value",
            kind => kind,
        };
        // "edge of the seam" is no seam.
        let looked_for = what.split(" of ").next().unwrap_or(what);
        looked_for.split(' ').any(|word| word == kind)
    }

    /// Whether `drop … and all sewn to it` may be said of it.
    pub fn may_take_along(&self) -> bool {
        matches!(self.kind, "piece" | "layer")
    }
}

/// The whole chain as one.
#[derive(Clone, Debug, Default)]
pub struct Merged {
    /// What the first file calls the garment.
    pub title: Arc<str>,
    /// Its heading.
    pub heading: Span,
    /// The first file; none where it could not be had.
    pub first: Option<FileId>,
    /// In order: libraries where they are used, the base, then each variation's own.
    ///
    /// Names are told apart: of two declarations of one name, without `replace`, only the first
    /// stands. Only the pieces that `split` and `join` make may be declared twice (already reported).
    pub declarations: Vec<Declaration>,
    /// What was dropped.
    pub dropped: Vec<Dropped>,
    /// The unit of bare literals, by file; centimetres where a file says none.
    pub units: IndexMap<FileId, Unit>,
    /// The `sizes` statement to whose names the lists of a file are bound, by file: its own, else
    /// its base's; of a library without one, that of the file that uses it. The garment's sizes
    /// are those of its one `sizes` declaration.
    pub sizes_in: IndexMap<FileId, Arc<Statement>>,
    /// How each file but the first came into the chain.
    pub links: IndexMap<FileId, Link>,
    /// A file of the chain could not be had (already reported): what it declares is not known, and
    /// looking names up would only raise false alarms.
    pub incomplete: bool,
    /// Words inside damaged statements (already reported): a name among them may have been declared
    /// there.
    pub lost_words: Vec<Arc<str>>,
    /// Every mistake of reading, parsing and merging.
    pub mistakes: Vec<Diagnostic>,
}

/// Merges the chain: the base's declarations, then each variation's own, with what it replaces in
/// the place of what it replaces.
///
/// A pure function: the same declarations written as one garment file merge to the same list.
pub fn merge(chain: LoadedChain) -> Merged {
    let LoadedChain { files, lineage, used, links, incomplete, lost_words, mistakes } = chain;
    let mut merged = Merged {
        links,
        incomplete,
        lost_words,
        mistakes,
        first: lineage.first().copied(),
        ..Merged::default()
    };
    if let Some(first) = lineage.first().and_then(|id| files.get(id)) {
        (merged.title, merged.heading) = title_of(first);
    }
    let mut merging = Merging {
        standing: Standing::default(),
        damaged: false,
        touched: IndexMap::new(),
        in_library: false,
        has_base: false,
        offers: 0,
        here: Span::default(),
        merged,
    };
    for file in lineage.iter().rev().filter_map(|id| files.get(id)) {
        merging.file(file, &files, &used);
    }
    let Merging { standing, mut merged, .. } = merging;
    merged.declarations = standing.into_declarations();
    merged
}

/// The state between two files of the chain.
struct Merging {
    standing: Standing,
    /// A base, or a library, has mistakes of reading: what is not found may be among them.
    damaged: bool,
    /// What the file at hand has replaced, set or dropped, and where.
    touched: IndexMap<key::Key, Span>,
    in_library: bool,
    /// The file at hand is a variation.
    has_base: bool,
    /// How many times a nearest name was looked for: no more than messages are shown.
    offers: usize,
    /// All of the file at hand.
    here: Span,
    merged: Merged,
}

impl Merging {
    /// First the libraries, then what the file replaces and sets, then what it drops, then its
    /// own declarations, then what it adds to declarations: so the order of its lines does not
    /// matter.
    fn file(&mut self, file: &ChainFile, files: &IndexMap<FileId, ChainFile>, used: &IndexMap<Span, FileId>) {
        self.damaged |= self.merged.incomplete;
        let statements = &file.tree.statements;
        for statement in statements {
            let StatementNode::Use(one) = &statement.node else { continue };
            let Some(library) = used.get(&one.path.span).and_then(|id| files.get(id)) else { continue };
            if !self.merged.units.contains_key(&library.id) {
                self.library(library);
            }
        }
        self.touched.clear();
        self.here = file.span;
        self.has_base = file.kind == Some(FileKind::Variation);
        if file.kind == Some(FileKind::Library) {
            // A library by itself, as somebody who writes one looks at it.
            self.library(file);
            return self.bind_sizes(file.id);
        }
        self.units_of(file);
        for statement in statements {
            match &statement.node {
                StatementNode::Replace(new) => self.replace(statement.span, new),
                StatementNode::Set(set) => self.set(statement.span, set),
                StatementNode::AddToPiece(add) if add.replacing => self.replace_dart(add),
                _ => {}
            }
        }
        for statement in statements {
            if let StatementNode::Drop(drop) = &statement.node {
                self.drop(statement.span, drop);
            }
        }
        self.own(file);
        for statement in statements {
            match &statement.node {
                StatementNode::AddToLayer(add) => self.add_to_layer(add),
                StatementNode::AddSteps(add) => self.add_steps(add),
                StatementNode::AddToPiece(add) if !add.replacing => self.add_to_piece(add),
                _ => {}
            }
        }
        self.bind_sizes(file.id);
        self.damaged |= file.damaged;
    }

    fn library(&mut self, file: &ChainFile) {
        self.here = file.span;
        self.touched.clear();
        self.units_of(file);
        self.in_library = true;
        self.own(file);
        self.in_library = false;
        let own = file.tree.statements.iter().find(|one| matches!(one.node, StatementNode::Sizes(_)));
        if let Some(own) = own {
            self.merged.sizes_in.insert(file.id, Arc::new(own.clone()));
        }
        self.damaged |= file.damaged;
    }

    fn own(&mut self, file: &ChainFile) {
        for statement in &file.tree.statements {
            match &statement.node {
                StatementNode::Garment(_)
                | StatementNode::Variation(_)
                | StatementNode::Library(_)
                | StatementNode::Use(_)
                | StatementNode::Units(_) => {}
                // What a library says of itself is not the garment's story.
                StatementNode::About(_) if self.in_library => {}
                StatementNode::Replace(_)
                | StatementNode::Set(_)
                | StatementNode::Drop(_)
                | StatementNode::AddToLayer(_)
                | StatementNode::AddSteps(_)
                | StatementNode::AddToPiece(_)
                    if !self.in_library => {}
                _ if file.kind == Some(FileKind::Library) && !may_stand_in_library(&statement.node) => {
                    let title = format!("a library holds no {}", key::kind_word(&statement.node));
                    let mistake = Diagnostic::new(&catalogue::FILE_KIND, statement.span, title)
                        .label("is in a library")
                        .help("a library holds fabrics, sizes and body measures, and notions; the rest belongs in a garment");
                    self.merged.mistakes.push(mistake);
                }
                _ => self.declare(statement),
            }
        }
    }

    fn units_of(&mut self, file: &ChainFile) {
        let mut said: Option<Span> = None;
        let mut unit = Unit::Centimetre;
        for statement in &file.tree.statements {
            let StatementNode::Units(word) = &statement.node else { continue };
            match said {
                None => unit = word.unit,
                Some(first) => self.said_twice("units", statement.span, first),
            }
            said.get_or_insert(statement.span);
        }
        self.merged.units.insert(file.id, unit);
    }

    /// The lists of this file, and of the libraries without sizes that it uses, go by the sizes
    /// that stand now.
    fn bind_sizes(&mut self, file: FileId) {
        let Some(sizes) = self.standing.find(&key::Key::Sizes).map(|one| one.statement.clone()) else {
            return;
        };
        self.merged.sizes_in.insert(file, sizes.clone());
        let unbound: Vec<FileId> = self
            .merged
            .units
            .keys()
            .copied()
            .filter(|id| self.merged.links.get(id).is_some_and(|link| link.used))
            .collect();
        for library in unbound {
            self.merged.sizes_in.entry(library).or_insert_with(|| sizes.clone());
        }
    }
}

fn may_stand_in_library(node: &StatementNode) -> bool {
    matches!(
        node,
        StatementNode::About(_)
            | StatementNode::Sizes(_)
            | StatementNode::Body(_)
            | StatementNode::Pick(_)
            | StatementNode::Fabric(_)
            | StatementNode::Notion(_)
    )
}

fn title_of(file: &ChainFile) -> (Arc<str>, Span) {
    let heading = file.tree.statements.iter().find_map(|statement| match &statement.node {
        StatementNode::Garment(title) | StatementNode::Library(title) => {
            Some((title.text.clone(), statement.span))
        }
        StatementNode::Variation(variation) => Some((variation.title.text.clone(), statement.span)),
        _ => None,
    });
    heading.unwrap_or_default()
}
