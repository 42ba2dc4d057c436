//! Rows of topstitching and understitching, and tacks, in the canonical spelling.

use super::entry::Entry;
use super::expression::{Printer, dotted};
use crate::source::Span;
use crate::syntax::tree::{Setting, SewnPlace, StitchedRow, Tack};

impl Printer<'_> {
    pub(super) fn stitched_row(&self, span: Span, row: &StitchedRow) -> Entry {
        let edges = row.edges.iter().map(|sewn| self.finished(sewn)).collect::<Vec<_>>().join(", ");
        let rows = row.rows.as_ref().map_or(String::new(), |(count, apart)| {
            format!(" rows {} apart {}", self.expr(count), self.expr(apart))
        });
        let stitch =
            row.stitch.as_ref().map_or(String::new(), |stitch| format!(" {{ stitch {} }}", stitch.word));
        let (word, name) = (row.kind.word(), &row.name.text);
        let beside = match &row.distance {
            Some(distance) => format!("{} from", self.expr(distance)),
            None => "along".to_owned(),
        };
        Entry::line(span, format!("{word} {name} {beside} {edges}{rows}{stitch}"))
    }

    pub(super) fn setting(&self, span: Span, setting: &Setting) -> Entry {
        let places: Vec<String> = setting.places.iter().map(|place| self.sewn_place(place)).collect();
        let notion = self.text(&setting.notion);
        Entry::line(span, format!("set {} {notion} at {}", setting.name.text, places.join(", ")))
    }

    pub(super) fn tack(&self, span: Span, tack: &Tack) -> Entry {
        let to = tack.to.as_ref().map_or(String::new(), |to| format!(" to {}", self.sewn_place(to)));
        let bar = tack.bar.as_ref().map_or(String::new(), |bar| format!(" bar {}", self.expr(bar)));
        Entry::line(span, format!("tack {} {}{to}{bar}", tack.name.text, self.sewn_place(&tack.from)))
    }

    pub(super) fn sewn_place(&self, place: &SewnPlace) -> String {
        let on = place.place.as_ref().map_or(String::new(), |place| format!(" {}", self.edge_place(place)));
        format!("{}{on}", dotted(&place.at))
    }
}
