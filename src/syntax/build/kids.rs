use crate::syntax::grammar::Rule;
use pest::iterators::{Pair, Pairs};

/// The children of a pair, one after another, without punctuation.
pub(in crate::syntax) struct Kids<'t> {
    pairs: Pairs<'t, Rule>,
    ahead: Option<Pair<'t, Rule>>,
}

impl<'t> Kids<'t> {
    /// The children of that pair.
    pub fn of(pair: Pair<'t, Rule>) -> Self {
        Kids { pairs: pair.into_inner(), ahead: None }
    }

    fn fill(&mut self) {
        if self.ahead.is_none() {
            self.ahead = self.pairs.by_ref().find(|pair| {
                !matches!(
                    pair.as_rule(),
                    Rule::comma | Rule::equals | Rule::rbracket | Rule::rbrace | Rule::slash | Rule::dots
                )
            });
        }
    }

    /// Which child is next.
    pub fn rule(&mut self) -> Option<Rule> {
        self.fill();
        self.ahead.as_ref().map(Pair::as_rule)
    }

    /// The next child if it is of that rule.
    pub fn only(&mut self, rule: Rule) -> Option<Pair<'t, Rule>> {
        if self.rule() == Some(rule) { self.ahead.take() } else { None }
    }

    /// Takes the next child if it is of that rule, and tells whether it was.
    pub fn has(&mut self, rule: Rule) -> bool {
        self.only(rule).is_some()
    }
}

impl<'t> Iterator for Kids<'t> {
    type Item = Pair<'t, Rule>;

    fn next(&mut self) -> Option<Self::Item> {
        self.fill();
        self.ahead.take()
    }
}
