//! Pieces that lie on others.

use super::Lowering;
use super::sought::Sought;
use crate::garment::{Catcher, Caught, PlacedCorner, Placement, Symbol};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, HostPlace, PlaceItemNode};

impl Lowering<'_> {
    pub(super) fn lower_place(&mut self, tree: &tree::Place, whole: Span) {
        let span = tree.piece.span.to(tree.on.span);
        let (Some(placed), Some(on)) = (self.find_part(&tree.piece), self.find_part(&tree.on)) else {
            return;
        };
        let has_parts = self.is_in_layer(placed, tree.piece.span) & self.is_in_layer(on, tree.on.span);
        let mut placement = Placement {
            layer: placed.layer,
            piece: placed.piece,
            on_layer: on.layer,
            on: on.piece,
            hand: tree.on.on,
            corners: Vec::new(),
            topstitched: Vec::new(),
            all_round: None,
            caught: Vec::new(),
            span,
            poisoned: !has_parts || self.is_damaged(whole),
        };
        for item in &tree.items {
            match &item.node {
                PlaceItemNode::Corner { corner, at } => {
                    let host = match at {
                        HostPlace::Point(at) => self.find_point(on.piece, at),
                        HostPlace::Edge(edge, place) => self
                            .find_edge(on.piece, edge)
                            .and_then(|found| self.point_on_edge(found, place, edge.span, true)),
                    };
                    match (self.find_point(placed.piece, corner), host) {
                        (Some(corner), Some(at)) => {
                            placement.corners.push(PlacedCorner { corner, at, span: item.span });
                        }
                        _ => placement.poisoned = true,
                    }
                }
                PlaceItemNode::Topstitch(edges) => {
                    for name in edges {
                        if let Some(edge) = self.find_edge(placed.piece, name) {
                            placement.topstitched.push((edge, name.span));
                        }
                    }
                }
                PlaceItemNode::TopstitchAllRound => placement.all_round = Some(item.span),
                PlaceItemNode::Caught { edges, in_seam } => {
                    let by = self.find_catcher(in_seam);
                    for name in edges {
                        if let (Some(edge), Some(by)) = (self.find_edge(placed.piece, name), by) {
                            placement.caught.push(Caught { edge, span: name.span, by });
                        }
                    }
                }
            }
        }
        if placement.corners.is_empty() && !placement.poisoned {
            let title = format!(
                "no place on {} is given for {}",
                self.garment.piece(on.piece).name,
                self.garment.piece(placed.piece).name
            );
            let help = "name a corner and a mark: corner bottom_left at pocket_corner";
            self.report(Diagnostic::new(&catalogue::PLACE_NOWHERE, span, title).label("where?").help(help));
            placement.poisoned = true;
        }
        self.garment.placements.push(placement);
    }

    pub(super) fn find_catcher(&self, name: &tree::Name) -> Option<Catcher> {
        if let Some(&seam) = self.names.seams.get(&name.text) {
            self.used(Symbol::Seam(seam), name.span);
            return Some(Catcher::Seam(seam));
        }
        if let Some(&closure) = self.names.closures.get(&name.text) {
            self.used(Symbol::Closure(closure), name.span);
            return Some(Catcher::Closure(closure));
        }
        let among = self.offered(self.names.seams.keys().chain(self.names.closures.keys()));
        self.unknown(Sought::SeamOrClosure, &name.text, name.span, &among);
        None
    }
}
