//! What a file is, by its heading.

use super::{FileKind, Loading};
use crate::report::{Diagnostic, catalogue};
use crate::source::{FileId, Span};
use crate::syntax::tree::{File, FittingOf, Statement, StatementNode, VariationOf};

impl Loading<'_> {
    /// Where a file says what it is.
    pub(super) fn heading_of(&self, id: FileId) -> Span {
        let heading = self.chain.files.get(&id).and_then(|file| headings(&file.tree).next());
        heading.map_or(self.map.file(id).span(), |(statement, _)| statement.span)
    }

    /// What a file is by its heading, and whatever is wrong with that.
    pub(super) fn kind_of(&mut self, tree: &File, reported: &[Diagnostic]) -> Option<FileKind> {
        const HELP: &str = "begin the file with garment \"…\", variation \"…\" of \"….fus\", fitting \"…\" of \"….fus\" or library \"…\"";
        let mut all = headings(tree);
        let Some((heading, kind)) = all.next() else {
            let file = self.map.file(tree.id).span();
            let first = tree.statements.first().map_or(file.hi, |statement| statement.span.lo);
            // A heading that could not be read is reported already.
            if !reported.iter().any(|mistake| mistake.span().lo <= first) {
                let place =
                    tree.statements.first().map_or(Span::new(file.lo, file.lo), |statement| statement.span);
                let mistake =
                    Diagnostic::new(&catalogue::FILE_HEADING, place, "the file does not say what it is");
                self.chain.mistakes.push(mistake.label("a heading must come before this").help(HELP));
            }
            return None;
        };
        if let Some(first) = tree.statements.first().filter(|first| first.span != heading.span) {
            let mistake = Diagnostic::new(
                &catalogue::FILE_HEADING,
                heading.span,
                "the heading is not the file's first line",
            )
            .label("the heading")
            .also(first.span, "comes before it")
            .help("move the heading to the top");
            self.chain.mistakes.push(mistake);
        }
        for (second, _) in all {
            let mistake = Diagnostic::new(&catalogue::FILE_HEADING, second.span, "the file has two headings")
                .label("a second heading")
                .also(heading.span, "the first")
                .help("one garment per file: keep one heading, and give the other a file of its own");
            self.chain.mistakes.push(mistake);
        }
        Some(kind)
    }
}

/// What a variation says of the files that it is made of.
pub(super) fn variation_of(tree: &File) -> Option<&VariationOf> {
    tree.statements.iter().find_map(|statement| match &statement.node {
        StatementNode::Variation(variation) => Some(variation),
        _ => None,
    })
}

/// What a fitting says of its wearer.
pub(in crate::garment) fn fitting_of(tree: &File) -> Option<&FittingOf> {
    tree.statements.iter().find_map(|statement| match &statement.node {
        StatementNode::Fitting(fitting) => Some(fitting),
        _ => None,
    })
}

fn headings(tree: &File) -> impl Iterator<Item = (&Statement, FileKind)> {
    tree.statements.iter().map(|statement| &**statement).filter_map(|statement| match statement.node {
        StatementNode::Garment(_) => Some((statement, FileKind::Garment)),
        StatementNode::Variation(_) => Some((statement, FileKind::Variation)),
        StatementNode::Fitting(_) => Some((statement, FileKind::Fitting)),
        StatementNode::Library(_) => Some((statement, FileKind::Library)),
        _ => None,
    })
}
