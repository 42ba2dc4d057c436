//! Everything that a garment needs in one size, and what it costs.

use super::binding::{BindingCut, binding_cut};
use super::buying::{Buying, buying};
use super::cost::{Cost, Total, cost_of, price_of, totals};
use super::garment_lay::{GarmentLay, LayOrder, LayTrouble, cloths_of, lay_garment};
use super::thread::{ThreadNeed, thread_needs};
use crate::cutting::{Cloth, WorkedSize};
use crate::garment::{FabricId, Garment, NotionKind, SizeId};
use crate::sewing::{NotionNeed, NotionSource};

/// Everything that is needed in one size.
#[derive(Clone, Debug)]
pub struct Needs {
    /// The size.
    pub size: SizeId,
    /// Cloths in the order of the garment, each at its own width or at all that are asked for.
    pub cloths: Vec<ClothNeed>,
    /// The same cloths at other widths, in which they may be sold.
    pub other_widths: Vec<ClothNeed>,
    /// Beside cloth, in the order of [`crate::sewing::Sewing::notions`].
    pub notions: Vec<NotionNeedCost>,
    /// By stitch.
    pub thread: Vec<ThreadNeed>,
    /// What is known of the price: one sum a currency. Nothing where other widths are asked for.
    pub totals: Vec<Total>,
    /// What has no price.
    pub unpriced: Vec<Unpriced>,
}

/// Something without a price.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unpriced {
    /// A cloth.
    Cloth(FabricId),
    /// A notion, by its place in [`Needs::notions`].
    Notion(usize),
}

/// A cloth at one width.
#[derive(Clone, Debug)]
pub struct ClothNeed {
    /// The fabric.
    pub fabric: FabricId,
    /// How wide it is, as sold.
    pub width: f64,
    /// How it is laid and how much is bought, or why it cannot be laid.
    pub laid: Result<(GarmentLay, Buying), LayTrouble>,
    /// What it costs; none where there is no price.
    pub cost: Option<Cost>,
}

/// Something to buy beside cloth.
#[derive(Clone, Debug, PartialEq)]
pub struct NotionNeedCost {
    /// What.
    pub need: NotionNeed,
    /// Of a binding: how it is cut from cloth instead.
    pub binding: Option<BindingCut>,
    /// What it costs.
    pub cost: Option<Cost>,
}

/// What a garment needs in a size. Without `widths` each cloth is laid at its own width, else at
/// each of these, in millimetres.
pub fn needs(garment: &Garment, size: &WorkedSize, order: LayOrder, widths: &[f64]) -> Needs {
    put_together(garment, size, cloth_needs(garment, size, order, widths), widths.is_empty())
}

/// What it needs without cloth, which has to be laid out to be known.
pub fn needs_beside_cloth(garment: &Garment, size: &WorkedSize) -> Needs {
    put_together(garment, size, Vec::new(), false)
}

/// The cloths, each at its own width or at each of these.
fn cloth_needs(garment: &Garment, size: &WorkedSize, order: LayOrder, widths: &[f64]) -> Vec<ClothNeed> {
    let own = |fabric| Cloth::of(garment, &size.drawn, fabric).map_or(0.0, |cloth| cloth.width);
    let mut cloths = Vec::new();
    for fabric in cloths_of(garment, &[size]) {
        let asked = if widths.is_empty() { vec![own(fabric)] } else { widths.to_vec() };
        cloths.extend(asked.into_iter().map(|width| cloth_at(garment, size, fabric, width, order)));
    }
    cloths
}

/// One cloth at one width.
pub(super) fn cloth_at(
    garment: &Garment,
    size: &WorkedSize,
    fabric: FabricId,
    width: f64,
    order: LayOrder,
) -> ClothNeed {
    // The squares that bindings are cut from lie one after the other beyond the lay.
    let bindings: f64 = bindings_of(size, fabric).iter().map(|cut| cut.square).sum();
    let at_width = LayOrder { width: Some(width), ..order };
    let laid = lay_garment(garment, &[size], fabric, at_width, &mut |_| {}).map(|lay| {
        let bought = buying(&lay.cloth, lay.length + bindings, lay.main_length, garment.unit);
        (lay, bought)
    });
    let price = garment.fabric(fabric).price.as_ref();
    let cost = price
        .zip(laid.as_ref().ok())
        .and_then(|(price, (_, bought))| cost_of(price, None, Some(bought.to_buy)));
    ClothNeed { fabric, width, laid, cost }
}

/// All of it; with sums where all cloths are among it, each once.
fn put_together(garment: &Garment, size: &WorkedSize, cloths: Vec<ClothNeed>, summed: bool) -> Needs {
    let notions = notions(garment, size);
    let without = cloths.iter().filter(|cloth| cloth.cost.is_none());
    let mut unpriced: Vec<Unpriced> = without.map(|cloth| Unpriced::Cloth(cloth.fabric)).collect();
    let without = notions.iter().enumerate();
    let without = without.filter(|(_, notion)| notion.cost.is_none() && notion.need.cut_from.is_none());
    unpriced.extend(without.map(|(at, _)| Unpriced::Notion(at)));
    let costs = cloths.iter().filter_map(|cloth| cloth.cost.as_ref());
    let costs: Vec<Cost> =
        costs.chain(notions.iter().filter_map(|notion| notion.cost.as_ref())).cloned().collect();
    let totals = if summed { totals(&costs) } else { Vec::new() };
    Needs {
        size: size.id(),
        totals,
        thread: thread_needs(garment, &size.drawn, &size.sewn),
        cloths,
        other_widths: Vec::new(),
        notions,
        unpriced,
    }
}

/// The bindings that are cut from a fabric.
fn bindings_of(size: &WorkedSize, fabric: FabricId) -> Vec<BindingCut> {
    let own = size.sewn.notions.iter().filter(|need| need.cut_from == Some(fabric));
    own.filter_map(|need| Some(binding_cut(need.name.measure?, need.length?))).collect()
}

fn notions(garment: &Garment, size: &WorkedSize) -> Vec<NotionNeedCost> {
    let needs = size.sewn.notions.iter();
    needs
        .map(|need| {
            let bound = matches!(need.source, NotionSource::Finish(_) | NotionSource::Seam(_))
                && need.name.kind == NotionKind::Binding;
            let finished = need.name.measure.filter(|_| bound);
            let binding = finished.zip(need.length).map(|(width, length)| binding_cut(width, length));
            let price = price_of(garment, need).filter(|_| need.cut_from.is_none());
            let count = need.count.map(f64::from).or(need.length.is_none().then_some(1.0));
            let cost = price.and_then(|price| cost_of(price, count, need.length));
            NotionNeedCost { need: need.clone(), binding, cost }
        })
        .collect()
}
