//! What a line of a piece measures of the whole garment: chest, waist and hip, as they are finished.

use super::model::{CutPart, Girth};
use crate::garment::{EdgeId, Garment, Used, ValueKind};
use crate::resolve::SizedGarment;

/// The part with what its lines measure: of each line the first measure, held against a figure of the body, that it
/// is a part of.
pub(super) fn with_girths(mut part: CutPart, garment: &Garment, sized: &SizedGarment) -> CutPart {
    for line in &mut part.lines {
        line.girth = girth(garment, sized, line.edge);
    }
    part
}

fn girth(garment: &Garment, sized: &SizedGarment, line: EdgeId) -> Option<Girth> {
    let measures = garment.values.iter().zip(&sized.values);
    let mut of_it = measures.filter_map(|(value, quantity)| {
        let ValueKind::Measure { value: measured, against: Some(_) } = &value.kind else { return None };
        let is_of_it = measured.uses().any(|used| matches!(used, Used::Edge(used) if used.edge == line));
        let title = value.label.as_deref().map_or_else(|| value.name.replace('_', " "), str::to_owned);
        let long = quantity.and_then(|quantity| quantity.scalar()).filter(|_| is_of_it)?;
        Some(Girth { title, long })
    });
    of_it.next()
}
