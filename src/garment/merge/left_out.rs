//! Marks, lines and take-ups that a piece has only because it is made of another: the other keeps them, and the piece is without.

use super::Merging;
use super::key::Key;
use crate::source::Span;
use crate::syntax::tree::{
    LeftOut, Name, Outline, Piece, PieceItem, PieceItemKind, PieceItemNode, StatementNode,
};
use std::sync::Arc;

impl Merging {
    /// Leaves such a mark, line or take-up out of the piece. Where it is drawn; none where the piece has none of that name.
    pub(super) fn leave_out(
        &mut self,
        slot: usize,
        (kind, name, _): (PieceItemKind, Option<&str>, Option<&str>),
        span: Span,
    ) -> Option<Span> {
        let name: Arc<str> = name?.into();
        let StatementNode::Piece(piece) = &self.standing.get(slot)?.statement.node else { return None };
        let declared = self.drawn_on_origin(piece, kind, &name)?;
        self.standing.edit(slot, |node| {
            let StatementNode::Piece(piece) = node else { return };
            let left_out = LeftOut::Named(Name { text: name, span });
            let own = piece.items.iter_mut().find_map(|item| match &mut item.node {
                PieceItemNode::Without(names) => Some(names),
                _ => None,
            });
            match own {
                Some(names) => names.push(left_out),
                None => piece.items.push(PieceItem { span, node: PieceItemNode::Without(vec![left_out]) }),
            }
        });
        Some(declared)
    }

    /// Where a mark, line or take-up is drawn that a piece takes over from the one that it is made of.
    fn drawn_on_origin(&self, piece: &Piece, kind: PieceItemKind, name: &str) -> Option<Span> {
        let mut at = piece;
        // A circle of pieces is reported where they are drawn.
        for _ in 0..self.standing.iter().count() {
            let is_left_out = at.items.iter().any(|item| match &item.node {
                PieceItemNode::Without(all) => all.iter().any(|one| *one.name().text == *name),
                _ => false,
            });
            let of = at.items.iter().find_map(|item| match &item.node {
                PieceItemNode::Outline(
                    Outline::Copy { of, .. } | Outline::Strip { of, .. } | Outline::Rest { of, .. },
                ) => of.parts.last(),
                _ => None,
            })?;
            if is_left_out {
                return None;
            }
            let origin = self.standing.find(&Key::Piece(of.text.clone()))?;
            let StatementNode::Piece(origin) = &origin.statement.node else { return None };
            let drawn = origin.items.iter().find(|item| match (&item.node, kind) {
                (PieceItemNode::Mark(mark), PieceItemKind::Mark) => *mark.name.text == *name,
                (PieceItemNode::Line(line), PieceItemKind::Line) => *line.name.text == *name,
                (PieceItemNode::TakeUp(take_up), PieceItemKind::TakeUp | PieceItemKind::Slit) => {
                    PieceItemKind::of(item) == kind && *take_up.name.text == *name
                }
                _ => false,
            });
            if let Some(drawn) = drawn {
                return Some(drawn.span);
            }
            at = origin;
        }
        None
    }
}
