//! What the text says is done with each edge, before any of it is lowered.

use super::super::Lowering;
use crate::garment::{EdgeId, LayerId, PieceId, PointId};
use crate::source::Span;
use crate::syntax::tree::{self, AlterationKind, PlaceItemNode, StatementNode};
use std::sync::Arc;

/// An edge that is named.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::garment::lower) struct RimEdge {
    pub layer: Option<LayerId>,
    pub piece: PieceId,
    pub edge: EdgeId,
}

/// A seam, as far as its names are known.
#[derive(Debug)]
pub(super) struct SeamUse {
    pub name: Arc<str>,
    pub span: Span,
    /// Before and after `to`: plies, and the edges of each from end to end; none where one is a run.
    pub sides: [Vec<Vec<RimEdge>>; 2],
    /// Edges of which it takes a run.
    pub runs: Vec<RimEdge>,
    pub enclosing: Vec<Arc<str>>,
    /// Corners that it says meet.
    pub matching: Vec<(PointId, PointId)>,
}

impl SeamUse {
    /// All edges that it takes.
    pub fn edges(&self) -> impl Iterator<Item = &RimEdge> {
        self.sides.iter().flatten().flatten().chain(&self.runs)
    }
}

/// Everything that takes edges.
#[derive(Debug, Default)]
pub(super) struct Uses {
    pub seams: Vec<SeamUse>,
    /// Edges that closures take, by the closure's name.
    pub closures: Vec<(Arc<str>, RimEdge)>,
    /// Edges that are finished, topstitched or caught.
    pub others: Vec<RimEdge>,
    /// Pieces that are topstitched all round.
    pub all_round: Vec<PieceId>,
    /// Lines at which pieces are cut off, which are edges then.
    pub cut_off: Vec<RimEdge>,
}

/// Whether nothing else becomes of a closure's edges; it may where it could not be read.
fn takes_edges(closure: &tree::Closure) -> bool {
    closure.items.iter().all(|item| match &item.node {
        tree::ClosureItemNode::Zipper(_) => true,
        tree::ClosureItemNode::Fasteners(row) => row.is_lapped(),
    })
}

