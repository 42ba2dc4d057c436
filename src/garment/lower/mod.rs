//! From words to ids: the merged declarations become a [`Garment`].
//!
//! It goes in passes, because facts stand in any order: all names first, then the edges and
//! points of each piece, then the papers that alterations work on, and only then what is said
//! with those names.

mod alteration;
mod caught;
mod closures;
mod cloth;
mod cuttings;
mod damage;
mod dart_change;
mod declare;
mod depths;
mod dimensions;
mod drawing;
mod drawing_order;
mod edges;
mod expression;
mod finishes;
mod fitted;
mod fitted_place;
mod followers;
mod gap;
mod geometry;
mod header;
mod incomplete;
mod labels;
mod left_out;
mod names;
mod no_slits;
mod notes;
mod notion_names;
mod only_layers;
mod openings;
mod outline_of;
mod papers;
mod place;
mod placements;
mod pleat;
mod portion;
mod rim;
mod runs_over;
mod seam;
mod seam_work;
mod sewing;
mod sides;
mod sought;
mod steps;
mod stitched;
mod straps;
mod take_up;
mod unresolved;
mod untils;
mod values;
mod walk;
mod zip_cloth;

use super::merge::Merged;
use super::short;
use super::{
    ClosureId, EdgeId, FabricId, Garment, LayerId, NameUse, PieceId, PointId, RowId, SeamId, Symbol, TackId,
    ValueId,
};
use crate::name_hash::NameMap;
use crate::report::{Diagnostic, catalogue};
use crate::source::SourceMap;
use crate::syntax::tree;
use names::Names;
use notes::Notes;
use std::cell::{Cell, RefCell};
use std::collections::HashSet;
use std::sync::Arc;

/// A garment, and what could not be made sense of.
#[derive(Clone, Debug)]
pub struct Lowered {
    /// What could not be made sense of stands in it as poison, and in what it says is incomplete.
    pub garment: Garment,
    /// What was found while it was made.
    pub diagnostics: Vec<Diagnostic>,
}

/// Makes a garment of the merged chain.
pub fn lower(map: &SourceMap, merged: &Merged) -> Lowered {
    let written_out = short::written_out(map, merged);
    let has_short_forms = written_out.is_some();
    let written = merged;
    let merged = written_out.as_ref().map_or(merged, |out| &out.merged);
    let syntax = merged.mistakes.iter().filter(|reported| reported.kind.family() == "syntax");
    let mut damages: Vec<u32> = Vec::new();
    for reported in syntax {
        // Of a brace that closes nothing the other place is where its lines begin, of a line that belongs in none
        // where they open.
        let all = [&catalogue::SYNTAX_STRAY_BRACE, &catalogue::SYNTAX_UNKNOWN_STATEMENT];
        let places = if reported.is_any(&all) { reported.labels.len() } else { 1 };
        damages.extend(reported.labels.iter().take(places).map(|label| label.span.lo));
    }
    damages.sort_unstable();
    let mut lowering = Lowering {
        damages,
        has_short_forms,
        map,
        merged,
        garment: Garment::default(),
        notes: RefCell::default(),
        searches: Cell::new(0),
        names: Names::default(),
        piece_trees: Vec::new(),
        piece_edges: Vec::new(),
        piece_points: Vec::new(),
        alteration_trees: Vec::new(),
        moved_darts: Vec::new(),
        stepped: Vec::new(),
        too_many_pieces: false,
        too_many_edges: false,
        poisoned_values: HashSet::new(),
        is_in_steps: false,
        rims: Vec::new(),
        rims_lost: Vec::new(),
    };
    lowering.garment.statements = merged.declarations.iter().map(|one| one.statement.span).collect();
    lowering.declare();
    if let Some(out) = &written_out {
        lowering.report_no_slits(written);
        out.mistakes.iter().for_each(|mistake| lowering.report(mistake.clone()));
    }
    lowering.declare_edges();
    lowering.follow_rims();
    lowering.find_targets();
    lowering.lay_papers();
    lowering.lower_values();
    lowering.lower_header();
    lowering.lower_fitting();
    lowering.lower_cloth();
    lowering.lower_drawings();
    lowering.note_blocks();
    lowering.note_names_left_out();
    lowering.lower_straps();
    lowering.lower_alterations();
    lowering.lower_sewing();
    if written_out.is_some() {
        lowering.lower_depths(written);
    }
    lowering.find_only_layers();
    lowering.mark_sides();
    lowering.lay_runs_over();
    lowering.find_widths();
    lowering.name_notions();
    lowering.is_in_steps = true;
    lowering.lower_steps();
    lowering.fit_sizes();
    let mut notes = lowering.notes.take();
    lowering.report_sizes_missed(&mut notes);
    lowering.report_units_inherited(&mut notes);
    lowering.show_declarations(&mut notes);
    lowering.garment.name_uses = lowering.sorted_names(notes.name_uses);
    lowering.garment.bare_lengths = notes.bare_lengths;
    if lowering.too_many_edges {
        // It is not drawn in any size: time and memory stay within bounds, and nothing is missed.
        lowering.garment.sizes.clear();
    }
    let mut diagnostics = notes.diagnostics;
    diagnostics.extend(notes.dangling.into_iter().map(|((_, name), used)| used.told(&name)));
    diagnostics.extend(notes.unresolved.into_values().map(|unresolved| unresolved.diagnostic));
    let incomplete = &mut lowering.garment.incomplete;
    incomplete.steps |= notes.steps_incomplete;
    *incomplete = incomplete.with_unread(merged, &diagnostics);
    Lowered { garment: lowering.garment, diagnostics }
}

