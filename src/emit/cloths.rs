//! What is known of the cloths that a garment is cut from, for the document.

use super::documents::{ClothFactsDocument, ClothKindDocument, PriceDocument, TwoWaysDocument};
use super::number::Figure;
use crate::garment::{Expression, FabricId, Garment, TwoWays};
use crate::resolve::SizedGarment;
use crate::sewing::amount_of;
use crate::syntax::tree::ClothKind;

/// The cloths of the layers, each once, in the order in which layers first need them.
pub(super) fn cloths(garment: &Garment, sized: &SizedGarment) -> Vec<ClothFactsDocument> {
    let mut used: Vec<FabricId> = Vec::new();
    for fabric in garment.layers.iter().filter_map(|layer| layer.fabric) {
        if !used.contains(&fabric) {
            used.push(fabric);
        }
    }
    used.into_iter().map(|fabric| cloth(garment, sized, fabric)).collect()
}

fn cloth(garment: &Garment, sized: &SizedGarment, id: FabricId) -> ClothFactsDocument {
    let said = garment.fabric(id);
    let value = |expression: &Option<Expression>| {
        expression.as_ref().and_then(|expression| amount_of(garment, sized, expression)).map(Figure)
    };
    let ways = |ways: &TwoWays| {
        let (along, across) = (value(&ways.along), value(&ways.across));
        (along.is_some() || across.is_some()).then_some(TwoWaysDocument { along, across })
    };
    let layers = garment.layers.iter().filter(|layer| layer.fabric == Some(id));
    ClothFactsDocument {
        name: said.name.to_string(),
        label: said.title.to_string(),
        layers: layers.map(|layer| layer.name.to_string()).collect(),
        width: value(&said.width),
        tubular: said.tubular,
        selvage: value(&said.selvage),
        one_way: said.one_way,
        kind: said.kind.map(|kind| match kind {
            ClothKind::WovenFirm => ClothKindDocument::WovenFirm,
            ClothKind::WovenSupple => ClothKindDocument::WovenSupple,
            ClothKind::Knit => ClothKindDocument::Knit,
            ClothKind::Leather => ClothKindDocument::Leather,
        }),
        raised: said.raised.is_some(),
        thickness: value(&said.thickness),
        stretch: ways(&said.stretch),
        shrink: ways(&said.shrink),
        repeat: ways(&said.repeat),
        price: said.price.as_ref().map(|price| PriceDocument {
            amount: Figure(price.amount),
            currency: price.currency.as_deref().map(str::to_owned),
            per: price.per.and_then(|unit| unit.millimetres()).map(Figure),
        }),
    }
}
