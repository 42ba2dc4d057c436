//! Openings: along edges, or along lines inside pieces.

use super::Lowering;
use crate::garment::{Chain, Opening, SewnEdge};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree;

impl Lowering<'_> {
    pub(super) fn lower_opening(&mut self, opening: &tree::Opening, span: Span) {
        let ring = self.lower_chain(&opening.ring, true, None);
        let ring = ring.filter(|ring| self.is_of_one_kind(ring));
        let passes = self.find_value(&opening.passes);
        let (Some(ring), Some(passes)) = (ring, passes) else {
            self.garment.openings_unread = true;
            return;
        };
        let passes_span = opening.passes.span;
        self.garment.openings.push(Opening { ring, passes, passes_span, span });
    }

    /// Whether an opening runs along edges alone or along lines alone; reports where it does not.
    fn is_of_one_kind(&self, ring: &Chain) -> bool {
        let is_line = |sewn: &&SewnEdge| self.garment.edge(sewn.edge).line && !self.is_cut_along(sewn.edge);
        let (lines, edges): (Vec<&SewnEdge>, Vec<&SewnEdge>) = ring.edges.iter().partition(is_line);
        let ([line, ..], [edge, ..]) = (lines.as_slice(), edges.as_slice()) else { return true };
        let name = |sewn: &SewnEdge| self.garment.edge(sewn.edge).name.clone();
        let title = format!("{} is a line inside its piece, and {} is an edge", name(line), name(edge));
        let mistake = Diagnostic::new(&catalogue::OPENING_MIXED, line.span, title)
            .label("a line")
            .also(edge.span, "an edge")
            .help(
                "name what runs on round the body: edges where the pieces end there, or a line on each piece",
            );
        self.report(mistake);
        false
    }
}
