//! Files that are combined and do not agree.
//!
//! Each of them goes by its own base and what that goes by; of the others it knows nothing. What it does to a
//! fact that one of those others has changed too is reported, unless both say the same, or the file that
//! combines them says what holds.

use super::key::{Key, drop_key, keys_of};
use super::{Dropped, Merging};
use crate::garment::chain::ChainFile;
use crate::report::{Diagnostic, catalogue};
use crate::source::{FileId, Span};
use crate::syntax::tidy::{Plain, altered_words, print};
use crate::syntax::tree::{Altered, Name, Piece, PieceItem, Statement, StatementNode};
use indexmap::{IndexMap, IndexSet};

/// What was done to a fact.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Deed {
    Declares,
    Changes,
    Drops,
    /// Dropped with a piece that it is sewn to.
    DropsAlong,
    AddsTo,
}

/// What a file did to a fact, and where.
#[derive(Clone, Debug)]
pub(super) struct Change {
    file: FileId,
    span: Span,
    deed: Deed,
    said: Option<StatementNode>,
}

/// What becomes of a change to what another file has changed too.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Settled {
    /// It is made.
    Made,
    /// It is not: both say the same, or it was reported, or a file that comes later decides.
    Left,
}

/// What is known of the files, for judging what is combined.
#[derive(Default)]
pub(super) struct Combined {
    /// Whether anything is combined at all.
    pub any: bool,
    /// The file at hand.
    pub at: FileId,
    /// Of each file those whose facts it goes by.
    pub known: IndexMap<FileId, IndexSet<FileId>>,
    /// In the order of merging, each with its name, its span and the facts that it changes.
    files: Vec<(FileId, std::sync::Arc<str>, Span, IndexSet<Key>)>,
    changes: IndexMap<Key, Vec<Change>>,
}

impl Combined {
    /// `files` in the order of merging.
    pub fn of<'f>(
        files: impl Iterator<Item = &'f ChainFile>,
        known: IndexMap<FileId, IndexSet<FileId>>,
    ) -> Self {
        let files: Vec<_> =
            files.map(|file| (file.id, file.name.clone(), file.span, decided_by(file))).collect();
        // In a plain chain each file knows all those before it.
        let any =
            files.iter().enumerate().any(|(at, one)| known.get(&one.0).is_some_and(|known| known.len() < at));
        Combined { any, known, files, ..Combined::default() }
    }

    /// What a file is called.
    pub fn file(&self, id: FileId) -> &str {
        self.files.iter().find(|one| one.0 == id).map_or("", |one| &one.1)
    }

    /// The file that a span stands in, if it is one of the lineage.
    pub fn file_of(&self, span: Span) -> Option<FileId> {
        self.files.iter().find(|one| one.2.lo <= span.lo && span.hi <= one.2.hi).map(|one| one.0)
    }

    /// Whether the file at hand goes by what that file says.
    fn knows(&self, file: FileId) -> bool {
        file == self.at || self.known.get(&self.at).is_some_and(|known| known.contains(&file))
    }

    /// Whether a span stands in a file that is combined with the one at hand, and unknown to it.
    pub fn is_beside(&self, span: Span) -> bool {
        self.any && self.file_of(span).is_some_and(|file| !self.knows(file))
    }

    /// The first file that combines both.
    fn combining(&self, one: FileId, other: FileId) -> impl Iterator<Item = (FileId, &IndexSet<Key>)> {
        self.files.iter().filter_map(move |(id, _, _, decided)| {
            let known = self.known.get(id)?;
            (known.contains(&one) && known.contains(&other)).then_some((*id, decided))
        })
    }
}

/// The facts that a file changes by name.
fn decided_by(file: &ChainFile) -> IndexSet<Key> {
    let mut decided = IndexSet::new();
    for statement in &file.tree.statements {
        match &statement.node {
            StatementNode::Replace(inner) => {
                decided.extend(keys_of(&inner.node, inner.span).into_iter().map(|(key, _)| key));
                if let StatementNode::Alteration(alteration) = &inner.node {
                    let altered = Altered::of(alteration, inner.span);
                    decided.insert(Key::Altered(altered_words(&altered), None));
                }
            }
            StatementNode::Set(set) => {
                decided.insert(Key::Value(set.name.text.clone()));
            }
            StatementNode::ReplaceStep(group) => {
                decided.insert(Key::Step(group.title.text.clone()));
            }
            StatementNode::Drop(drop) => decided.extend(drop_key(drop)),
            StatementNode::DropAlteration(drop) => {
                let of = drop.of.as_ref().map(|of| of.text.clone());
                decided.insert(Key::Altered(altered_words(&drop.altered), of));
            }
            StatementNode::Sizes(_) => {
                decided.insert(Key::Sizes);
            }
            _ => {}
        }
    }
    decided
}

impl Merging {
    /// Remembers what the file at hand does to a fact.
    pub(super) fn note(&mut self, key: &Key, span: Span, deed: Deed, said: Option<&StatementNode>) {
        if self.combined.any && !self.in_library {
            let change = Change { file: self.combined.at, span, deed, said: said.cloned() };
            self.combined.changes.entry(key.clone()).or_default().push(change);
        }
    }

