use crate::garment::{Garment, NotionName, Price};
use crate::sewing::{NotionNeed, NotionSource};
use std::sync::Arc;

/// What something comes to, in the currency as the maker writes it.
#[derive(Clone, Debug, PartialEq)]
pub struct Cost {
    /// How much.
    pub amount: f64,
    /// Of what; none where prices are plain numbers.
    pub currency: Option<Arc<str>>,
}

/// All costs in one currency.
pub type Total = Cost;

/// What so many pieces (of a price each), or so much length (of a price per unit of length), cost.
/// None where the price is of the other kind and what it needs is not known.
pub fn cost_of(price: &Price, count: Option<f64>, length: Option<f64>) -> Option<Cost> {
    let amount = match price.per {
        None => price.amount * count?,
        Some(unit) => price.amount * (count.unwrap_or(1.0) * length? / unit.millimetres()?),
    };
    Some(Cost { amount, currency: price.currency.clone() })
}

/// The price of a need: what the maker lists has its own; else the price that names it most closely,
/// of several the last.
pub fn price_of<'a>(garment: &'a Garment, need: &NotionNeed) -> Option<&'a Price> {
    if let NotionSource::Listed(id) = need.source
        && let Some(own) = &garment.notion(id).price
    {
        return Some(own);
    }
    let priced = garment.notions.iter().filter_map(|notion| Some((&notion.name, notion.price.as_ref()?)));
    let fitting = priced.filter(|(name, _)| name.covers(&need.name));
    let rank = |name: &NotionName| (name.closeness(), name.off(&need.name).unwrap_or(f64::INFINITY));
    fitting
        .max_by(|(one, _), (other, _)| {
            let ((one, one_off), (other, other_off)) = (rank(one), rank(other));
            one.cmp(&other).then(other_off.total_cmp(&one_off))
        })
        .map(|(_, price)| price)
}

/// The sums of costs, one a currency, in the order in which currencies first occur.
pub fn totals<'a>(costs: impl IntoIterator<Item = &'a Cost>) -> Vec<Total> {
    let mut totals: Vec<Total> = Vec::new();
    for cost in costs {
        match totals.iter_mut().find(|total| total.currency == cost.currency) {
            Some(total) => total.amount += cost.amount,
            None => totals.push(cost.clone()),
        }
    }
    totals
}
