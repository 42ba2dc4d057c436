//! A piece as it is drawn in one size.

use super::drawn_take_up::{DrawnSlit, DrawnTakeUp, Mouth, Opened};
use super::model::DrawnEdgeId;
use super::model::Missing;
use crate::garment::{AlterationId, CutHow, EdgeId, Garment, PaperId, PieceId, PointId};
use crate::shape::path::Path;
use crate::shape::tolerance::ON_OUTLINE;
use kurbo::{Point, Vec2};
use std::cell::LazyCell;
use std::ops::Range;
use std::sync::Arc;

/// A paper pattern at one version, drawn.
#[derive(Clone, Debug)]
pub struct DrawnPiece {
    /// The piece.
    pub piece: PieceId,
    /// Edges end to end, each starting where the one before ends; counter-clockwise or clockwise
    /// as the maker walked. Of a finished paper with slits inside, their sides after the outline, each a ring of
    /// its own that goes the other way round ([`DrawnPiece::ring_of`]).
    pub edges: Vec<DrawnEdge>,
    /// Lines inside.
    pub lines: Vec<DrawnLine>,
    /// Corners, other points and marks.
    pub spots: Vec<DrawnSpot>,
    /// Notches that the piece declares.
    pub notches: Vec<DrawnNotch>,
    /// Darts and other take-ups, in the order declared.
    pub take_ups: Vec<DrawnTakeUp>,
    /// Slits that are not cut yet, in the order declared; none of a finished paper, on which they are edges.
    pub slits: Vec<DrawnSlit>,
    /// Of a finished paper with slits: what it was before they were cut.
    pub opened: Option<Arc<Opened>>,
    /// How its copies lie; `open` and `close` change it.
    pub cut: CutHow,
    /// A half on the fold that is cut as its whole.
    pub unfolded: bool,
    /// How many are cut, as said (a fold or a pair counted as said: `cut 1 on fold` is 1).
    pub count: u32,
    /// The grain's direction, a unit vector.
    pub grain: Vec2,
    /// Names that it had and has no longer, or that could not be drawn.
    pub missing: Missing,
    /// The runs taken by themselves that are counted against the way of their edge.
    pub counted_back: Vec<EdgeId>,
    /// Edges that lost some of their length as what lies behind a zip was kept back: it is eased where they are sewn.
    pub kept_back: Vec<KeptBack>,
    /// Of an outline that was drawn with its allowances on, edge by edge, how it was drawn. It holds for
    /// edges that still go as [`DrawnCut::stitching`] does.
    pub cutting: Vec<DrawnCut>,
}

/// An edge that lost some of its length, which is eased where it is sewn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KeptBack {
    /// The edge.
    pub edge: EdgeId,
    /// What kept it back.
    pub by: AlterationId,
    /// How much it lost, in millimetres.
    pub lost: f64,
    /// What it counts as sewn for each millimetre that it has.
    pub share: f64,
}

/// An edge that was drawn as it is cut.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnCut {
    /// The stitching line that was found inside.
    pub stitching: Path,
    /// The way that was drawn.
    pub cut: Path,
    /// How far apart they are, in millimetres.
    pub width: f64,
}

/// An edge.
#[derive(Clone, Debug)]
pub struct DrawnEdge {
    /// Its name. After a `cut off` or `split` the new edge has the line's id, or the one the
    /// split made for it.
    pub edge: EdgeId,
    /// The way it goes.
    pub path: Path,
    /// The corner it starts at. The edge before ends at the same one.
    pub corner: CornerName,
    /// The alterations that changed it, in order.
    pub touched: Vec<AlterationId>,
}

/// What a corner is called.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CornerName {
    /// A point of the piece.
    Named(PointId),
    /// Where two edges meet that no point names: `side/hem`.
    Between(EdgeId, EdgeId),
}

/// A line inside a piece, where it lies on the piece.
#[derive(Clone, Debug)]
pub struct DrawnLine {
    /// Its name.
    pub edge: EdgeId,
    /// From end to end.
    pub path: Path,
}

