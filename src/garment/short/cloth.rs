//! What is written of a cloth.

use super::known::Known;
use crate::syntax::tree::{ClothKind, ExprKind, FabricFactNode, Name, StatementNode, Unit};

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
