//! Alterations of one side of a condition alone.

use super::{AlterationId, EdgeId, Expression, Garment, Geometry, Node, PieceId};
use crate::once_each::once_each;
use crate::syntax::tree::Need;

/// A piece that is altered at a line, while what it is compared with has that line too and is not.
#[derive(Clone, Debug)]
pub struct OneSided {
    /// The alteration.
    pub alteration: AlterationId,
    /// The piece that it names.
    pub piece: PieceId,
    /// Its edges that are compared.
    pub edges: Vec<EdgeId>,
    /// The pieces that they are compared with.
    pub partner: Vec<PieceId>,
    /// Their edges.
    pub partner_edges: Vec<EdgeId>,
}

impl Garment {
    /// The first alteration of one side of a condition alone, though the pieces of the other side have a line of the same
    /// name: lengthening the front at its waist, of a front and a back that both have a waist.
    pub fn altered_on_one_side(&self, left: &Expression, right: &Expression) -> Option<OneSided> {
        let sides = [edges_in(left), edges_in(right)];
        let pieces = |edges: &[EdgeId]| {
            let mut own: Vec<PieceId> = edges.iter().map(|&edge| self.edge(edge).piece).collect();
            once_each(&mut own);
            own
        };
        let both = sides.each_ref().map(|edges| pieces(edges));
        if both.iter().any(Vec::is_empty) || both[0].iter().any(|piece| both[1].contains(piece)) {
            return None;
        }
        let has_line = |piece: PieceId, name: &str| {
            let edges = &self.piece(piece).edges;
            edges.iter().any(|&edge| self.edge(edge).line && &*self.edge(edge).name == name)
        };
        for (id, alteration) in AlterationId::enumerate(&self.alterations) {
            if alteration.form().is_none_or(|form| form.needs != Need::LineAcross) {
                continue;
            }
            let is_named = |piece: &PieceId| alteration.targets.iter().any(|target| target.piece == *piece);
            for (own, other) in [(0, 1), (1, 0)] {
                let target = alteration.targets.iter().find(|target| both[own].contains(&target.piece));
                let Some(target) = target.filter(|_| !both[other].iter().any(is_named)) else { continue };
                let line = &self.edge(target.edge).name;
                if both[other].iter().all(|&piece| has_line(piece, line)) {
                    return Some(OneSided {
                        alteration: id,
                        piece: target.piece,
                        edges: sides[own].clone(),
                        partner: both[other].clone(),
                        partner_edges: sides[other].clone(),
                    });
                }
            }
        }
        None
    }
}

/// The edges whose lengths an expression speaks of.
fn edges_in(expression: &Expression) -> Vec<EdgeId> {
    let mut found = Vec::new();
    for inner in expression.walk() {
        let Node::Geometry(geometry) = &inner.node else { continue };
        match &**geometry {
            Geometry::Length(used) | Geometry::Finished(used) => found.push(used.edge),
            Geometry::Total(uses) => found.extend(uses.iter().map(|(_, used)| used.edge)),
            _ => {}
        }
    }
    found
}
