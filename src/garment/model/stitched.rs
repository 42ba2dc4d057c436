//! Stitching beside seams and finishes: rows of topstitching, understitching, tacks; and what is set at a place.

use super::{EdgeId, EdgePlace, Expression, Garment, LayerId, NotionId, PieceId, PointId, SewnEdge, Stitch};
use crate::source::Span;
use crate::syntax::tree::{Hand, RowKind};
use std::sync::Arc;

/// Rows of stitching along edges.
#[derive(Clone, Debug)]
pub struct StitchedRow {
    /// Its name.
    pub name: Arc<str>,
    /// Where its name stands.
    pub name_span: Span,
    /// All of it.
    pub span: Span,
    /// Which kind.
    pub kind: RowKind,
    /// How far from the edges; none of one along lines.
    pub distance: Option<Expression>,
    /// The edges, or the lines.
    pub edges: Vec<StitchedEdge>,
    /// How many, and how far apart; one where nothing is said.
    pub rows: Option<(Expression, Expression)>,
    /// Its stitch.
    pub stitch: Option<Stitch>,
}

/// An edge, or a run of it, beside which a row is stitched.
#[derive(Clone, Debug)]
pub struct StitchedEdge {
    /// The edge.
    pub sewn: SewnEdge,
    /// Where the run of it begins and ends; none: all of it.
    pub run: Option<[EdgePlace; 2]>,
}

/// A few stitches, or a bar, that hold a place, or one place to another; or what is bought and set, one at each place.
#[derive(Clone, Debug)]
pub struct Tack {
    /// Its name.
    pub name: Arc<str>,
    /// Where its name stands.
    pub name_span: Span,
    /// All of it.
    pub span: Span,
    /// One or two; of what is set as many as are said.
    pub ends: Vec<TackEnd>,
    /// How wide the bar is that is sewn by machine; none: a few stitches by hand.
    pub bar: Option<Expression>,
    /// What is set at each of its places; none of stitches.
    pub sets: Option<SetNotion>,
}

/// What is bought, and set at places.
#[derive(Clone, Debug)]
pub struct SetNotion {
    /// What; none where no notion is called so, which was reported.
    pub notion: Option<NotionId>,
    /// Where it is named.
    pub span: Span,
    /// All its places could be made sense of; else that was reported.
    pub whole: bool,
}

/// A place that a tack holds.
#[derive(Clone, Debug)]
pub struct TackEnd {
    /// One layer's part only.
    pub layer: Option<LayerId>,
    /// The piece.
    pub piece: PieceId,
    /// On that side of the body only.
    pub hand: Option<Hand>,
    /// In the middle, on the fold that its piece is cut on: there once, and on neither side.
    pub at_fold: bool,
    /// Where on it.
    pub spot: TackSpot,
    /// Where it is named.
    pub span: Span,
}

/// Where on a piece a tack is.
#[derive(Clone, Debug)]
pub enum TackSpot {
    /// At a corner or a mark.
    Point(PointId),
    /// At a place on an edge.
    Edge(EdgeId, EdgePlace),
}

impl StitchedRow {
    /// All amounts that it says.
    pub fn amounts(&self) -> impl Iterator<Item = &Expression> {
        let rows = self.rows.iter().flat_map(|(count, apart)| [count, apart]);
        let runs = self.edges.iter().flat_map(|edge| edge.run.iter().flatten());
        self.distance.iter().chain(rows).chain(runs.filter_map(EdgePlace::expression))
    }
}

impl Garment {
    /// What sets something that is bought, in the order of the garment.
    pub fn sets_of(&self, notion: NotionId) -> impl Iterator<Item = &Tack> {
        let sets = move |tack: &&Tack| tack.sets.as_ref().is_some_and(|set| set.notion == Some(notion));
        self.tacks.iter().filter(sets)
    }
}

impl Tack {
    /// The word that declares it, and that does it in a step.
    pub fn word(&self) -> &'static str {
        if self.sets.is_some() { "set" } else { "tack" }
    }

    /// All amounts that it says.
    pub fn amounts(&self) -> impl Iterator<Item = &Expression> {
        let places = self.ends.iter().filter_map(|end| match &end.spot {
            TackSpot::Edge(_, place) => place.expression(),
            TackSpot::Point(_) => None,
        });
        self.bar.iter().chain(places)
    }
}
