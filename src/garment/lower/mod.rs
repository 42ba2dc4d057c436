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
mod names_used;
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
mod side_by_side;
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
use super::{ClosureId, CutHow, EdgeId, Garment, LayerId, PieceId, PointId, ValueId};
use crate::name_hash::NameMap;
use crate::report::{Diagnostic, catalogue};
use crate::source::{SourceMap, Span};
use crate::syntax::tree;
use names::Names;
pub use names_used::NamesUsed;
use notes::Notes;
use std::borrow::Cow;
use std::cell::{Cell, RefCell};
use std::collections::HashSet;
use std::ops::{Deref, DerefMut};
use std::sync::Arc;

/// A garment, and what could not be made sense of.
#[derive(Clone, Debug)]
pub struct Lowered {
    /// What could not be made sense of stands in it as poison, and in what it says is incomplete.
    pub garment: Garment,
    /// What was found while it was made.
    pub diagnostics: Vec<Diagnostic>,
    /// What its names in the text mean, which it does not know yet.
    pub names: NamesUsed,
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
    let known = Known {
        damages,
        has_short_forms,
        map,
        merged,
        garment: Garment::default(),
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
    let mut lowering = Lowering::new(Cow::Owned(known), 0);
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
    let names = NamesUsed { uses: notes.name_uses, has_short_forms };
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
    Lowered { garment: lowering.known.into_owned().garment, diagnostics, names }
}

/// The garment in the making: who makes it has all of it, who only reads a part of the text is lent what is known.
struct Lowering<'a> {
    known: Cow<'a, Known<'a>>,
    /// Behind a cell, so that whatever only reads can note what it saw.
    notes: RefCell<Notes>,
    /// How often the nearest of the known names was looked for, in vain or not, kept or forgotten.
    searches: Cell<usize>,
    /// How the piece that is being read is cut, as far as it is read: the garment knows it once all are.
    cut_said: Cell<Option<(PieceId, CutHow, Span)>>,
}

impl<'a> Deref for Lowering<'a> {
    type Target = Known<'a>;

    fn deref(&self) -> &Known<'a> {
        &self.known
    }
}

impl DerefMut for Lowering<'_> {
    fn deref_mut(&mut self) -> &mut Self::Target {
        self.known.to_mut()
    }
}

/// What is known so far.
#[derive(Clone)]
struct Known<'a> {
    map: &'a SourceMap,
    merged: &'a Merged,
    garment: Garment,
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

impl<'a> Lowering<'a> {
    fn new(known: Cow<'a, Known<'a>>, searches: usize) -> Self {
        Lowering {
            known,
            notes: RefCell::default(),
            searches: Cell::new(searches),
            cut_said: Cell::default(),
        }
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
