use super::{Builder, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{Alteration, Amount};
use pest::iterators::Pair;

impl Builder<'_> {
    pub(super) fn alteration(&mut self, pair: Pair<Rule>) -> Option<Alteration> {
        let rule = pair.as_rule();
        let mut kids = Kids::of(pair);
        let verb = kids.next()?.as_rule();
        if rule == Rule::cut_off {
            kids.has(Rule::k_off);
        }
        let first = kids.next()?;
        Some(match rule {
            Rule::lengthen => {
                let (_, at, amount) = (kids.next()?, kids.next()?, kids.next()?);
                let (pieces, at, amount) = (self.dotteds(first), self.name(at), self.amount(amount)?);
                let keeping = match kids.has(Rule::k_keeping) {
                    true => kids.next().map(|list| self.dotteds(list)).unwrap_or_default(),
                    false => Vec::new(),
                };
                Alteration::Lengthen { shorten: verb == Rule::k_shorten, pieces, at, amount, keeping }
            }
            Rule::cut_off => {
                let at = kids.nth(1)?;
                Alteration::CutOff { pieces: self.dotteds(first), at: self.name(at) }
            }
            Rule::extend => {
                let by = kids.nth(1)?;
                Alteration::Extend {
                    trim: verb == Rule::k_trim,
                    edges: self.dotteds(first),
                    by: self.value(by)?,
                }
            }
            Rule::open_fold => {
                let at = kids.nth(1)?;
                Alteration::Open {
                    close: verb == Rule::k_close,
                    pieces: self.dotteds(first),
                    at: self.name(at),
                }
            }
            Rule::split => {
                let (_, at, _) = (kids.next()?, kids.next()?, kids.next()?);
                let (one, other) = (kids.next()?, kids.next()?);
                let (piece, at) = (self.dotted(first), self.name(at));
                Alteration::Split { piece, at, into: (self.name(one), self.name(other)) }
            }
            Rule::join => {
                let (_, second, _, at) = (kids.next()?, kids.next()?, kids.next()?, kids.next()?);
                let into = kids.nth(1)?;
                let (first, second, at) = (self.dotted(first), self.dotted(second), self.name(at));
                Alteration::Join { first, second, at, into: self.name(into) }
            }
            Rule::redraw => {
                let path = kids.next()?;
                Alteration::Redraw { edge: self.dotted(first), path: self.path(path)? }
            }
            Rule::flare | Rule::spread => {
                let (_, along, _, by) = (kids.next()?, kids.next()?, kids.next()?, kids.next()?);
                let (pieces, along, by) = (self.dotteds(first), self.name(along), self.value(by)?);
                match rule {
                    Rule::flare => Alteration::Flare { pieces, along, by },
                    _ => Alteration::Spread { pieces, along, by },
                }
            }
            _ => return None,
        })
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
