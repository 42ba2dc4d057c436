//! What people read of an edge, a line or a mark, given where it is drawn.

use super::Lowering;
use crate::garment::PieceId;
use crate::report::{Diagnostic, catalogue};
use crate::syntax::tree::{Name, Text};

impl Lowering<'_> {
    /// Labels the edge or line of that name. An edge that goes on beyond a dart has one label, on whichever run.
    pub(super) fn label_edge(&mut self, piece: PieceId, name: &Name, label: Option<&Text>, adjust: bool) {
        let Some(&edge) = self.piece_edges[piece.index()].get(&name.text) else { return };
        let declared = &mut self.garment.edges[edge.index()];
        declared.adjust |= adjust && declared.span == name.span;
        let Some(label) = label else { return };
        match &declared.label {
            None => declared.label = Some(label.text.clone()),
            Some(first) if *first == label.text => {}
            Some(first) => {
                let title = format!("{} is called \"{first}\" and \"{}\"", name.text, label.text);
                let first = declared.span;
                self.report(
                    Diagnostic::new(&catalogue::NAME_DECLARED_TWICE, label.span, title)
                        .label("again here")
                        .also(first, "first here")
                        .help("an edge goes on beyond a dart under one label: say it once"),
                );
            }
        }
    }

    /// Labels the mark of that name.
    pub(super) fn label_point(&mut self, piece: PieceId, name: &Name, label: Option<&Text>) {
        let Some(&point) = self.piece_points[piece.index()].get(&name.text) else { return };
        let declared = &mut self.garment.points[point.index()];
        if declared.span == name.span {
            declared.label = label.map(|label| label.text.clone());
        }
    }
}
