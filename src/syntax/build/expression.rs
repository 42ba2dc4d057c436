use super::{Builder, Kids};
use crate::source::Span;
use crate::syntax::grammar::Rule;
use crate::syntax::slips;
use crate::syntax::tree::{
    Call, Comparison, Dotted, Expr, ExprKind, Grade, Quantity, Relation, Scaling, Sign,
};
use crate::syntax::words::FUNCTIONS;
use pest::iterators::Pair;

impl Builder<'_> {
    /// A `value` or `gvalue`: an expression, or a value for each size.
    pub(super) fn value(&mut self, pair: Pair<Rule>) -> Option<Expr> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        match kids.rule()? {
            Rule::each | Rule::each_in => {
                let values = Kids::of(kids.next()?).filter(|kid| kid.as_rule() != Rule::k_each);
                let values = values.map(|kid| self.sum(kid)).collect::<Option<Vec<_>>>()?;
                Some(Expr { span, kind: ExprKind::Each(self.split_commas(values)) })
            }
            Rule::slip_step => {
                let mut parts = Kids::of(kids.next()?);
                let base = parts.next()?;
                let base = self.quantity(base)?;
                let steps = parts.map(|step| self.step(step)).collect::<Option<Vec<_>>>()?;
                Some(self.lost_grade(base, steps, span))
            }
            _ => {
                let base = kids.next()?;
                let base = self.sum(base)?;
                self.over_sizes(base, &mut kids, span)
            }
        }
    }

    /// What may follow a base: `grade +1`, `at M grade +1`, `in every size`.
    pub(super) fn over_sizes(&mut self, base: Expr, kids: &mut Kids, span: Span) -> Option<Expr> {
        if kids.has(Rule::everysize) {
            return Some(Expr { span, kind: ExprKind::EverySize(Box::new(base)) });
        }
        match kids.only(Rule::graded) {
            Some(graded) => self.graded(base, graded, span),
            None => Some(base),
        }
    }

    fn graded(&mut self, base: Expr, graded: Pair<Rule>, span: Span) -> Option<Expr> {
        let mut kids = Kids::of(graded);
        let at = match kids.has(Rule::k_at) {
            true => kids.next().map(|size| self.size_name(size)),
            false => None,
        };
        kids.has(Rule::k_grade);
        let steps = kids.map(|step| self.step(step)).collect::<Option<Vec<_>>>()?;
        Some(Expr { span, kind: ExprKind::Grade(Box::new(Grade { base, at, steps })) })
    }

    /// What may follow the base of a row of the size table.
    pub(super) fn graded_row(&mut self, base: Expr, tail: Pair<Rule>, span: Span) -> Option<Expr> {
        match tail.as_rule() {
            Rule::everysize => Some(Expr { span, kind: ExprKind::EverySize(Box::new(base)) }),
            _ => self.graded(base, tail, span),
        }
    }

    /// `40 +0.6`, taken as `40 grade +0.6`.
    pub(super) fn lost_grade(&mut self, base: Expr, steps: Vec<Expr>, span: Span) -> Expr {
        self.mistakes.push(slips::lost_grade(span, self.source(base.span), self.source_of(&steps)));
        Expr { span, kind: ExprKind::Grade(Box::new(Grade { base, at: None, steps })) }
    }

    /// `+0.6` of a grade.
    pub(super) fn step(&mut self, pair: Pair<Rule>) -> Option<Expr> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let minus = kids.only(Rule::sign).is_some_and(|sign| sign.as_str() == "-");
        let quantity = kids.next()?;
        if quantity.as_rule() == Rule::zero {
            let quantity = Quantity { number: 0.0, unit: None, span };
            return Some(Expr { span, kind: ExprKind::Quantity(quantity) });
        }
        let amount = self.quantity(quantity)?;
        Some(match minus {
            true => Expr { span, kind: ExprKind::Negative(Box::new(amount)) },
            false => Expr { span, ..amount },
        })
    }

    /// An `expr` or `gexpr`: operands and operators in a row, put together by precedence.
    pub(super) fn sum(&mut self, pair: Pair<Rule>) -> Option<Expr> {
        let mut row = Row::default();
        for kid in Kids::of(pair) {
            match kid.as_rule() {
                Rule::addop => row.end_term(if kid.as_str() == "-" { Sign::Minus } else { Sign::Plus }),
                Rule::times => row.scaling = Scaling::Times,
                Rule::over => row.scaling = Scaling::Over,
                Rule::sign => row.negative = Some((kid.as_str() == "-", self.span(&kid).lo)),
                Rule::lost => match row.function_before() {
                    Some(function) => row.lost_call = Some(function),
                    None => {
                        let at = self.span(&kid).lo;
                        let before = row.last_span().map_or("", |span| self.source(span));
                        self.mistakes.push(slips::lost_plus(Span::new(at, at + 1), before));
                        row.end_term(Sign::Plus);
                    }
                },
                _ => {
                    let operand = self.operand(kid)?;
                    match row.lost_call.take() {
                        Some(function) => {
                            self.mistakes.push(slips::call_apart(function.span, self.source(function.span)));
                            row.call(function, operand);
                        }
                        None => row.operand(operand),
                    }
                }
            }
        }
        row.finish()
    }

    fn operand(&mut self, pair: Pair<Rule>) -> Option<Expr> {
        let span = self.span(&pair);
        match pair.as_rule() {
            Rule::qname => Some(Expr { span, kind: ExprKind::Name(self.dotted(pair)) }),
            Rule::call => {
                let mut kids = Kids::of(pair);
                let function = kids.next()?;
                let function = self.name(function);
                let arguments = kids.map(|kid| self.sum(kid)).collect::<Option<Vec<_>>>()?;
                let arguments = self.split_commas(arguments);
                Some(Expr { span, kind: ExprKind::Call(Call { function, arguments }) })
            }
            Rule::group => {
                let mut kids = Kids::of(pair);
                let first = kids.next()?;
                let slips = self.mistakes.len();
                let first = self.value(first)?;
                if let Some(second) = kids.next() {
                    let second = self.sum(second)?;
                    return Some(Expr { span, kind: ExprKind::Point(Box::new((first, second))) });
                }
                if let Some(point) = self.as_point(&first, slips) {
                    return Some(Expr { span, kind: ExprKind::Point(Box::new(point)) });
                }
                let mut parts = self.split_commas(vec![first]);
                match (parts.pop(), parts.pop()) {
                    (Some(second), Some(first)) => {
                        Some(Expr { span, kind: ExprKind::Point(Box::new((first, second))) })
                    }
                    (Some(only), None) => Some(Expr { span, kind: ExprKind::Group(Box::new(only)) }),
                    _ => None,
                }
            }
            _ => self.quantity(pair),
        }
    }

    /// `a >= b`
    pub(super) fn comparison(&mut self, pair: Pair<Rule>) -> Option<Comparison> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let left = kids.next()?;
        let left = self.sum(left)?;
        let sign = kids.only(Rule::relation)?;
        let relation = match sign.as_str() {
            "=" => Relation::Equal,
            "!=" => Relation::Unequal,
            "<" => Relation::Less,
            "<=" => Relation::LessOrEqual,
            ">" => Relation::Greater,
            _ => Relation::GreaterOrEqual,
        };
        let relation_span = self.span(&sign);
        let right = kids.next()?;
        let right = self.value(right)?;
        Some(Comparison { left, relation, relation_span, right, span })
    }

    /// The text that a span covers.
    pub(super) fn source(&self, span: Span) -> &str {
        let (lo, hi) = (span.lo - self.base, span.hi - self.base);
        self.text.get(lo as usize..hi as usize).unwrap_or("")
    }

    fn source_of(&self, all: &[Expr]) -> &str {
        match (all.first(), all.last()) {
            (Some(first), Some(last)) => self.source(first.span.to(last.span)),
            _ => "",
        }
    }
}

