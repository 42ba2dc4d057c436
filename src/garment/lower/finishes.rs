//! Finishes.

use super::Lowering;
use super::expression::Wanted;
use super::papers::When;
use crate::garment::{
    Binding, BindingLoop, Finish, FinishId, FinishKind, Hem, HemEdge, RunningOn, SewnEdge, User,
};
use crate::source::Span;
use crate::syntax::tree;

impl Lowering<'_> {
    pub(super) fn lower_finish(&mut self, tree: &tree::Finish, span: Span) {
        let user = Some(User::Finish(FinishId::from_index(self.garment.finishes.len())));
        let edges: Vec<SewnEdge> =
            tree.edges.iter().filter_map(|sewn| self.named_portion(sewn, false, user)).collect();
        self.said_round(&tree.edges, "finish");
        let length = |expr: &tree::Expr| self.lower(expr, When::Fact, None, Wanted::Length);
        let kind = match &tree.kind {
            tree::FinishKind::Hem(hem) => FinishKind::Hem(Hem {
                depth: length(&hem.depth),
                raw_edge: match &hem.raw_edge {
                    tree::HemEdge::TurnedOnce => HemEdge::TurnedOnce,
                    tree::HemEdge::TurnedUnder(under) => HemEdge::TurnedUnder(length(under)),
                    tree::HemEdge::TurnedTwice => HemEdge::TurnedTwice,
                },
                turn_up: hem.turn_up.as_ref().map(length),
            }),
            tree::FinishKind::Bound(binding) => FinishKind::Bound(self.lower_binding(binding)),
            tree::FinishKind::Casing { depth, elastic } => {
                let depth = length(depth);
                let elastic = elastic.as_ref().map(|(width, of)| (length(width), length(of)));
                FinishKind::Casing(depth, elastic)
            }
            tree::FinishKind::Elastic { width, length: of } => FinishKind::Elastic(length(width), length(of)),
            tree::FinishKind::Tape(width) => FinishKind::Tape(width.as_ref().map(length)),
            tree::FinishKind::TurnedUnderOnto(onto) => {
                self.find_catcher(onto).map_or(FinishKind::Poison, FinishKind::TurnedUnderOnto)
            }
            tree::FinishKind::Overlocked => FinishKind::Overlocked,
            tree::FinishKind::Raw => FinishKind::Raw,
        };
        let share = |expr: &tree::Expr| self.lower(expr, When::Fact, None, Wanted::Number);
        let binding_stretch = tree.binding_stretch.as_ref().map(share);
        let stitch = tree.stitch.as_ref().and_then(|stitch| self.lower_stitch(stitch));
        let kind_span = tree.kind_span;
        self.garment.finishes.push(Finish { edges, kind, kind_span, span, binding_stretch, stitch });
    }

    pub(super) fn lower_binding(&mut self, tree: &tree::Binding) -> Binding {
        let length = |expr: &tree::Expr| self.lower(expr, When::Fact, None, Wanted::Length);
        let mut running_on: Vec<RunningOn> = Vec::new();
        for (long, end) in &tree.running_on {
            match running_on.iter().find(|one| one.end == *end) {
                Some(first) => self.report_said_twice("binding", "end", first.length.span, long.span),
                None => running_on.push(RunningOn { length: length(long), end: *end }),
            }
        }
        let cut_from = tree.cut_from.as_ref().and_then(|name| self.find_cloth_named(name));
        let width = length(&tree.width);
        let mut loops = Vec::new();
        for (long, at) in &tree.loops {
            let length = self.lower(long, When::Fact, None, Wanted::Length);
            if let Some((_, point)) = self.sewn_place(&at.at, at.place.as_ref(), false) {
                loops.push(BindingLoop { length, at: point, span: at.span });
            }
        }
        Binding { width, cut_from, running_on, loops }
    }
}
