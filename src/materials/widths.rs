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
        for &width in widths.iter().filter(|width| (own.width - **width).abs() >= SAME_WIDTH) {
            others.push(cloth_at(garment, size, own.fabric, width, short));
        }
    }
    others.sort_by(|one, other| one.fabric.cmp(&other.fabric).then(one.width.total_cmp(&other.width)));
    all.other_widths = others;
    widen(&mut all);
    all
}

/// Lays anew, with all that an order allows, what takes more cloth in a size than in one after it: the short search was unlucky
/// with it. Sizes are the smallest first, and each has its needs.
pub fn even_out(garment: &Garment, sizes: &[&WorkedSize], all: &mut [Needs], order: LayOrder) {
    let count = all.iter().map(|needs| needs.other_widths.len()).max().unwrap_or(0);
    let mut changed = false;
    for nth in 0..count {
        let lengths: Vec<f64> =
            all.iter().map(|needs| needs.other_widths.get(nth).map_or(f64::INFINITY, length)).collect();
        for (at, (own, size)) in all.iter_mut().zip(sizes).enumerate() {
            let after = lengths.iter().skip(at + 1).copied().fold(f64::INFINITY, f64::min);
            let Some(need) = own.other_widths.get_mut(nth).filter(|need| length(need) > after) else {
                continue;
            };
            let again = cloth_at(garment, size, need.fabric, need.width, order);
            if length(&again) < length(need) {
                *need = again;
                changed = true;
            }
        }
    }
    if changed {
        all.iter_mut().for_each(widen);
    }
}

/// What lies on a narrow cloth lies on a wider one too.
fn widen(all: &mut Needs) {
    let others = &mut all.other_widths;
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
