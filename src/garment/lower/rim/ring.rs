//! The edges of a piece in the order in which they go round it, as far as its words tell.

use super::super::{Lowering, as_piece};
use crate::garment::{EdgeId, PieceId, PieceOrigin, PointId};
use crate::syntax::tree::{self, EdgePlace, ExprKind, Outline, PieceItemNode};
use std::sync::Arc;

/// A way along the outline of a piece: as its edges are written, or against it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Along {
    /// As written.
    On,
    /// Against it.
    Back,
}

impl Along {
    /// Both.
    pub const BOTH: [Along; 2] = [Along::On, Along::Back];

    /// +1 and −1.
    pub fn sign(self) -> i8 {
        if self == Along::On { 1 } else { -1 }
    }
}

/// An edge of a ring, and the corners where it begins and ends as it is written; none of a corner without a
/// name.
#[derive(Clone, Copy, Debug)]
pub(super) struct RingEdge {
    pub edge: EdgeId,
    pub from: Option<PointId>,
    pub to: Option<PointId>,
}

impl RingEdge {
    /// The corner that it has that way.
    pub fn corner(&self, along: Along) -> Option<PointId> {
        if along == Along::On { self.to } else { self.from }
    }
}

/// How the copies of a piece lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Lies {
    /// As it is drawn: it is neither left nor right.
    Alike,
    /// A left and a right one, or as halves on that edge.
    Handed { fold: Option<EdgeId> },
}

/// The outline of a piece.
#[derive(Clone, Debug)]
pub(super) struct Ring {
    pub edges: Vec<RingEdge>,
    pub lies: Lies,
    /// It is a rectangle, whose edges are known to go round against the clock.
    pub rectangle: bool,
    /// Pairs of edges that are brought together by a fold.
    pub folded: Vec<[EdgeId; 2]>,
    /// Its copy as it is drawn is worn on that side.
    pub drawn: Option<tree::Hand>,
}

impl Ring {
    /// Where an edge stands in it.
    pub fn position(&self, edge: EdgeId) -> Option<usize> {
        self.edges.iter().position(|own| own.edge == edge)
    }

    /// Whether it is a rectangle that is neither left nor right: how it runs, worn right side out, is known.
    pub fn is_whole_rectangle(&self) -> bool {
        self.rectangle && self.lies == Lies::Alike
    }

    /// The edge beside that one.
    pub fn beside(&self, at: usize, along: Along) -> Option<(usize, RingEdge)> {
        let many = self.edges.len();
        let next = match along {
            Along::On => (at + 1).checked_rem(many)?,
            Along::Back => (at + many.checked_sub(1)?).checked_rem(many)?,
        };
        Some((next, *self.edges.get(next)?))
    }
}

/// An edge by its name, with the names of its corners.
#[derive(Clone)]
struct Named {
    edge: Arc<str>,
    from: Option<Arc<str>>,
    to: Option<Arc<str>>,
}

