//! What stood in files that were taken back: a maker who still names it is told where it went, and a step that
//! was put beside one of theirs stands where that one stood.

use super::key::{Key, keys_of, kind_word};
use super::{Dropped, Merging};
use crate::garment::chain::ChainFile;
use crate::source::Span;
use crate::syntax::tree::{StatementNode, StepGroup};
use std::sync::Arc;

impl Merging {
    /// `said` is where the file is taken back.
    pub(super) fn remember_taken_back(&mut self, file: &ChainFile, said: Span) {
        for statement in &file.tree.statements {
            match &statement.node {
                StatementNode::AddSteps(add) => {
                    let beside = (add.anchor.text.clone(), add.after);
                    self.steps_taken_back.insert(add.group.title.text.clone(), beside);
                    self.step_taken_back(&add.group, said);
                }
                StatementNode::Steps(steps) => self.steps_of_taken_back(&steps.groups, said),
                StatementNode::Replace(inner) => {
                    if let StatementNode::Steps(steps) = &inner.node {
                        self.steps_of_taken_back(&steps.groups, said);
                    }
                }
                node => {
                    for (key, declared) in keys_of(node, statement.span) {
                        let name: Arc<str> = key.words().into();
                        let kind = match (&key, kind_word(node)) {
                            (_, "body measure") => "let",
                            (Key::Piece(_), "alteration") => "piece",
                            (_, kind) => kind,
                        };
                        self.merged.dropped.push(Dropped::new(name, kind, declared, said));
                    }
                }
            }
        }
    }

    fn steps_of_taken_back(&mut self, groups: &[StepGroup], said: Span) {
        for (at, group) in groups.iter().enumerate() {
            let before = at.checked_sub(1).and_then(|at| groups.get(at)).map(|group| (group, true));
            if let Some((beside, after)) = before.or(groups.get(at + 1).map(|group| (group, false))) {
                let beside = (beside.title.text.clone(), after);
                self.steps_taken_back.insert(group.title.text.clone(), beside);
            }
            self.step_taken_back(group, said);
        }
    }

    fn step_taken_back(&mut self, group: &StepGroup, said: Span) {
        let (name, declared) = (group.title.text.clone(), group.title.span);
        self.merged.dropped.push(Dropped::new(name, "step", declared, said));
    }

    /// The step beside which a new one stands: the one that is named, or, where that went with its file, the
    /// one beside which it stood itself.
    pub(super) fn anchor_standing(&self, title: &Arc<str>, after: bool) -> (Arc<str>, bool) {
        let stands = |title: &str| match self.standing.find(&Key::Steps).map(|one| &one.statement.node) {
            Some(StatementNode::Steps(steps)) => steps.groups.iter().any(|group| *group.title.text == *title),
            _ => false,
        };
        let (mut at, mut side) = (title.clone(), after);
        // Two may each have stood beside the other.
        for _ in 0..=self.steps_taken_back.len() {
            if stands(&at) {
                return (at, side);
            }
            match self.steps_taken_back.get(&at) {
                Some((beside, after)) => (at, side) = (beside.clone(), *after),
                None => break,
            }
        }
        (title.clone(), after)
    }
}
