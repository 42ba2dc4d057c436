//! Marks, lines and take-ups that a piece has only because it is made of another: the other keeps them, and the piece is without.

use super::Merging;
use super::key::Key;
use super::piece_item::is_drawn_so;
use crate::source::Span;
use crate::syntax::tree::{
    LeftOut, Name, Outline, Piece, PieceItem, PieceItemKind, PieceItemNode, StatementNode,
};
use std::sync::Arc;

/// What a file drops of a piece: by its name, or the two of a corner.
pub(super) struct DroppedOfPiece {
    pub piece: Arc<str>,
    pub kind: PieceItemKind,
    pub name: Arc<str>,
    pub other: Option<Arc<str>>,
    pub dropped: Span,
}

impl Merging {
    /// What a file drops of a piece, and none draws there anew, pieces of the files before it that are made of that one need not
    /// leave out any more. The files are all that were merged, in that order.
    pub(super) fn take_dropped_out_of_left_out(&mut self, files: &[Span]) {
        let file_of = |span: Span| files.iter().position(|file| file.lo <= span.lo && span.hi <= file.hi);
        let all = std::mem::take(&mut self.dropped_of_pieces);
        for gone in &all {
            if self.is_drawn_anew(gone) {
                continue;
            }
            let made_of_it: Vec<usize> = self
                .standing
                .iter()
                .filter(|(_, one)| match &one.statement.node {
                    StatementNode::Piece(piece) => self.origins(piece).any(|of| *of.name.text == *gone.piece),
                    _ => false,
                })
                .map(|(slot, _)| slot)
                .collect();
            let goes =
                |one: &LeftOut| is_left_out(one, gone) && file_of(one.name().span) < file_of(gone.dropped);
            for slot in made_of_it {
                self.standing.edit(slot, |node| {
                    let StatementNode::Piece(piece) = node else { return };
                    piece.items.retain_mut(|item| {
                        let PieceItemNode::Without(all) = &mut item.node else { return true };
                        all.retain(|one| !goes(one));
                        !all.is_empty()
                    });
                });
            }
        }
    }

    fn is_drawn_anew(&self, gone: &DroppedOfPiece) -> bool {
        let wanted = (gone.kind, Some(&*gone.name), gone.other.as_deref());
        let found = self.standing.find(&Key::Piece(gone.piece.clone()));
        found.is_some_and(|one| match &one.statement.node {
            StatementNode::Piece(piece) => piece.items.iter().any(|item| is_drawn_so(item, wanted)),
            _ => false,
        })
    }

    /// The pieces that a piece is made of, the nearest first.
    fn origins<'a>(&'a self, piece: &'a Piece) -> impl Iterator<Item = &'a Piece> {
        let next = |piece: &&'a Piece| {
            let origin = self.standing.find(&Key::Piece(origin(piece)?.text.clone()))?;
            match &origin.statement.node {
                StatementNode::Piece(origin) => Some(origin),
                _ => None,
            }
        };
        // A circle of pieces is reported where they are drawn.
        std::iter::successors(next(&piece), next).take(self.standing.iter().count())
    }

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
            let of = origin(at)?;
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

/// What a piece is made of.
fn origin(piece: &Piece) -> Option<&Name> {
    piece.items.iter().find_map(|item| match &item.node {
        PieceItemNode::Outline(
            Outline::Copy { of, .. } | Outline::Strip { of, .. } | Outline::Rest { of, .. },
        ) => of.parts.last(),
        _ => None,
    })
}

/// Whether it leaves out what is dropped.
fn is_left_out(one: &LeftOut, gone: &DroppedOfPiece) -> bool {
    match one {
        LeftOut::Named(name) => {
            let is_named = matches!(
                gone.kind,
                PieceItemKind::Mark | PieceItemKind::Line | PieceItemKind::Slit | PieceItemKind::TakeUp
            );
            is_named && name.text == gone.name
        }
        LeftOut::Notch { edge, .. } => gone.kind == PieceItemKind::Notch && edge.text == gone.name,
        LeftOut::Corner(first, second) => {
            let other = gone.other.as_ref();
            gone.kind == PieceItemKind::Corner
                && (first.text == gone.name && Some(&second.text) == other
                    || second.text == gone.name && Some(&first.text) == other)
        }
    }
}
