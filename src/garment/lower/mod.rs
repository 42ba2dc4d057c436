//! From words to ids: the merged declarations become a [`Garment`].
//!
//! It goes in passes, because facts stand in any order: all names first, then the edges and
//! points of each piece, then the papers that alterations work on, and only then what is said
//! with those names.

mod alteration;
mod cloth;
mod declare;
mod drawing;
mod drawing_order;
mod edges;
mod expression;
mod geometry;
mod header;
mod names;
mod papers;
mod sewing;
mod steps;
mod values;

use super::merge::Merged;
use super::{EdgeId, Garment, LayerId, PieceId, PointId};
use crate::report::Diagnostic;
use crate::source::SourceMap;
use crate::syntax::tree;
use indexmap::IndexMap;
use names::Names;
use std::sync::Arc;

/// Makes a garment of the merged chain, without its plan. What could not be made sense of is
/// told and stands in the garment as poison.
pub fn lower(map: &SourceMap, merged: &Merged) -> (Garment, Vec<Diagnostic>) {
    let mut lowering = Lowering {
        map,
        merged,
        garment: Garment::default(),
        mistakes: Vec::new(),
        names: Names::default(),
        piece_trees: Vec::new(),
        piece_edges: Vec::new(),
        piece_points: Vec::new(),
        alteration_trees: Vec::new(),
    };
    lowering.declare();
    lowering.declare_edges();
    lowering.find_targets();
    lowering.lay_papers();
    lowering.lower_values();
    lowering.lower_header();
    lowering.lower_cloth();
    lowering.lower_drawings();
    lowering.lower_alterations();
    lowering.lower_sewing();
    lowering.lower_steps();
    (lowering.garment, lowering.mistakes)
}

/// The garment in the making.
struct Lowering<'a> {
    map: &'a SourceMap,
    merged: &'a Merged,
    garment: Garment,
    mistakes: Vec<Diagnostic>,
    names: Names,
    /// By piece: its statement, none of split and joined pieces.
    piece_trees: Vec<Option<Arc<tree::Statement>>>,
    /// By piece: its edges and lines by name.
    piece_edges: Vec<IndexMap<Arc<str>, EdgeId>>,
    /// By piece: its points and marks by name.
    piece_points: Vec<IndexMap<Arc<str>, PointId>>,
    /// By alteration: its statement; none of those that closures make.
    alteration_trees: Vec<Option<Arc<tree::Statement>>>,
}

impl Lowering<'_> {
    fn tell(&mut self, diagnostic: Diagnostic) {
        self.mistakes.push(diagnostic);
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
