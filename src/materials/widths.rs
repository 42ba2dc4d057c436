//! Cloth at the widths that shops have beside its own.

use super::garment_lay::{GarmentLay, LayOrder};
use super::needs::{ClothNeed, Needs, cloth_at, needs};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::lay::{Allowance, Effort};

/// Widths that cloth for clothes is sold in, in millimetres: 115 cm (45 in) and 150 cm (60 in), common practice.
pub const USUAL_WIDTHS: [f64; 2] = [1150.0, 1500.0];

/// Widths that differ by less are one, in millimetres: 150 cm and 60 in are sold as the same.
const SAME_WIDTH: f64 = 30.0;

/// What is needed in a size with each cloth at its own width, and beside that at each of these; what is not woven or knit as
/// a tube, and is not fused on, alone. The other widths are searched for shortly.
pub fn needs_at_widths(garment: &Garment, size: &WorkedSize, order: LayOrder, widths: &[f64]) -> Needs {
    let mut all = needs(garment, size, order, &[]);
    if widths.is_empty() {
        return all;
    }
    let allowance = match order.allowance {
        Allowance::Work(_) => Allowance::Work(Effort::Brief),
        until => until,
    };
    let short = LayOrder { allowance, ..order };
    let mut others: Vec<ClothNeed> = Vec::new();
    for own in &all.cloths {
        let fused = garment.layers.iter().any(|layer| layer.fabric == Some(own.fabric) && layer.fused);
        if fused || garment.fabric(own.fabric).tubular {
            continue;
        }
        // It is spread as it is best spread at its own width, unless that does not hold the pieces.
        let spread = own.laid.as_ref().ok().map(|(lay, _)| lay.spread);
        for &width in widths.iter().filter(|width| (own.width - **width).abs() >= SAME_WIDTH) {
            let alike = cloth_at(garment, size, own.fabric, width, LayOrder { spread, ..short });
            others.push(match alike.laid {
                Ok(_) => alike,
                Err(_) => cloth_at(garment, size, own.fabric, width, short),
            });
        }
    }
    // What lies on a narrow cloth lies on a wider one too.
    others.sort_by(|one, other| one.fabric.cmp(&other.fabric).then(one.width.total_cmp(&other.width)));
    for at in 0..others.len() {
        let narrower = all.cloths.iter().chain(&others[..at]);
        let narrower =
            narrower.filter(|narrow| narrow.fabric == others[at].fabric && narrow.width <= others[at].width);
        let best = narrower
            .filter(|narrow| narrow.laid.is_ok())
            .min_by(|one, other| length(one).total_cmp(&length(other)))
            .cloned();
        if let Some(best) = best.filter(|best| length(best) < length(&others[at])) {
            others[at] = widened(best, others[at].width);
        }
    }
    all.other_widths = others;
    all
}

fn length(need: &ClothNeed) -> f64 {
    need.laid.as_ref().map_or(f64::INFINITY, |(lay, _)| lay.length)
}

/// The same lay on a wider cloth: more of it is left over.
fn widened(need: ClothNeed, width: f64) -> ClothNeed {
    let laid = need.laid.map(|(lay, bought)| {
        let mut cloth = lay.cloth;
        cloth.width = width;
        let across = cloth.usable(lay.spread);
        let usage = lay.usage * lay.width / across;
        (GarmentLay { cloth, width: across, usage, ..lay }, bought)
    });
    ClothNeed { width, laid, ..need }
}
