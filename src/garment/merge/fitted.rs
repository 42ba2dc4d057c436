//! A fitting: what one wearer's file says beside the garment.

use super::Merging;
use super::key::kind_word;
use crate::garment::chain::ChainFile;
use crate::report::{Diagnostic, catalogue};
use crate::source::FileId;
use crate::syntax::tree::StatementNode;
use indexmap::IndexMap;

impl Merging {
    /// A wearer's measures, a unit and a story of its own: the garment itself is changed by variations.
    pub(super) fn fitting(&mut self, file: &ChainFile, files: &IndexMap<FileId, ChainFile>) {
        self.units_of(file, files);
        let heading = self.merged.fitting.as_ref().map_or(self.merged.heading, |fitting| fitting.wearer.span);
        for statement in &file.tree.statements {
            match &statement.node {
                StatementNode::Fitting(_) | StatementNode::Units(_) => {}
                StatementNode::About(_) => self.declare(statement),
                // A second heading is reported already.
                StatementNode::Garment(_) | StatementNode::Variation(_) | StatementNode::Library(_) => {}
                StatementNode::Body(_) => {
                    let mistake = Diagnostic::new(
                        &catalogue::FILE_KIND,
                        statement.span,
                        "the wearer's measures stand in the braces of the fitting",
                    )
                    .label("outside of them")
                    .help("write fitting \"…\" of \"….fus\" { body { … } }");
                    self.merged.mistakes.push(mistake);
                }
                node => {
                    let title = format!("a fitting holds no {}", kind_word(node));
                    let mistake = Diagnostic::new(&catalogue::FILE_KIND, statement.span, title)
                        .label("is in a fitting")
                        .also(heading, "this file is a fitting")
                        .help(
                            "a fitting says who wears the garment; what changes the garment belongs in a \
                             variation, and a variation can be fitted",
                        );
                    self.merged.mistakes.push(mistake);
                }
            }
        }
        self.bind_sizes(file.id);
        self.damaged |= file.damaged;
    }
}
