//! A fitting: what is known of one wearer.

use super::entry::{Align, Entry};
use super::expression::Printer;
use crate::source::Span;
use crate::syntax::tree::{FittedBody, FittedRow, FittedValue, FittingOf};

impl Printer<'_> {
    pub(super) fn fitting(&self, span: Span, fitting: &FittingOf) -> Entry {
        let (wearer, base) = (self.text(&fitting.wearer), self.named_file(&fitting.base));
        let bodies = fitting.bodies.iter().map(|body| self.fitted_body(body)).collect();
        Entry::line(span, format!("fitting {wearer} of {base}")).block(bodies)
    }

    fn fitted_body(&self, body: &FittedBody) -> Entry {
        let rows = body.rows.iter().map(|row| self.fitted_row(row)).collect();
        Entry::line(body.span, "body").block(rows)
    }

    fn fitted_row(&self, row: &FittedRow) -> Entry {
        let value = match &row.value {
            FittedValue::Measured(value) => self.expr(value),
            FittedValue::AsSize(size) => format!("as {}", self.spelling.size(size)),
            FittedValue::BetweenSizes(_) => "between sizes".to_owned(),
        };
        let entry = match &row.name {
            Some(name) => Entry::of("row", row.span, &*name.text).cell(2, value, Align::Over),
            None => Entry::line(row.span, format!("the rest {value}")),
        };
        entry.tail(self.maybe_text(&row.label))
    }
}
