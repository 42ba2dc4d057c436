//! Sizes that are layers of a plain drawing.

use super::gather::{OVERLAP, share};
use super::item::{Item, SIGN, What};
use super::roles::{Role, by_word};
use crate::bring::read::inside::Inside;
use crate::bring::read::letters::shown;
use crate::bring::read::said::{ending_in_size, named_size};
use crate::bring::{ReadOptions, SizesFrom};
use crate::limits;
use indexmap::{IndexMap, IndexSet};
use std::collections::HashSet;

/// What each size draws, and what of the drawing belongs to none.
pub(super) struct BySize {
    /// By size all that is on its layer, and what is on no size's.
    pub sizes: Vec<(String, Vec<Item>)>,
    /// How many points are on no size's layer, counted in every size.
    pub copies: usize,
    /// The layers that are sizes.
    pub layers: HashSet<String>,
    /// Closed lines on other layers that go round a size's outline, and are left out: their layers and lines.
    pub around: Vec<(String, usize)>,
}

/// Of more outlines on layers of no size than this it is not asked what they go round: then layers are something else.
const MOST_OTHERS: usize = 50;
/// Of more outlines than this it is not asked whether they lie over one another.
const MOST_COMPARED: usize = 500;

/// What each size draws, where layers are sizes: where the maker says so, or where two or more that hold outlines are named for
/// sizes and most outlines lie on them. Where nobody said it, a layer of another name is no size: what is drawn on it is the same
/// in all of them.
pub(super) fn by_size(items: &[Item], options: &ReadOptions) -> Option<BySize> {
    if options.sizes_from == Some(SizesFrom::Names) {
        return None;
    }
    let is_said = options.sizes_from.is_some();
    let outlines: Vec<(&Item, Inside)> =
        items.iter().filter_map(|item| Some((item, outline(item)?))).collect();
    let stem = if is_said { None } else { common_stem(&outlines) };
    let size_of = |layer: &str| {
        named_size(layer).map(str::to_owned).or_else(|| {
            let (own, size) = ending_in_size(layer)?;
            (stem.as_ref() == Some(&own.to_lowercase())).then(|| size.to_owned())
        })
    };
    let mut sizes: IndexMap<&str, String> = IndexMap::new();
    for (item, _) in &outlines {
        let layer = &*item.layer;
        if sizes.contains_key(layer) {
            continue;
        }
        if let Some(size) = size_of(layer).or_else(|| is_said.then(|| layer.to_owned())) {
            sizes.insert(layer, size);
        }
    }
    if sizes.is_empty() || (sizes.len() < 2 && !is_said) {
        return None;
    }
    let (own, others): (Vec<_>, Vec<_>) =
        outlines.iter().partition(|(item, _)| sizes.contains_key(&*item.layer));
    // Pieces mostly on layers of no size: then layers are something else.
    if others.len() >= own.len() || others.len() > MOST_OTHERS {
        return None;
    }
    let around: IndexMap<usize, String> = others
        .iter()
        .filter(|(_, other)| own.iter().any(|(_, size)| goes_round(other, size)))
        .map(|(item, _)| (item.line, item.layer.to_string()))
        .collect();
    let is_common = |item: &&Item| {
        !sizes.contains_key(&*item.layer) && around.get(&item.line).is_none_or(|_| outline(item).is_none())
    };
    let of_layer = |layer: &str| {
        let belongs = |item: &&Item| &*item.layer == layer || is_common(item);
        items.iter().filter(belongs).cloned().collect()
    };
    let common: usize = items.iter().filter(is_common).map(Item::points).sum();
    let copies = common.saturating_mul(sizes.len());
    Some(BySize {
        // Of more than a drawing may hold they are only counted: each holds all that is on no size's layer.
        sizes: match sizes.len() > limits::SIZES || copies > limits::DRAWING_POINTS {
            true => sizes.values().map(|size| (size.clone(), Vec::new())).collect(),
            false => sizes.iter().map(|(layer, size)| (size.clone(), of_layer(layer))).collect(),
        },
        copies,
        layers: sizes.keys().map(|layer| (*layer).to_owned()).collect(),
        around: around.into_iter().map(|(line, layer)| (layer, line)).collect(),
    })
}

/// What is said of a closed line that goes round the outlines of sizes and is left out.
pub(super) fn left_out(layer: &str, line: usize, file: &str) -> String {
    format!(
        "a closed line on layer {} (line {line} of {file}) goes round pieces in several sizes, and is left out: the layer is not \
         called like a size, and the others are; `sizes-from` says that each layer is one",
        shown(layer)
    )
}

/// Whether one outline is larger than the other and holds its middle and all its bounds.
pub(super) fn goes_round(one: &Inside, other: &Inside) -> bool {
    let (around, within) = (one.bounds(), other.bounds());
    one.area() > other.area()
        && around.inflate(SIGN, SIGN).union(within) == around.inflate(SIGN, SIGN)
        && one.holds(within.center())
}

/// What the names of layers begin with that end with sizes, such as `Pattern 36` and `Pattern 38`, if that is the same for all of
/// them and what is drawn on one lies over what is drawn on another: layers that are only numbered hold pieces beside one another.
fn common_stem(outlines: &[(&Item, Inside)]) -> Option<String> {
    let mut stems: IndexSet<String> = IndexSet::new();
    let mut layers: IndexMap<&str, Vec<&Inside>> = IndexMap::new();
    for (item, inside) in outlines.iter().take(MOST_COMPARED) {
        if let Some((stem, _)) = ending_in_size(&item.layer).filter(|_| named_size(&item.layer).is_none()) {
            stems.insert(stem.to_lowercase());
            layers.entry(&*item.layer).or_default().push(inside);
        }
    }
    let first = layers.values().next()?;
    let lies_over = |own: &Vec<&Inside>| {
        let over = |one: &Inside| first.iter().any(|other| share(one.bounds(), other.bounds()) >= OVERLAP);
        own.iter().any(|one| over(one))
    };
    let are_sizes = stems.len() == 1 && layers.len() > 1 && layers.values().skip(1).all(lies_over);
    stems.into_iter().next().filter(|_| are_sizes)
}

/// The outline that a thing may be.
pub(super) fn outline(item: &Item) -> Option<Inside> {
    match &item.what {
        What::Path(path) if path.closed && by_word(&item.layer) == Role::Unknown => {
            Some(Inside::of(path)).filter(|inside| inside.size() >= SIGN)
        }
        _ => None,
    }
}
