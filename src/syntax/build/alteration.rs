use super::{Builder, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{Alteration, AlterationKind, Amount};
use pest::iterators::Pair;

impl Builder<'_> {
    /// Any alteration: its verb, then its clauses, each told by the word or rule that it begins with.
    pub(super) fn alteration(&mut self, pair: Pair<Rule>) -> Option<Alteration> {
        let mut kids = Kids::of(pair);
        let first = kids.next()?.as_str();
        let kind = match AlterationKind::beginning(first, None) {
            Some(kind) => kind,
            None => AlterationKind::beginning(first, Some(kids.next()?.as_str()))?,
        };
        let mut made = Alteration {
            kind,
            targets: Vec::new(),
            at: None,
            path: None,
            amount: None,
            keeping: Vec::new(),
            into: Vec::new(),
        };
        while let Some(kid) = kids.next() {
            match kid.as_rule() {
                Rule::qlist => made.targets = self.dotteds(kid),
                Rule::qname => made.targets.push(self.dotted(kid)),
                Rule::k_to => {}
                Rule::k_at | Rule::k_along => {
                    let at = kids.next()?;
                    made.at = Some(self.name(at));
                }
                Rule::path => made.path = Some(self.path(kid)?),
                Rule::k_by => {
                    let by = kids.next()?;
                    made.amount = Some(Amount::By(self.value(by)?));
                }
                Rule::amount => made.amount = Some(self.amount(kid)?),
                Rule::k_keeping => {
                    let kept = kids.next()?;
                    made.keeping = self.dotteds(kept);
                }
                Rule::k_into => {
                    while let Some(name) = kids.only(Rule::name) {
                        made.into.push(self.name(name));
                    }
                }
                _ => return None,
            }
        }
        Some(made)
    }

    fn amount(&mut self, pair: Pair<Rule>) -> Option<Amount> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let by = kids.has(Rule::k_by);
        kids.has(Rule::k_about);
        let about = match (by, kids.only(Rule::value)) {
            (true, Some(value)) => Some(self.value(value)?),
            _ => None,
        };
        if !kids.has(Rule::k_until) {
            return about.map(Amount::By);
        }
        let closure = kids.next()?;
        Some(Amount::Until { about, closure: self.name(closure), span })
    }
}
