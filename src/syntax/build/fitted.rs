use super::{Builder, Context, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{FittedBody, FittedRow, FittedValue, FittingOf};
use pest::iterators::Pair;

impl Builder<'_> {
    /// `fitting "…" of "….fus" { … }`
    pub(super) fn fitting(&mut self, pair: Pair<Rule>) -> Option<FittingOf> {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        kids.next();
        let wearer = kids.next()?;
        let wearer = self.text(wearer);
        kids.has(Rule::k_of);
        let base = kids.next()?;
        let base = self.named_file(base)?;
        let bodies = self.block(Context::Fitting, &mut kids, from, Context::File, Self::fitted_body);
        Some(FittingOf { wearer, base, bodies })
    }

    fn fitted_body(&mut self, pair: Pair<Rule>) -> Option<FittedBody> {
        let from = pair.as_span().start();
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let word = kids.next()?;
        let word = self.span(&word);
        let rows = self.block(Context::FittedBody, &mut kids, from, Context::Fitting, Self::fitted_row);
        Some(FittedBody { span, word, rows })
    }

    fn fitted_row(&mut self, pair: Pair<Rule>) -> Option<FittedRow> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let name = match kids.has(Rule::k_the) {
            true => {
                kids.has(Rule::k_rest);
                None
            }
            false => {
                let name = kids.next()?;
                Some(self.name(name))
            }
        };
        let first = kids.next()?;
        let value = match first.as_rule() {
            Rule::k_as => {
                let size = kids.next()?;
                FittedValue::AsSize(self.size_name(size))
            }
            Rule::k_between => {
                let sizes = kids.next()?;
                FittedValue::BetweenSizes(self.span(&first).to(self.span(&sizes)))
            }
            _ => FittedValue::Measured(self.quantity(first)?),
        };
        let label = kids.only(Rule::text).map(|text| self.text(text));
        Some(FittedRow { span, name, value, label })
    }
}
