//! Rows of stitching beside seams and edges, and tacks.

use super::teller::{Named, Teller, Way, fit};
use super::{Step, StepText};
use crate::garment::{RowId, TackEnd, TackId, TackSpot};
use crate::sewing::amount_of;
use crate::sheet::{FigureKind, Text};
use crate::syntax::tree::RowKind;

impl Teller<'_> {
    pub(super) fn stitched_row(&self, step: &Step, id: RowId, text: &mut StepText) {
        let forms = self.forms();
        let row = self.garment.row(id);
        let mut named: Vec<Named> = Vec::new();
        for edge in &row.edges {
            named.extend(self.sewn_edges(&[edge.sewn], None));
        }
        let named = super::teller::once(named);
        let letter = || step.letter.clone();
        let Some(distance) = &row.distance else {
            text.say_all(self.listed(&named, |lines| forms.topstitch_along(letter(), lines)));
            if let Some(stitch) = &row.stitch {
                self.note_stitch(stitch.number, text);
            }
            return;
        };
        let Some(distance) = self.amount(FigureKind::Length, distance) else { return };
        let rows = row.rows.as_ref().and_then(|(count, _)| {
            let first = self.facts.sizes.first()?;
            amount_of(self.garment, &first.drawn, count).filter(|count| *count > 1.5)
        });
        text.say_all(self.listed(&named, |edges| match (row.kind, rows) {
            (RowKind::Understitch, _) => forms.understitch(letter(), edges, distance.clone()),
            (RowKind::Topstitch, Some(count)) => {
                forms.topstitch_rows(letter(), edges, self.count(count.round() as u32), distance.clone())
            }
            (RowKind::Topstitch, None) => forms.topstitch(letter(), edges, distance.clone()),
        }));
        if let Some(stitch) = &row.stitch {
            self.note_stitch(stitch.number, text);
        }
    }

    pub(super) fn tack(&self, step: &Step, id: TackId, text: &mut StepText) {
        let forms = self.forms();
        let tack = self.garment.tack(id);
        let bar = tack.bar.as_ref().and_then(|bar| self.amount(FigureKind::Small, bar));
        let letter = || step.letter.clone();
        let say = |way: Way| {
            let place = |end: &TackEnd| self.tack_end(end, way);
            match (tack.ends.as_slice(), bar.clone()) {
                ([one], None) => Some(forms.tack(letter(), place(one))),
                ([one], Some(bar)) => Some(forms.bar_tack(letter(), place(one), bar)),
                ([one, other, ..], None) => Some(forms.tack_to(letter(), place(one), place(other))),
                ([one, other, ..], Some(bar)) => {
                    Some(forms.bar_tack_to(letter(), place(one), place(other), bar))
                }
                ([], _) => None,
            }
        };
        let full = say(Way::default()).filter(|full| fit(std::slice::from_ref(full)));
        text.say_all(full.or_else(|| say(Way { short: true, layered: false })));
    }

    fn tack_end(&self, end: &TackEnd, way: Way) -> Text {
        let Some(part) = self.part_of(end.layer, end.piece) else {
            return self.name(&match &end.spot {
                TackSpot::Point(point) => self.garment.point_words(*point),
                TackSpot::Edge(edge, _) => self.edge_words(*edge),
            });
        };
        match &end.spot {
            TackSpot::Point(point) => self.point(*point, part, end.hand, way),
            TackSpot::Edge(edge, _) => {
                let named = Named { part, edge: self.garment.whole_edge(*edge), hand: end.hand };
                self.words.list(self.edges(&[named], way))
            }
        }
    }
}
