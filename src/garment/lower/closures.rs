//! Closures, and what fastens them.

use super::Lowering;
use super::expression::Wanted;
use super::papers::When;
use super::place::SewnPlaceAt;
use super::sought::Sought;
use crate::garment::{Anchor, AnchorAt, ClosureKind, Fasteners, SewnEdge, Symbol, User};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, ClosureItemNode, Fastener};
use std::sync::Arc;

impl Lowering<'_> {
    /// What closes along a ring has no ends: whether that is so.
    pub(super) fn may_go_round(&self, tree: &tree::Closure, kind: &ClosureKind, kind_span: Span) -> bool {
        let Some(ring) = [&tree.first, &tree.second].into_iter().find(|chain| chain.ring) else {
            return self.has_places(tree, kind, kind_span);
        };
        let name = &tree.name.text;
        let (span, title, help) = match (tree.end_to_end, kind) {
            (Some(span), _) => {
                let title = format!("{name} goes round in a ring, which has no ends");
                (span, title, "leave out from end to end".to_owned())
            }
            (None, ClosureKind::Zipper { .. }) => {
                let title = format!("{name} is a zip, which has two ends, and a ring has none");
                let help = "take buttons, snaps, hooks, toggles or ties; or name the edge of a single piece";
                (kind_span, title, help.to_owned())
            }
            (None, ClosureKind::Fasteners(said)) => {
                let Some((from, to)) = &said.between else { return true };
                let many = said.kind.many();
                let title = format!("{many} in a ring stand evenly all round it, from no place to another");
                (from.span.to(to.span), title, "leave out from … to …".to_owned())
            }
        };
        let mistake = Diagnostic::new(&catalogue::SEAM_RING, span, title).also(ring.span, "a ring");
        self.report(mistake.help(help));
        false
    }

    /// Where no ring is meant, a row of buttons has a first and a last: whether these are said.
    fn has_places(&self, tree: &tree::Closure, kind: &ClosureKind, kind_span: Span) -> bool {
        match kind {
            ClosureKind::Fasteners(said) if said.kind == Fastener::Button && said.between.is_none() => {
                let title =
                    format!("{} does not say where its first and its last button are", tree.name.text);
                let mistake = Diagnostic::new(&catalogue::CLOSURE_HOW, kind_span, title);
                let help = "say it behind the width: from 2 below a corner to 10 above another; only in a ring they stand \
                            evenly all round";
                self.report(mistake.label("from where to where?").help(help));
                false
            }
            _ => true,
        }
    }

    pub(super) fn lower_closure(&mut self, tree: &tree::Closure) {
        let Some(&id) = self.names.closures.get(&tree.name.text) else { return };
        if self.garment.closure(id).name_span != tree.name.span {
            return; // a second one of that name, reported elsewhere
        }
        // What could not be read may stand on lines.
        let damaged = tree.items.is_empty() && self.is_damaged(self.garment.closure(id).span);
        let lines =
            damaged || tree.items.iter().any(|item| matches!(item.node, ClosureItemNode::Fasteners(_)));
        let user = Some(User::Closure(id));
        let (first, second) =
            (self.lower_chain(&tree.first, lines, user), self.lower_chain(&tree.second, lines, user));
        let named: Vec<SewnEdge> =
            [&first, &second].into_iter().flatten().flat_map(|chain| &chain.edges).copied().collect();
        let mut kind = None;
        let mut kind_span = tree.name.span;
        for item in &tree.items {
            if kind.is_some() {
                let diagnostic = Diagnostic::new(
                    &catalogue::NAME_DECLARED_TWICE,
                    item.span,
                    "a closure closes in one way",
                )
                .label("again here")
                .also(kind_span, "first here")
                .help("make two closures of it");
                self.report(diagnostic);
                break;
            }
            kind_span = item.span;
            kind = match &item.node {
                ClosureItemNode::Zipper(zipper) => Some(ClosureKind::Zipper {
                    kind: zipper.kind,
                    lengths: zipper
                        .lengths
                        .iter()
                        .map(|length| self.lower(length, When::Fact, None, Wanted::Length))
                        .collect(),
                    stocked: zipper.stocked,
                    showing: zipper
                        .showing
                        .as_ref()
                        .map(|showing| self.lower(showing, When::Fact, None, Wanted::Length)),
                    clear: zipper
                        .clear
                        .as_ref()
                        .map(|clear| self.lower(clear, When::Fact, None, Wanted::Length)),
                }),
                ClosureItemNode::Fasteners(row) => {
                    self.lower_fasteners(row, &named).map(|row| ClosureKind::Fasteners(Box::new(row)))
                }
            };
        }
        if tree.items.is_empty() && !self.is_damaged(self.garment.closure(id).span) {
            let title = format!("{} does not say how it closes", tree.name.text);
            let help = "say it in braces: { zipper separating 65 } or { buttons 6 of 15mm from … to … }; also \
                        snaps, hooks, toggles, buckle, ties";
            self.report(
                Diagnostic::new(&catalogue::CLOSURE_HOW, tree.name.span, title)
                    .label("a zip, buttons, snaps, hooks?")
                    .help(help),
            );
        }
        let kind = kind.filter(|_| !self.is_damaged(self.garment.closure(id).span));
        let kind = kind.filter(|kind| self.may_go_round(tree, kind, kind_span));
        let chains = first.zip(second).and_then(|(first, second)| match tree.end_to_end {
            Some(span) => self.with_rim(id, span, [first, second]),
            None => Some([first, second]),
        });
        let closure = &mut self.garment.closures[id.index()];
        closure.kind_span = kind_span;
        if let Some([first, second]) = chains {
            (closure.first, closure.second, closure.kind) = (first, second, kind);
        }
    }

    pub(super) fn lower_fasteners(
        &mut self,
        tree: &tree::Fasteners,
        edges: &[SewnEdge],
    ) -> Option<Fasteners> {
        let length = |said: &Option<tree::Expr>| {
            said.as_ref().map(|said| self.lower(said, When::Fact, None, Wanted::Length))
        };
        let count = tree.count.as_ref().map(|count| self.lower(count, When::Fact, None, Wanted::Number));
        let (size, mut stand) = (length(&tree.size), length(&tree.stand));
        if let Some(said) = stand.take_if(|_| !tree.kind.may_lap()) {
            let title =
                format!("{} hold two edges together, and neither laps over the other", tree.kind.many());
            let mistake = Diagnostic::new(&catalogue::CLOSURE_LAP, said.span, title).label("a stand laps");
            let help =
                "leave stand out and finish the edges; buttons, snaps, hooks, toggles and a buckle may lap";
            self.report(mistake.help(help));
        }
        let between = match &tree.between {
            Some((from, to)) => {
                let (from, to) = (self.lower_anchor(from, edges), self.lower_anchor(to, edges));
                Some((from?, to?))
            }
            None => None,
        };
        Some(Fasteners { kind: tree.kind, count, size, between, stand, over: tree.over })
    }

    pub(super) fn lower_anchor(&mut self, anchor: &tree::Anchor, edges: &[SewnEdge]) -> Option<Anchor> {
        let span = anchor.span;
        let (distance, below, named) = match &anchor.at {
            tree::AnchorAt::Beside { distance, below, point } => (distance, *below, point),
            tree::AnchorAt::Place(_) if edges.is_empty() => return None,
            tree::AnchorAt::Place(place) => {
                let at = match self.place_along(edges, place, Sought::PointOfClosure)? {
                    SewnPlaceAt::Point(_, point) => AnchorAt::Point(point),
                    SewnPlaceAt::Share(share) => AnchorAt::Share(share),
                    SewnPlaceAt::From(..) => AnchorAt::Point(self.counted_on(edges, place)?),
                };
                return Some(Anchor { at, span });
            }
        };
        let distance = self.lower(distance, When::Fact, None, Wanted::Length);
        let mut among: Vec<Arc<str>> = Vec::new();
        for sewn in edges {
            let points = &self.piece_points[sewn.piece.index()];
            if let Some(&point) = points.get(&named.text) {
                self.used(Symbol::Point(point), named.span);
                return Some(Anchor { at: AnchorAt::Beside { distance, below, point }, span });
            }
            among.extend(points.keys().cloned());
        }
        if !edges.is_empty() {
            self.unknown(Sought::PointOfClosure, &named.text, named.span, &among);
        }
        None
    }
}
