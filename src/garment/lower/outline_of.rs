//! Outlines that are those of other pieces: copies, strips and rests.

use super::expression::Wanted;
use super::papers::When;
use super::{Lowering, as_piece};
use crate::garment::{EdgeId, Outline, PieceId};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, PieceItemNode};

impl Lowering<'_> {
    pub(super) fn inner_edge(&self, piece: PieceId) -> Option<EdgeId> {
        self.piece_edges[piece.index()].get("inner").copied()
    }

    /// The piece that another is made of; it must still be there when everything is done.
    pub(super) fn base_of(
        &self,
        piece: PieceId,
        of: &tree::Dotted,
    ) -> Option<(crate::garment::PaperUse, PieceId)> {
        let part = self.find_part(of)?;
        if let Some(ended) = self.garment.piece(part.piece).ended_by {
            let name = self.garment.piece(part.piece).name.clone();
            let title = format!("{name} no longer exists once everything is altered");
            let diagnostic = Diagnostic::new(&catalogue::ALTER_GONE, of.span, title)
                .label("named here")
                .also(self.garment.alteration(ended).span, "made into other pieces here")
                .help("name one of the pieces that were made of it");
            self.report(diagnostic);
            return None;
        }
        let paper = self.paper_use(part.layer, part.piece, When::Drawing(piece), of.span)?;
        Some((paper, part.piece))
    }

    pub(super) fn lower_rest(
        &self,
        piece: PieceId,
        of: &tree::Dotted,
        without: &tree::Dotted,
        (mirrored, span): (bool, Span),
    ) -> Outline {
        let (Some((of, base)), Some(strip)) = (self.base_of(piece, of), self.find_part(without)) else {
            return Outline::None;
        };
        let statement = self.piece_tree(strip.piece);
        let strip_outline = statement.as_ref().and_then(|statement| as_piece(statement)).and_then(|tree| {
            tree.items.iter().find_map(|item| match &item.node {
                PieceItemNode::Outline(tree::Outline::Strip { of, along, width, .. }) => {
                    Some((of, along, width))
                }
                _ => None,
            })
        });
        let Some((strip_of, along, width)) = strip_outline else {
            return self.report_no_strip(without, strip.piece, base);
        };
        // What is wrong with them is reported where the strip itself is read.
        let (whole, edges, width) = self
            .attempt(|reading| {
                let width = reading.lower(width, When::Drawing(piece), None, Wanted::Length);
                (reading.find_part(strip_of), reading.edges_of(base, along), width)
            })
            .forget();
        if whole.is_none_or(|whole| whole.piece != base) {
            return self.report_no_strip(without, strip.piece, base);
        }
        match (edges, self.inner_edge(piece)) {
            (Some(along), Some(inner)) => {
                Outline::Rest { of, without: strip.piece, along, width, inner, mirrored, span }
            }
            _ => Outline::None,
        }
    }

    pub(super) fn report_no_strip(&self, without: &tree::Dotted, strip: PieceId, base: PieceId) -> Outline {
        let (strip_name, base_name) =
            (self.garment.piece(strip).name.clone(), self.garment.piece(base).name.clone());
        let diagnostic = Diagnostic::new(
            &catalogue::STRIP_BROKEN,
            without.span,
            format!("{strip_name} is not a strip of {base_name}"),
        )
        .label("a strip decides what is left")
        .also(self.garment.piece(strip).span, "drawn here")
        .help(format!("draw {strip_name} with: outline strip of {base_name} along … width …"));
        self.report(diagnostic);
        Outline::None
    }
}