/// A place on a piece.
#[derive(Clone, Copy, Debug)]
pub struct DrawnSpot {
    /// Its name.
    pub point: PointId,
    /// Where it is.
    pub at: Point,
}

/// A notch.
#[derive(Clone, Copy, Debug)]
pub struct DrawnNotch {
    /// The edge.
    pub edge: EdgeId,
    /// Where it stands on the edge, from its start.
    pub along: f64,
    /// Where it is.
    pub at: Point,
    /// Two cuts side by side.
    pub double: bool,
    /// Which of the notches in the piece's drawing it is; past their end for one that came with a
    /// copy, a split or a join.
    pub declared: usize,
}

impl DrawnPiece {
    /// The edge of that name, if there is just one run of it.
    pub fn edge(&self, edge: EdgeId) -> Option<&DrawnEdge> {
        self.edges.iter().find(|drawn| drawn.edge == edge)
    }

    /// An edge by its place; none of a paper that has fewer.
    pub fn edge_at(&self, edge: DrawnEdgeId) -> Option<&DrawnEdge> {
        self.edges.get(edge.index())
    }

    /// The edge that starts where this one ends.
    pub fn after(&self, edge: DrawnEdgeId) -> DrawnEdgeId {
        let ring = self.ring_of(edge);
        let next = edge.index() + 1;
        DrawnEdgeId::from_index(if next < ring.end { next } else { ring.start })
    }

    /// The edge that ends where this one starts.
    pub fn before(&self, edge: DrawnEdgeId) -> DrawnEdgeId {
        let ring = self.ring_of(edge);
        DrawnEdgeId::from_index(if edge.index() > ring.start { edge.index() } else { ring.end.max(1) } - 1)
    }

    /// The edges of the ring that an edge lies in: those of the outline, or of a slit inside the piece.
    pub fn ring_of(&self, edge: DrawnEdgeId) -> Range<usize> {
        let holes = self.holes();
        let nth = holes.partition_point(|first| *first <= edge.index());
        let start = nth.checked_sub(1).and_then(|own| holes.get(own)).copied().unwrap_or(0);
        start..holes.get(nth).copied().unwrap_or(self.edges.len())
    }

    /// Where the edges of each slit inside the piece begin, behind those of the outline.
    pub fn holes(&self) -> &[usize] {
        self.opened.as_ref().map_or(&[], |opened| &opened.holes)
    }

    /// The edges of the outline: all but the sides of slits inside the piece.
    pub fn outline(&self) -> &[DrawnEdge] {
        let end = self.holes().first().copied().unwrap_or(self.edges.len());
        self.edges.get(..end).unwrap_or(&self.edges)
    }

