use super::{
    Cut, CutHow, Dotted, EdgePlace, Expr, ExprKind, Hand, Name, Outline, Piece, PieceItem, PieceItemNode,
    Quantity, Text,
};
use crate::source::Span;

/// `strap handle "Handle" 60 by 2.5 in outer folded in four { from … to …; sewn 8, boxed }`
#[derive(Clone, Debug)]
pub struct Strap {
    /// Its name.
    pub name: Name,
    /// What people read.
    pub title: Option<Text>,
    /// How long it is, with what is sewn on of it.
    pub length: Expr,
    /// How wide it is when it is finished.
    pub width: Expr,
    /// The layer whose cloth it is cut from.
    pub layer: Name,
    /// `folded in four`: cut four times as wide, its edges inside.
    pub in_four: bool,
    /// What stands in its braces.
    pub items: Vec<StrapItem>,
}

/// One line of a strap.
#[derive(Clone, Debug)]
pub struct StrapItem {
    /// All of it.
    pub span: Span,
    /// What it says.
    pub node: StrapItemNode,
}

/// What a line of a strap says.
#[derive(Clone, Debug)]
pub enum StrapItemNode {
    /// `from front.m1 on left to front.m1 on right`, `from front.waist_side caught in side to free`
    Run {
        /// Where it begins.
        from: StrapEnd,
        /// Where it ends; none of one that hangs free.
        to: Option<StrapEnd>,
    },
    /// `sewn 8, boxed`
    Sewn {
        /// How much of each end is sewn on.
        length: Expr,
        /// Stitched all round that, and across it from corner to corner.
        boxed: bool,
    },
}

/// Where a strap is sewn on, or caught.
#[derive(Clone, Debug)]
pub struct StrapEnd {
    /// A mark or corner of a piece, or an edge.
    pub at: Dotted,
    /// On that side of the body only, as worn.
    pub hand: Option<Hand>,
    /// Where on the edge; none of a corner or a mark.
    pub place: Option<Box<EdgePlace>>,
    /// The seam that it is caught in.
    pub caught: Option<Name>,
    /// All of it.
    pub span: Span,
}

impl Strap {
    /// The piece that it stands for, as wide as it is finished: a rectangle along the grain.
    pub fn piece(&self) -> Piece {
        let span = self.name.span;
        let one = ExprKind::Quantity(Quantity { number: 1.0, unit: None, span });
        let cut = Cut { count: Expr { span, kind: one }, how: CutHow::Alike, loose: true };
        let outline = Outline::Rectangle { width: self.width.clone(), height: self.length.clone() };
        let items = [PieceItemNode::Cut(cut), PieceItemNode::Outline(outline)];
        let items =
            items.into_iter().map(|node| PieceItem { span: self.length.span.to(self.width.span), node });
        Piece {
            name: self.name.clone(),
            like: None,
            title: self.title.clone(),
            block: false,
            items: items.collect(),
        }
    }
}
