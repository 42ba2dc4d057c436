use super::{Builder, Kids};
use crate::source::Span;
use crate::syntax::grammar::Rule;
use crate::syntax::scan::is_vulgar;
use crate::syntax::slips;
use crate::syntax::tree::{Expr, ExprKind, Quantity, Unit, UnitWord};
use pest::iterators::Pair;

impl Builder<'_> {
    /// A number with its unit, or a slip that stands for one.
    pub(in crate::syntax) fn quantity(&mut self, pair: Pair<Rule>) -> Option<Expr> {
        let span = self.span(&pair);
        let rule = pair.as_rule();
        let mut kids = Kids::of(pair);
        if rule == Rule::counted {
            let unit = self.counted_unit(kids.next()?);
            let digits = kids.next()?;
            return Some(self.made(number(digits.as_str()), Some(unit), span));
        }
        let digits = kids.next()?;
        let written = digits.as_str();
        let mut unit = None;
        if let Some(next) = kids.next()
            && next.as_rule() != Rule::touching_text
        {
            unit = Some(self.unit(next));
        }
        let number = match rule {
            Rule::slip_hyphen => {
                let mixed = written.replacen('-', " ", 1);
                self.mistakes.push(slips::hyphen(span, self.source(span)));
                number(&mixed)
            }
            Rule::slip_point => {
                self.mistakes.push(slips::lost_zero(span, self.source(span)));
                number(&format!("0{written}"))
            }
            Rule::slip_comma => {
                self.mistakes.push(slips::comma(span, self.source(span)));
                let parts = written.split(',').map(number).collect();
                self.commas.push((span, parts));
                number(&written.replacen(',', ".", 1).replace(',', ""))
            }
            Rule::slip_apart => {
                self.mistakes.push(slips::unit_apart(span, self.source(span)));
                number(written)
            }
            Rule::slip_text => {
                self.mistakes.push(slips::touching_text(span, self.source(span), written));
                number(written)
            }
            _ => number(written),
        };
        if !number.is_finite() {
            self.mistakes.push(slips::no_number(span, self.source(span)));
        }
        Some(self.made(number, unit, span))
    }

    fn made(&self, number: f64, unit: Option<UnitWord>, span: Span) -> Expr {
        Expr { span, kind: ExprKind::Quantity(Quantity { number, unit, span }) }
    }

    /// A unit as written.
    pub(super) fn unit(&self, pair: Pair<Rule>) -> UnitWord {
        let unit = match pair.as_str() {
            "mm" => Unit::Millimetre,
            "cm" => Unit::Centimetre,
            "m" => Unit::Metre,
            "ft" => Unit::Foot,
            "yd" => Unit::Yard,
            "deg" | "°" => Unit::Degree,
            "%" => Unit::Percent,
            _ => Unit::Inch,
        };
        UnitWord { unit, span: self.span(&pair) }
    }

    fn counted_unit(&self, pair: Pair<Rule>) -> UnitWord {
        let unit = if pair.as_rule() == Rule::k_count { Unit::Count } else { Unit::Number };
        UnitWord { unit, span: self.span(&pair) }
    }

    /// Where a list of values holds `80,88`, takes it as two values.
    pub(super) fn split_commas(&mut self, values: Vec<Expr>) -> Vec<Expr> {
        if self.commas.is_empty() {
            return values;
        }
        let mut all = Vec::with_capacity(values.len() + 1);
        for value in values {
            let found = self.commas.iter().find(|(span, _)| *span == value.span);
            match (&value.kind, found) {
                (ExprKind::Quantity(quantity), Some((span, parts))) => {
                    all.extend(parts.iter().map(|&part| self.made(part, quantity.unit, *span)));
                }
                _ => all.push(value),
            }
        }
        self.commas.clear();
        all
    }
}

impl Builder<'_> {
    /// What stands alone in brackets and ends in `9,64`, as a place: there are two numbers in those brackets, so that
    /// nothing can be read two ways. Nothing but that comma was told since there were so many mistakes.
    pub(super) fn as_point(&mut self, written: &Expr, mistakes: usize) -> Option<(Expr, Expr)> {
        let (span, parts) = self.commas.last()?;
        let (&[across, up], span) = (parts.as_slice(), *span) else { return None };
        let across =
            self.made(across, None, Span::new(span.lo, span.lo + self.source(span).find(',')? as u32));
        let up = self.made(up, None, Span::new(across.span.hi + 1, span.hi));
        if self.mistakes.len() != mistakes + 1 {
            return None;
        }
        let first = ending_in(written, span, &across)?;
        self.mistakes.pop();
        self.commas.pop();
        Some((first, up))
    }
}

/// An expression with its last number, which stands there, in that one's place.
fn ending_in(whole: &Expr, at: Span, last: &Expr) -> Option<Expr> {
    let kind = match &whole.kind {
        ExprKind::Quantity(quantity) if quantity.span == at && quantity.unit.is_none() => last.kind.clone(),
        ExprKind::Negative(inner) => ExprKind::Negative(Box::new(ending_in(inner, at, last)?)),
        ExprKind::Sum(terms) => {
            let mut terms = terms.clone();
            let (_, term) = terms.last_mut()?;
            *term = ending_in(term, at, last)?;
            ExprKind::Sum(terms)
        }
        ExprKind::Product(factors) => {
            let mut factors = factors.clone();
            let (_, factor) = factors.last_mut()?;
            *factor = ending_in(factor, at, last)?;
            ExprKind::Product(factors)
        }
        _ => return None,
    };
    Some(Expr { span: Span::new(whole.span.lo, last.span.hi), kind })
}

/// The value of a number as written: whole, decimal, a fraction or a mixed number. What has no
/// finite value (a fraction over nothing, more digits than a number can hold) is not finite.
pub(super) fn number(written: &str) -> f64 {
    let Some(last) = written.chars().next_back() else { return f64::NAN };
    if is_vulgar(last) {
        let whole = written.trim_end_matches(last).trim();
        let whole = if whole.is_empty() { 0.0 } else { whole.parse().unwrap_or(f64::NAN) };
        return whole + vulgar(last);
    }
    let Some((top, below)) = written.split_once('/') else { return written.parse().unwrap_or(f64::NAN) };
    let (whole, top) = match top.trim_end().rsplit_once([' ', '\t', '\u{a0}', '\u{2009}', '\u{202f}']) {
        Some((whole, top)) => (whole.trim().parse().unwrap_or(f64::NAN), top),
        None => (0.0, top.trim_end()),
    };
    let (top, below): (f64, f64) = (top.parse().unwrap_or(f64::NAN), below.parse().unwrap_or(f64::NAN));
    whole + top / below
}

/// The fractions that are one character: The Unicode Standard, Latin-1 Supplement and Number Forms.
fn vulgar(character: char) -> f64 {
    match character {
        '\u{bc}' => 0.25,
        '\u{bd}' => 0.5,
        '\u{be}' => 0.75,
        '\u{2150}' => 1.0 / 7.0,
        '\u{2151}' => 1.0 / 9.0,
        '\u{2152}' => 0.1,
        '\u{2153}' => 1.0 / 3.0,
        '\u{2154}' => 2.0 / 3.0,
        '\u{2155}' => 0.2,
        '\u{2156}' => 0.4,
        '\u{2157}' => 0.6,
        '\u{2158}' => 0.8,
        '\u{2159}' => 1.0 / 6.0,
        '\u{215a}' => 5.0 / 6.0,
        '\u{215b}' => 0.125,
        '\u{215c}' => 0.375,
        '\u{215d}' => 0.625,
        '\u{215e}' => 0.875,
        _ => f64::NAN,
    }
}
