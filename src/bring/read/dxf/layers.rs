//! Sizes that are layers of a plain drawing.

use super::item::{Item, SIGN, What};
use super::roles::{Role, by_word};
use crate::bring::read::inside::Inside;
use crate::bring::read::said::named_size;
use crate::bring::{ReadOptions, SizesFrom};
use indexmap::IndexMap;

/// What each size draws, where layers are sizes: all that is on its layer, and what is on no size's. Layers are sizes
/// where the maker says so, or where two or more that hold outlines are named for sizes and no other layer holds one.
pub(super) fn by_size(items: &[Item], options: &ReadOptions) -> Option<Vec<(String, Vec<Item>)>> {
    if options.sizes_from == Some(SizesFrom::Names) {
        return None;
    }
    let mut sizes: IndexMap<&str, String> = IndexMap::new();
    for item in items {
        let layer = &*item.layer;
        if sizes.contains_key(layer) || !is_outline(item) {
            continue;
        }
        match (named_size(layer), options.sizes_from) {
            (Some(size), _) => sizes.insert(layer, size.to_owned()),
            (None, Some(_)) => sizes.insert(layer, layer.to_owned()),
            // Pieces on a layer of no size: then layers are something else.
            (None, None) => return None,
        };
    }
    let is_said = options.sizes_from.is_some();
    if sizes.is_empty() || (sizes.len() < 2 && !is_said) {
        return None;
    }
    let own = |layer: &str| {
        items
            .iter()
            .filter(|item| &*item.layer == layer || !sizes.contains_key(&*item.layer))
            .cloned()
            .collect()
    };
    Some(sizes.iter().map(|(layer, size)| (size.clone(), own(layer))).collect())
}

fn is_outline(item: &Item) -> bool {
    match &item.what {
        What::Path(path) if path.closed && by_word(&item.layer) == Role::Unknown => {
            Inside::of(path).size() >= SIGN
        }
        _ => false,
    }
}
