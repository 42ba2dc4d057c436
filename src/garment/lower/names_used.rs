//! What the names in the text mean, which editors ask: it is put in order beside what else is worked out of a garment.

use crate::garment::{
    ClosureId, EdgeId, FabricId, Garment, LayerId, NameUse, PieceId, PointId, RowId, SeamId, Symbol, TackId,
    ValueId,
};
use crate::source::SourceMap;

/// The names that a garment's text uses, as they were met.
#[derive(Clone, Debug, Default)]
pub struct NamesUsed {
    pub(super) uses: Vec<NameUse>,
    /// Some of what is said is made of what is said in one line.
    pub(super) has_short_forms: bool,
}

impl NamesUsed {
    /// The names that are used and those where they are declared, in the order of the text. Names
    /// that several pieces inherit are declared once, by the first.
    pub fn in_order(self, map: &SourceMap, garment: &Garment) -> Vec<NameUse> {
        let NamesUsed { mut uses, has_short_forms } = self;
        if has_short_forms {
            // A name that is said for the maker, where all of the line is its place, is no word of the text.
            uses.retain(|one| !map.text(one.span).contains(char::is_whitespace));
        }
        let declared = symbols(garment)
            .filter(|&symbol| garment.named_after(symbol).is_none())
            // A place on an edge has no name of its own.
            .filter(|symbol| !matches!(*symbol, Symbol::Point(point) if garment.is_placed_point(point)))
            .map(|symbol| (garment.name_of(symbol), symbol))
            // Some names stand nowhere: the edges of a rectangle, the inside of a strip.
            .filter(|((name, span), _)| span.len() == name.len() && map.text(*span) == &***name)
            .map(|((_, span), symbol)| NameUse { span, symbol });
        uses.extend(declared);
        // Much of it stands in order already, which this sorting makes use of.
        uses.sort();
        uses.dedup();
        uses
    }
}

/// All that has a name.
fn symbols(garment: &Garment) -> impl Iterator<Item = Symbol> {
    let symbols = (0..garment.values.len()).map(|at| Symbol::Value(ValueId::from_index(at)));
    let symbols =
        symbols.chain((0..garment.fabrics.len()).map(|at| Symbol::Fabric(FabricId::from_index(at))));
    let symbols = symbols.chain((0..garment.layers.len()).map(|at| Symbol::Layer(LayerId::from_index(at))));
    let symbols = symbols.chain((0..garment.pieces.len()).map(|at| Symbol::Piece(PieceId::from_index(at))));
    let symbols = symbols.chain((0..garment.edges.len()).map(|at| Symbol::Edge(EdgeId::from_index(at))));
    let symbols = symbols.chain((0..garment.points.len()).map(|at| Symbol::Point(PointId::from_index(at))));
    let symbols = symbols.chain((0..garment.seams.len()).map(|at| Symbol::Seam(SeamId::from_index(at))));
    let symbols =
        symbols.chain((0..garment.closures.len()).map(|at| Symbol::Closure(ClosureId::from_index(at))));
    let symbols = symbols.chain((0..garment.rows.len()).map(|at| Symbol::Row(RowId::from_index(at))));
    symbols.chain((0..garment.tacks.len()).map(|at| Symbol::Tack(TackId::from_index(at))))
}
