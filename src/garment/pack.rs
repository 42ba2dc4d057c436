//! A variation and its bases as one self-contained text.

mod fitted;

use super::merge::{Declaration, Merged};
use super::short;
use super::{Dimension, Garment};
use crate::source::{SourceMap, Span};
use crate::syntax::tidy::{AsWritten, Plain, Spelling, print, quoted};
use crate::syntax::tree::{
    self, Expr, ExprKind, Grade, LetValue, Price, Quantity, SizeName, Statement, StatementNode, Text, Unit,
    UnitWord,
};
use fitted::Fitted;
use std::cell::Cell;
use std::sync::Arc;

/// The merged chain as the text of one `garment` file, which merges to the same declarations.
///
/// Numbers without a unit from files that are written in another one get theirs; lists are cut down
/// to the sizes that are left; a `let` that was `set` keeps the dimension it had. What a library
/// offers and the garment does not cut from stays out. Notes stay behind.
///
/// `garment` is what the chain was lowered to, without mistakes.
pub fn pack(map: &SourceMap, merged: &Merged, garment: &Garment) -> String {
    let unit = merged.first.and_then(|first| merged.units.get(&first)).copied().unwrap_or(Unit::Centimetre);
    let mut lengths = garment.bare_lengths.clone();
    lengths.sort_unstable();
    lengths.dedup();
    let sizes: Vec<Arc<str>> = garment.sizes.iter().map(|size| size.name.clone()).collect();
    let fitted = garment.fitting.as_ref().map(|fitting| Fitted { fitting, garment });
    let mut packing = Packing {
        map,
        merged,
        unit,
        lengths,
        numbers: Vec::new(),
        sizes,
        fitted,
        explicit: Cell::new(false),
    };
    let heading = format!("garment {}\n", quoted(&merged.title));
    let nowhere = Span::default();
    let units = StatementNode::Units(UnitWord { unit, span: nowhere });
    let mut statements = vec![Statement { span: nowhere, node: units }];
    statements.extend(packing.fitted.as_ref().map(Fitted::sizes));
    // What a band that is said anew has no seam for any more has left the steps.
    let written_out = short::written_out(map, merged);
    let steps_of = |declaration: &Declaration| {
        let mut all = written_out.iter().flat_map(|out| &out.merged.declarations);
        let is_it = |one: &&Declaration| one.statement.span == declaration.statement.span;
        all.find(is_it).map(|one| Statement::clone(&one.statement))
    };
    for declaration in &merged.declarations {
        let is_size = matches!(declaration.statement.node, StatementNode::Sizes(_));
        if is_left_out(declaration, merged) || is_size && packing.fitted.is_some() {
            continue;
        }
        let mut statement = Statement::clone(&declaration.statement);
        if let StatementNode::Steps(_) = &statement.node {
            statement = steps_of(declaration).unwrap_or(statement);
        }
        if declaration.set_over.is_some() {
            packing.keep_dimension(&statement, garment);
        }
        if let StatementNode::Body(body) = &mut statement.node {
            match &packing.fitted {
                Some(fitted) => fitted.measure(body),
                None => packing.say_every_size(body),
            }
        }
        statements.push(statement);
    }
    packing.numbers.sort_unstable();
    heading + &print(&statements, &packing)
}

/// Cloth on a library's shelf that no layer is cut from.
fn is_left_out(declaration: &Declaration, merged: &Merged) -> bool {
    let StatementNode::Fabric(fabric) = &declaration.statement.node else { return false };
    let cuts = |one: &Declaration| match &one.statement.node {
        StatementNode::Layer(layer) => layer.fabric.text == fabric.name.text,
        _ => false,
    };
    declaration.from_library && !merged.declarations.iter().any(cuts)
}

struct Packing<'a> {
    map: &'a SourceMap,
    merged: &'a Merged,
    /// The unit of the one file.
    unit: Unit,
    /// Where numbers without a unit are lengths; none over another.
    lengths: Vec<Span>,
    /// Where numbers without a unit must be said to be plain numbers.
    numbers: Vec<Span>,
    /// The sizes that are left.
    sizes: Vec<Arc<str>>,
    /// The one wearer that it is made for.
    fitted: Option<Fitted<'a>>,
    /// Lengths get their unit, whatever it is.
    explicit: Cell<bool>,
}

