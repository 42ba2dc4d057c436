//! Body measures, lets and measures, and values that are given size by size.

use super::Lowering;
use super::declare::poison;
use super::expression::{Place, Typed, Wanted, is_poison, known, poison_of};
use super::notes::Notes;
use super::papers::When;
use super::sought::Sought;
use crate::garment::order::order_by_need;
use crate::garment::{Dimension, Expression, Node, ValueId, ValueKind};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, Expr, ExprKind, Grade, LetValue, Relation, StatementNode};
use std::sync::Arc;

/// What a value is lowered from.
#[derive(Clone)]
enum Source {
    Row(Arc<tree::Statement>, usize),
    Let(Arc<tree::Statement>, Option<Arc<tree::Statement>>),
    Measure(Arc<tree::Statement>),
}

impl Source {
    /// The expressions that decide its dimension.
    fn expressions(&self) -> Vec<&Expr> {
        match self {
            Source::Row(statement, row) => match &statement.node {
                StatementNode::Body(body) => body.rows.get(*row).map(|row| &row.values).into_iter().collect(),
                _ => Vec::new(),
            },
            Source::Let(statement, over) => {
                let mut all = let_expressions(statement);
                if let Some(over) = over {
                    all.extend(let_expressions(over));
                }
                all
            }
            Source::Measure(statement) => match &statement.node {
                StatementNode::Measure(measure) => vec![&measure.value],
                _ => Vec::new(),
            },
        }
    }
}

fn let_expressions(statement: &tree::Statement) -> Vec<&Expr> {
    match &statement.node {
        StatementNode::Let(the_let) => match &the_let.value {
            LetValue::Is(expr) => vec![expr],
            LetValue::Solved { low, high, .. } => vec![low, high],
        },
        _ => Vec::new(),
    }
}

