//! What is written of a cloth.

use super::known::Known;
use super::writing::Writing;
use crate::report::{Diagnostic, catalogue, nearest};
use crate::syntax::tree::{ClothKind, ExprKind, FabricFactNode, Layer, Name, StatementNode, Unit};

/// A cloth that stretches so far, in percent, is taken for a knit where its kind is not said.
const STRETCHES_AS_KNIT: f64 = 30.0;

/// The name of a layer's cloth, if that is knit.
pub(super) fn knit_of<'d>(known: Known<'d>, layer: &str) -> Option<&'d Name> {
    let cloth = known.nodes().find_map(|node| match node {
        StatementNode::Layer(own) if *own.name.text == *layer => Some(&own.fabric.text),
        _ => None,
    })?;
    let fabric = known.nodes().find_map(|node| match node {
        StatementNode::Fabric(fabric) if fabric.name.text == *cloth => Some(fabric),
        _ => None,
    })?;
    let kind = fabric.facts.iter().find_map(|fact| match fact.node {
        FabricFactNode::Kind(kind) => Some(kind),
        _ => None,
    });
    let stretches = fabric.facts.iter().any(|fact| match &fact.node {
        FabricFactNode::Stretch(ways) => ways.iter().any(|way| match &way.amount.kind {
            ExprKind::Quantity(quantity) => {
                quantity.unit.is_some_and(|word| word.unit == Unit::Percent)
                    && quantity.number >= STRETCHES_AS_KNIT
            }
            _ => false,
        }),
        _ => false,
    });
    let is_knit = kind.map_or(stretches, |kind| kind == ClothKind::Knit);
    is_knit.then_some(&fabric.name)
}

/// What is wrong with the layers that a band or a facing is cut from: it is sewn from cloth, and stiffened by what is
/// fused on.
pub(super) fn wrong_layers(writing: Writing, layer: &Name, stiffened: Option<&Name>) -> Vec<Diagnostic> {
    let all = || writing.known.nodes().filter_map(as_layer);
    let find = |name: &Name| all().find(|own| own.name.text == name.text);
    let wrong = |name: &Name, declared: &Layer, title: String, help: String| {
        let mistake = Diagnostic::new(&catalogue::BAND_LAYER, name.span, title);
        mistake.label("this layer").also(declared.name.span, "declared here").help(help)
    };
    let mut mistakes = Vec::new();
    let own = &writing.name.text;
    if let Some(found) = find(layer).filter(|found| found.fused) {
        let title = format!("{own} is cut in {}, which is fused on and not sewn", layer.text);
        let help = format!("name the layer of its cloth, and write stiffened {} as well", layer.text);
        mistakes.push(wrong(layer, found, title, help));
    }
    let Some(stiffened) = stiffened else { return mistakes };
    match find(stiffened) {
        Some(found) if !found.fused => {
            let title = format!("{own} is stiffened by {}, which is sewn and not fused on", stiffened.text);
            mistakes.push(wrong(stiffened, found, title, "name a layer that is fused".to_owned()));
        }
        Some(_) => {}
        None => {
            let title = format!("there is no layer called {}", stiffened.text);
            let mistake =
                Diagnostic::new(&catalogue::NAME_UNKNOWN, stiffened.span, title).label("no such layer");
            let fused = || all().filter(|own| own.fused).map(|own| &*own.name.text);
            mistakes.push(match nearest(&stiffened.text, fused()) {
                Some(near) => mistake.did_you_mean(stiffened.span, near),
                None => mistake.help("name a layer that is fused: layer firm in stay fused { … }"),
            });
        }
    }
    mistakes
}

fn as_layer(node: &StatementNode) -> Option<&Layer> {
    match node {
        StatementNode::Layer(layer) => Some(layer),
        _ => None,
    }
}