    /// The corners, each by the edge that starts there, at which a run of an edge taken by itself is nearer to
    /// what it is counted from, or farther.
    pub fn portion_ends<'a>(
        &'a self,
        garment: &'a Garment,
        portion: EdgeId,
        far: bool,
    ) -> impl Iterator<Item = DrawnEdgeId> + 'a {
        let own = garment.edge(portion).portion.map(|own| garment.portion(own.portion));
        let is_counted_back = move |edge: EdgeId| {
            let on = garment.edge(edge).part_of;
            let mut names = own.into_iter().flat_map(|own| &own.names);
            names.any(|names| on == Some(names.on) && self.counted_back.contains(&names.taken))
        };
        // Where one of the other side of the body lies over it, it is in several stretches.
        let is_it =
            move |at: DrawnEdgeId| self.edge_at(at).is_some_and(|edge| garment.is_run_of(edge.edge, portion));
        let runs = DrawnEdgeId::enumerate(&self.edges).filter(move |(id, _)| is_it(*id));
        runs.filter_map(move |(id, edge)| match is_counted_back(edge.edge) == far {
            true => (!is_it(self.before(id))).then_some(id),
            false => (!is_it(self.after(id))).then(|| self.after(id)),
        })
    }

    /// How its edges were drawn as they are cut, if they were and nothing has changed them since.
    pub fn drawn_cut(&self) -> Option<&[DrawnCut]> {
        let same = self.cutting.len() == self.edges.len()
            && self.edges.iter().zip(&self.cutting).all(|(edge, cut)| edge.path == cut.stitching);
        (same && !self.edges.is_empty()).then_some(&self.cutting)
    }

    /// The take-ups whose cloth is taken from an edge, in the order in which they lie along it.
    pub fn take_ups_on(&self, edge: DrawnEdgeId) -> Vec<(&DrawnTakeUp, Mouth)> {
        let Some(drawn) = self.edge_at(edge).filter(|_| !self.take_ups.is_empty()) else { return Vec::new() };
        self.taken_from(drawn)
    }

    /// The same of an edge itself.
    pub(crate) fn taken_from(&self, drawn: &DrawnEdge) -> Vec<(&DrawnTakeUp, Mouth)> {
        if self.take_ups.is_empty() {
            return Vec::new();
        }
        let own = self.take_ups.iter().filter_map(|take_up| Some((take_up, take_up.mouth?)));
        let several = LazyCell::new(|| self.has_several_runs(drawn.edge));
        let mut own: Vec<_> = own
            .filter(|(take_up, mouth)| {
                let at = || drawn.path.point_at_length(mouth.from);
                mouth.edge == drawn.edge && (!*several || at().distance(take_up.wedge.sides[0]) <= ON_OUTLINE)
            })
            .collect();
        own.sort_by(|(_, a), (_, b)| a.from.total_cmp(&b.from));
        own
    }

    /// The slits that are cut from an edge, in the order in which they lie along it.
    pub(crate) fn slits_on(&self, drawn: &DrawnEdge) -> Vec<(&DrawnSlit, Mouth)> {
        if self.slits.is_empty() {
            return Vec::new();
        }
        let several = LazyCell::new(|| self.has_several_runs(drawn.edge));
        let on = self.slits.iter().filter_map(|slit| Some((slit, slit.mouth?)));
        let mut own: Vec<(&DrawnSlit, Mouth)> = on
            .filter(|(slit, mouth)| {
                let at = || drawn.path.point_at_length(mouth.from);
                mouth.edge == drawn.edge && (!*several || at().distance(slit.sides[0]) <= ON_OUTLINE)
            })
            .collect();
        own.sort_by(|(_, a), (_, b)| a.from.total_cmp(&b.from));
        own
    }

    /// The edge on the fold that a slit in the middle runs along, if it is one: its place among the edges.
    pub(crate) fn fold_beside(&self, slit: &DrawnSlit) -> Option<usize> {
        let (mouth, at_end) = (slit.mouth?, slit.fold? == 1);
        let corner = *slit.sides.get(slit.fold?)?;
        let (id, _) = DrawnEdgeId::enumerate(&self.edges).find(|(_, edge)| {
            let own = if at_end { edge.path.end() } else { edge.path.start() };
            edge.edge == mouth.edge && own.distance(corner) <= ON_OUTLINE
        })?;
        Some(if at_end { self.after(id) } else { self.before(id) }.index())
    }

    /// The piece before its slits were cut; itself if it has none.
    pub fn uncut(&self) -> &DrawnPiece {
        self.opened.as_ref().map_or(self, |opened| &opened.whole)
    }

    /// What an edge counts as sewn for each millimetre that it has: more than 1 where a little is eased, because it was
    /// kept back from a zip's teeth.
    pub fn share_eased(&self, garment: &Garment, edge: EdgeId) -> f64 {
        let kept = self.kept_back.iter().find(|kept| garment.is_run_of(edge, kept.edge));
        kept.map_or(1.0, |kept| kept.share)
    }

    /// Whether several of its edges have that name: only then it matters on which of them something lies.
    fn has_several_runs(&self, edge: EdgeId) -> bool {
        self.edges.iter().filter(|own| own.edge == edge).nth(1).is_some()
    }

    /// Where that point is.
    pub fn spot(&self, point: PointId) -> Option<Point> {
        self.spots.iter().find(|spot| spot.point == point).map(|spot| spot.at)
    }
}

/// A run of edge that a name means once everything is split and joined: on which paper it lies
/// and which of its edges it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Run {
    /// The paper.
    pub paper: PaperId,
    /// The edge.
    pub edge: DrawnEdgeId,
}
