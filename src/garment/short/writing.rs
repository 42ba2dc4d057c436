//! The words of what is written out. They lie where the maker's do.

use super::known::Known;
use crate::source::Span;
use crate::syntax::tree::{
    Call, Chain, Cut, CutHow, Dotted, Expr, ExprKind, Finish, FinishKind, Name, PieceItem, PieceItemNode,
    Quantity, Scaling, Seam, SeamItem, SeamItemNode, SewnWords, Side, Sign, StatementNode, Text, Unit,
    UnitWord,
};
use std::sync::Arc;

/// A statement that is being written out.
#[derive(Clone, Copy)]
pub(super) struct Writing<'a> {
    pub(super) known: Known<'a>,
    /// All of the statement.
    pub(super) span: Span,
    /// What it names.
    pub(super) name: &'a Name,
}

impl Writing<'_> {
    /// Its name with something after it.
    pub(super) fn named(&self, after: &str) -> Name {
        Name { text: format!("{}{after}", self.name.text).into(), span: self.name.span }
    }

    /// A word that the maker did not write.
    pub(super) fn given(&self, word: &str) -> Name {
        Name { text: word.into(), span: self.span }
    }

    pub(super) fn expr(&self, kind: ExprKind) -> Expr {
        Expr { span: self.span, kind }
    }

    pub(super) fn number(&self, number: f64) -> Expr {
        self.expr(ExprKind::Quantity(Quantity { number, unit: None, span: self.span }))
    }

    pub(super) fn centimetres(&self, number: f64) -> Expr {
        let unit = Some(UnitWord { unit: Unit::Centimetre, span: self.span });
        self.expr(ExprKind::Quantity(Quantity { number, unit, span: self.span }))
    }

    /// `layer.piece.edge`, or a corner of it.
    pub(super) fn of(&self, layer: &Name, piece: &Name, word: &str) -> Dotted {
        let parts = vec![layer.clone(), piece.clone(), self.given(word)];
        Dotted { parts, on: None, span: self.name.span }
    }

    /// The same words with the layer that sews the piece, where none is said.
    pub(super) fn layered(&self, dotted: &Dotted) -> Dotted {
        let mut dotted = dotted.clone();
        let piece = match dotted.parts.as_slice() {
            [piece, _] => piece.text.clone(),
            _ => return dotted,
        };
        if let Some(layer) = self.known.layer_of(&piece) {
            dotted.parts.insert(0, self.given(&layer));
        }
        dotted
    }

    pub(super) fn layered_chain(&self, chain: &Chain) -> Chain {
        let mut chain = chain.clone();
        for sewn in &mut chain.edges {
            sewn.edge = self.layered(&sewn.edge);
        }
        chain
    }

    pub(super) fn chain(&self, edges: Vec<Dotted>) -> Chain {
        let edges = edges.into_iter().map(|edge| SewnWords {
            span: edge.span,
            edge,
            run: None,
            over: Vec::new(),
            ring: false,
        });
        Chain { edges: edges.collect(), ring: false, span: self.span }
    }

    pub(super) fn item(&self, node: PieceItemNode) -> PieceItem {
        PieceItem { span: self.span, node }
    }

    pub(super) fn matching(&self, one: Dotted, other: Dotted) -> SeamItem {
        SeamItem { span: self.span, node: SeamItemNode::Matching(one, other) }
    }

    /// `cut 1`, `cut 2 mirrored`
    pub(super) fn cut(&self, count: f64, how: CutHow) -> PieceItem {
        self.item(PieceItemNode::Cut(Cut { count: self.number(count), how, loose: false }))
    }

    pub(super) fn seam(&self, name: Name, first: Vec<Chain>, second: Vec<Chain>) -> Seam {
        let side = |plies| Side { plies, span: self.span };
        Seam {
            name,
            label: None,
            across_fold: second.is_empty(),
            first: side(first),
            second: side(second),
            fit: None,
            along: None,
            enclosing: Vec::new(),
            items: Vec::new(),
        }
    }

    pub(super) fn finish(&self, edges: Vec<Dotted>, kind: FinishKind) -> StatementNode {
        let edges = self.chain(edges).edges;
        let (kind_span, binding_stretch, stitch) = (self.span, None, None);
        StatementNode::Finish(Finish { edges, kind, kind_span, binding_stretch, stitch })
    }

    /// `length(e)`, `finished(e)`, `total(e + f)`
    pub(super) fn call(&self, function: &str, of: Expr) -> Expr {
        self.expr(ExprKind::Call(Call { function: self.given(function), arguments: vec![of] }))
    }

    pub(super) fn edge_expr(&self, edge: &Dotted) -> Expr {
        Expr { span: edge.span, kind: ExprKind::Name(edge.clone()) }
    }

    /// What is added up; what is alone stands by itself.
    pub(super) fn sum(&self, mut terms: Vec<Expr>) -> Expr {
        match terms.len() {
            1 => terms.swap_remove(0),
            _ => self.expr(ExprKind::Sum(terms.into_iter().map(|term| (Sign::Plus, term)).collect())),
        }
    }

    /// Two for each.
    pub(super) fn doubled(&self, count: Expr) -> Expr {
        match &count.kind {
            ExprKind::Quantity(Quantity { number, unit: None, .. }) => self.number(2.0 * number),
            _ => self.times(self.number(2.0), count),
        }
    }

    pub(super) fn times(&self, factor: Expr, of: Expr) -> Expr {
        let both = vec![(Scaling::Times, grouped(factor)), (Scaling::Times, grouped(of))];
        self.expr(ExprKind::Product(both))
    }

    /// The title that is given, or the name as words: "Wrist placket".
    pub(super) fn title(&self, given: Option<&Text>, after: &str) -> Text {
        let words: Arc<str> = match given {
            Some(text) => text.text.clone(),
            None => {
                let name = self.name.text.replace('_', " ");
                let mut letters = name.chars();
                let first = letters.next().into_iter().flat_map(char::to_uppercase);
                first.chain(letters).collect::<String>().into()
            }
        };
        let span = given.map_or(self.name.span, |text| text.span);
        Text { text: format!("{words}{after}").into(), span }
    }
}

/// In brackets, where it would not stand for itself in a sum or a product.
pub(super) fn grouped(expr: Expr) -> Expr {
    match &expr.kind {
        ExprKind::Quantity(_) | ExprKind::Name(_) | ExprKind::Call(_) | ExprKind::Group(_) => expr,
        _ => Expr { span: expr.span, kind: ExprKind::Group(Box::new(expr)) },
    }
}

/// As much again: a sum, in which a bare number is a length of the file's unit, as it is where it stands alone.
pub(super) fn twice(length: &Expr) -> Expr {
    let half = || (Sign::Plus, grouped(length.clone()));
    Expr { span: length.span, kind: ExprKind::Sum(vec![half(), half()]) }
}
