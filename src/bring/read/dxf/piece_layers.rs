//! Layers of a plain drawing that are named for a piece and a size each: `FRONT_30`, `FRONT_32`, `YOKE_30` …

use super::gather::Gathering;
use super::item::{Item, SIGN, What};
use super::layers::{goes_round, left_out, outline};
use super::outlines::split;
use super::sized::drawn;
use crate::bring::read::inside::Inside;
use crate::bring::read::letters::base_name;
use crate::bring::read::said::ending_in_size;
use crate::bring::{BringError, ReadOptions, SizesFrom};
use crate::limits;
use indexmap::{IndexMap, IndexSet};

/// Of more layers than this it is not asked: no pattern has more pieces and sizes.
const MOST_LAYERS: usize = limits::DRAWING_PIECES;
/// A piece is no more than so many times as wide or as high in one size as in another.
const UNLIKE: f64 = 2.0;

/// What a piece draws in one size.
struct Layer {
    stem: String,
    size: String,
    outline: Inside,
    items: Vec<Item>,
}

/// What each piece draws in each size, and what lies on other layers.
pub(super) struct PieceLayers {
    layers: IndexMap<String, Layer>,
    others: Vec<Item>,
}

/// The pieces whose layers are named so: two or more of them, each with one outline a layer in two or more sizes, which most of them
/// share. None where anything else tells sizes apart.
pub(super) fn piece_layers(items: &[Item], options: &ReadOptions) -> Option<PieceLayers> {
    if options.sizes_from == Some(SizesFrom::Layers) {
        return None;
    }
    let mut layers: IndexMap<String, Layer> = IndexMap::new();
    let mut elsewhere = 0;
    for item in items {
        let Some(own) = outline(item) else { continue };
        let Some((stem, size)) = ending_in_size(&item.layer) else {
            elsewhere += 1;
            continue;
        };
        let layer = layers.entry(item.layer.to_string()).or_insert_with(|| Layer {
            stem: stem.to_owned(),
            size: size.to_owned(),
            outline: own.clone(),
            items: Vec::new(),
        });
        // What lies in the outline is a line of the piece; two beside one another are two pieces.
        let (larger, smaller) =
            if own.area() > layer.outline.area() { (&own, &layer.outline) } else { (&layer.outline, &own) };
        let around = larger.bounds().inflate(SIGN, SIGN);
        if around.union(smaller.bounds()) != around || layers.len() > MOST_LAYERS {
            return None;
        }
        if own.area() > layer_area(&layers, &item.layer)
            && let Some(layer) = layers.get_mut(&*item.layer)
        {
            layer.outline = own;
        }
    }
    if !are_pieces(&layers) || elsewhere >= layers.len() {
        return None;
    }
    let mut others = Vec::new();
    for item in items {
        match layers.get_mut(&*item.layer) {
            Some(layer) => layer.items.push(item.clone()),
            None => others.push(item.clone()),
        }
    }
    Some(PieceLayers { layers, others })
}

fn layer_area(layers: &IndexMap<String, Layer>, name: &str) -> f64 {
    layers.get(name).map_or(0.0, |layer| layer.outline.area())
}

/// Whether what layers are named before their sizes are pieces: as large in one size as in the next, but for what they grow.
fn are_pieces(layers: &IndexMap<String, Layer>) -> bool {
    let mut pieces: IndexMap<String, Vec<&Layer>> = IndexMap::new();
    let mut sizes: IndexMap<String, usize> = IndexMap::new();
    for layer in layers.values() {
        pieces.entry(layer.stem.to_lowercase()).or_default().push(layer);
        *sizes.entry(layer.size.to_uppercase()).or_default() += 1;
    }
    let is_one = |own: &Vec<&Layer>| {
        let long = |of: fn(&Inside) -> f64| {
            let each = || own.iter().map(|layer| of(&layer.outline).max(f64::MIN_POSITIVE));
            each().fold(0.0, f64::max) / each().fold(f64::INFINITY, f64::min)
        };
        let sizes: IndexSet<String> = own.iter().map(|layer| layer.size.to_uppercase()).collect();
        sizes.len() == own.len()
            && long(|one| one.bounds().width()) <= UNLIKE
            && long(|one| one.bounds().height()) <= UNLIKE
    };
    let whole = pieces.values().filter(|own| own.len() == sizes.len()).count();
    pieces.len() > 1 && sizes.len() > 1 && 2 * whole > pieces.len() && pieces.values().all(is_one)
}

/// Puts those pieces to the others.
///
/// # Errors
/// What parting a drawing by its outlines fails of.
pub(super) fn gather(
    found: PieceLayers,
    (file, whose): (&str, &str),
    gathering: &mut Gathering,
) -> Result<(), BringError> {
    let PieceLayers { mut layers, others } = found;
    let is_frame = |item: &Item| {
        outline(item).is_some_and(|own| layers.values().any(|layer| goes_round(&own, &layer.outline)))
    };
    let (frames, others): (Vec<Item>, Vec<Item>) = others.into_iter().partition(is_frame);
    for frame in frames {
        gathering.remarks.push(left_out(&frame.layer, frame.line, base_name(file)));
    }
    let (mut beside, mut between) = (Vec::new(), 0);
    for item in others {
        let at = item.middle();
        let said = ending_in_size(&item.layer).map(|(_, size)| size.to_uppercase());
        let is_of_size = |layer: &Layer| {
            said.as_ref().is_none_or(|size| *size == layer.size.to_uppercase()) && layer.outline.holds(at)
        };
        let holding: Vec<usize> =
            layers.values().enumerate().filter(|(_, layer)| is_of_size(layer)).map(|(at, _)| at).collect();
        let stems: IndexSet<String> =
            holding.iter().filter_map(|at| Some(layers.get_index(*at)?.1.stem.to_lowercase())).collect();
        match stems.len() {
            0 => beside.push(item),
            1 => holding.iter().for_each(|at| {
                if let Some((_, layer)) = layers.get_index_mut(*at) {
                    layer.items.push(item.clone());
                }
            }),
            _ => between += usize::from(!matches!(item.what, What::Words(..))),
        }
    }
    if between > 0 {
        gathering.remarks.push(format!(
            "{between} things on other layers of {} lie in several pieces, and are left out: what belongs to a piece wants its layer",
            base_name(file)
        ));
    }
    for (_, layer) in layers {
        let parted = split(layer.items, file, whose)?;
        gathering.wrong.extend(parted.wrong);
        for mut cluster in parted.clusters {
            cluster.size = Some(layer.size.clone());
            let (name, line) = (cluster.layer.clone(), cluster.line);
            let mut own = drawn(cluster, false);
            own.name = Some(layer.stem.clone());
            gathering.named_layer((&name, line), own);
        }
        gathering.outside(&parted.rest);
    }
    let parted = split(beside, file, whose)?;
    for cluster in parted.clusters {
        let (name, line) = (cluster.layer.clone(), cluster.line);
        gathering.add(None, (1, 0), (&name, line), drawn(cluster, false));
    }
    gathering.outside(&parted.rest);
    Ok(())
}