impl Lowering<'_> {
    pub(super) fn lower_values(&mut self) {
        let sources = self.value_sources();
        for value in self.values_in_order(&sources) {
            if let Some(source) = sources.get(value.index()).cloned().flatten() {
                self.lower_value(value, &source);
            }
        }
        // Conditions may name any value, their own among them; all dimensions are known now.
        for (at, source) in sources.iter().enumerate() {
            if let Some(Source::Let(statement, _)) = source {
                self.lower_condition(ValueId::from_index(at), statement);
            }
        }
    }

    fn value_sources(&self) -> Vec<Option<Source>> {
        let mut sources: Vec<Option<Source>> = vec![None; self.garment.values.len()];
        let mut put = |name: &tree::Name, source: Source| {
            if let Some(&value) = self.names.values.get(&name.text)
                && let Some(slot) = sources.get_mut(value.index())
                && slot.is_none()
            {
                *slot = Some(source);
            }
        };
        for declaration in &self.merged.declarations {
            let statement = &declaration.statement;
            match &statement.node {
                StatementNode::Body(body) => {
                    for (at, row) in body.rows.iter().enumerate() {
                        put(&row.name, Source::Row(statement.clone(), at));
                    }
                }
                StatementNode::Let(the_let) => {
                    put(&the_let.name, Source::Let(statement.clone(), declaration.set_over.clone()));
                }
                StatementNode::Measure(measure) => put(&measure.name, Source::Measure(statement.clone())),
                _ => {}
            }
        }
        sources
    }

    /// Every value after those that its dimension depends on. Circles are reported by the plan.
    fn values_in_order(&self, sources: &[Option<Source>]) -> Vec<ValueId> {
        let needs: Vec<Vec<usize>> = sources
            .iter()
            .map(|source| {
                let exprs = source.iter().flat_map(Source::expressions).flat_map(Expr::walk);
                exprs.filter_map(|expr| self.value_named(expr)).map(ValueId::index).collect()
            })
            .collect();
        order_by_need(&needs).order.into_iter().map(ValueId::from_index).collect()
    }

    fn value_named(&self, expr: &Expr) -> Option<ValueId> {
        match &expr.kind {
            ExprKind::Name(dotted) => match dotted.parts.as_slice() {
                [name] => self.names.values.get(&name.text).copied(),
                _ => None,
            },
            _ => None,
        }
    }

    fn lower_value(&mut self, value: ValueId, source: &Source) {
        if let Source::Let(statement, _) | Source::Measure(statement) = source
            && self.is_cut_short(statement.span)
        {
            self.poisoned_values.insert(value);
            return;
        }
        let (kind, dimension) = match source {
            Source::Row(statement, row) => {
                let StatementNode::Body(body) = &statement.node else { return };
                let Some(row) = body.rows.get(*row) else { return };
                if self.is_cut_short(row.span) {
                    self.poisoned_values.insert(value);
                    return;
                }
                self.check_row(row);
                let values = self.lower(&row.values, When::Fact, None, Wanted::LengthIfBare);
                let dimension = values.dimension;
                (ValueKind::Body(values), dimension)
            }
            Source::Let(statement, over) => {
                let StatementNode::Let(the_let) = &statement.node else { return };
                let wanted = self.dimension_kept(over.as_deref());
                match &the_let.value {
                    LetValue::Is(expr) => {
                        let is = self.lower(expr, When::Fact, None, wanted);
                        let dimension = is.dimension;
                        (ValueKind::Let(is), dimension)
                    }
                    LetValue::Solved { low, high, so_that } => {
                        let low = self.lower(low, When::Fact, None, Wanted::LengthIfBare);
                        let dimension = low.dimension;
                        let high = self.lower(high, When::Fact, None, wanted_for(dimension));
                        let (left, right) = (poison(so_that.left.span), poison(so_that.right.span));
                        (ValueKind::Solved { low, high, left, right, condition: so_that.span }, dimension)
                    }
                }
            }
            Source::Measure(statement) => {
                let StatementNode::Measure(measure) = &statement.node else { return };
                let is = self.lower(&measure.value, When::Fact, None, Wanted::LengthIfBare);
                let against = measure.against.as_ref().and_then(|against| self.find_value(against));
                let dimension = is.dimension;
                (ValueKind::Measure { value: is, against }, dimension)
            }
        };
        if dimension == Dimension::Point {
            let name = self.garment.value(value);
            let title = format!("{} is a point, and a value is a length or a number", name.name);
            let help = "say points inside a piece: point … = (…, …)";
            let diagnostic = Diagnostic::new(&catalogue::UNIT_MIXED, name.span, title).help(help);
            self.report(diagnostic);
        }
        let poisoned = match &kind {
            ValueKind::Body(value) | ValueKind::Let(value) | ValueKind::Measure { value, .. } => {
                is_poison(value)
            }
            ValueKind::Solved { low, high, .. } => is_poison(low) || is_poison(high),
        };
        if poisoned {
            self.poisoned_values.insert(value);
        }
        let slot = &mut self.garment.values[value.index()];
        (slot.kind, slot.dimension) = (kind, dimension);
    }

    /// What a `set` must keep: the dimension that the base's let had.
    fn dimension_kept(&self, over: Option<&tree::Statement>) -> Wanted {
        let Some(over) = over else { return Wanted::LengthIfBare };
        let Some(&expr) = let_expressions(over).first() else { return Wanted::LengthIfBare };
        let before = self.attempt(|reading| reading.lower(expr, When::Fact, None, Wanted::LengthIfBare));
        // What is wrong with a value that stands no more is not reported.
        if is_poison(&before.value) {
            before.forget();
            return Wanted::LengthIfBare;
        }
        wanted_for(before.keep(self).dimension)
    }

    fn lower_condition(&mut self, value: ValueId, statement: &tree::Statement) {
        let StatementNode::Let(the_let) = &statement.node else { return };
        let LetValue::Solved { so_that, .. } = &the_let.value else { return };
        if self.is_cut_short(statement.span) {
            return;
        }
        if so_that.relation != Relation::Equal {
            let title = format!(
                "`so that` looks for where two sides are equal, and this says {}",
                so_that.relation.word()
            );
            let help = "write = here; for a check, use require";
            self.report(
                Diagnostic::new(&catalogue::SOLVE_NONE, so_that.relation_span, title)
                    .label("not =")
                    .help(help),
            );
            return;
        }
        let sides = self.sides(so_that);
        let Some((one, other)) = sides else { return };
        if let ValueKind::Solved { left, right, .. } = &mut self.garment.values[value.index()].kind {
            (*left, *right) = (one, other);
        }
    }

    /// Both sides of a comparison, alike in dimension.
    pub(super) fn sides(&self, comparison: &tree::Comparison) -> Option<(Expression, Expression)> {
        let place = Place { when: When::Fact, piece: None };
        let left = self.typed(&comparison.left, place, false);
        let right = self.typed(&comparison.right, place, false);
        let (sides, _, _) = self.alike(vec![left, right], "compared")?;
        let mut sides = sides.into_iter();
        sides.next().zip(sides.next())
    }

    /// A row with one value for many sizes, which does not say that it is for every size.
    fn check_row(&self, row: &tree::BodyRow) {
        if self.sizes_are_damaged(row.span) {
            return;
        }
        if let ExprKind::Each(_) | ExprKind::Grade(_) | ExprKind::EverySize(_) = row.values.kind {
            return;
        }
        let sizes = self.sizes_at(row.span);
        if sizes.len() > 1 {
            let title = format!("{} has one value for {} sizes", row.name.text, sizes.len());
            let help = format!("write one value per size, or `{} … in every size`", row.name.text);
            let diagnostic = Diagnostic::new(&catalogue::TABLE_LENGTH, row.values.span, title)
                .label("one value")
                .help(help);
            let diagnostic = self.show_sizes(diagnostic, row.span);
            self.report(diagnostic);
        }
    }

    /// The sizes that a list in that place of the text is bound to.
    fn sizes_at(&self, span: Span) -> Vec<Arc<str>> {
        match self.bound_sizes(span) {
            Some(sizes) => sizes.iter().map(|size| size.text.clone()).collect(),
            None => self.garment.sizes.iter().map(|size| size.name.clone()).collect(),
        }
    }

    /// Whether the sizes that a list there is bound to could not be read whole: then no list is held
    /// against them.
    fn sizes_are_damaged(&self, span: Span) -> bool {
        let sizes = self.merged.sizes_in.get(&self.map.file_of(span));
        sizes.is_some_and(|statement| self.is_damaged(statement.span) || self.is_cut_short(statement.span))
    }

    fn bound_sizes(&self, span: Span) -> Option<&[tree::SizeName]> {
        match &self.merged.sizes_in.get(&self.map.file_of(span))?.node {
            StatementNode::Sizes(sizes) => Some(&sizes.names),
            _ => None,
        }
    }

    fn show_sizes(&self, diagnostic: Diagnostic, span: Span) -> Diagnostic {
        match self.bound_sizes(span) {
            Some([first, .., last]) => {
                let count = self.bound_sizes(span).map_or(0, <[_]>::len);
                diagnostic.also(first.span.to(last.span), format!("{count} sizes"))
            }
            _ => diagnostic,
        }
    }

    /// `each 8, 8, 8.5`
    pub(super) fn each(&self, values: &[Expr], span: Span, place: Place) -> Typed {
        let sizes = self.sizes_at(span);
        if self.sizes_are_damaged(span) {
            return known(poison(span));
        }
        if values.len() != sizes.len() {
            let (found, needed) = (values.len(), sizes.len());
            let plural = |count: usize| if count == 1 { "" } else { "s" };
            let title = format!("{found} value{} for {needed} size{}", plural(found), plural(needed));
            let help = match found < needed {
                true => format!("the sizes are {}: {} more needed", sizes.join(", "), needed - found),
                false => format!("the sizes are {}: {} too many", sizes.join(", "), found - needed),
            };
            let label = format!("{found} value{}", plural(found));
            let diagnostic = Diagnostic::new(&catalogue::TABLE_LENGTH, span, title).label(label).help(help);
            let diagnostic = self.show_sizes(diagnostic, span);
            self.report(diagnostic);
            return known(poison(span));
        }
        let mut typed = Vec::with_capacity(values.len());
        for value in values {
            typed.push(self.typed(value, place, false));
        }
        let Some((values, dimension, bare)) = self.alike(typed, "put in one list") else {
            return known(poison(span));
        };
        match self.by_size(&sizes, values, span) {
            Some(values) => {
                Typed { expression: Expression { node: Node::EachSize(values), dimension, span }, bare }
            }
            None => known(poison_of(dimension, span)),
        }
    }

    /// One value for each of the garment's sizes, out of those bound to the names of a list.
    fn by_size(&self, names: &[Arc<str>], values: Vec<Expression>, span: Span) -> Option<Vec<Expression>> {
        let mut by_size = Vec::with_capacity(self.garment.sizes.len());
        for size in &self.garment.sizes {
            let Some(value) = names.iter().position(|name| *name == size.name).and_then(|at| values.get(at))
            else {
                let missed = &mut self.notes.borrow_mut().sizes_missed;
                missed.entry(size.name.clone()).or_default().insert(span);
                return None;
            };
            by_size.push(value.clone());
        }
        Some(by_size)
    }

    /// A new size lacks its value in every list of the base: that is one message a size.
    pub(super) fn report_sizes_missed(&self, notes: &mut Notes) {
        const SHOWN: usize = 5;
        for (size, lists) in std::mem::take(&mut notes.sizes_missed) {
            let (Some(first), Some(named)) =
                (lists.first(), self.garment.sizes.iter().find(|one| one.name == size))
            else {
                continue;
            };
            let title = match lists.len() {
                1 => format!("there is no value for the size {size}"),
                count => format!("there is no value for the size {size} in {count} lists"),
            };
            let mut diagnostic = Diagnostic::new(&catalogue::TABLE_LENGTH, *first, title)
                .label(format!("nothing for {size}"))
                .also(named.span, "a size of this garment");
            for list in lists.iter().skip(1).take(SHOWN - 1) {
                diagnostic = diagnostic.also(*list, format!("nor here for {size}"));
            }
            let rest = match lists.len() > SHOWN {
                true => format!(" (the first {SHOWN} are shown)"),
                false => String::new(),
            };
            let diagnostic = diagnostic.help(format!(
                "a new size restates every list: write them again with a value for {size}{rest}, or leave the size out"
            ));
            notes.diagnostics.push(diagnostic);
        }
    }

    /// `40 grade +0.6` and its kin.
    pub(super) fn graded(&self, grade: &Grade, span: Span, place: Place) -> Typed {
        let sizes = self.sizes_at(span);
        if self.sizes_are_damaged(span) {
            return known(poison(span));
        }
        let steps_needed = sizes.len().saturating_sub(1);
        if grade.steps.len() != 1 && grade.steps.len() != steps_needed {
            let title = format!("{} steps between {} sizes", grade.steps.len(), sizes.len());
            let help = format!("one step for all, or {steps_needed}: one between each size and the next");
            let diagnostic = Diagnostic::new(&catalogue::TABLE_LENGTH, span, title).help(help);
            let diagnostic = self.show_sizes(diagnostic, span);
            self.report(diagnostic);
            return known(poison(span));
        }
        let base_at = match &grade.at {
            None => 0,
            Some(at) => match sizes.iter().position(|size| *size == at.text) {
                Some(base_at) => base_at,
                None => {
                    self.unknown(Sought::Size, &at.text, at.span, &sizes);
                    return known(poison(span));
                }
            },
        };
        let mut typed = vec![self.typed(&grade.base, place, false)];
        for step in &grade.steps {
            typed.push(self.typed(step, place, false));
        }
        let Some((values, dimension, bare)) = self.alike(typed, "graded together") else {
            return known(poison(span));
        };
        let Some((base, steps)) = values.split_first() else { return known(poison(span)) };
        let values: Vec<Expression> =
            (0..sizes.len()).map(|size| graded_value(base, steps, base_at, size, dimension, span)).collect();
        match self.by_size(&sizes, values, span) {
            Some(values) => {
                Typed { expression: Expression { node: Node::EachSize(values), dimension, span }, bare }
            }
            None => known(poison_of(dimension, span)),
        }
    }
}

