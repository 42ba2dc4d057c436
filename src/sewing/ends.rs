//! Which corners of the parts meet: by name, or because something has already joined them.
//!
//! Corners are told apart by part and place, not by hand: a left and a right copy are mirror
//! images, and what meets on the left meets on the right.

use super::model::PartId;
use super::stitching::Finder;
use crate::garment::{CutHow, Garment, LayerId, Part, PointId, SewnPoint, SewnSpot};
use crate::resolve::{CornerName, DrawnEdgeId, DrawnPiece, SizedGarment};
use std::sync::Arc;

/// How far back a name is followed through copies, splits and joins.
const FOREBEARS: usize = 16;

/// A corner of a part, by its place among all corners of all parts.
pub type Node = usize;

/// All corners of all parts that could be drawn.
pub struct Corners<'a> {
    garment: &'a Garment,
    /// The part of every corner, its place among the part's edges, and its name.
    places: Vec<(PartId, DrawnEdgeId, CornerName)>,
    /// The first corner of every part, and how many it has.
    starts: Vec<(Node, usize)>,
    pieces: Vec<Option<&'a DrawnPiece>>,
    parts: Vec<Part>,
    /// The part of the other side of the body, where left and right are told apart.
    twins: Vec<Option<PartId>>,
    on_fold: Vec<bool>,
    /// Of every edge, by the corner where it starts, whether a closure closes it; told only where left and
    /// right are told apart.
    closed: Vec<bool>,
    /// A seam of an edge with itself joins the left one of these to the right one.
    crossed: Vec<bool>,
    parents: Vec<Node>,
    /// Corners that lie beside one another at the end of a zip.
    zipped: Vec<(Node, Node)>,
}

impl<'a> Corners<'a> {
    /// Of the parts that a finder knows.
    pub fn new(garment: &'a Garment, sized: &'a SizedGarment, finder: &Finder) -> Self {
        let drawn_of = |part: &Part| sized.paper(part.paper);
        let parts = finder.parts.len();
        let count: usize = finder.parts.iter().filter_map(drawn_of).map(|drawn| drawn.edges.len()).sum();
        let mut corners = Corners {
            garment,
            places: Vec::with_capacity(count),
            starts: Vec::with_capacity(parts),
            pieces: Vec::with_capacity(parts),
            parts: Vec::with_capacity(parts),
            twins: PartId::enumerate(finder.parts).map(|(id, _)| finder.twin(id)).collect(),
            on_fold: Vec::with_capacity(count),
            closed: Vec::new(),
            crossed: Vec::new(),
            parents: Vec::new(),
            zipped: Vec::new(),
        };
        for (id, part) in PartId::enumerate(finder.parts) {
            let drawn = drawn_of(part);
            let edges = drawn.map_or(&[][..], |drawn| &drawn.edges);
            corners.starts.push((corners.places.len(), edges.len()));
            corners.pieces.push(drawn);
            corners.parts.push(*part);
            let is_fold = |edge: usize| match (drawn.map(|drawn| drawn.cut), edges.get(edge)) {
                (Some(CutHow::OnFold(fold)), Some(edge)) => garment.is_run_of(edge.edge, fold),
                _ => false,
            };
            for (edge, drawn) in edges.iter().enumerate() {
                corners.places.push((id, DrawnEdgeId::from_index(edge), drawn.corner));
                let at = DrawnEdgeId::from_index(edge);
                let before = corners.pieces.last().copied().flatten().map_or(at, |piece| piece.before(at));
                corners.on_fold.push(is_fold(edge) || is_fold(before.index()));
            }
        }
        corners.crossed = vec![false; corners.places.len()];
        corners.parents = (0..corners.places.len()).collect();
        for node in 0..corners.places.len() {
            // There the halves hang together.
            if corners.is_on_fold(node)
                && let Some(twin) = corners.twin_of(node)
            {
                corners.join(node, twin);
            }
        }
        corners
    }

    /// The same part of the other side of the body, where left and right are told apart.
    pub fn twin(&self, part: PartId) -> Option<PartId> {
        self.twins.get(part.index()).copied().flatten()
    }

    /// The same corner of the other side of the body, where left and right are told apart.
    fn twin_of(&self, node: Node) -> Option<Node> {
        let (part, edge, _) = self.place(node)?;
        self.end_of(self.twin(part)?, edge, false)
    }

