//! A fitting as the text of one garment in one size: the wearer's.

use super::{Packing, literal, quantity_in};
use crate::garment::{BetweenSizes, Dimension, Fitting, Garment, Node, ValueKind};
use crate::source::Span;
use crate::syntax::tree::{
    Body, Expr, ExprKind, Quantity, SizeName, Sizes, Statement, StatementNode, Unit, UnitWord,
};

/// A wearer, and the garment as it was lowered for one.
pub(super) struct Fitted<'a> {
    pub(super) fitting: &'a Fitting,
    pub(super) garment: &'a Garment,
}

impl Fitted<'_> {
    /// `sizes "Second mate"`
    pub(super) fn sizes(&self) -> Statement {
        let name = SizeName { text: self.fitting.wearer.clone(), span: Span::default() };
        Statement { span: Span::default(), node: StatementNode::Sizes(Sizes { names: vec![name] }) }
    }

    /// Puts the wearer's measures in the place of the sizes'.
    pub(super) fn measure(&self, body: &mut Body) {
        for row in &mut body.rows {
            let mut values = self.garment.values.iter();
            let Some(value) = values.find(|value| value.name == row.name.text) else { continue };
            let ValueKind::Body(measured) = &value.kind else { continue };
            let Node::Constant(number) = measured.node else { continue };
            let (number, unit) = match value.dimension {
                Dimension::Angle => (number.to_degrees(), Unit::Degree),
                Dimension::Number => (number * 100.0, Unit::Percent),
                _ => (number, Unit::Millimetre),
            };
            // As every number that was reckoned: without what binary fractions leave behind.
            let number = (number * 1e9).round() / 1e9;
            let unit = Some(UnitWord { unit, span: Span::default() });
            let number = Quantity { number, unit, span: Span::default() };
            row.values = Expr { span: Span::default(), kind: ExprKind::Quantity(number) };
        }
    }
}

impl Packing<'_> {
    /// The value that a list of one value a size has for the wearer; none where the garment has sizes, or the
    /// list is none.
    pub(super) fn for_wearer(&self, list: &Expr) -> Option<String> {
        let fitting = self.fitted.as_ref()?.fitting;
        let StatementNode::Sizes(own) = &self.merged.sizes_in.get(&self.map.file_of(list.span))?.node else {
            return None;
        };
        let at = |at: usize| {
            let name = &fitting.sizes.get(at)?.name;
            own.names.iter().position(|one| one.text == *name)
        };
        let one = |at: usize| match &list.kind {
            ExprKind::Each(values) => values.get(at).map(|value| self.written(value)),
            ExprKind::Grade(grade) => {
                let base_at = match &grade.at {
                    None => 0,
                    Some(named) => own.names.iter().position(|name| name.text == named.text)?,
                };
                Some(self.graded_value(grade, base_at, at, own.names.len()))
            }
            _ => None,
        };
        let place: BetweenSizes = fitting.place;
        let Some(above) = place.above() else { return one(at(place.below)?) };
        if self.is_of_counts(list) || fitting.bought.contains(&list.span) {
            return one(at(place.nearest())?);
        }
        if let ExprKind::Each(values) = &list.kind
            && let (Some(below), Some(above)) = (values.get(at(place.below)?), values.get(at(above)?))
            && let (Some((low, unit)), Some((high, other))) = (literal(below), literal(above))
            && unit == other
        {
            let first = quantity_in(below).map_or(below.span, |quantity| quantity.span);
            return Some(self.number(place.between(low, high), unit, first));
        }
        self.explicit.set(true);
        let both = (one(at(place.below)?), one(at(above)?));
        self.explicit.set(false);
        let (below, above) = (both.0?, both.1?);
        Some(format!("{} * ({below}) + {} * ({above})", 1.0 - place.share, place.share))
    }

    /// Whole plain numbers, which are counts.
    fn is_of_counts(&self, list: &Expr) -> bool {
        let is_count = |value: &Expr| {
            let Some((number, unit)) = literal(value) else { return false };
            let span = quantity_in(value).map_or(value.span, |quantity| quantity.span);
            match unit {
                None => number.fract() == 0.0 && !self.is_length(span),
                Some(Unit::Count | Unit::Number) => number.fract() == 0.0,
                Some(Unit::Percent) => number % 100.0 == 0.0,
                Some(_) => false,
            }
        };
        match &list.kind {
            ExprKind::Each(values) => values.iter().all(is_count),
            ExprKind::Grade(grade) => is_count(&grade.base) && grade.steps.iter().all(is_count),
            _ => false,
        }
    }
}
