//! `replace …` and `set …`.

use super::doing::Doing;
use super::key::{Key, keys_of, kind_word};
use super::place::article;
use super::{Declaration, Merging, Settled};
use crate::limits::MESSAGES_OF_SLUG;
use crate::report::catalogue::{self, Entry};
use crate::report::{Diagnostic, nearest};
use crate::source::Span;
use crate::syntax::tree::{Body, Let, LetValue, Set, Statement, StatementNode};
use std::sync::Arc;

impl Merging {
    /// Puts a declaration in the place of the base's.
    pub(super) fn replace(&mut self, whole: Span, new: &Statement) {
        match &new.node {
            StatementNode::Finish(finish) => return self.replace_finish(whole, new, finish),
            StatementNode::Body(body) => return self.replace_rows(body),
            StatementNode::Alteration(_) => return self.replace_alteration(whole, new, None),
            _ => {}
        }
        let Some((key, span)) = keys_of(&new.node, new.span).into_iter().next() else { return };
        let kind = kind_word(&new.node);
        let what = format!("{kind} {}", key.words());
        let Some(slot) = self.slot_to_change(&key, span, &what, Doing::Replace, Some(&new.node)) else {
            return;
        };
        let Some(old) = self.standing.get(slot) else { return };
        let old_kind = kind_word(&old.statement.node);
        if old_kind != kind {
            self.other_kind(&key, span, kind, slot);
            return;
        }
        let declaration = Declaration {
            statement: Arc::new(Statement { span: whole, node: new.node.clone() }),
            replaced: Some(old.statement.span),
            from_library: false,
            set_over: None,
        };
        self.standing.put(slot, declaration);
    }

    /// The slot that a line of this file changes; none where there is nothing to change, or where
    /// this file changes it twice (reported).
    pub(super) fn slot_to_change(
        &mut self,
        key: &Key,
        span: Span,
        what: &str,
        doing: Doing,
        said: Option<&StatementNode>,
    ) -> Option<usize> {
        if let Some(&first) = self.touched.get(key) {
            self.said_twice(what, span, first);
            return None;
        }
        let deed = doing.deed();
        if self.settle(key, span, what, deed, said) == Settled::Left {
            self.touched.insert(key.clone(), span);
            return None;
        }
        let slots = self.standing.slots_of(key);
        let own = |&&slot: &&usize| self.standing.get(slot).is_some_and(|one| !one.from_library);
        let Some(slot) = slots.iter().find(own).or(slots.first()).copied() else {
            self.nothing(key, span, what, doing);
            return None;
        };
        self.touched.insert(key.clone(), span);
        self.note(key, span, deed, said);
        Some(slot)
    }

