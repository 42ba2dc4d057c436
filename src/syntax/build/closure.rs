use super::{Builder, Context, Kids, hand_of};
use crate::syntax::grammar::Rule;
use crate::syntax::slips;
use crate::syntax::tree::{
    Anchor, AnchorAt, Closure, ClosureItem, ClosureItemNode, Fastener, Fasteners, Zipper, ZipperKind,
};
use pest::iterators::Pair;

impl Builder<'_> {
    pub(super) fn closure(&mut self, pair: Pair<Rule>) -> Option<Closure> {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        kids.next();
        let (name, first, _, second) = (kids.next()?, kids.next()?, kids.next()?, kids.next()?);
        let (name, first, second) = (self.name(name), self.ring_chain(first)?, self.ring_chain(second)?);
        let end_to_end = kids.only(Rule::end_to_end).map(|words| self.span(&words));
        let items = self.block(Context::Closure, &mut kids, from, Context::File, |builder, item| {
            let span = builder.span(&item);
            let node = match item.as_rule() {
                Rule::zipper => ClosureItemNode::Zipper(builder.zipper(item)?),
                _ => ClosureItemNode::Fasteners(Box::new(builder.fasteners(item)?)),
            };
            Some(ClosureItem { span, node })
        });
        Some(Closure { name, first, second, end_to_end, items })
    }

    fn zipper(&mut self, pair: Pair<Rule>) -> Option<Zipper> {
        let mut kids = Kids::of(pair);
        let kind = match kids.nth(1)?.as_rule() {
            Rule::k_separating => ZipperKind::Separating,
            Rule::k_closed => ZipperKind::Closed,
            _ => ZipperKind::Concealed,
        };
        let stocked = kids.has(Rule::k_stocked);
        let mut lengths = Vec::new();
        while let Some(rule) = kids.rule()
            && !matches!(rule, Rule::k_showing | Rule::k_clear)
        {
            let length = kids.next()?;
            lengths.push(if rule == Rule::value { self.value(length)? } else { self.sum(length)? });
        }
        let showing = match kids.has(Rule::k_showing) {
            true => {
                let showing = kids.next()?;
                Some(self.value(showing)?)
            }
            false => None,
        };
        let clear = match kids.has(Rule::k_clear) {
            true => {
                let clear = kids.nth(2)?;
                Some(self.value(clear)?)
            }
            false => None,
        };
        Some(Zipper {
            kind,
            lengths: if stocked { self.split_commas(lengths) } else { lengths },
            stocked,
            showing,
            clear,
        })
    }

    fn fasteners(&mut self, pair: Pair<Rule>) -> Option<Fasteners> {
        let mut kids = Kids::of(pair);
        let kind = match kids.next()?.as_rule() {
            Rule::k_buttons => Fastener::Button,
            Rule::k_snaps => Fastener::Snap,
            Rule::k_hooks => Fastener::Hook,
            Rule::k_toggles => Fastener::Toggle,
            Rule::k_buckle => Fastener::Buckle,
            _ => Fastener::Tie,
        };
        let value = |builder: &mut Self, kids: &mut Kids| match kids.only(Rule::value) {
            Some(said) => builder.value(said).map(Some),
            None => Some(None),
        };
        let first = value(self, &mut kids)?;
        kids.has(Rule::k_of);
        let second = value(self, &mut kids)?;
        let (count, size) = if kind == Fastener::Buckle { (None, first) } else { (first, second) };
        let between = match kids.has(Rule::k_from) {
            true => {
                let (from, _, to) = (kids.next()?, kids.next()?, kids.next()?);
                Some((self.anchor(from)?, self.anchor(to)?))
            }
            false => None,
        };
        let stand = match kids.has(Rule::k_stand) {
            true => {
                let stand = kids.next()?;
                Some(self.value(stand)?)
            }
            false => None,
        };
        let over = kids.next().map(|hand| hand_of(&hand));
        Some(Fasteners { kind, count, size, between, stand, over })
    }

    fn anchor(&mut self, pair: Pair<Rule>) -> Option<Anchor> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        if let Some(place) = kids.only(Rule::place_on) {
            return Some(Anchor { at: AnchorAt::Place(self.edge_place(place)?), span });
        }
        let (distance, word, point) = (kids.next()?, kids.next()?, kids.next()?);
        if point.as_rule() == Rule::slip_end {
            self.mistakes.push(slips::end_of_run(self.span(&point), point.as_str(), word.as_str()));
            return None;
        }
        let below = word.as_rule() == Rule::k_below;
        let (distance, point) = (self.value(distance)?, self.name(point));
        Some(Anchor { at: AnchorAt::Beside { distance, below, point }, span })
    }
}
