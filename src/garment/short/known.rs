//! What is written of pieces, before their names are looked up: how each is cut, from which cloth, and
//! which edges lie beside one another.

use crate::garment::merge::Declaration;
use crate::syntax::tree::{
    AlterationKind, Chain, Closure, Cut, CutHow, Divide, Dotted, EdgePlace, ExprKind, Name, Outline, Piece,
    PieceItemNode, SewnWords, StatementNode, StripEdge,
};
use std::sync::Arc;

/// How many copies, splits and joins back a piece's own words are looked for.
pub(super) const FOREBEARS: usize = 16;

/// The declarations, as far as what is said in one line asks them.
#[derive(Clone, Copy)]
pub(super) struct Known<'d> {
    pub(super) declarations: &'d [Declaration],
}

/// One edge in the ring that an outline makes.
#[derive(Clone)]
struct Corner {
    edge: Arc<str>,
    /// The corner that it begins at, if that has a name.
    from: Option<Arc<str>>,
}

/// What lies beside an edge.
pub(super) struct Beside {
    pub(super) edge: Arc<str>,
    /// The corner that both share, if it has a name.
    pub(super) corner: Option<Arc<str>>,
}

impl<'d> Known<'d> {
    pub(super) fn nodes(self) -> impl Iterator<Item = &'d StatementNode> {
        self.declarations.iter().map(|one| &one.statement.node)
    }

    pub(super) fn piece(self, name: &str) -> Option<&'d Piece> {
        self.nodes().find_map(|node| match node {
            StatementNode::Piece(piece) if *piece.name.text == *name => Some(piece),
            _ => None,
        })
    }

    pub(super) fn closure(self, name: &str) -> Option<&'d Closure> {
        self.nodes().find_map(|node| match node {
            StatementNode::Closure(closure) if *closure.name.text == *name => Some(closure),
            _ => None,
        })
    }

    /// The piece that another is copied from, or was split or joined of.
    pub(super) fn made_of(self, name: &str) -> Option<Arc<str>> {
        if let Some(piece) = self.piece(name) {
            return piece.items.iter().find_map(|item| match &item.node {
                PieceItemNode::Outline(Outline::Copy { of, .. } | Outline::Rest { of, .. }) => last(of),
                _ => None,
            });
        }
        self.nodes().find_map(|node| match node {
            StatementNode::Alteration(alteration)
                if alteration.into.iter().any(|made| *made.text == *name) =>
            {
                alteration.targets.first().and_then(last)
            }
            _ => None,
        })
    }

    /// The layer whose cloth a piece is cut from: the first that sews it, or what it is made of.
    pub(super) fn layer_of(self, piece: &str) -> Option<Arc<str>> {
        let cutting = |name: &str| {
            self.nodes().find_map(|node| match node {
                StatementNode::Layer(layer) if !layer.fused => {
                    layer.pieces.iter().any(|own| *own.text == *name).then(|| layer.name.text.clone())
                }
                StatementNode::Band(band) if *band.name.text == *name => Some(band.layer.text.clone()),
                StatementNode::Facing(facing) if facing.strips().iter().any(|strip| **strip == *name) => {
                    Some(facing.layer.text.clone())
                }
                _ => None,
            })
        };
        let mut name: Arc<str> = piece.into();
        for _ in 0..FOREBEARS {
            if let Some(layer) = cutting(&name) {
                return Some(layer);
            }
            name = self.made_of(&name)?;
        }
        None
    }

    /// How a piece is cut as it is drawn; a piece that a split or join made as what it was made of.
    pub(super) fn cut_of(self, piece: &str, left: usize) -> Option<Cut> {
        let own = self.piece(piece).into_iter().flat_map(|piece| &piece.items);
        let mut said = own.filter_map(|item| match &item.node {
            PieceItemNode::Cut(cut) => Some(cut.clone()),
            _ => None,
        });
        said.next().or_else(|| match left {
            0 => None,
            _ => self.cut_of(&self.made_of(piece)?, left - 1),
        })
    }

    /// How a piece is cut once it is altered: opened at its fold it is a pair, closed a half, unpaired two pieces.
    pub(super) fn cut_at_last(self, piece: &str) -> Option<(Cut, bool)> {
        let mut cut = self.cut_of(piece, FOREBEARS)?;
        let mut doubled = false;
        for node in self.nodes() {
            let StatementNode::Alteration(one) = node else { continue };
            let is_target =
                |name: &str| one.targets.iter().any(|of| last(of).is_some_and(|own| *own == *name));
            let is_it = is_target(piece) || self.made_of(piece).is_some_and(|base| is_target(&base));
            match (one.kind, &cut.how) {
                (AlterationKind::Open, CutHow::OnFold(_)) if is_it => {
                    (cut.how, doubled) = (CutHow::Mirrored, true);
                }
                (AlterationKind::Close, CutHow::Mirrored) if is_it => {
                    if let Some(at) = &one.at {
                        (cut.how, doubled) = (CutHow::OnFold(at.clone()), false);
                    }
                }
                (AlterationKind::Unfold, CutHow::OnFold(_)) if is_it => cut.how = CutHow::Alike,
                (AlterationKind::Unpair, _) if one.into.iter().any(|made| *made.text == *piece) => {
                    (cut.how, doubled) = (CutHow::Alike, false);
                }
                _ => {}
            }
        }
        Some((cut, doubled))
    }

    /// What lies beside an edge of a piece; none where that cannot be told from what is written.
    pub(super) fn beside(self, piece: &str, edge: &str) -> Option<[Beside; 2]> {
        let ring = self.ring(piece, FOREBEARS)?;
        let at = ring.iter().position(|corner| *corner.edge == *edge)?;
        let (before, after) = ((at + ring.len() - 1) % ring.len(), (at + 1) % ring.len());
        let (own, before, after) = (ring.get(at)?, ring.get(before)?, ring.get(after)?);
        let one = Beside { edge: before.edge.clone(), corner: own.from.clone() };
        Some([one, Beside { edge: after.edge.clone(), corner: after.from.clone() }])
    }

    /// The edges of a piece in the order in which its outline is written.
    fn ring(self, name: &str, left: usize) -> Option<Vec<Corner>> {
        let Some(piece) = self.piece(name) else {
            // A part of a piece keeps edges beside one another that were so.
            return match left {
                0 => None,
                _ => self.ring(&self.made_of(name)?, left - 1),
            };
        };
        let outline = piece.items.iter().find_map(|item| match &item.node {
            PieceItemNode::Outline(outline) => Some(outline),
            _ => None,
        })?;
        let mut ring = match outline {
            Outline::Walk { from, edges, .. } => walked(from, edges),
            Outline::Rectangle { .. } => {
                let sides = ["bottom", "right", "top", "left"];
                let corners = ["bottom_left", "bottom_right", "top_right", "top_left"];
                let sides = sides.into_iter().zip(corners);
                sides.map(|(edge, from)| Corner { edge: edge.into(), from: Some(from.into()) }).collect()
            }
            Outline::Copy { of, .. } if left > 0 => self.ring(&last(of)?, left - 1)?,
            Outline::Strip { of, along, .. } if left > 0 => self.strip(&last(of)?, along, left - 1)?,
            _ => return None,
        };
        for item in &piece.items {
            if let PieceItemNode::Divide(divide) = &item.node {
                divided(&mut ring, divide);
            }
        }
        (ring.len() > 2).then_some(ring)
    }

    /// The ends of the edges beside the strip, its edges, and the inner one.
    fn strip(self, of: &str, along: &[StripEdge], left: usize) -> Option<Vec<Corner>> {
        let ring = self.ring(of, left)?;
        // Where it ends inside an edge, what lies beside that edge is not beside the strip.
        if along.iter().any(|edge| edge.run.is_some()) {
            return None;
        }
        let is_in = |corner: &Corner| along.iter().any(|edge| edge.edge.text == corner.edge);
        let count = ring.len();
        let start = (0..count).find(|&at| {
            ring.get(at).is_some_and(is_in) && !ring.get((at + count - 1) % count).is_some_and(is_in)
        })?;
        let mut strip: Vec<Corner> = Vec::new();
        for step in 0..=along.len() + 1 {
            let mut corner = ring.get((start + count - 1 + step) % count)?.clone();
            if step == 0 {
                corner.from = None;
            }
            strip.push(corner);
        }
        strip.push(Corner { edge: "inner".into(), from: None });
        Some(strip)
    }
}