    /// Whether the file at hand may do that to a fact, where a file that it does not know has changed
    /// it too. `what` is the fact: "seam neck".
    pub(super) fn settle(
        &mut self,
        key: &Key,
        span: Span,
        what: &str,
        deed: Deed,
        said: Option<&StatementNode>,
    ) -> Settled {
        let Some(rival) = self.rival(key) else { return Settled::Made };
        let agreed = match (rival.deed, deed) {
            (Deed::AddsTo | Deed::Changes | Deed::Declares, Deed::AddsTo) => return Settled::Made,
            // What is sewn to a piece goes with it, whatever another file makes of it.
            (Deed::Drops, Deed::Drops) | (Deed::DropsAlong, Deed::Drops | Deed::Changes) => true,
            (Deed::Drops | Deed::DropsAlong | Deed::AddsTo, _) | (_, Deed::Drops) => false,
            _ => self.says_the_same(&rival, said),
        };
        if agreed {
            return Settled::Left;
        }
        let here = self.combined.at;
        if self.combined.combining(rival.file, here).any(|(_, decided)| decided.contains(key)) {
            // What is left standing is what the deciding file replaces or drops.
            return match (rival.deed, deed) {
                (Deed::Drops, Deed::Changes) if self.put_back(key) => Settled::Made,
                (Deed::Drops | Deed::DropsAlong, _) | (_, Deed::Drops | Deed::Declares) => Settled::Left,
                _ => Settled::Made,
            };
        }
        self.report_conflict(&rival, key, span, what, deed);
        Settled::Left
    }

    /// The last change of a fact in a file that the one at hand does not know.
    fn rival(&self, key: &Key) -> Option<Change> {
        if !self.combined.any || self.in_library {
            return None;
        }
        let changes = self.combined.changes.get(key)?;
        changes.iter().rev().find(|change| !self.combined.knows(change.file)).cloned()
    }

    /// Whether a file that the one at hand does not know has dropped that with a piece.
    pub(super) fn went_along(&self, key: &Key) -> bool {
        self.rival(key).is_some_and(|rival| rival.deed == Deed::DropsAlong)
    }

    fn says_the_same(&self, rival: &Change, said: Option<&StatementNode>) -> bool {
        let (Some(one), Some(other)) = (&rival.said, said) else { return false };
        self.merged.units.get(&rival.file) == self.merged.units.get(&self.combined.at)
            && written(one) == written(other)
    }

    /// Whether what the file at hand says is said so in a file that it does not know.
    pub(super) fn is_said_beside(&self, statement: &Statement) -> bool {
        self.combined.any
            && self.standing.iter().any(|(_, one)| {
                std::mem::discriminant(&one.statement.node) == std::mem::discriminant(&statement.node)
                    && self.combined.is_beside(one.statement.span)
                    && written(&one.statement.node) == written(&statement.node)
            })
    }

    fn report_conflict(&mut self, rival: &Change, key: &Key, span: Span, what: &str, deed: Deed) {
        let (one, other) = (self.combined.file(rival.file), self.combined.file(self.combined.at));
        let title = match (rival.deed, deed) {
            (Deed::Drops | Deed::DropsAlong, Deed::AddsTo) => {
                format!("{one} drops the {what}, to which {other} adds")
            }
            (Deed::Drops, _) => format!("{one} drops the {what}, which {other} changes"),
            (Deed::AddsTo, Deed::Drops) => format!("{other} drops the {what}, to which {one} adds"),
            (_, Deed::Drops) => format!("{other} drops the {what}, which {one} changes"),
            (Deed::AddsTo, _) => format!("{other} replaces the {what}, to which {one} adds"),
            (Deed::Declares, Deed::Declares) => format!("{one} and {other} each have a {what} of their own"),
            _ => format!("{one} and {other} both change the {what}, and not alike"),
        };
        let combining = self.combined.combining(rival.file, self.combined.at).next();
        let combining = combining.map_or("the file that combines them", |(id, _)| self.combined.file(id));
        let help = match (key, rival.deed, deed) {
            (Key::Value(name), _, Deed::Changes) if what.starts_with("let ") => {
                format!("say in {combining} what holds: set {name} = …")
            }
            (_, Deed::Declares, Deed::Declares) => {
                format!("give one of them another name, or say in {combining} what holds: replace {what} …")
            }
            _ => format!("say in {combining} what holds: replace {what} …, or drop {what}"),
        };
        let mistake = Diagnostic::new(&catalogue::VARIATION_CONFLICT, span, title)
            .label(format!("as {other} says, over {one}"))
            .also(rival.span, format!("as {one} says"))
            .help(help);
        self.merged.mistakes.push(mistake);
    }

    /// What was dropped stands again, in its place, for another file to change.
    fn put_back(&mut self, key: &Key) -> bool {
        let Some((slot, declaration)) = self.gone.shift_remove(key) else { return false };
        if self.standing.get(slot).is_some() {
            return false;
        }
        self.merged.dropped.retain(|gone: &Dropped| gone.declared != declaration.statement.span);
        self.standing.put(slot, declaration);
        true
    }
}

/// What a statement says, however it is laid out.
pub(super) fn written(node: &StatementNode) -> String {
    print(&[Statement { span: Span::default(), node: node.clone() }], &Plain)
}

/// A line of a piece, however it is laid out.
pub(super) fn item_written(piece: &Name, item: &PieceItem) -> String {
    let items = vec![item.clone()];
    written(&StatementNode::Piece(Piece {
        name: piece.clone(),
        title: None,
        block: false,
        like: None,
        items,
    }))
}
