//! Gaps that are left for turning, and where along their seam they lie.

use super::Lowering;
use super::expression::Wanted;
use super::papers::When;
use crate::garment::{Expression, Gap, GapAt, Node, Seam, SewnEdge};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, ExprKind, Hand, Quantity};

impl Lowering<'_> {
    pub(super) fn lower_gap(
        &mut self,
        (begins, length, at): (Option<&tree::Expr>, &tree::Expr, Option<&tree::GapAt>),
        (layer, hand): (Option<&tree::Name>, Option<Hand>),
        span: Span,
        seam: &Seam,
    ) -> Gap {
        let amount = |expr: &tree::Expr| self.lower(expr, When::Fact, None, Wanted::Length);
        let to = amount(length);
        let long = match begins {
            None => to,
            Some(begins) => {
                let from = amount(begins);
                let (dimension, span) = (to.dimension, begins.span.to(length.span));
                let is_poison = from.is_poison() || to.is_poison();
                let node = Node::Sum(vec![(true, to), (false, from)]);
                Expression { node: if is_poison { Node::Poison } else { node }, dimension, span }
            }
        };
        let layer = layer.and_then(|layer| self.find_layer(layer));
        // Of a seam that is not known nothing is known of its places either.
        let at = at.filter(|_| !seam.poisoned).and_then(|at| self.gap_at(begins, length, at, seam));
        Gap { length: long, at, layer, hand, span }
    }

    fn gap_at(
        &mut self,
        begins: Option<&tree::Expr>,
        length: &tree::Expr,
        at: &tree::GapAt,
        seam: &Seam,
    ) -> Option<GapAt> {
        let along = match &at.along {
            Some(edge) => Some(self.edge_of_seam(edge, seam)?),
            None => None,
        };
        if let (Some(begins), None) = (begins, &at.counted) {
            let title = "what lies in the middle is as far from both ends, and has a length alone";
            let mistake = Diagnostic::new(&catalogue::GAP_PLACE, begins.span.to(length.span), title);
            self.report(
                mistake.label("from where?").help(
                    "say one length: leaving gap 15 in the middle; or count both from an end of the seam",
                ),
            );
            return None;
        }
        let Some(counted) = &at.counted else { return Some(GapAt { between: None, along, span: at.span }) };
        let nought = tree::Expr {
            span: counted.span,
            kind: ExprKind::Quantity(Quantity { number: 0.0, unit: None, span: counted.span }),
        };
        let place =
            |value: &tree::Expr| tree::EdgePlace::At { value: value.clone(), from: Some(counted.clone()) };
        let all: Vec<SewnEdge> =
            seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges).copied().collect();
        // An edge beside it is meant at the corner that both share.
        let edges = match along {
            Some(edge)
                if self.point_along(&[edge], counted).is_some()
                    || self.point_along(&all, counted).is_none() =>
            {
                vec![edge]
            }
            _ => all,
        };
        let from = self.notch_on(&edges, &place(begins.unwrap_or(&nought)), seam)?;
        let to = self.notch_on(&edges, &place(length), seam)?;
        Some(GapAt { between: Some([from, to]), along, span: at.span })
    }

    /// An edge that the seam takes.
    fn edge_of_seam(&self, dotted: &tree::Dotted, seam: &Seam) -> Option<SewnEdge> {
        let named = self.named_edge(dotted, false, None)?;
        let mut edges = seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
        if edges.any(|sewn| self.garment.whole_edge(sewn.edge) == self.garment.whole_edge(named.edge)) {
            return Some(named);
        }
        let title = format!("{} is not sewn in {}", self.words(dotted.span), seam.words());
        let help = "name an edge that the seam takes, or leave this out";
        self.report(
            Diagnostic::new(&catalogue::GAP_PLACE, dotted.span, title)
                .label("no edge of it")
                .also(seam.name_span, "the seam")
                .help(help),
        );
        None
    }
}