/// Operands and operators read so far.
struct Row {
    terms: Vec<(Sign, Expr)>,
    factors: Vec<(Scaling, Expr)>,
    /// Sign of the term being read.
    sign: Sign,
    /// How the next operand joins the term.
    scaling: Scaling,
    /// A sign of the next operand: whether it is a minus, and where it stands.
    negative: Option<(bool, u32)>,
    /// A function whose bracket does not touch it.
    lost_call: Option<Dotted>,
}

impl Default for Row {
    fn default() -> Self {
        Row {
            terms: Vec::new(),
            factors: Vec::new(),
            sign: Sign::Plus,
            scaling: Scaling::Times,
            negative: None,
            lost_call: None,
        }
    }
}

impl Row {
    fn operand(&mut self, mut operand: Expr) {
        if let Some((minus, at)) = self.negative.take() {
            let span = Span::new(at, operand.span.hi);
            operand = match minus {
                true => Expr { span, kind: ExprKind::Negative(Box::new(operand)) },
                false => Expr { span, ..operand },
            };
        }
        self.factors.push((self.scaling, operand));
        self.scaling = Scaling::Times;
    }

    fn end_term(&mut self, next: Sign) {
        if let Some(term) = joined(std::mem::take(&mut self.factors), ExprKind::Product) {
            self.terms.push((self.sign, term));
        }
        self.sign = next;
        self.scaling = Scaling::Times;
    }

    fn finish(mut self) -> Option<Expr> {
        self.end_term(Sign::Plus);
        joined(self.terms, ExprKind::Sum)
    }

    fn last_span(&self) -> Option<Span> {
        self.factors.last().map(|(_, factor)| factor.span)
    }

    /// The operand before, if it is the name of a function.
    fn function_before(&mut self) -> Option<Dotted> {
        match self.factors.last() {
            Some((_, Expr { kind: ExprKind::Name(dotted), .. })) => match dotted.parts.as_slice() {
                [name] if FUNCTIONS.contains(&&*name.text) => Some(dotted.clone()),
                _ => None,
            },
            _ => None,
        }
    }

    /// Puts `length (e)` in the place of the bare `length`.
    fn call(&mut self, function: Dotted, brackets: Expr) {
        let span = function.span.to(brackets.span);
        let arguments = match brackets.kind {
            ExprKind::Group(only) => vec![*only],
            ExprKind::Point(both) => vec![both.0, both.1],
            _ => Vec::new(),
        };
        if let (Some((_, factor)), Some(function)) =
            (self.factors.last_mut(), function.parts.into_iter().next())
        {
            *factor = Expr { span, kind: ExprKind::Call(Call { function, arguments }) };
        }
    }
}

/// One part as it is, more of them as a sum or product.
fn joined<T: Copy>(mut parts: Vec<(T, Expr)>, kind: fn(Vec<(T, Expr)>) -> ExprKind) -> Option<Expr> {
    if parts.len() <= 1 {
        return parts.pop().map(|(_, part)| part);
    }
    let span = parts.first()?.1.span.to(parts.last()?.1.span);
    Some(Expr { span, kind: kind(parts) })
}
