//! `without pocket_corner`: marks and lines that a piece does not take over from the one that it is made of.

use super::Lowering;
use crate::garment::PieceId;
use crate::report::{Diagnostic, catalogue, nearest};
use crate::syntax::tree::{PieceItem, PieceItemNode};
use std::collections::HashSet;
use std::sync::Arc;

impl Lowering<'_> {
    /// The names that are left out; one that the other piece has no mark or line of is reported.
    pub(super) fn left_out(&self, items: &[PieceItem], parent: PieceId) -> HashSet<Arc<str>> {
        let mut left_out = HashSet::new();
        for name in names(items) {
            let piece = self.garment.piece(parent);
            let lines = piece.edges.iter().map(|&id| self.garment.edge(id)).filter(|edge| edge.line);
            let marks = piece.points.iter().map(|&id| self.garment.point(id)).filter(|point| point.mark);
            let known: Vec<Arc<str>> =
                lines.map(|line| line.name.clone()).chain(marks.map(|mark| mark.name.clone())).collect();
            if known.contains(&name.text) {
                left_out.insert(name.text.clone());
                continue;
            }
            let title = format!("{} has no mark or line called {}", piece.title, name.text);
            let mistake =
                Diagnostic::new(&catalogue::NAME_UNKNOWN, name.span, title).label("left out of what?");
            self.report(match nearest(&name.text, known.iter().map(|one| &**one)) {
                Some(near) => mistake.did_you_mean(name.span, near),
                None if known.is_empty() => mistake.help("remove this name"),
                None => mistake.help(format!("it has {}", known.join(", "))),
            });
        }
        left_out
    }

    /// A piece that is made of no other has nothing to leave out.
    pub(super) fn report_nothing_to_leave_out(&self, items: &[PieceItem]) {
        for name in names(items) {
            self.report(
                Diagnostic::new(&catalogue::NAME_UNKNOWN, name.span, "this piece is made of no other one")
                    .label("left out of what?")
                    .help("only a copy, a strip or a rest has marks and lines to leave out; remove them where they are drawn"),
            );
        }
    }
}

fn names(items: &[PieceItem]) -> impl Iterator<Item = &crate::syntax::tree::Name> {
    items.iter().flat_map(|item| match &item.node {
        PieceItemNode::Without(names) => names.as_slice(),
        _ => &[],
    })
}
