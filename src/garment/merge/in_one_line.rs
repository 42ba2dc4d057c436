//! `in piece hem_band add { … }`, where that piece is one that a line stands for: it is not written yet, and what is said
//! of it waits until it is.

use super::key::{Key, keys_of};
use super::piece_item::{Drawn, is_drawn_so};
use super::{Declaration, Merging};
use crate::source::Span;
use crate::syntax::tree::{AddToPiece, Name, Statement, StatementNode};
use std::sync::Arc;

/// Whether a statement stands for a piece of that name.
fn stands_for(statement: &Statement, piece: &str) -> bool {
    matches!(statement.node, StatementNode::Placket(_) | StatementNode::Band(_) | StatementNode::Facing(_))
        && keys_of(&statement.node, statement.span)
            .iter()
            .any(|(key, _)| matches!(key, Key::Piece(name) if **name == *piece))
}

impl Merging {
    /// Whether a line stands for that piece: one that stands already, or one of this file.
    pub(super) fn is_in_one_line(&self, piece: &Name, own: &[Arc<Statement>]) -> bool {
        let key = Key::Piece(piece.text.clone());
        match self.standing.find(&key) {
            Some(known) => stands_for(&known.statement, &piece.text),
            None => own.iter().any(|statement| match &statement.node {
                StatementNode::Replace(inner) => stands_for(inner, &piece.text),
                _ => stands_for(statement, &piece.text),
            }),
        }
    }

    /// Keeps what is said of such a piece. Two files may say the same.
    pub(super) fn keep_for_one_line(&mut self, statement: &Statement, add: &AddToPiece) {
        let written = |node: &StatementNode| super::conflict::written(node);
        let said = written(&statement.node);
        let twice = self.standing.iter().any(|(_, one)| match &one.statement.node {
            StatementNode::AddToPiece(other) if other.piece.text == add.piece.text => {
                self.combined.is_beside(one.statement.span) && written(&one.statement.node) == said
            }
            _ => false,
        });
        if !twice {
            self.standing.push(Declaration {
                statement: Arc::new(statement.clone()),
                replaced: None,
                from_library: false,
                set_over: None,
            });
        }
    }

    /// Takes a line back that was added to such a piece. Where it was drawn; none where nothing is drawn so.
    pub(super) fn take_from_one_line(&mut self, piece: &Name, drawn: Drawn<'_>) -> Option<Span> {
        let here = self.here;
        let own = |span: Span| here.lo <= span.lo && span.hi <= here.hi;
        let added: Vec<usize> = self
            .standing
            .iter()
            .filter(|(_, one)| match &one.statement.node {
                StatementNode::AddToPiece(add) => add.piece.text == piece.text && !own(one.statement.span),
                _ => false,
            })
            .map(|(slot, _)| slot)
            .collect();
        let mut declared = None;
        for slot in added {
            let mut left = 0;
            self.standing.edit(slot, |node| {
                let StatementNode::AddToPiece(add) = node else { return };
                add.items.retain(|item| {
                    let goes = is_drawn_so(item, drawn);
                    if goes {
                        declared.get_or_insert(item.span);
                    }
                    !goes
                });
                left = add.items.len();
            });
            if left == 0 {
                self.standing.take(slot);
            }
        }
        declared
    }
}