    /// A closure closes this edge.
    pub fn close(&mut self, part: PartId, edge: DrawnEdgeId) {
        self.closed.resize(self.places.len(), false);
        let at = self.end_of(part, edge, false);
        if let Some(closed) = at.and_then(|at| self.closed.get_mut(at)) {
            *closed = true;
        }
    }

    /// Whether a closure closes the edge beyond that end of an edge.
    pub fn is_closed_beyond(&self, part: PartId, edge: DrawnEdgeId, is_end: bool) -> bool {
        let Some((&(first, _), drawn)) = self.starts.get(part.index()).zip(self.drawn(part)) else {
            return false;
        };
        let beyond = first + if is_end { drawn.after(edge) } else { drawn.before(edge) }.index();
        self.closed.get(beyond).copied().unwrap_or(false)
    }

    /// Whether two corners are the left and the right one of a place.
    pub fn is_twin(&self, one: Node, other: Node) -> bool {
        self.twin_of(one) == Some(other)
    }

    /// The corner where an edge starts or ends.
    pub fn end_of(&self, part: PartId, edge: DrawnEdgeId, is_end: bool) -> Option<Node> {
        let &(first, count) = self.starts.get(part.index())?;
        let at = match is_end {
            true => self.drawn(part)?.after(edge),
            false => edge,
        };
        (edge.index() < count).then(|| first + at.index())
    }

    /// The part, the edge that starts there, and the name of a corner.
    pub fn place(&self, node: Node) -> Option<(PartId, DrawnEdgeId, CornerName)> {
        self.places.get(node).copied()
    }

    /// The layer that a part lies in.
    pub fn layer(&self, part: PartId) -> Option<LayerId> {
        self.parts.get(part.index()).map(|part| part.layer)
    }

