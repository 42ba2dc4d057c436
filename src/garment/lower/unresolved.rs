//! Names that nothing declares, beside what they nearly are: whether the use or the declaration is
//! the slip.

use super::Lowering;
use super::notes::Notes;
use super::sought::{Sought, UnresolvedName};
use crate::garment::Symbol;
use crate::report::{Fix, Label};

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
            Sought::EdgeOf(piece) | Sought::TakeUpOf(piece) | Sought::SlitOf(piece) => {
                self.piece_edges.get(piece.index())?.get(name).map(|&id| Symbol::Edge(id))
            }
            Sought::PointOf(piece) => {
                self.piece_points.get(piece.index())?.get(name).map(|&id| Symbol::Point(id))
            }
            Sought::Stitched
            | Sought::Fabric
            | Sought::Size
            | Sought::BodyMeasure
            | Sought::PointOfSeam
            | Sought::PointOfClosure => None,
        }
    }
}