fn walked(from: &Name, edges: &[crate::syntax::tree::WalkEdge]) -> Vec<Corner> {
    let mut ring: Vec<Corner> = Vec::new();
    let mut at = from.text.clone();
    for edge in edges {
        // The runs on both sides of a dart are one edge.
        if edge.dart.is_none() && ring.last().is_none_or(|last| last.edge != edge.name.text) {
            ring.push(Corner { edge: edge.name.text.clone(), from: Some(at) });
        }
        at = edge.to.text.clone();
    }
    ring
}

/// The run at the place that it is counted from, then the rest.
fn divided(ring: &mut Vec<Corner>, divide: &Divide) {
    let Some(at) = ring.iter().position(|corner| corner.edge == divide.edge.text) else { return };
    let count = ring.len();
    let (Some(own), Some(next)) = (ring.get(at).cloned(), ring.get((at + 1) % count)) else { return };
    let counted = match &divide.place {
        EdgePlace::At { from: Some(from), .. } => last(from),
        EdgePlace::At { value, .. } => match &value.kind {
            ExprKind::Name(name) => last(name),
            _ => None,
        },
        EdgePlace::Middle | EdgePlace::Fold => None,
    };
    let at_end = counted.is_some_and(|counted| Some(&counted) == next.from.as_ref() || counted == next.edge);
    let (near, rest) = (divide.into.0.text.clone(), divide.into.1.text.clone());
    let (first, second) = if at_end { (rest, near) } else { (near, rest) };
    let halves = [Corner { edge: first, from: own.from }, Corner { edge: second, from: None }];
    ring.splice(at..=at, halves);
}

/// The last of some names.
pub(super) fn last(dotted: &Dotted) -> Option<Arc<str>> {
    dotted.parts.last().map(|name| name.text.clone())
}

/// The layer, if it is said, the piece and the edge of `layer.piece.edge`.
pub(super) fn words(dotted: &Dotted) -> Option<(Option<&Name>, &Name, &Name)> {
    match dotted.parts.as_slice() {
        [piece, edge] => Some((None, piece, edge)),
        [layer, piece, edge] => Some((Some(layer), piece, edge)),
        _ => None,
    }
}

/// All edges of a chain, plies over a part of it too.
pub(super) fn edges_of(chain: &Chain) -> impl Iterator<Item = &SewnWords> {
    chain.edges.iter().flat_map(|sewn| std::iter::once(sewn).chain(&sewn.over))
}

/// Whether a chain has that edge of that piece, in whatever layer.
pub(super) fn has_edge(chain: &Chain, piece: &str, edge: &str) -> bool {
    edges_of(chain).any(|sewn| is_edge(&sewn.edge, piece, edge))
}

/// Whether the words mean that edge of that piece, in whatever layer.
pub(super) fn is_edge(dotted: &Dotted, piece: &str, edge: &str) -> bool {
    words(dotted).is_some_and(|(_, of, own)| *of.text == *piece && *own.text == *edge)
}
