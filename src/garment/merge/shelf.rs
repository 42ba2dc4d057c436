//! Pieces of a library that is used, and that this garment is not made of.

use super::{FileKind, Merging};
use crate::syntax::tree::{
    Dotted, Expr, ExprKind, Let, LetValue, Outline, Piece, PieceItemNode, StatementNode,
};
use indexmap::IndexSet;
use std::sync::Arc;

impl Merging {
    /// A piece that no layer is cut from, and that none of the others is drawn from, stays in its library; so
    /// do values that are measured on it.
    pub(super) fn put_back_on_the_shelf(&mut self) {
        let lends = self.standing.iter().any(|(_, one)| {
            one.from_library && matches!(one.statement.node, StatementNode::Piece(_) | StatementNode::Let(_))
        });
        if !lends {
            return;
        }
        // A library by itself: nobody says what its pieces and values go by.
        let alone = self.merged.lineage.first().is_some_and(|(_, kind)| *kind == FileKind::Library);
        let mut wanted: IndexSet<Arc<str>> = IndexSet::new();
        for (_, one) in self.standing.iter() {
            match &one.statement.node {
                StatementNode::Layer(layer) => {
                    wanted.extend(layer.pieces.iter().map(|piece| piece.text.clone()));
                }
                StatementNode::Piece(piece) if !one.from_library => wanted.extend(drawn_from(piece)),
                _ => {}
            }
        }
        // A piece that is wanted may itself be drawn from another of the library.
        loop {
            let before = wanted.len();
            for (_, one) in self.standing.iter() {
                if let StatementNode::Piece(piece) = &one.statement.node
                    && wanted.contains(&piece.name.text)
                {
                    wanted.extend(drawn_from(piece));
                }
            }
            if wanted.len() == before {
                break;
            }
        }
        let mut left: IndexSet<Arc<str>> = IndexSet::new();
        let mut slots: Vec<usize> = Vec::new();
        for (slot, one) in self.standing.iter().filter(|(_, one)| one.from_library) {
            if let StatementNode::Piece(piece) = &one.statement.node
                && !wanted.contains(&piece.name.text)
            {
                left.insert(piece.name.text.clone());
                slots.push(slot);
            }
        }
        for (slot, one) in self.standing.iter().filter(|(_, one)| one.from_library) {
            if let StatementNode::Let(the_let) = &one.statement.node
                && (alone || measured_on(the_let, &left))
            {
                slots.push(slot);
            }
        }
        for slot in slots {
            self.standing.take(slot);
        }
    }
}

/// The pieces that an outline is made of.
fn drawn_from(piece: &Piece) -> Vec<Arc<str>> {
    let outlines = piece.items.iter().filter_map(|item| match &item.node {
        PieceItemNode::Outline(outline) => Some(outline),
        _ => None,
    });
    let named = outlines.flat_map(|outline| match outline {
        Outline::Walk { .. } | Outline::Rectangle { .. } | Outline::Parts(_) => Vec::new(),
        Outline::Strip { of, .. } | Outline::Copy { of, .. } => vec![of],
        Outline::Rest { of, without, .. } => vec![of, without],
    });
    named.flat_map(|dotted: &Dotted| dotted.parts.iter().map(|part| part.text.clone())).collect()
}

fn measured_on(the_let: &Let, pieces: &IndexSet<Arc<str>>) -> bool {
    let names = |expr: &Expr| {
        expr.walk().any(|expr| match &expr.kind {
            ExprKind::Name(dotted) => dotted.parts.iter().any(|part| pieces.contains(&part.text)),
            _ => false,
        })
    };
    match &the_let.value {
        LetValue::Is(value) => names(value),
        LetValue::Solved { low, high, so_that } => {
            [low, high, &so_that.left, &so_that.right].into_iter().any(names)
        }
    }
}
