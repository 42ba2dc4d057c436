//! Names that nothing declares, beside what they nearly are: whether the use or the declaration is
//! the slip.

use super::Lowering;
use super::notes::Notes;
use crate::garment::{Garment, PieceId, Symbol};
use crate::report::{Diagnostic, Fix, Label};
use crate::source::Span;
use indexmap::IndexSet;
use std::sync::Arc;

/// How many uses of one unresolved name are shown.
const USES_SHOWN: usize = 4;

/// What a name was sought as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Sought {
    Piece,
    Layer,
    Fabric,
    Size,
    Value,
    ValueOrPoint,
    Closure,
    SeamOrClosure,
    EdgeOf(PieceId),
    PointOf(PieceId),
    PointOfSeam,
    PointOfClosure,
}

impl Sought {
    /// What may be a value in one place and a value or a point in another is one thing.
    pub fn kind(self) -> Sought {
        match self {
            Sought::ValueOrPoint => Sought::Value,
            Sought::SeamOrClosure => Sought::Closure,
            other => other,
        }
    }

    /// "piece", "edge or line of front".
    pub fn words(self, garment: &Garment) -> String {
        let of = |piece: PieceId| garment.piece(piece).name.clone();
        match self {
            Sought::Piece => "piece".to_owned(),
            Sought::Layer => "layer".to_owned(),
            Sought::Fabric => "fabric".to_owned(),
            Sought::Size => "size".to_owned(),
            Sought::Value => "value".to_owned(),
            Sought::ValueOrPoint => "value or point".to_owned(),
            Sought::Closure => "closure".to_owned(),
            Sought::SeamOrClosure => "seam or closure".to_owned(),
            Sought::EdgeOf(piece) => format!("edge or line of {}", of(piece)),
            Sought::PointOf(piece) => format!("point or mark of {}", of(piece)),
            Sought::PointOfSeam => "point of this seam's pieces".to_owned(),
            Sought::PointOfClosure => "point of this closure's pieces".to_owned(),
        }
    }
}

/// A name that nothing declares.
#[derive(Debug)]
pub(super) struct UnresolvedName {
    /// What is said of it.
    pub diagnostic: Diagnostic,
    /// Where it is used.
    pub uses: IndexSet<Span>,
    /// The known name that is nearest to it.
    pub near: Option<Arc<str>>,
}

impl UnresolvedName {
    /// It is used there too: one slip where a thing is declared makes every use of it unresolved.
    pub fn used_at(&mut self, span: Span) {
        if self.uses.insert(span) && self.diagnostic.labels.len() < USES_SHOWN {
            self.diagnostic.labels.push(Label { span, text: "nor here".to_owned() });
        }
    }
}

impl Lowering<'_> {
    /// Shows where the nearest known name is declared. Where nothing uses that name, and several
    /// places the unresolved one, the slip is in the declaration, and the message moves there.
    pub(super) fn show_declarations(&self, notes: &mut Notes) {
        for ((sought, name), unresolved) in &mut notes.unresolved {
            let UnresolvedName { diagnostic, uses, near } = unresolved;
            // In the order of the text: the first use says what is missed, the others join in.
            let first = diagnostic.labels.first().map(|label| label.text.clone()).unwrap_or_default();
            diagnostic.labels.sort_by_key(|label| label.span);
            for (at, label) in diagnostic.labels.iter_mut().enumerate() {
                label.text = if at == 0 { first.clone() } else { "nor here".to_owned() };
            }
            let Some(near) = near else { continue };
            if let Some(fix) = &mut diagnostic.fix {
                fix.edits = uses.iter().map(|&span| (span, near.to_string())).collect();
            }
            let Some(symbol) = self.symbol_of(*sought, near) else { continue };
            let declared = self.garment.declared(symbol).1;
            if self.map.text(declared) != &**near {
                continue;
            }
            let is_used = notes.name_uses.iter().any(|used| used.symbol == symbol);
            if is_used || uses.len() < 2 {
                diagnostic.labels.push(Label { span: declared, text: "declared here".to_owned() });
                continue;
            }
            let text = format!("declared as {near}, which nothing uses");
            diagnostic.labels.insert(0, Label { span: declared, text });
            let help = format!("did you mean {name}? it is called so in {} other places", uses.len());
            diagnostic.help = Some(help);
            diagnostic.fix =
                Some(Fix { title: format!("write {name}"), edits: vec![(declared, name.to_string())] });
        }
    }

    /// What of that kind has that name.
    fn symbol_of(&self, sought: Sought, name: &str) -> Option<Symbol> {
        let names = &self.names;
        match sought {
            Sought::Value | Sought::ValueOrPoint => names.values.get(name).map(|&id| Symbol::Value(id)),
            Sought::Piece => names.pieces.get(name).map(|&id| Symbol::Piece(id)),
            Sought::Layer => names.layers.get(name).map(|&id| Symbol::Layer(id)),
            Sought::Closure | Sought::SeamOrClosure => names
                .closures
                .get(name)
                .map(|&id| Symbol::Closure(id))
                .or_else(|| names.seams.get(name).map(|&id| Symbol::Seam(id))),
            Sought::EdgeOf(piece) => {
                self.piece_edges.get(piece.index())?.get(name).map(|&id| Symbol::Edge(id))
            }
            Sought::PointOf(piece) => {
                self.piece_points.get(piece.index())?.get(name).map(|&id| Symbol::Point(id))
            }
            Sought::Fabric | Sought::Size | Sought::PointOfSeam | Sought::PointOfClosure => None,
        }
    }
}
