//! Pieces that are drawn from others, and altered along with them.

use super::Lowering;
use crate::garment::{AlterationKind, AmountForm, PieceId};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;

impl Lowering<'_> {
    /// A piece that is drawn from another follows it: altered in the same line, it would be altered
    /// twice.
    pub(super) fn check_followers(&mut self) {
        for at in 0..self.garment.alterations.len() {
            let alteration = &self.garment.alterations[at];
            let adds_up =
                |kind: AlterationKind| kind.form().amount != AmountForm::None && kind.has_statement();
            if !alteration.kind.is_some_and(adds_up) {
                continue;
            }
            let targets: Vec<(PieceId, Span)> = alteration
                .targets
                .iter()
                .filter(|target| target.layer.is_none())
                .map(|target| (target.piece, target.span))
                .collect();
            let twice = targets.iter().find_map(|&(piece, span)| {
                let (from, outline) = self.drawn_from(piece)?;
                let first = targets.iter().find(|&&(other, _)| other == from)?;
                Some((piece, span, from, first.1, outline))
            });
            let Some((piece, span, from, first, outline)) = twice else { continue };
            let (name, from) =
                (self.garment.piece(piece).name.clone(), self.garment.piece(from).name.clone());
            let title = format!("{name} is drawn from {from} and follows it, so this alters {name} twice");
            let diagnostic = Diagnostic::new(&catalogue::ALTER_TWICE, span, title)
                .label("and once more here")
                .also(first, format!("{name} changes with this"))
                .also(outline, format!("drawn from {from} as it is after all alterations"))
                .help(format!("name {from} alone, or draw {name} by itself"));
            self.report(diagnostic);
            self.poison_alteration(at);
        }
    }

    /// The piece that another is a copy of, or a strip or the rest of, and where that is said.
    fn drawn_from(&self, piece: PieceId) -> Option<(PieceId, Span)> {
        let outline = &self.garment.piece(piece).drawing.outline;
        Some((self.garment.paper(outline.made_of()?.paper).piece, outline.span()?))
    }
}
