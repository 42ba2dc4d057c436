use super::{Builder, Context, Kids, on_side};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::{Strap, StrapEnd, StrapItem, StrapItemNode};
use pest::iterators::Pair;

impl Builder<'_> {
    pub(super) fn strap(&mut self, pair: Pair<Rule>) -> Option<Strap> {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        kids.next();
        let name = kids.next()?;
        let name = self.name(name);
        let title = kids.only(Rule::text).map(|title| self.text(title));
        let (length, _, width) = (kids.next()?, kids.next()?, kids.next()?);
        let (length, width) = (self.value(length)?, self.value(width)?);
        let layer = kids.nth(1)?;
        let layer = self.name(layer);
        let in_four = kids.has(Rule::k_folded);
        if in_four {
            kids.nth(1)?;
        }
        let items = self.block(Context::Strap, &mut kids, from, Context::File, |builder, item| {
            let span = builder.span(&item);
            let node = match item.as_rule() {
                Rule::strap_run => builder.strap_run(item)?,
                _ => builder.strap_sewn(item)?,
            };
            Some(StrapItem { span, node })
        });
        Some(Strap { name, title, length, width, layer, in_four, items })
    }

    fn strap_run(&mut self, pair: Pair<Rule>) -> Option<StrapItemNode> {
        let mut kids = Kids::of(pair);
        let (_, from, _, to) = (kids.next()?, kids.next()?, kids.next()?, kids.next()?);
        let from = self.strap_end(from)?;
        let to = match to.as_rule() {
            Rule::strap_end => Some(self.strap_end(to)?),
            _ => None,
        };
        Some(StrapItemNode::Run { from, to })
    }

    fn strap_end(&mut self, pair: Pair<Rule>) -> Option<StrapEnd> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let at = kids.next()?;
        let at = self.dotted(at);
        let hand = on_side(&mut kids);
        let place = self.any_place(&mut kids)?.map(Box::new);
        let hand = hand.or_else(|| on_side(&mut kids));
        let caught = match kids.has(Rule::k_caught) {
            true => {
                let seam = kids.nth(1)?;
                Some(self.name(seam))
            }
            false => None,
        };
        Some(StrapEnd { at, hand, place, caught, span })
    }

    fn strap_sewn(&mut self, pair: Pair<Rule>) -> Option<StrapItemNode> {
        let mut kids = Kids::of(pair);
        let length = kids.nth(1)?;
        let length = self.value(length)?;
        Some(StrapItemNode::Sewn { length, boxed: kids.any(|kid| kid.as_rule() == Rule::k_boxed) })
    }
}
