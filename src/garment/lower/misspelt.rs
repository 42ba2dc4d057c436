//! Names that are not known beside what they nearly are: whether the use or the declaration is the
//! slip.

use super::Lowering;
use crate::garment::Symbol;
use crate::report::{Fix, Label};
use crate::source::Span;
use indexmap::IndexSet;
use std::sync::Arc;

/// A name that was told not to be known.
pub(super) struct Unknown {
    /// Which mistake tells it.
    pub at: usize,
    /// Where it is used.
    pub uses: IndexSet<Span>,
    /// The known name that is nearest to it.
    pub near: Option<Arc<str>>,
}

impl Lowering<'_> {
    /// Shows where the nearest known name is declared. Where nothing uses that name, and several
    /// places the unknown one, the slip is in the declaration, and the message moves there.
    pub(super) fn tell_declarations(&mut self) {
        let unknown_names = std::mem::take(&mut self.unknown_names);
        for ((sought, name), unknown) in &unknown_names {
            if let Some(told) = self.mistakes.get_mut(unknown.at) {
                // In the order of the text: the first use says what is missed, the others join in.
                let first = told.labels.first().map(|label| label.text.clone()).unwrap_or_default();
                told.labels.sort_by_key(|label| label.span);
                for (at, label) in told.labels.iter_mut().enumerate() {
                    label.text = if at == 0 { first.clone() } else { "nor here".to_owned() };
                }
                if let (Some(fix), Some(near)) = (&mut told.fix, &unknown.near) {
                    fix.edits = unknown.uses.iter().map(|&span| (span, near.to_string())).collect();
                }
            }
            let Some(near) = &unknown.near else { continue };
            let Some(symbol) = self.symbol_of(sought, near) else { continue };
            let declared = self.garment.declared(symbol).1;
            if self.map.text(declared) != &**near {
                continue;
            }
            let is_used = self.garment.name_uses.iter().any(|used| used.symbol == symbol);
            let Some(told) = self.mistakes.get_mut(unknown.at) else { continue };
            if is_used || unknown.uses.len() < 2 {
                told.labels.push(Label { span: declared, text: "declared here".to_owned() });
                continue;
            }
            let text = format!("declared as {near}, which nothing names");
            told.labels.insert(0, Label { span: declared, text });
            let help = format!("did you mean {name}? it is called so in {} other places", unknown.uses.len());
            told.help = Some(help);
            told.fix = Some(Fix { title: format!("write {name}"), edits: vec![(declared, name.clone())] });
        }
    }

    /// What of that kind has that name.
    fn symbol_of(&self, sought: &str, name: &str) -> Option<Symbol> {
        let names = &self.names;
        match sought {
            "value" => names.values.get(name).map(|&id| Symbol::Value(id)),
            "piece" => names.pieces.get(name).map(|&id| Symbol::Piece(id)),
            "layer" => names.layers.get(name).map(|&id| Symbol::Layer(id)),
            "closure" => names
                .closures
                .get(name)
                .map(|&id| Symbol::Closure(id))
                .or_else(|| names.seams.get(name).map(|&id| Symbol::Seam(id))),
            _ => {
                let (kind, piece) = sought.rsplit_once(" of ")?;
                let piece = names.pieces.get(piece)?.index();
                match kind {
                    "edge or line" => self.piece_edges.get(piece)?.get(name).map(|&id| Symbol::Edge(id)),
                    "point or mark" => self.piece_points.get(piece)?.get(name).map(|&id| Symbol::Point(id)),
                    _ => None,
                }
            }
        }
    }
}
