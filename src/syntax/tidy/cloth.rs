//! Cloth, layers and notions.

use super::entry::Entry;
use super::expression::{Printer, listed, names};
use crate::source::Span;
use crate::syntax::tree::{
    ClothDirection, ClothKind, Directed, Fabric, FabricFact, FabricFactNode, Layer, Notion, Price,
};

impl Printer<'_> {
    pub(super) fn fabric(&self, span: Span, fabric: &Fabric) -> Entry {
        let title = self.maybe_text(&fabric.title).map_or(String::new(), |title| format!(" {title}"));
        let facts = fabric.facts.iter().map(|fact| self.fabric_fact(fact)).collect();
        Entry::line(span, format!("fabric {}{title}", fabric.name.text)).block(facts)
    }

    fn fabric_fact(&self, fact: &FabricFact) -> Entry {
        let words = match &fact.node {
            FabricFactNode::Width { width, tubular } => {
                format!("width {}{}", self.expr(width), if *tubular { " tubular" } else { "" })
            }
            FabricFactNode::Selvage(amount) => format!("selvage {}", self.expr(amount)),
            FabricFactNode::Stretch(both) => format!("stretch {}", self.directed(both)),
            FabricFactNode::Shrink(both) => format!("shrink {}", self.directed(both)),
            FabricFactNode::Repeat(both) => format!("repeat {}", self.directed(both)),
            FabricFactNode::Nap(true) => "nap one-way".to_owned(),
            FabricFactNode::Nap(false) => "nap none".to_owned(),
            FabricFactNode::Thickness(amount) => format!("thickness {}", self.expr(amount)),
            FabricFactNode::Price(price) => self.price(price),
            FabricFactNode::Kind(ClothKind::WovenFirm) => "kind woven firm".to_owned(),
            FabricFactNode::Kind(ClothKind::WovenSupple) => "kind woven supple".to_owned(),
            FabricFactNode::Kind(ClothKind::Knit) => "kind knit".to_owned(),
            FabricFactNode::Kind(ClothKind::Leather) => "kind leather".to_owned(),
            FabricFactNode::Raised(true) => "surface raised".to_owned(),
            FabricFactNode::Raised(false) => "surface smooth".to_owned(),
        };
        Entry::line(fact.span, words)
    }

    fn directed(&self, all: &[Directed]) -> String {
        listed(all.iter().map(|one| {
            let way = match one.direction {
                ClothDirection::Along => "along",
                ClothDirection::Across => "across",
            };
            format!("{} {way}", self.expr(&one.amount))
        }))
    }

    fn price(&self, price: &Price) -> String {
        let currency = price.currency.as_ref().map_or(String::new(), |name| format!(" {}", name.text));
        let per = price.per.map_or(" each".to_owned(), |word| format!(" per {}", word.unit.word()));
        format!("price {}{currency}{per}", self.spelling.price(price))
    }

    /// `layer outer in shell fused { front, back }`; a list is one line however long.
    pub(super) fn layer(&self, span: Span, layer: &Layer) -> Entry {
        let fused = fused_words(layer);
        let fused = if fused.is_empty() { fused } else { fused + " " };
        Entry::of("layer", span, format!("layer {}", layer.name.text))
            .then(1, format!("in {}", layer.fabric.text))
            .then(1, format!("{fused}{{ {} }}", names(&layer.pieces)))
    }

    pub(super) fn notion(&self, span: Span, notion: &Notion) -> Entry {
        let mut words = format!("notion {}", self.text(&notion.title));
        if let Some(amount) = &notion.amount {
            words = format!("{words} {}", self.expr(amount));
        }
        if let Some(price) = &notion.price {
            words = format!("{words}  {}", self.price(price));
        }
        Entry::line(span, words)
    }
}

/// `fused 1 of 2 to inner`; nothing of a layer that is sewn.
pub(crate) fn fused_words(layer: &Layer) -> String {
    if !layer.fused {
        return String::new();
    }
    let share = layer.share.map_or_else(String::new, |share| format!(" {} of {}", share.fused, share.of));
    let onto = layer.onto.as_ref().map_or_else(String::new, |onto| format!(" to {}", onto.text));
    format!("fused{share}{onto}")
}