    /// Which mistake it is to change in that way what is not there.
    pub(super) fn kind_of_nothing(&self, doing: Doing) -> &'static Entry {
        if self.has_base { doing.to_nothing() } else { &catalogue::VARIATION_PLACE }
    }

    /// Reports that there is nothing of that name to replace, set, drop or add to.
    pub(super) fn nothing(&mut self, key: &Key, span: Span, what: &str, doing: Doing) {
        if self.damaged {
            return;
        }
        let kind = self.kind_of_nothing(doing);
        let word = key.words();
        let mut mistake = Diagnostic::new(kind, span, format!("there is no {what} to {doing}"));
        if let Some(gone) = self.merged.dropped.iter().rev().find(|gone| *gone.name == *word) {
            mistake = mistake
                .label("names what was dropped")
                .also(gone.declared, "it was declared here")
                .also(gone.dropped, "and dropped here");
            mistake = match doing {
                Doing::Replace => mistake.help("to have it again, declare it without replace"),
                _ => mistake.help("remove this line"),
            };
        } else if !self.has_base {
            mistake = mistake.label("this file is not a variation").help(match doing {
                Doing::Replace => {
                    "declare it without replace, or make the file a variation: variation \"…\" of \"….fus\""
                }
                _ => "only a variation changes what another file declares: variation \"…\" of \"….fus\"",
            });
        } else {
            self.offers += 1;
            let few = self.offers <= MESSAGES_OF_SLUG;
            let names = self.standing.keys().filter(|_| few).filter(|one| one.beside(key)).map(Key::words);
            mistake = mistake.label("the base has nothing of this name");
            mistake = match nearest(word, names) {
                // Where the span is the name alone, as of a seam, the other can stand in its place.
                Some(near) if span.len() == word.len() => mistake.did_you_mean(span, near),
                Some(near) => mistake.help(format!("did you mean {near}?")),
                None => mistake.help(match doing {
                    Doing::Replace => "to add it, declare it without replace".to_owned(),
                    Doing::Set => format!("to add it, write let {word} = …"),
                    Doing::Drop => "remove this line, or look up what the base calls it".to_owned(),
                    _ => "look up what the base calls it".to_owned(),
                }),
            };
        }
        self.merged.mistakes.push(mistake);
    }

    /// Reports that what has that name is of another kind.
    fn other_kind(&mut self, key: &Key, span: Span, kind: &str, slot: usize) {
        let Some(old) = self.standing.get(slot) else { return };
        let is = article(kind_word(&old.statement.node));
        let word = key.words();
        let title = format!("{word} is {is}, and {} cannot take its place", article(kind));
        let mistake = Diagnostic::new(&catalogue::REPLACE_NOTHING, span, title)
            .label(format!("{} here", article(kind)))
            .also(old.statement.span, format!("{is} here"))
            .help(format!(
                "drop the one and declare the other under a name of its own, or replace {word} by {is}"
            ));
        self.merged.mistakes.push(mistake);
    }

    /// `replace body { … }`: rows in the places of the rows of those names.
    fn replace_rows(&mut self, new: &Body) {
        for row in &new.rows {
            let key = Key::Value(row.name.text.clone());
            let what = format!("body measure {}", row.name.text);
            let said = StatementNode::Body(Body { rows: vec![row.clone()] });
            let Some(slot) = self.slot_to_change(&key, row.name.span, &what, Doing::Replace, Some(&said))
            else {
                continue;
            };
            let Some(old) = self.standing.get(slot) else { continue };
            if !matches!(old.statement.node, StatementNode::Body(_)) {
                self.other_kind(&key, row.name.span, "body measure", slot);
                continue;
            }
            self.standing.edit(slot, |node| {
                let StatementNode::Body(body) = node else { return };
                for one in body.rows.iter_mut().filter(|one| one.name.text == row.name.text) {
                    *one = row.clone();
                }
            });
        }
    }

    /// `set ease = 30`
    pub(super) fn set(&mut self, whole: Span, set: &Set) {
        let key = Key::Value(set.name.text.clone());
        let what = format!("let {}", set.name.text);
        let said = StatementNode::Set(Set { label: None, ..set.clone() });
        let Some(slot) = self.slot_to_change(&key, set.name.span, &what, Doing::Set, Some(&said)) else {
            return;
        };
        let Some(old) = self.standing.get(slot) else { return };
        let StatementNode::Let(before) = &old.statement.node else {
            let kind = kind_word(&old.statement.node);
            let help = match kind {
                "body measure" => format!("write replace body {{ {} … }}", set.name.text),
                _ => format!("write replace {kind} {} …", set.name.text),
            };
            let title = format!("{} is {}, and only a let can be set", set.name.text, article(kind));
            let mistake = Diagnostic::new(&catalogue::REPLACE_NOTHING, set.name.span, title)
                .label("set here")
                .also(old.statement.span, article(kind))
                .help(help);
            self.merged.mistakes.push(mistake);
            return;
        };
        let statement = Statement {
            span: whole,
            node: StatementNode::Let(Let {
                name: set.name.clone(),
                value: LetValue::Is(set.value.clone()),
                label: set.label.clone().or_else(|| before.label.clone()),
            }),
        };
        let declaration = Declaration {
            statement: Arc::new(statement),
            replaced: Some(old.statement.span),
            from_library: old.from_library,
            set_over: Some(old.set_over.clone().unwrap_or_else(|| old.statement.clone())),
        };
        self.standing.put(slot, declaration);
    }
}
