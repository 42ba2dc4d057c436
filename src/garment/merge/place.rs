//! A file's own declarations, and names that are declared twice.

use super::key::{Key, keys_of, kind_word};
use super::{Declaration, Deed, Merging, Settled};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{Body, Statement, StatementNode};
use indexmap::IndexMap;
use std::sync::Arc;

impl Merging {
    /// Adds one of the file's own declarations, unless its name is taken.
    pub(super) fn declare(&mut self, statement: &Arc<Statement>) {
        let from_library = self.in_library;
        let declaration = |statement: Arc<Statement>, replaced: Option<Span>| Declaration {
            statement,
            replaced,
            from_library,
            set_over: None,
        };
        match &statement.node {
            // The story of what is combined is not the garment's.
            StatementNode::About(_)
                if !self.base_line.contains(&self.combined.at)
                    && self.standing.find(&Key::About).is_some() => {}
            StatementNode::Credit(_) if !self.base_line.contains(&self.combined.at) => {}
            StatementNode::Sizes(_) | StatementNode::About(_) | StatementNode::Credit(_) => {
                let key = match &statement.node {
                    StatementNode::Sizes(_) => Key::Sizes,
                    StatementNode::Credit(credit) => Key::Credit(credit.kind()),
                    _ => Key::About,
                };
                if matches!(key, Key::Sizes) && !self.touched.contains_key(&key) {
                    let said = Some(&statement.node);
                    if self.settle(&key, statement.span, "sizes", Deed::Changes, said) == Settled::Left {
                        return;
                    }
                    self.note(&key, statement.span, Deed::Changes, said);
                }
                match self.standing.slots_of(&key).first().copied() {
                    // A variation may say its own sizes and its own story.
                    Some(slot) if !self.touched.contains_key(&key) => {
                        let before = self.standing.get(slot).map(|one| one.statement.span);
                        self.standing.put(slot, declaration(statement.clone(), before));
                    }
                    Some(_) => self.already(&key, statement.span, kind_word(&statement.node)),
                    None => self.standing.push(declaration(statement.clone(), None)),
                }
                self.touched.entry(key).or_insert(statement.span);
            }
            StatementNode::Body(body) => {
                let mut fresh = body.clone();
                fresh.rows.clear();
                let mut rows: IndexMap<Arc<str>, Span> = IndexMap::new();
                for row in &body.rows {
                    let key = Key::Value(row.name.text.clone());
                    match rows.get(&row.name.text) {
                        Some(&first) => self.said_twice(&row.name.text, row.name.span, first),
                        _ if self.standing.find(&key).is_some() => {
                            let said = StatementNode::Body(Body { rows: vec![row.clone()] });
                            if self.is_settled(&key, row.name.span, "body measure", &said) {
                                continue;
                            }
                            self.already(&key, row.name.span, "body measure");
                        }
                        _ => {
                            let said = StatementNode::Body(Body { rows: vec![row.clone()] });
                            self.note(&key, row.name.span, Deed::Declares, Some(&said));
                            fresh.rows.push(row.clone());
                        }
                    }
                    rows.entry(row.name.text.clone()).or_insert(row.name.span);
                }
                if !fresh.rows.is_empty() || body.rows.is_empty() {
                    let statement = Statement { span: statement.span, node: StatementNode::Body(fresh) };
                    self.standing.push(declaration(Arc::new(statement), None));
                }
            }
            node => {
                let mut taken = false;
                // One line may give several names; that it is there already is told once.
                let mut told: Option<Span> = None;
                let keys = keys_of(node, statement.span);
                for (key, span) in keys.iter().filter(|(key, _)| key.only_once()) {
                    if self.standing.find(key).is_some() {
                        taken = true;
                        if !self.is_settled(key, *span, kind_word(node), node) && told != Some(*span) {
                            told = Some(*span);
                            self.already(key, *span, kind_word(node));
                        }
                    }
                }
                // Two files may each say the same of a thing that may be said more than once.
                let said_twice =
                    keys.iter().any(|(key, _)| !key.only_once()) && self.is_said_beside(statement);
                // An alteration is done all the same: only the name it gives is taken.
                if said_twice || taken && !matches!(node, StatementNode::Alteration(_)) {
                    return;
                }
                for (key, span) in &keys {
                    self.note(key, *span, Deed::Declares, Some(node));
                }
                let place = keys.first().and_then(|(key, _)| self.place_before_drop(key));
                match place {
                    Some(slot) => self.standing.put(slot, declaration(statement.clone(), None)),
                    None => self.standing.push(declaration(statement.clone(), None)),
                }
            }
        }
    }