/// The base with the steps between its size and another; downwards they are taken away.
fn graded_value(
    base: &Expression,
    steps: &[Expression],
    base_at: usize,
    size: usize,
    dimension: Dimension,
    span: Span,
) -> Expression {
    let upwards = size >= base_at;
    let (from, to) = if upwards { (base_at, size) } else { (size, base_at) };
    let step = |at: usize| if steps.len() == 1 { &steps[0] } else { &steps[at] };
    if let Node::Constant(value) = base.node
        && steps.iter().all(|step| matches!(step.node, Node::Constant(_)))
    {
        let number = |at: usize| match step(at).node {
            Node::Constant(step) => step,
            _ => 0.0,
        };
        let way =
            if steps.len() == 1 { number(0) * (to - from) as f64 } else { (from..to).map(number).sum() };
        let node = Node::Constant(if upwards { value + way } else { value - way });
        return Expression { node, dimension, span };
    }
    let mut terms = vec![(true, base.clone())];
    terms.extend((from..to).map(|at| (upwards, step(at).clone())));
    Expression { node: Node::Sum(terms), dimension, span }
}

pub(super) fn wanted_for(dimension: Dimension) -> Wanted {
    match dimension {
        Dimension::Length => Wanted::Length,
        Dimension::Number => Wanted::Number,
        Dimension::Angle => Wanted::Angle,
        Dimension::Point => Wanted::Point,
        Dimension::Area => Wanted::Any,
    }
}
