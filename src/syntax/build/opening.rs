use super::{Builder, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{Cord, Hand, Opening, Placket, PlacketKind};
use pest::iterators::Pair;

impl Builder<'_> {
    pub(super) fn opening(&mut self, pair: Pair<Rule>) -> Option<Opening> {
        let mut kids = Kids::of(pair);
        kids.next();
        let (ring, _, passes) = (kids.next()?, kids.next()?, kids.next()?);
        Some(Opening { ring: self.ring_chain(ring)?, passes: self.name(passes) })
    }

    pub(super) fn placket(&mut self, pair: Pair<Rule>) -> Option<Placket> {
        let mut kids = Kids::of(pair);
        let (name, slit, how) = (kids.nth(1)?, kids.nth(1)?, kids.next()?.as_rule());
        let (name, slit) = (self.name(name), self.dotted(slit));
        let kind = match how {
            Rule::k_bound => {
                let width = kids.next()?;
                PlacketKind::Bound(self.value(width)?)
            }
            _ => {
                let (over, under) = (kids.nth(1)?, kids.nth(1)?);
                let (over, under) = (self.value(over)?, self.value(under)?);
                let upper = match kids.next().map(|word| word.as_rule()) {
                    Some(Rule::k_left) => Some(Hand::Left),
                    Some(Rule::k_right) => Some(Hand::Right),
                    _ => None,
                };
                PlacketKind::TwoPart { over, under, upper }
            }
        };
        Some(Placket { name, slit, kind })
    }

    pub(super) fn cord(&mut self, pair: Pair<Rule>) -> Option<Cord> {
        let mut kids = Kids::of(pair);
        kids.next();
        let (name, length, _, through) = (kids.next()?, kids.next()?, kids.next()?, kids.next()?);
        let (name, length, through) = (self.name(name), self.value(length)?, self.uses_of(through));
        let ends = match kids.has(Rule::k_ends) {
            true => {
                let ends = kids.next()?;
                Some(self.value(ends)?)
            }
            false => None,
        };
        Some(Cord { name, length, through, ends })
    }
}
