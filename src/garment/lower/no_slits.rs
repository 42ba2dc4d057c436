//! Plackets that name no slit.

use super::Lowering;
use crate::garment::merge::Merged;
use crate::report::{Diagnostic, catalogue};
use crate::syntax::tree::StatementNode;

impl Lowering<'_> {
    /// Reports plackets whose words can be no slit; they are looked for in what was written.
    pub(super) fn report_no_slits(&self, written: &Merged) {
        for declaration in &written.declarations {
            let StatementNode::Placket(placket) = &declaration.statement.node else { continue };
            if (2..=3).contains(&placket.slit.parts.len()) {
                continue;
            }
            let words: Vec<&str> = placket.slit.parts.iter().map(|part| &*part.text).collect();
            let title = format!("{} is no slit of a piece", words.join("."));
            let help =
                "name the piece and its slit: piece.slit, or layer.piece.slit; its sides are not named";
            self.report(
                Diagnostic::new(&catalogue::NAME_UNKNOWN, placket.slit.span, title)
                    .label("of which piece?")
                    .help(help),
            );
        }
    }
}
