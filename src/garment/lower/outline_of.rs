//! Outlines that are those of other pieces: copies, strips and rests.

use super::expression::Wanted;
use super::papers::When;
use super::take_up::is_share;
use super::{Lowering, as_piece};
use crate::garment::{Dimension, EdgeId, Expression, Outline, PieceId, StripRun};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, PieceItemNode};

impl Lowering<'_> {
    /// The runs of edges of another piece that a strip goes along; none where one makes no sense, which is reported.
    pub(super) fn strip_runs(
        &self,
        (piece, base): (PieceId, PieceId),
        along: &[tree::StripEdge],
        when: When,
    ) -> Option<Vec<StripRun>> {
        let mut runs = Vec::new();
        for (edge, run) in along.iter().filter_map(|one| Some((&one.edge, one.run.as_ref()?))) {
            let amount = |expr: &tree::Expr| -> Expression {
                let typed = self.lower(expr, when, None, Wanted::Any);
                match typed.dimension {
                    Dimension::Number if is_share(expr) => typed,
                    _ => self.lower(expr, when, None, Wanted::Length),
                }
            };
            let (from, to) = (run.from.as_ref().map(amount), amount(&run.to));
            let end = |word: &str| {
                let name = format!("{}_{word}", edge.text);
                let own = self.piece_edges.get(piece.index())?.get(&*name).copied();
                own.zip(self.piece_points.get(piece.index())?.get(&*name).copied())
            };
            let ends = end("near").zip(end("far"));
            let found = self.attempt(|reading| reading.find_edge(base, edge)).forget();
            let counted = self.counted_from(base, &run.counted);
            let ((near, far), edge) = ends.zip(found)?;
            runs.push(StripRun { edge, from, to, counted: counted?, near, far, span: run.span });
        }
        Some(runs)
    }

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
        if let Some(run) = along.iter().find_map(|edge| edge.run.as_ref()) {
            let title = format!(
                "{} is a strip of a run of an edge, and ends inside that",
                self.garment.piece(strip.piece).name
            );
            let mistake = Diagnostic::new(&catalogue::STRIP_BROKEN, span, title)
                .label("a rest goes along whole edges")
                .also(run.span, "the run");
            self.report(mistake.help(
                "divide the edge where the strip ends, in its piece, and take the strip along that part of it; or copy the \
                 whole piece",
            ));
            return Outline::None;
        }
        // What is wrong with them is reported where the strip itself is read.
        let (whole, edges, width) = self
            .attempt(|reading| {
                let width = reading.lower(width, When::Drawing(piece), None, Wanted::Length);
                let along: Vec<tree::Name> = along.iter().map(|one| one.edge.clone()).collect();
                (reading.find_part(strip_of), reading.edges_of(base, &along), width)
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
