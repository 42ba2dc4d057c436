//! Fabrics and layers.

use super::Lowering;
use super::expression::Wanted;
use super::papers::When;
use super::sought::Sought;
use crate::garment::{Fabric, FabricId, Price, Symbol, TwoWays};
use crate::report::{Diagnostic, catalogue, nearest};
use crate::source::Span;
use crate::syntax::tree::{self, ClothDirection, Directed, FabricFactNode, StatementNode};
use indexmap::IndexMap;

impl Lowering<'_> {
    pub(super) fn lower_cloth(&mut self) {
        let merged = self.merged;
        for declaration in &merged.declarations {
            match &declaration.statement.node {
                StatementNode::Fabric(fabric) => self.lower_fabric(fabric),
                StatementNode::Layer(layer) => self.find_cloth(layer),
                _ => {}
            }
        }
    }

    fn lower_fabric(&mut self, tree: &tree::Fabric) {
        let Some(&id) = self.names.fabrics.get(&tree.name.text) else { return };
        if self.garment.fabric(id).span != tree.name.span {
            return; // a second one of that name, reported elsewhere
        }
        let mut fabric: Fabric = self.garment.fabric(id).clone();
        let mut said: IndexMap<&str, Span> = IndexMap::new();
        for fact in &tree.facts {
            for what in fact.node.says() {
                match said.get(what) {
                    Some(&first) => self.report_said_twice("fabric", what, first, fact.span),
                    None => {
                        said.insert(what, fact.span);
                    }
                }
            }
            let length = |expr: &tree::Expr| Some(self.lower(expr, When::Fact, None, Wanted::Length));
            match &fact.node {
                FabricFactNode::Width { width, tubular } => {
                    fabric.width = length(width);
                    fabric.tubular = *tubular;
                }
                FabricFactNode::Selvage(selvage) => fabric.selvage = length(selvage),
                FabricFactNode::Thickness(thickness) => fabric.thickness = length(thickness),
                FabricFactNode::Stretch(ways) => self.both_ways(ways, Wanted::Number, &mut fabric.stretch),
                FabricFactNode::Shrink(ways) => self.both_ways(ways, Wanted::Number, &mut fabric.shrink),
                FabricFactNode::Repeat(ways) => self.both_ways(ways, Wanted::Length, &mut fabric.repeat),
                FabricFactNode::Nap(one_way) => {
                    fabric.one_way = *one_way;
                    fabric.nap_said = true;
                }
                FabricFactNode::Price(said) => fabric.price = Some(price(said)),
                FabricFactNode::Kind(kind) => fabric.kind = Some(*kind),
                FabricFactNode::Raised(raised) => fabric.raised = raised.then_some(fact.span),
            }
        }
        if fabric.width.is_none() {
            let title = format!("{} does not say how wide it is", fabric.name);
            let help = "add its width, as the shop gives it: width 150";
            self.report(
                Diagnostic::new(&catalogue::CLOTH_WIDTH, fabric.span, title).label("no width").help(help),
            );
        }
        self.garment.fabrics[id.index()] = fabric;
    }

    fn both_ways(&self, said: &[Directed], wanted: Wanted, ways: &mut TwoWays) {
        for directed in said {
            let amount = Some(self.lower(&directed.amount, When::Fact, None, wanted));
            match directed.direction {
                ClothDirection::Along => ways.along = amount,
                ClothDirection::Across => ways.across = amount,
            }
        }
    }

    fn find_cloth(&mut self, tree: &tree::Layer) {
        let Some(&id) = self.names.layers.get(&tree.name.text) else { return };
        self.garment.layers[id.index()].fabric = self.find_cloth_named(&tree.fabric);
    }

    /// The fabric of that name; that there is none is reported.
    pub(super) fn find_cloth_named(&self, name: &tree::Name) -> Option<FabricId> {
        let found = self.names.fabrics.get(&name.text).copied();
        match found {
            Some(fabric) => self.used(Symbol::Fabric(fabric), name.span),
            None => self.report_no_cloth(name),
        }
        found
    }

    fn report_no_cloth(&self, name: &tree::Name) {
        if self.merged.incomplete || self.merged.lost_words.contains(&name.text) {
            return; // it may well stand in what could not be had or read
        }
        if self.merged.dropped.iter().any(|dropped| dropped.name == name.text && dropped.may_be("fabric")) {
            self.unknown(Sought::Fabric, &name.text, name.span, &[]);
            return;
        }
        let title = format!("there is no fabric called {}", name.text);
        let diagnostic = Diagnostic::new(&catalogue::CLOTH_UNKNOWN, name.span, title).label("never declared");
        let fabrics: Vec<&str> = self.names.fabrics.keys().map(|name| &**name).collect();
        let diagnostic = match nearest(&name.text, fabrics.iter().copied()) {
            Some(near) => diagnostic.did_you_mean(name.span, near),
            None if fabrics.is_empty() => {
                diagnostic.help(format!("declare it: fabric {} \"…\" {{ width … }}", name.text))
            }
            None => diagnostic.help(format!("declare it, or take one of {}", fabrics.join(", "))),
        };
        self.report(diagnostic);
    }
}

/// A price as data.
pub(super) fn price(said: &tree::Price) -> Price {
    Price {
        amount: said.amount,
        currency: said.currency.as_ref().map(|currency| currency.text.clone()),
        per: said.per.map(|per| per.unit),
        span: said.span,
    }
}
