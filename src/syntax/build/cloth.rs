use super::quantity::number;
use super::{Builder, Context, Kids};
use crate::syntax::grammar::Rule;
use crate::syntax::slips;
use crate::syntax::tree::{
    ClothDirection, ClothKind, Directed, Fabric, FabricFact, FabricFactNode, FusedShare, Layer, Notion,
    Price, StitchWord,
};
use pest::iterators::Pair;
use std::sync::Arc;

impl Builder<'_> {
    pub(super) fn fabric(&mut self, pair: Pair<Rule>) -> Option<Fabric> {
        let from = pair.as_span().start();
        let mut kids = Kids::of(pair);
        kids.next();
        let name = kids.next()?;
        let name = self.name(name);
        let title = kids.only(Rule::text).map(|text| self.text(text));
        let facts = self.block(Context::Fabric, &mut kids, from, Context::File, |builder, fact| {
            let span = builder.span(&fact);
            Some(FabricFact { span, node: builder.fabric_fact(fact)? })
        });
        Some(Fabric { name, title, facts })
    }

    fn fabric_fact(&mut self, pair: Pair<Rule>) -> Option<FabricFactNode> {
        let rule = pair.as_rule();
        let mut kids = Kids::of(pair);
        kids.next();
        let first = kids.next()?;
        Some(match rule {
            Rule::width => {
                FabricFactNode::Width { width: self.value(first)?, tubular: kids.has(Rule::k_tubular) }
            }
            Rule::selvage => FabricFactNode::Selvage(self.value(first)?),
            Rule::thickness => FabricFactNode::Thickness(self.value(first)?),
            Rule::stretch => FabricFactNode::Stretch(self.directed(first, kids)?),
            Rule::shrink => FabricFactNode::Shrink(self.directed(first, kids)?),
            Rule::repeat => FabricFactNode::Repeat(self.directed(first, kids)?),
            Rule::nap => FabricFactNode::Nap(first.as_rule() == Rule::k_oneway),
            Rule::surface => FabricFactNode::Raised(first.as_rule() == Rule::k_raised),
            Rule::priced => FabricFactNode::Price(self.price(first)?),
            _ => FabricFactNode::Kind(match first.as_rule() {
                Rule::k_knit => ClothKind::Knit,
                Rule::k_leather => ClothKind::Leather,
                _ if kids.has(Rule::k_supple) => ClothKind::WovenSupple,
                _ => ClothKind::WovenFirm,
            }),
        })
    }

    fn directed(&mut self, first: Pair<Rule>, kids: Kids) -> Option<Vec<Directed>> {
        std::iter::once(first)
            .chain(kids)
            .map(|pair| {
                let span = self.span(&pair);
                let mut kids = Kids::of(pair);
                let amount = kids.next()?;
                let amount = self.value(amount)?;
                let direction = match kids.has(Rule::k_along) {
                    true => ClothDirection::Along,
                    false => ClothDirection::Across,
                };
                Some(Directed { amount, direction, span })
            })
            .collect()
    }

    fn price(&mut self, pair: Pair<Rule>) -> Option<Price> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let written = kids.next()?;
        if written.as_rule() == Rule::comma_number {
            self.mistakes.push(slips::price_comma(self.span(&written), written.as_str()));
        }
        let amount = number(&written.as_str().replacen(',', ".", 1).replace(',', ""));
        let currency = kids.only(Rule::name).map(|name| self.name(name));
        let per = match kids.has(Rule::k_per) {
            true => kids.next().map(|unit| self.unit(unit)),
            false => None,
        };
        Some(Price { amount: if amount.is_finite() { amount } else { 0.0 }, currency, per, span })
    }

    pub(super) fn layer(&mut self, pair: Pair<Rule>) -> Option<Layer> {
        let mut kids = Kids::of(pair);
        kids.next();
        let name = kids.next()?;
        let name = self.name(name);
        kids.has(Rule::k_in);
        let fabric = kids.next()?;
        let fabric = self.name(fabric);
        let fused = kids.has(Rule::k_fused);
        let share = match kids.only(Rule::fused_share) {
            Some(share) => Some(self.fused_share(share)?),
            None => None,
        };
        let onto = match fused && kids.has(Rule::k_to) {
            true => kids.next().map(|name| self.name(name)),
            false => None,
        };
        kids.has(Rule::open);
        let pieces = kids.map(|piece| self.name(piece)).collect();
        Some(Layer { name, fabric, fused, share, onto, pieces })
    }

    /// `1 of 2`
    fn fused_share(&mut self, pair: Pair<Rule>) -> Option<FusedShare> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let fused = kids.next()?.as_str().parse().ok()?;
        kids.has(Rule::k_of);
        let of = kids.next()?.as_str().parse().ok()?;
        Some(FusedShare { fused, of, span })
    }

    pub(super) fn notion(&mut self, pair: Pair<Rule>) -> Option<Notion> {
        let mut kids = Kids::of(pair);
        kids.next();
        let title = kids.next()?;
        let title = self.text(title);
        let amount = match kids.only(Rule::value) {
            Some(value) => Some(self.value(value)?),
            None => None,
        };
        kids.has(Rule::k_price);
        let price = match kids.only(Rule::price) {
            Some(price) => Some(self.price(price)?),
            None => None,
        };
        Some(Notion { title, amount, price })
    }

    /// `stitch 301`
    pub(super) fn stitch(&mut self, pair: Pair<Rule>) -> Option<StitchWord> {
        let word = Kids::of(pair).nth(1)?;
        Some(StitchWord { word: Arc::from(word.as_str()), span: self.span(&word) })
    }
}