impl Packing<'_> {
    /// A `set` let that is a plain number, though a bare literal in a `let` is a length.
    fn keep_dimension(&mut self, statement: &Statement, garment: &Garment) {
        let StatementNode::Let(the_let) = &statement.node else { return };
        let value = garment.values.iter().find(|value| value.name == the_let.name.text);
        if value.is_none_or(|value| value.dimension != Dimension::Number) {
            return;
        }
        if let LetValue::Is(expr) = &the_let.value {
            self.say_number(expr);
        }
    }

    /// Products are plain numbers anyway, and a divisor takes no `number` before it; what points
    /// and names are is not changed by it.
    fn say_number(&mut self, expr: &Expr) {
        let enter = |expr: &Expr| !matches!(expr.kind, ExprKind::Product(_) | ExprKind::Point(_));
        self.numbers.extend(expr.walk_where(enter).filter_map(|expr| match &expr.kind {
            ExprKind::Quantity(quantity) if quantity.unit.is_none() => Some(quantity.span),
            _ => None,
        }));
    }

    /// One value, where its own file had one size and the garment has more.
    fn say_every_size(&self, body: &mut tree::Body) {
        for row in body.rows.iter_mut().filter(|_| self.sizes.len() > 1) {
            if let ExprKind::Quantity(_) = row.values.kind {
                let values = row.values.clone();
                row.values = Expr { span: values.span, kind: ExprKind::EverySize(Box::new(values)) };
            }
        }
    }

    fn unit_at(&self, span: Span) -> Unit {
        self.merged.units.get(&self.map.file_of(span)).copied().unwrap_or(Unit::Centimetre)
    }

    /// Whether the number there, or the graded value around it, is a bare length.
    fn is_length(&self, span: Span) -> bool {
        let after = self.lengths.partition_point(|one| one.lo <= span.lo);
        after.checked_sub(1).and_then(|at| self.lengths.get(at)).is_some_and(|one| span.hi <= one.hi)
    }

    /// Of each size that is left the place in the lists written there; none where they are the same.
    fn kept_at(&self, span: Span) -> Option<Vec<usize>> {
        let StatementNode::Sizes(own) = &self.merged.sizes_in.get(&self.map.file_of(span))?.node else {
            return None;
        };
        if own.names.iter().map(|name| &name.text).eq(self.sizes.iter()) {
            return None;
        }
        self.sizes.iter().map(|size| own.names.iter().position(|name| name.text == *size)).collect()
    }

    fn bare(&self, text: String, span: Span) -> String {
        match self.unit_at(span) {
            _ if self.numbers.binary_search(&span).is_ok() => format!("number {text}"),
            own if (own != self.unit || self.explicit.get()) && self.is_length(span) => {
                format!("{text}{}", own.word())
            }
            _ => text,
        }
    }

    /// A number that was reckoned from literals of that unit, the first of which stands there.
    fn number(&self, value: f64, unit: Option<Unit>, first: Span) -> String {
        // Far finer than any output; it only takes away what binary fractions leave behind.
        let text = ((value * 1e9).round() / 1e9).to_string();
        match unit {
            None => self.bare(text, first),
            Some(unit @ (Unit::Count | Unit::Number)) => format!("{} {text}", unit.word()),
            Some(unit) => format!("{text}{}", unit.word()),
        }
    }

    /// A size's value of a graded row, whose first size is at `base_at`: its number where all are
    /// literals of one unit, else a sum.
    fn graded_value(&self, grade: &Grade, base_at: usize, size: usize, sizes: usize) -> String {
        let (from, to) = if size >= base_at { (base_at, size) } else { (size, base_at) };
        let one_step = grade.steps.len() == 1;
        let step = |at: usize| grade.steps.get(if one_step { 0 } else { at.min(sizes) });
        if let Some((base, unit)) = literal(&grade.base)
            && grade.steps.iter().all(|step| literal(step).is_some_and(|(_, own)| own == unit))
        {
            let number = |at: usize| step(at).and_then(literal).map_or(0.0, |(number, _)| number);
            let way =
                if one_step { number(0) * (to - from) as f64 } else { (from..to).map(number).sum::<f64>() };
            let value = if size >= base_at { base + way } else { base - way };
            let first = quantity_in(&grade.base).map_or(grade.base.span, |quantity| quantity.span);
            return self.number(value, unit, first);
        }
        let sign = if size >= base_at { "+" } else { "-" };
        let mut text = self.written(&grade.base);
        for step in (from..to).filter_map(step) {
            text = format!("{text} {sign} {}", self.written(step));
        }
        text
    }

    /// An expression as the one file has it.
    fn written(&self, expr: &Expr) -> String {
        crate::syntax::tidy::expression(expr, self)
    }
}

/// The number and the unit of a literal, `-5` among them.
fn literal(expr: &Expr) -> Option<(f64, Option<Unit>)> {
    let unit = |quantity: &Quantity| quantity.unit.map(|word| word.unit);
    match &expr.kind {
        ExprKind::Quantity(quantity) => Some((quantity.number, unit(quantity))),
        ExprKind::Negative(inner) => match &inner.kind {
            ExprKind::Quantity(quantity) => Some((-quantity.number, unit(quantity))),
            _ => None,
        },
        _ => None,
    }
}

fn quantity_in(expr: &Expr) -> Option<&Quantity> {
    match &expr.kind {
        ExprKind::Quantity(quantity) => Some(quantity),
        ExprKind::Negative(inner) => match &inner.kind {
            ExprKind::Quantity(quantity) => Some(quantity),
            _ => None,
        },
        _ => None,
    }
}

impl Spelling for Packing<'_> {
    fn quantity(&self, quantity: &Quantity) -> String {
        if quantity.span == Span::default() {
            return Plain.quantity(quantity);
        }
        let text = AsWritten { map: self.map }.quantity(quantity);
        match quantity.unit {
            None => self.bare(text, quantity.span),
            Some(_) => text,
        }
    }

    fn text(&self, text: &Text) -> String {
        AsWritten { map: self.map }.text(text)
    }

    fn price(&self, price: &Price) -> String {
        AsWritten { map: self.map }.price(price)
    }

    fn size(&self, size: &SizeName) -> String {
        match size.span == Span::default() {
            true => Plain.size(size),
            false => AsWritten { map: self.map }.size(size),
        }
    }

    fn single(&self, list: &Expr) -> Option<String> {
        self.for_wearer(list)
    }

    fn kept(&self, list: Span, _values: &[Expr]) -> Option<Vec<usize>> {
        self.kept_at(list)
    }

    fn graded(&self, span: Span, grade: &Grade) -> Option<Vec<String>> {
        let kept = self.kept_at(span)?;
        let StatementNode::Sizes(own) = &self.merged.sizes_in.get(&self.map.file_of(span))?.node else {
            return None;
        };
        let base_at = match &grade.at {
            None => 0,
            Some(at) => own.names.iter().position(|name| name.text == at.text)?,
        };
        let value = |&size: &usize| self.graded_value(grade, base_at, size, own.names.len());
        Some(kept.iter().map(value).collect())
    }
}