/// The garment in the making.
struct Lowering<'a> {
    map: &'a SourceMap,
    merged: &'a Merged,
    garment: Garment,
    /// Behind a cell, so that whatever only reads can note what it saw.
    notes: RefCell<Notes>,
    /// How often the nearest of the known names was looked for, in vain or not, kept or forgotten.
    searches: Cell<usize>,
    names: Names,
    /// By piece: its statement, none of split and joined pieces.
    piece_trees: Vec<Option<Arc<tree::Statement>>>,
    /// By piece: its edges and lines by name.
    piece_edges: Vec<NameMap<Arc<str>, EdgeId>>,
    /// By piece: its points and marks by name.
    piece_points: Vec<NameMap<Arc<str>, PointId>>,
    /// Some of the declarations are not written so, but made of what is said in one line.
    has_short_forms: bool,
    /// Where the text is damaged, in order.
    damages: Vec<u32>,
    /// Values that could not be made sense of, which was reported: whoever uses them is silent.
    poisoned_values: HashSet<ValueId>,
    /// The steps are being read, which come last: a name that is not known is missed in them.
    is_in_steps: bool,
    /// By alteration: its statement; none of those that closures make.
    alteration_trees: Vec<Option<Arc<tree::Statement>>>,
    /// Darts that alterations move under names of their own.
    moved_darts: Vec<edges::MovedDart>,
    /// Edges that alterations move with a step, with the names of their pieces.
    stepped: Vec<(Arc<str>, tree::Name)>,
    /// Whether it was reported that there are too many pieces.
    too_many_pieces: bool,
    /// Whether it was reported that there are too many edges: those left out are not missed.
    too_many_edges: bool,
    /// What closures from end to end go along beyond their own words.
    rims: Vec<rim::FoundRim>,
    /// Those of which that could not be told, which was reported.
    rims_lost: Vec<ClosureId>,
}

impl Lowering<'_> {
    /// The names that are used and those where they are declared, in the order of the text. Names
    /// that several pieces inherit are declared once, by the first.
    fn sorted_names(&self, mut uses: Vec<NameUse>) -> Vec<NameUse> {
        let garment = &self.garment;
        if self.has_short_forms {
            // A name that is said for the maker, where all of the line is its place, is no word of the text.
            uses.retain(|one| !self.map.text(one.span).contains(char::is_whitespace));
        }
        let symbols = (0..garment.values.len()).map(|at| Symbol::Value(ValueId::from_index(at)));
        let symbols =
            symbols.chain((0..garment.fabrics.len()).map(|at| Symbol::Fabric(FabricId::from_index(at))));
        let symbols =
            symbols.chain((0..garment.layers.len()).map(|at| Symbol::Layer(LayerId::from_index(at))));
        let symbols =
            symbols.chain((0..garment.pieces.len()).map(|at| Symbol::Piece(PieceId::from_index(at))));
        let symbols = symbols.chain((0..garment.edges.len()).map(|at| Symbol::Edge(EdgeId::from_index(at))));
        let symbols =
            symbols.chain((0..garment.points.len()).map(|at| Symbol::Point(PointId::from_index(at))));
        let symbols = symbols.chain((0..garment.seams.len()).map(|at| Symbol::Seam(SeamId::from_index(at))));
        let symbols =
            symbols.chain((0..garment.closures.len()).map(|at| Symbol::Closure(ClosureId::from_index(at))));
        let symbols = symbols.chain((0..garment.rows.len()).map(|at| Symbol::Row(RowId::from_index(at))));
        let symbols = symbols.chain((0..garment.tacks.len()).map(|at| Symbol::Tack(TackId::from_index(at))));
        let declared = symbols
            .filter(|&symbol| garment.named_after(symbol).is_none())
            // A place on an edge has no name of its own.
            .filter(|symbol| !matches!(*symbol, Symbol::Point(point) if garment.is_placed_point(point)))
            .map(|symbol| (garment.declared(symbol), symbol))
            // Some names stand nowhere: the edges of a rectangle, the inside of a strip.
            .filter(|((name, span), _)| span.len() == name.len() && self.map.text(*span) == &**name)
            .map(|((_, span), symbol)| NameUse { span, symbol });
        uses.extend(declared);
        uses.sort_unstable();
        uses.dedup();
        uses
    }

    /// The drawing of a piece, as written.
    fn piece_tree(&self, piece: PieceId) -> Option<Arc<tree::Statement>> {
        self.piece_trees.get(piece.index()).cloned().flatten()
    }
}

/// `piece`, or `layer.piece`, as words name it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct NamedPiece {
    layer: Option<LayerId>,
    piece: PieceId,
}

/// The piece in a statement that is known to be one.
fn as_piece(statement: &tree::Statement) -> Option<&tree::Piece> {
    match &statement.node {
        tree::StatementNode::Piece(piece) => Some(piece),
        _ => None,
    }
}