    /// What the paper of a part looks like.
    pub fn drawn(&self, part: PartId) -> Option<&'a DrawnPiece> {
        self.pieces.get(part.index()).copied().flatten()
    }

    /// Whether the piece is cut on the fold there, so that both halves meet.
    pub fn is_on_fold(&self, node: Node) -> bool {
        self.on_fold.get(node).copied().unwrap_or(false)
    }

    /// Both ends of this edge are sewn left to right.
    pub fn cross(&mut self, part: PartId, edge: DrawnEdgeId) {
        for is_end in [false, true] {
            let end = self.end_of(part, edge, is_end);
            if let Some(crossed) = end.and_then(|end| self.crossed.get_mut(end)) {
                *crossed = true;
            }
        }
    }

    /// Whether the left one and the right one of a corner are sewn together.
    pub fn is_crossed(&self, node: Node) -> bool {
        self.crossed.get(node).copied().unwrap_or(false)
    }

    /// Whether two corners bear the same name.
    pub fn same_name(&self, one: Node, other: Node) -> bool {
        let (Some((.., one)), Some((.., other))) = (self.place(one), self.place(other)) else { return false };
        match (one, other) {
            (CornerName::Named(one), CornerName::Named(other)) => {
                one == other
                    || self
                        .names(one)
                        .any(|name| self.names(other).any(|other_name| is_same(name, other_name)))
            }
            (CornerName::Between(a, b), CornerName::Between(c, d)) => {
                let [a, b, c, d] = [a, b, c, d].map(|edge| &self.garment.edge(edge).name);
                (is_same(a, c) && is_same(b, d)) || (is_same(a, d) && is_same(b, c))
            }
            _ => false,
        }
    }

    /// A point's own name and those of the points that it was copied from.
    fn names(&self, point: PointId) -> impl Iterator<Item = &'a Arc<str>> {
        let garment = self.garment;
        let before = move |id: &PointId| {
            let point = garment.point(*id);
            point.same_as.or(point.copied_from)
        };
        std::iter::successors(Some(point), before).take(FOREBEARS).map(move |id| &garment.point(id).name)
    }

    /// Whether two corners are one corner of one drawing: of a piece in two layers, or copied.
    pub fn same_point(&self, one: Node, other: Node) -> bool {
        let (Some((.., one)), Some((.., other))) = (self.place(one), self.place(other)) else { return false };
        match (one, other) {
            (CornerName::Named(one), CornerName::Named(other)) => {
                self.garment.point_origin(one) == self.garment.point_origin(other)
            }
            (CornerName::Between(a, b), CornerName::Between(c, d)) => (a, b) == (c, d) || (a, b) == (d, c),
            _ => false,
        }
    }

    /// Whether a fold of the piece brings one corner onto the other: one edge runs between them and
    /// the edges beyond it are folded together.
    pub fn folded_together(&self, one: Node, other: Node) -> bool {
        let (Some((part, at, _)), Some((other_part, other_at, _))) = (self.place(one), self.place(other))
        else {
            return false;
        };
        if part != other_part {
            return false;
        }
        let Some(drawn) = self.drawn(part) else { return false };
        let folds = &self.garment.piece(drawn.piece).folds;
        if folds.is_empty() || drawn.outline().len() < 3 {
            return false;
        }
        let (from, to) = match (drawn.after(at) == other_at, drawn.after(other_at) == at) {
            (true, _) => (at, other_at),
            (_, true) => (other_at, at),
            _ => return false,
        };
        let beyond = [drawn.before(from), to].map(|edge| drawn.edge_at(edge).map(|edge| edge.edge));
        let [Some(before), Some(after)] = beyond else { return false };
        let is = |edge, of| self.garment.is_run_of(edge, of);
        folds.iter().any(|fold| {
            (is(before, fold.edge) && is(after, fold.onto)) || (is(before, fold.onto) && is(after, fold.edge))
        })
    }

    /// The corner that a fold of the piece brings onto this one.
    pub fn folded_onto(&self, node: Node) -> Option<Node> {
        let (part, at, _) = self.place(node)?;
        let &(first, _) = self.starts.get(part.index())?;
        let drawn = self.drawn(part)?;
        let beside = [drawn.after(at), drawn.before(at)].map(|at| first + at.index());
        beside.into_iter().find(|&other| self.folded_together(node, other))
    }

    /// Whether this corner is meant by a point that a seam names.
    pub fn is_point(&self, node: Node, point: &SewnPoint) -> bool {
        let Some((part, at, _)) = self.place(node) else { return false };
        let (Some(layer), Some(drawn)) =
            (self.parts.get(part.index()).map(|part| part.layer), self.drawn(part))
        else {
            return false;
        };
        is_point_at(self.garment, drawn, layer, at, point)
    }

    /// Whether two corners are already joined.
    pub fn joined(&mut self, one: Node, other: Node) -> bool {
        self.root(one) == self.root(other)
    }

    /// A zip ends between two corners.
    pub fn zip(&mut self, one: Node, other: Node) {
        self.zipped.push((one, other));
    }

    /// Whether a zip ends between two corners, or between such as are joined to them, as those of a lining are.
    pub fn zipped(&mut self, one: Node, other: Node) -> bool {
        if self.zipped.is_empty() {
            return false;
        }
        let (one, other) = (self.root(one), self.root(other));
        (0..self.zipped.len()).any(|at| {
            let Some(&(first, second)) = self.zipped.get(at) else { return false };
            let ends = (self.root(first), self.root(second));
            ends == (one, other) || ends == (other, one)
        })
    }

    /// Joins two corners.
    pub fn join(&mut self, one: Node, other: Node) {
        let (one, other) = (self.root(one), self.root(other));
        if let Some(parent) = self.parents.get_mut(one.max(other)) {
            *parent = one.min(other);
        }
    }

    fn root(&mut self, node: Node) -> Node {
        let mut at = node;
        while let Some(&parent) = self.parents.get(at) {
            if parent == at {
                return at;
            }
            let grand = self.parents.get(parent).copied().unwrap_or(parent);
            if let Some(slot) = self.parents.get_mut(at) {
                *slot = grand;
            }
            at = parent;
        }
        at
    }
}

/// Whether the corner where an edge of a piece starts is meant by a point that a seam names.
pub(super) fn is_point_at(
    garment: &Garment,
    drawn: &DrawnPiece,
    layer: LayerId,
    at: DrawnEdgeId,
    point: &SewnPoint,
) -> bool {
    point.layer.is_none_or(|wanted| layer == wanted)
        && match (point.point, drawn.edge_at(at).map(|edge| edge.corner)) {
            (SewnSpot::Point(point), Some(CornerName::Named(named))) => garment.is_point_of(named, point),
            (SewnSpot::Point(_), _) => false,
            (SewnSpot::RunEnd { run, far }, _) => drawn.portion_ends(garment, run, far).any(|end| end == at),
        }
}

/// Whether two names are the same words.
fn is_same(one: &Arc<str>, other: &Arc<str>) -> bool {
    Arc::ptr_eq(one, other) || one == other
}
