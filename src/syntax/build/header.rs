use super::{Builder, Context, Kids};
use crate::source::Span;
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{
    Body, BodyRow, Credit, Expr, ExprKind, Let, LetValue, Level, Measure, NamedFile, Pick, Pin, Require,
    Sizes, Text, VariationOf, Wearer, Who,
};
use pest::iterators::Pair;
use std::sync::Arc;

impl Builder<'_> {
    /// The text of `garment "…"` and its kin.
    pub(super) fn only_text(&mut self, pair: Pair<Rule>) -> Option<Text> {
        let text = Kids::of(pair).nth(1)?;
        Some(self.text(text))
    }

    /// `maker "…"`, `edition 3`, `licence "…"`, `level easy`
    pub(super) fn credit(&mut self, pair: Pair<Rule>) -> Option<Credit> {
        let mut kids = Kids::of(pair);
        let (word, said) = (kids.next()?, kids.next()?);
        Some(match word.as_rule() {
            Rule::k_maker => Credit::Maker(self.text(said)),
            Rule::k_licence => Credit::Licence(self.text(said)),
            Rule::k_edition => Credit::Edition(said.as_str().parse().ok()?),
            _ => Credit::Level(match said.as_rule() {
                Rule::k_easy => Level::Easy,
                Rule::k_medium => Level::Medium,
                _ => Level::Hard,
            }),
        })
    }

    /// The value of `allowance 1` and its kin.
    pub(super) fn only_value(&mut self, pair: Pair<Rule>) -> Option<Expr> {
        let value = Kids::of(pair).nth(1)?;
        self.value(value)
    }

    pub(super) fn variation(&mut self, pair: Pair<Rule>) -> Option<VariationOf> {
        let mut kids = Kids::of(pair);
        kids.next();
        let title = kids.next()?;
        let title = self.text(title);
        kids.has(Rule::k_of);
        let base = kids.next()?;
        let base = self.named_file(base)?;
        let (mut with, mut without) = (Vec::new(), Vec::new());
        for kid in kids {
            match kid.as_rule() {
                Rule::named_file => with.push(self.named_file(kid)?),
                Rule::text => without.push(self.text(kid)),
                _ => {}
            }
        }
        Some(VariationOf { title, base, with, without })
    }

    pub(super) fn use_library(&mut self, pair: Pair<Rule>) -> Option<NamedFile> {
        let named = Kids::of(pair).nth(1)?;
        self.named_file(named)
    }

    pub(super) fn named_file(&mut self, pair: Pair<Rule>) -> Option<NamedFile> {
        let mut kids = Kids::of(pair);
        let path = kids.next()?;
        let path = self.text(path);
        let pin = kids.find(|kid| kid.as_rule() == Rule::pin);
        let pin = pin
            .map(|pin| Pin { digits: Arc::from(pin.as_str().to_ascii_lowercase()), span: self.span(&pin) });
        Some(NamedFile { path, pin })
    }

    pub(super) fn wearer(&mut self, pair: Pair<Rule>) -> Option<Wearer> {
        let mut kids = Kids::of(pair);
        kids.next();
        let who = match kids.next()?.as_rule() {
            Rule::k_adult => Who::Adult,
            Rule::k_baby => Who::Baby,
            _ => {
                kids.has(Rule::k_from);
                let from = kids.next()?;
                let from = self.sum(from)?;
                kids.has(Rule::k_to);
                let to = kids.next()?;
                let to = self.sum(to)?;
                let months = kids.next()?.as_rule() == Rule::k_months;
                Who::Child { from, to, months }
            }
        };
        Some(Wearer { who, for_sleep: kids.has(Rule::k_for) })
    }

    pub(super) fn sizes(&mut self, pair: Pair<Rule>) -> Option<Sizes> {
        let list = Kids::of(pair).nth(1)?;
        Some(Sizes { names: Kids::of(list).map(|size| self.size_name(size)).collect() })
    }

    pub(super) fn body(&mut self, pair: Pair<Rule>) -> Body {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        kids.next();
        Body { rows: self.block(Context::Body, &mut kids, from, Context::File, Self::body_row) }
    }

    fn body_row(&mut self, pair: Pair<Rule>) -> Option<BodyRow> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let name = kids.next()?;
        let name = self.name(name);
        let mut values = Vec::new();
        while !matches!(
            kids.rule(),
            None | Some(Rule::graded | Rule::everysize | Rule::slip_steps | Rule::text)
        ) {
            let literal = kids.next()?;
            values.push(self.quantity(literal)?);
        }
        let mut values = self.split_commas(values);
        let mut row = Span::new(values.first()?.span.lo, values.last()?.span.hi);
        let next = kids.rule();
        if let Some(Rule::graded | Rule::everysize | Rule::slip_steps) = next
            && let (Some(base), true) = (values.pop(), values.is_empty())
        {
            let tail = kids.next()?;
            row = row.to(self.span(&tail));
            let values = match next {
                Some(Rule::slip_steps) => {
                    let steps = Kids::of(tail).map(|step| self.step(step)).collect::<Option<Vec<_>>>()?;
                    self.lost_grade(base, steps, row)
                }
                _ => self.graded_row(base, tail, row)?,
            };
            let label = kids.only(Rule::text).map(|text| self.text(text));
            return Some(BodyRow { span, name, values, label });
        }
        let label = kids.find(|kid| kid.as_rule() == Rule::text).map(|text| self.text(text));
        let values = match values.len() {
            1 => values.pop()?,
            _ => Expr { span: row, kind: ExprKind::Each(values) },
        };
        Some(BodyRow { span, name, values, label })
    }

    pub(super) fn pick(&mut self, pair: Pair<Rule>) -> Option<Pick> {
        let list = Kids::of(pair).find(|kid| kid.as_rule() == Rule::nlist)?;
        Some(Pick { measures: self.names(list) })
    }

    pub(super) fn let_statement(&mut self, pair: Pair<Rule>) -> Option<Let> {
        let mut kids = Kids::of(pair);
        kids.next();
        let name = kids.next()?;
        let name = self.name(name);
        let value = kids.next()?;
        let value = match value.as_rule() {
            Rule::solved => self.solved(value)?,
            _ => LetValue::Is(self.value(value)?),
        };
        let label = kids.only(Rule::text).map(|text| self.text(text));
        Some(Let { name, value, label })
    }

    fn solved(&mut self, pair: Pair<Rule>) -> Option<LetValue> {
        let mut parts = Kids::of(pair).filter(|kid| matches!(kid.as_rule(), Rule::value | Rule::cond));
        let (low, high, so_that) = (parts.next()?, parts.next()?, parts.next()?);
        let low = self.value(low)?;
        let high = self.value(high)?;
        Some(LetValue::Solved { low, high, so_that: self.comparison(so_that)? })
    }

    pub(super) fn measure(&mut self, pair: Pair<Rule>) -> Option<Measure> {
        let mut kids = Kids::of(pair);
        kids.next();
        let (name, title) = (kids.next()?, kids.next()?);
        let (name, title) = (self.name(name), self.text(title));
        let against = match kids.has(Rule::k_against) {
            true => kids.next().map(|name| self.name(name)),
            false => None,
        };
        let value = kids.next()?;
        Some(Measure { name, title, against, value: self.value(value)? })
    }

    pub(super) fn require(&mut self, pair: Pair<Rule>) -> Option<Require> {
        let mut kids = Kids::of(pair);
        kids.next();
        let (condition, because) = (kids.next()?, kids.next()?);
        Some(Require { condition: self.comparison(condition)?, because: self.text(because) })
    }
}
