//! Words for people that say nothing.

use super::Merged;
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{Credit, Outline, PieceItemNode, StatementNode, Text};

/// Reports every title and label that is empty, of what stands once all files are merged.
pub(super) fn report_empty(merged: &mut Merged) {
    let mut empty: Vec<Span> = Vec::new();
    let mut look = |text: &Text| {
        if text.text.trim().is_empty() {
            empty.push(text.span);
        }
    };
    merged.fitting.iter().for_each(|fitting| look(&fitting.wearer));
    for declaration in &merged.declarations {
        texts(&declaration.statement.node, &mut look);
    }
    if merged.fitting.is_none() && merged.first.is_some() && merged.title.trim().is_empty() {
        // A file without a heading has none to point at, and is told so.
        empty.extend(Some(merged.heading).filter(|heading| heading.lo < heading.hi));
    }
    for span in empty {
        merged.mistakes.push(
            Diagnostic::new(&catalogue::TEXT_EMPTY, span, "the words for people say nothing")
                .label("nothing between the quotation marks")
                .help("write what people are to read there"),
        );
    }
}

fn texts(node: &StatementNode, look: &mut impl FnMut(&Text)) {
    match node {
        StatementNode::About(text) => look(text),
        StatementNode::Credit(Credit::Maker(text) | Credit::Licence(text)) => look(text),
        StatementNode::Measure(measure) => look(&measure.title),
        StatementNode::Require(require) => look(&require.because),
        StatementNode::Notion(notion) => look(&notion.title),
        StatementNode::Fabric(fabric) => fabric.title.iter().for_each(look),
        StatementNode::Strap(strap) => strap.title.iter().for_each(look),
        StatementNode::Band(band) => band.title.iter().for_each(look),
        StatementNode::Facing(facing) => facing.title.iter().for_each(look),
        StatementNode::Seam(seam) => seam.label.iter().for_each(look),
        StatementNode::Steps(steps) => steps.groups.iter().for_each(|group| look(&group.title)),
        StatementNode::Piece(piece) => {
            piece.title.iter().for_each(&mut *look);
            for item in &piece.items {
                match &item.node {
                    PieceItemNode::Mark(mark) => mark.label.iter().for_each(&mut *look),
                    PieceItemNode::Line(line) => line.label.iter().for_each(&mut *look),
                    PieceItemNode::Outline(Outline::Walk { edges, .. }) => {
                        edges.iter().filter_map(|edge| edge.label.as_ref()).for_each(&mut *look);
                    }
                    _ => {}
                }
            }
        }
        _ => {}
    }
}
