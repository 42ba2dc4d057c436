use super::{
    ClosureId, EdgeId, FabricId, Garment, LayerId, PieceId, PointId, RowId, SeamId, TackId, ValueId,
};
use crate::source::Span;
use std::sync::Arc;

/// Anything that has a name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Symbol {
    /// A body measure, a let or a measure.
    Value(ValueId),
    /// A fabric.
    Fabric(FabricId),
    /// A layer.
    Layer(LayerId),
    /// A piece.
    Piece(PieceId),
    /// An edge or a line.
    Edge(EdgeId),
    /// A point or a mark.
    Point(PointId),
    /// A seam.
    Seam(SeamId),
    /// A closure.
    Closure(ClosureId),
    /// A row of topstitching or understitching.
    Row(RowId),
    /// A tack.
    Tack(TackId),
}

/// A name where it stands in the text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct NameUse {
    /// The name alone, without what stands before its dot.
    pub span: Span,
    /// What it names.
    pub symbol: Symbol,
}

impl Garment {
    /// What a name was first given to: the edge or point that this one was copied from, or was a
    /// run of before a split or join. Names that follow from one another change together.
    pub fn origin(&self, symbol: Symbol) -> Symbol {
        let mut at = symbol;
        while let Some(next) = self.named_after(at) {
            at = next;
        }
        at
    }

    /// The edge or point whose name this one has, by a copy, a split or a join; none where it was
    /// first given.
    pub fn named_after(&self, symbol: Symbol) -> Option<Symbol> {
        match symbol {
            Symbol::Edge(edge) => {
                let edge = self.edge(edge);
                if edge.portion.is_some() {
                    return edge.part_of.map(Symbol::Edge);
                }
                // A dart that was moved may have a name of its own.
                let of = edge.same_run_as.or(edge.copied_from)?;
                (self.edge(of).name == edge.name).then_some(Symbol::Edge(of))
            }
            Symbol::Point(point) => {
                let point = self.point(point);
                point.same_as.or(point.copied_from).map(Symbol::Point)
            }
            _ => None,
        }
    }

    /// The name of a thing and where it is declared.
    pub fn declared(&self, symbol: Symbol) -> (Arc<str>, Span) {
        let (name, span) = self.name_of(symbol);
        (name.clone(), span)
    }

    /// The same, lent.
    pub(in crate::garment) fn name_of(&self, symbol: Symbol) -> (&Arc<str>, Span) {
        match symbol {
            Symbol::Value(id) => (&self.value(id).name, self.value(id).span),
            Symbol::Fabric(id) => (&self.fabric(id).name, self.fabric(id).span),
            Symbol::Layer(id) => (&self.layer(id).name, self.layer(id).span),
            Symbol::Piece(id) => (&self.piece(id).name, self.piece(id).span),
            Symbol::Edge(id) => (&self.edge(id).name, self.edge(id).span),
            Symbol::Point(id) => (&self.point(id).name, self.point(id).span),
            Symbol::Seam(id) => (&self.seam(id).name, self.seam(id).name_span),
            Symbol::Row(id) => (&self.row(id).name, self.row(id).name_span),
            Symbol::Tack(id) => (&self.tack(id).name, self.tack(id).name_span),
            Symbol::Closure(id) => (&self.closure(id).name, self.closure(id).name_span),
        }
    }
}

/// A seam or closure that a variation dropped, whose edges nothing may take any more.
#[derive(Clone, Debug)]
pub struct DroppedSewing {
    /// As `drop` says it: "seam side".
    pub what: String,
    /// Where it was dropped.
    pub dropped: Span,
    /// The piece and the edge of each edge that it took.
    pub edges: Vec<(Arc<str>, Arc<str>)>,
}
