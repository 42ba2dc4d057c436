//! Straps: the piece that each stands for, how it is folded, and where it is sewn on.

use super::Lowering;
use super::declare::{constant, poison};
use super::expression::Wanted;
use super::papers::When;
use crate::garment::{
    CutHow, Dimension, Expression, FoldOver, Node, Outline, PieceOrigin, Strap, StrapEnd, StrapId, StrapRun,
};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, StatementNode, StrapItemNode};
use std::sync::Arc;

impl Lowering<'_> {
    /// Gives a strap its id, and its piece.
    pub(super) fn declare_strap(&mut self, strap: &tree::Strap, span: Span) {
        let title = strap.title.as_ref().map_or_else(|| strap.name.text.clone(), |title| title.text.clone());
        let drawn = Arc::new(tree::Statement { span, node: StatementNode::Piece(strap.piece()) });
        let Some(piece) = self.declare_piece(&strap.name, title, PieceOrigin::Drawn, Some(drawn)) else {
            return;
        };
        self.garment.straps.push(Strap {
            name: strap.name.text.clone(),
            name_span: strap.name.span,
            span,
            piece,
            layer: None,
            length: poison(strap.length.span),
            width: poison(strap.width.span),
            in_four: strap.in_four,
            sewn: None,
            boxed: false,
            runs: Vec::new(),
            poisoned: false,
        });
    }

    /// The strap of that name; none of a second one, which is reported elsewhere.
    fn strap_of(&self, tree: &tree::Strap) -> Option<StrapId> {
        let straps = StrapId::enumerate(&self.garment.straps);
        straps.into_iter().find(|(_, strap)| strap.name_span == tree.name.span).map(|(id, _)| id)
    }

    /// Puts every strap among the pieces of its layer.
    pub(super) fn list_straps(&mut self) {
        let merged = self.merged;
        for declaration in &merged.declarations {
            let StatementNode::Strap(tree) = &declaration.statement.node else { continue };
            let Some(id) = self.strap_of(tree) else { continue };
            let Some(layer) = self.find_layer(&tree.layer) else {
                self.garment.incomplete.layers = true;
                continue;
            };
            let strap = &mut self.garment.straps[id.index()];
            strap.layer = Some(layer);
            let (piece, span) = (strap.piece, tree.layer.span);
            let layer = &mut self.garment.layers[layer.index()];
            if !layer.pieces.contains(&piece) {
                layer.pieces.push(piece);
                layer.piece_spans.push(span);
            }
        }
    }

    /// What is said of straps, once all pieces are drawn.
    pub(super) fn lower_straps(&mut self) {
        let merged = self.merged;
        for declaration in &merged.declarations {
            let StatementNode::Strap(tree) = &declaration.statement.node else { continue };
            if let Some(id) = self.strap_of(tree) {
                self.lower_strap(id, tree, declaration.statement.span);
            }
        }
    }

    fn lower_strap(&mut self, id: StrapId, tree: &tree::Strap, span: Span) {
        let mut strap = self.garment.strap(id).clone();
        strap.poisoned = self.is_damaged(span) || strap.layer.is_none();
        self.fold_strap(&mut strap);
        let mut sewn_said = None;
        for item in &tree.items {
            match &item.node {
                StrapItemNode::Run { from, to } => {
                    let to_end = to.as_ref().map(|to| self.strap_end(to));
                    match (self.strap_end(from), to_end) {
                        (Some(from), None) => strap.runs.push(StrapRun { from, to: None, span: item.span }),
                        (Some(from), Some(Some(to))) => {
                            strap.runs.push(StrapRun { from, to: Some(to), span: item.span });
                        }
                        _ => strap.poisoned = true,
                    }
                }
                StrapItemNode::Sewn { length, boxed } => match sewn_said {
                    Some(first) => self.report_said_twice("strap", "sewn ends", first, item.span),
                    None => {
                        sewn_said = Some(item.span);
                        strap.sewn = Some(self.lower(length, When::Fact, None, Wanted::Length));
                        strap.boxed = *boxed;
                    }
                },
            }
        }
        if strap.runs.is_empty() && !strap.poisoned {
            let title = format!("{} is sewn on nowhere", strap.name);
            let help =
                "say from where to where it goes: from front.left_mark to front.right_mark; or to free";
            self.report(
                Diagnostic::new(&catalogue::STRAP_PLACE, tree.name.span, title).label("where?").help(help),
            );
            strap.poisoned = true;
        }
        self.garment.pieces[strap.piece.index()].cut.count = self.count_of(&strap);
        self.garment.straps[id.index()] = strap;
    }

    /// Cut four times as wide as it is finished and folded, or with its long edges as they are cut.
    fn fold_strap(&mut self, strap: &mut Strap) {
        let piece = &mut self.garment.pieces[strap.piece.index()];
        let Outline::Rectangle { width, height, edges: [_, right, _, left], .. } = &mut piece.drawing.outline
        else {
            return;
        };
        (strap.width, strap.length) = (width.clone(), height.clone());
        let (span, left, right) = (strap.name_span, *left, *right);
        if strap.in_four {
            *width = times(4.0, width.clone());
            piece.folds.push(FoldOver { edge: left, onto: right, in_four: true, span });
        }
    }

    fn strap_end(&mut self, tree: &tree::StrapEnd) -> Option<StrapEnd> {
        let at = self.sewn_place(&tree.at, tree.place.as_deref(), true);
        let caught = match &tree.caught {
            Some(seam) => Some(self.find_catcher(seam)?),
            None => None,
        };
        let (layer, point) = at?;
        let at_fold = matches!(tree.place.as_deref(), Some(tree::EdgePlace::Fold));
        // What lies on the fold is there once: its piece is drawn with the half that it is counted on.
        let hand = tree.hand.or_else(|| at_fold.then_some(tree::Hand::Left));
        Some(StrapEnd { layer, point, hand, at_fold, caught, span: tree.span })
    }

    /// How many are cut: one for each copy of where it begins.
    fn count_of(&self, strap: &Strap) -> Expression {
        let mut terms = Vec::new();
        for run in &strap.runs {
            let host = &self.garment.piece(self.garment.point(run.from.point).piece).cut;
            let share = match (&host.how, run.from.hand) {
                (CutHow::OnFold(_), None) => 2.0,
                (CutHow::Mirrored, Some(_)) => 0.5,
                _ => 1.0,
            };
            terms.push((true, times(share, host.count.clone())));
        }
        match terms.len() {
            0 => constant(1.0, strap.name_span),
            1 => terms.swap_remove(0).1,
            _ => Expression { node: Node::Sum(terms), dimension: Dimension::Number, span: strap.name_span },
        }
    }
}

fn times(factor: f64, of: Expression) -> Expression {
    if factor == 1.0 {
        return of;
    }
    let (span, dimension) = (of.span, of.dimension);
    Expression { node: Node::Product(vec![(true, constant(factor, span)), (true, of)]), dimension, span }
}