impl Lowering<'_> {
    /// The edges of a piece in order; none where its words do not tell, as of pieces that are split or joined.
    pub(super) fn ring_of(&self, piece: PieceId) -> Option<Ring> {
        let mut at = piece;
        let mut mirrored = false;
        // Its names are those of what it is a copy of, or the one side of.
        for _ in 0..=self.garment.pieces.len() {
            match self.garment.piece(at).origin {
                PieceOrigin::Drawn => {}
                PieceOrigin::Split { by, of, .. } if self.is_unpaired_by(by) => {
                    at = of;
                    continue;
                }
                PieceOrigin::Split { .. } | PieceOrigin::Join { .. } => return None,
            }
            let statement = self.piece_tree(at)?;
            let tree = as_piece(&statement)?;
            let outline = tree.items.iter().find_map(|item| match &item.node {
                PieceItemNode::Outline(outline) => Some(outline),
                _ => None,
            })?;
            let names = match outline {
                Outline::Walk { from, edges, .. } => walked(from, edges),
                Outline::Rectangle { .. } => rectangle(),
                Outline::Parts(_) => return None,
                Outline::Copy { mirrored: turned, .. }
                | Outline::Strip { mirrored: turned, .. }
                | Outline::Rest { mirrored: turned, .. } => {
                    mirrored ^= turned;
                    at = *self.parents(at).first()?;
                    continue;
                }
            };
            return self.ring_named(
                piece,
                at,
                names,
                matches!(outline, Outline::Rectangle { .. }) && !mirrored,
            );
        }
        None
    }

    fn is_unpaired_by(&self, by: crate::garment::AlterationId) -> bool {
        let statement = self.alteration_trees.get(by.index()).and_then(Option::as_ref);
        statement.is_some_and(|statement| match &statement.node {
            tree::StatementNode::Alteration(tree) => tree.kind == tree::AlterationKind::Unpair,
            _ => false,
        })
    }

    /// The ring of a piece that has the names of another that is drawn.
    fn ring_named(
        &self,
        piece: PieceId,
        drawn: PieceId,
        mut names: Vec<Named>,
        rectangle: bool,
    ) -> Option<Ring> {
        let statement = self.piece_tree(drawn)?;
        let divides = as_piece(&statement)?.items.iter().filter_map(|item| match &item.node {
            PieceItemNode::Divide(divide) => Some(divide),
            _ => None,
        });
        divides.for_each(|tree| divide(&mut names, tree));
        let (own_edges, own_points) =
            (self.piece_edges.get(piece.index())?, self.piece_points.get(piece.index())?);
        let point = |name: &Option<Arc<str>>| own_points.get(name.as_ref()?).copied();
        let edges = names.iter().filter_map(|named| {
            let edge = *own_edges.get(&named.edge)?;
            Some(RingEdge { edge, from: point(&named.from), to: point(&named.to) })
        });
        let mut ring =
            Ring { edges: edges.collect(), lies: Lies::Alike, rectangle, folded: Vec::new(), drawn: None };
        if matches!(self.garment.piece(piece).origin, PieceOrigin::Split { .. }) {
            return Some(ring);
        }
        let statement = self.piece_tree(piece)?;
        for item in &as_piece(&statement)?.items {
            match &item.node {
                PieceItemNode::Cut(cut) => {
                    ring.lies = match &cut.how {
                        tree::CutHow::Alike => Lies::Alike,
                        tree::CutHow::Mirrored => Lies::Handed { fold: None },
                        tree::CutHow::OnFold(fold) => {
                            Lies::Handed { fold: own_edges.get(&fold.text).copied() }
                        }
                    };
                }
                PieceItemNode::Folded { edge, onto, .. } => {
                    let pair = own_edges.get(&edge.text).zip(own_edges.get(&onto.text));
                    ring.folded.extend(pair.map(|(&edge, &onto)| [edge, onto]));
                }
                PieceItemNode::Drawn(hand) => ring.drawn = Some(*hand),
                _ => {}
            }
        }
        Some(ring)
    }
}

/// The edges of a walk; those in which a dart lies once.
fn walked(from: &tree::Name, edges: &[tree::WalkEdge]) -> Vec<Named> {
    let mut names: Vec<Named> = Vec::new();
    let mut corner = from.text.clone();
    for edge in edges.iter() {
        let to = edge.to.text.clone();
        match names.last_mut() {
            _ if edge.dart.is_some() => {}
            Some(last) if last.edge == edge.name.text => last.to = Some(to.clone()),
            _ => names.push(Named { edge: edge.name.text.clone(), from: Some(corner), to: Some(to.clone()) }),
        }
        corner = to;
    }
    names
}

fn rectangle() -> Vec<Named> {
    let corners = ["bottom_left", "bottom_right", "top_right", "top_left", "bottom_left"].map(Arc::from);
    let edges = ["bottom", "right", "top", "left"].map(Arc::from);
    let ends = corners.windows(2).map(|ends| (ends.first().cloned(), ends.last().cloned()));
    edges.into_iter().zip(ends).map(|(edge, (from, to))| Named { edge, from, to }).collect()
}

/// `divide side 20 from underarm into side_zip, side`: the run at that corner comes first.
fn divide(names: &mut Vec<Named>, tree: &tree::Divide) {
    let Some(at) = names.iter().position(|named| named.edge == tree.edge.text) else { return };
    let whole = names[at].clone();
    let counted = match &tree.place {
        EdgePlace::Middle | EdgePlace::Fold => None,
        EdgePlace::At { from, .. } => from.as_ref().and_then(|from| from.parts.last()),
    };
    let next = names.get((at + 1) % names.len()).map(|next| next.edge.clone());
    let is_at_end = counted.is_some_and(|counted| {
        whole.to.as_ref() == Some(&counted.text) || next.as_ref() == Some(&counted.text)
    });
    let (near, far) = (tree.into.0.text.clone(), tree.into.1.text.clone());
    let (first, second) = if is_at_end { (far, near) } else { (near, far) };
    names[at] = Named { edge: first, from: whole.from, to: None };
    names.insert(at + 1, Named { edge: second, from: None, to: whole.to });
}

/// The corner or the neighbouring edge that a run of an edge is counted from, if it begins there.
pub(super) fn begins_at(run: &tree::RunWords) -> Option<&tree::Name> {
    let is_nought = |expr: &tree::Expr| match &expr.kind {
        ExprKind::Quantity(quantity) => quantity.number == 0.0,
        _ => false,
    };
    run.from.as_ref().is_none_or(is_nought).then(|| run.counted.parts.last()).flatten()
}
