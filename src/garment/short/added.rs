//! What `in piece hem_band add { … }` says of a piece that a line stands for, put into it once it is written out.

use super::{is_short, names};
use crate::garment::merge::{Declaration, Merged, draws_the_same};
use crate::report::{Diagnostic, catalogue, nearest};
use crate::syntax::tree::{AddToPiece, PieceChange, PieceItemKind, StatementNode};
use std::sync::Arc;

fn all(declarations: &[Declaration]) -> impl Iterator<Item = &AddToPiece> {
    declarations.iter().filter_map(|one| match &one.statement.node {
        StatementNode::AddToPiece(add) => Some(add),
        _ => None,
    })
}

/// Whether a line stands for a piece of that name.
pub(super) fn is_of_one_line(declarations: &[Declaration], piece: &str) -> bool {
    let nodes = declarations.iter().map(|one| &one.statement.node);
    nodes.filter(|node| is_short(node)).any(|node| names(node).iter().any(|name| **name == *piece))
}

/// Puts what is said of these pieces into them, in the order in which it is said. What would replace nothing is a
/// mistake.
pub(super) fn put(parts: &mut [StatementNode], declarations: &[Declaration]) -> Vec<Diagnostic> {
    let mut mistakes = Vec::new();
    for part in parts {
        let StatementNode::Piece(piece) = part else { continue };
        for add in all(declarations).filter(|add| add.piece.text == piece.name.text) {
            for item in &add.items {
                let same = match add.how {
                    PieceChange::Adds => None,
                    _ => piece.items.iter_mut().find(|old| draws_the_same(old, item)),
                };
                match same {
                    Some(old) => *old = item.clone(),
                    None if add.how == PieceChange::Adds => piece.items.push(item.clone()),
                    None => {
                        let (kind, name) = (PieceItemKind::of(item).words(), &piece.name.text);
                        let title = format!("there is no such {kind} of {name} to replace");
                        let mistake = Diagnostic::new(&catalogue::REPLACE_NOTHING, item.span, title)
                            .label("the line draws nothing of this kind")
                            .also(piece.name.span, format!("{name} is made here"))
                            .help(format!("to draw it, write in piece {name} add {{ … }}"));
                        mistakes.push(mistake);
                    }
                }
            }
        }
    }
    mistakes
}

/// What is said of pieces that no line stands for any more.
pub(super) fn to_nothing(made: &[Declaration], merged: &Merged, lost: &[Arc<str>]) -> Vec<Diagnostic> {
    let pieces = || {
        made.iter().filter_map(|one| match &one.statement.node {
            StatementNode::Piece(piece) => Some(&piece.name.text),
            _ => None,
        })
    };
    let is_known = |name: &Arc<str>| {
        pieces().any(|piece| piece == name)
            || lost.contains(name)
            || merged.dropped.iter().any(|gone| gone.name == *name)
    };
    let unknown = all(&merged.declarations).filter(|add| !is_known(&add.piece.text));
    unknown
        .map(|add| {
            let name = &add.piece;
            let own: Vec<&str> = pieces()
                .map(|piece| &**piece)
                .filter(|piece| piece.strip_prefix(&*name.text).is_some_and(|rest| rest.starts_with('_')))
                .collect();
            if !own.is_empty() {
                let title = format!("{} is no piece itself", name.text);
                let mistake =
                    Diagnostic::new(&catalogue::NAME_UNKNOWN, name.span, title).label("which of its pieces?");
                return mistake.help(format!("it stands for {}", own.join(", ")));
            }
            let title = format!("there is no piece called {} any more", name.text);
            let mistake = Diagnostic::new(&catalogue::NAME_UNKNOWN, name.span, title).label("no such piece");
            match nearest(&name.text, pieces().map(|piece| &**piece)) {
                Some(near) => mistake.did_you_mean(name.span, near),
                None => mistake.help("remove this"),
            }
        })
        .collect()
}