    /// Whether what stands was declared in a file that the one at hand does not know, so that it need not be
    /// told again: they agree, or that was reported, or another file decides.
    fn is_settled(&mut self, key: &Key, span: Span, kind: &str, said: &StatementNode) -> bool {
        let what = format!("{kind} {}", key.words());
        self.settle(key, span, &what, Deed::Declares, Some(said)) == Settled::Left
    }

    /// Where something stood that an earlier file dropped: declared again, it stands there as before.
    fn place_before_drop(&mut self, key: &Key) -> Option<usize> {
        let (slot, gone) = self.gone.get(key)?;
        let (slot, declared) = (*slot, gone.statement.span);
        let by_now = self.merged.dropped.iter().rev().find(|one| one.declared == declared)?;
        if self.in_this_file(by_now.dropped) || self.standing.get(slot).is_some() {
            return None;
        }
        self.gone.shift_remove(key);
        Some(slot)
    }

    /// Reports that what `key` names stands already.
    pub(super) fn already(&mut self, key: &Key, again: Span, kind: &str) {
        let Some(first) = self.standing.find(key) else { return };
        let statement = &first.statement;
        let first_kind = kind_word(&statement.node);
        let place = keys_of(&statement.node, statement.span).into_iter().find(|(one, _)| one == key);
        let first_span = place.map_or(statement.span, |(_, span)| span);
        let name = key.words().to_owned();
        if self.in_this_file(first_span) {
            self.said_twice(&name, again, first_span);
            return;
        }
        let whose = match first.from_library {
            true => "the library",
            false if self.combined.is_beside(first_span) => "another file",
            false => "the base",
        };
        let fact = matches!(
            key,
            Key::Allowance | Key::Tolerance | Key::Stitch | Key::Wearer | Key::Sizes | Key::Pick | Key::Steps
        );
        let (title, help) = if fact {
            (format!("{whose} says {name} already"), format!("to change it, write replace {name} …"))
        } else if kind != first_kind {
            (
                format!("{whose} has {} called {name} already", article(first_kind)),
                format!("give this {kind} another name"),
            )
        } else {
            let written = match (key, kind) {
                (Key::Place(piece, on), _) => format!("replace place {piece} on {on} {{ … }}"),
                (_, "body measure") => format!("replace body {{ {name} … }}"),
                (_, "let") => format!("set {name} = … (or replace let {name} …)"),
                _ => format!("replace {kind} {name} …"),
            };
            let both = match key {
                Key::Place(..) => String::new(),
                _ => format!("; to have both, give this {kind} another name"),
            };
            (
                format!("{whose} has {} {name} already", article(kind)),
                format!("to change it, write {written}{both}"),
            )
        };
        let mistake = Diagnostic::new(&catalogue::NAME_DECLARED_TWICE, again, title)
            .label("here again, without replace")
            .also(first_span, format!("{whose}'s"))
            .help(help);
        self.merged.mistakes.push(mistake);
    }

    /// Reports that one file says something twice.
    pub(super) fn said_twice(&mut self, name: &str, again: Span, first: Span) {
        let mistake =
            Diagnostic::new(&catalogue::NAME_DECLARED_TWICE, again, format!("{name} is given twice"))
                .label("here again")
                .also(first, "first given here")
                .help("remove one of them, or give it another name");
        self.merged.mistakes.push(mistake);
    }

    /// Whether a place is in the file at hand.
    pub(super) fn in_this_file(&self, span: Span) -> bool {
        self.here.lo <= span.lo && span.hi <= self.here.hi
    }
}

/// "a seam", "an opening".
pub(super) fn article(word: &str) -> String {
    match word.starts_with(['a', 'e', 'i', 'o', 'u']) {
        true => format!("an {word}"),
        false => format!("a {word}"),
    }
}