impl Lowering<'_> {
    /// What is wrong with names is reported where each statement is lowered.
    pub(super) fn uses_of_edges(&self) -> Uses {
        let mut uses = Uses::default();
        for declaration in &self.merged.declarations {
            self.add_uses(&declaration.statement, &mut uses);
        }
        uses
    }

    fn add_uses(&self, statement: &tree::Statement, uses: &mut Uses) {
        match &statement.node {
            StatementNode::Seam(seam) => uses.seams.push(self.seam_use(seam)),
            StatementNode::Finish(finish) => {
                let edges = finish.edges.iter().filter_map(|sewn| self.rim_edge(&sewn.edge));
                uses.others.extend(edges);
            }
            // What holds edges that are finished or sewn takes none.
            StatementNode::Closure(closure) if takes_edges(closure) => {
                let words = closure.first.edges.iter().chain(&closure.second.edges);
                let edges = words.filter_map(|sewn| self.rim_edge(&sewn.edge));
                uses.closures.extend(edges.map(|edge| (closure.name.text.clone(), edge)));
            }
            StatementNode::Place(place) => {
                let Some(part) = self.attempt(|reading| reading.find_part(&place.piece)).forget() else {
                    return;
                };
                for item in &place.items {
                    match &item.node {
                        PlaceItemNode::Topstitch(edges) | PlaceItemNode::Caught { edges, .. } => {
                            let own = self.piece_edges.get(part.piece.index());
                            let found = edges.iter().filter_map(|name| own?.get(&name.text).copied());
                            let (layer, piece) = (part.layer, part.piece);
                            uses.others.extend(found.map(|edge| RimEdge { layer, piece, edge }));
                        }
                        PlaceItemNode::TopstitchAllRound => uses.all_round.push(part.piece),
                        PlaceItemNode::Corner { .. } => {}
                    }
                }
            }
            StatementNode::Alteration(tree) if tree.kind == AlterationKind::CutOff => {
                let Some(at) = &tree.at else { return };
                for target in &tree.targets {
                    let Some(part) = self.attempt(|reading| reading.find_part(target)).forget() else {
                        continue;
                    };
                    let edge = self.piece_edges.get(part.piece.index()).and_then(|own| own.get(&at.text));
                    let (layer, piece) = (part.layer, part.piece);
                    uses.cut_off.extend(edge.map(|&edge| RimEdge { layer, piece, edge }));
                }
            }
            _ => {}
        }
    }

    fn seam_use(&self, seam: &tree::Seam) -> SeamUse {
        let mut runs = Vec::new();
        let mut side = |side: &tree::Side| -> Vec<Vec<RimEdge>> {
            let mut plies = Vec::new();
            for chain in &side.plies {
                let mut ply = Some(Vec::new());
                for sewn in &chain.edges {
                    for words in std::iter::once(sewn).chain(&sewn.over) {
                        let edge = self.rim_edge(&words.edge);
                        match (edge, words.run.is_some()) {
                            (Some(edge), true) => {
                                runs.push(edge);
                                ply = None;
                            }
                            (Some(edge), false) if std::ptr::eq(words, sewn) => {
                                if let Some(ply) = &mut ply {
                                    ply.push(edge);
                                } else {
                                    runs.push(edge);
                                }
                            }
                            (Some(edge), false) => plies.push(vec![edge]),
                            (None, _) => {}
                        }
                    }
                }
                plies.extend(ply);
            }
            plies
        };
        let mut sides = [side(&seam.first), side(&seam.second)];
        for item in &seam.items {
            let tree::SeamItemNode::Caught { ply, on, .. } = &item.node else { continue };
            let (Some(ply), Some(on)) = (self.rim_edge(ply), self.rim_edge(on)) else { continue };
            let takes =
                |plies: &Vec<Vec<RimEdge>>| plies.iter().flatten().any(|edge| self.is_same_edge(edge, &on));
            if let Some(side) = sides.iter_mut().find(|plies| takes(plies)) {
                side.push(vec![ply]);
            }
        }
        let points = seam.items.iter().filter_map(|item| match &item.node {
            tree::SeamItemNode::Matching(one, other) => {
                let point = |words: &tree::Dotted| {
                    self.attempt(|reading| reading.find_dotted_point(words)).forget().map(|(_, point)| point)
                };
                point(one).zip(point(other))
            }
            _ => None,
        });
        let matching = points.collect();
        let enclosing = seam.enclosing.iter().map(|name| name.text.clone()).collect();
        SeamUse { name: seam.name.text.clone(), span: seam.name.span, sides, runs, enclosing, matching }
    }

    /// The edge of those words.
    pub(super) fn rim_edge(&self, words: &tree::Dotted) -> Option<RimEdge> {
        let (part, edge) = self.attempt(|reading| reading.find_dotted_edge(words)).forget()?;
        Some(RimEdge { layer: part.layer, piece: part.piece, edge })
    }

    /// Whether both name one edge, or runs of it, in one layer.
    pub(super) fn is_same_edge(&self, one: &RimEdge, other: &RimEdge) -> bool {
        let garment = &self.garment;
        one.layer.zip(other.layer).is_none_or(|(one, other)| one == other)
            && (garment.is_run_of(one.edge, other.edge) || garment.is_run_of(other.edge, one.edge))
    }

    /// Whether nothing but the closure, and what encloses it, takes an edge. Of two edges that the enclosing seam
    /// joins the closure goes along one only: `chain` is what it goes along already.
    pub(super) fn is_free(
        &self,
        edge: &RimEdge,
        uses: &Uses,
        closure: &tree::Closure,
        chain: &[RimEdge],
    ) -> bool {
        let closure = &closure.name.text;
        let is_it = |other: &RimEdge| self.is_same_edge(edge, other);
        let is_bound = |seam: &SeamUse| {
            let is_partner =
                |other: &&RimEdge| !is_it(other) && chain.iter().any(|own| self.is_same_edge(own, other));
            seam.edges().any(is_it)
                && (!seam.enclosing.contains(closure) || seam.edges().any(|other| is_partner(&other)))
        };
        !uses.others.iter().any(is_it)
            && !uses.closures.iter().any(|(name, other)| is_it(other) && name != closure)
            && !uses.all_round.contains(&edge.piece)
            && !uses.seams.iter().any(is_bound)
    }
}
