//! Layers of one size that stand inside the layer of another one: dragged there by a slip.

use super::elements::{Elements, Item};
use super::sizes::{Owner, is_outline, own_name, size_in};
use crate::size_letters::place_of;
use indexmap::{IndexMap, IndexSet};

/// A layer inside of another one.
struct Nested {
    group: usize,
    size: String,
    within: String,
}

/// Puts what stands in such a layer into that one, and not into the outer one.
pub fn put_apart(drawing: &Elements, layers: &mut [Option<usize>]) {
    let nested = nested(drawing, layers);
    for (item, layer) in drawing.items.iter().zip(layers) {
        let inner = item.groups.iter().rev().find(|group| nested.iter().any(|own| own.group == **group));
        *layer = inner.copied().or(*layer);
    }
}

/// What is said of such layers, if their names are taken for sizes.
pub fn told(drawing: &Elements, layers: &[Option<usize>], owners: &[Owner]) -> Vec<String> {
    let is_taken = |own: &Nested| {
        let mut inside =
            drawing.items.iter().zip(owners).filter(|(item, _)| item.groups.contains(&own.group));
        inside.any(|(_, owner)| owner.size.as_ref() == Some(&own.size))
    };
    let taken = nested(drawing, layers).into_iter().filter(is_taken);
    taken
        .map(|Nested { size, within, .. }| {
            format!("the layer of size {size} stands inside that of size {within}: what is drawn in it is taken for {size}; move it out")
        })
        .collect()
}

/// A layer inside of another one is a size if only it is called so, and both draw pieces of one name: a left and a right half, `L` and
/// `R`, are none.
fn nested(drawing: &Elements, layers: &[Option<usize>]) -> Vec<Nested> {
    let mut by_size: IndexMap<String, Vec<usize>> = IndexMap::new();
    for (group, name) in drawing.groups.iter().enumerate() {
        if let Some(size) = name.as_deref().and_then(size_in) {
            by_size.entry(size).or_default().push(group);
        }
    }
    let only = by_size.into_iter().filter_map(|(size, groups)| match *groups {
        [group] => Some((size, group)),
        _ => None,
    });
    let named_in = |is_in: &dyn Fn(&Item) -> bool| -> IndexSet<String> {
        let outlines = drawing.items.iter().filter(|item| item.paths.iter().any(is_outline) && is_in(item));
        outlines.filter_map(|item| own_name(drawing, item)).collect()
    };
    let found = only.filter_map(|(size, group)| {
        let layer = drawing.items.iter().zip(layers).find(|(item, _)| item.groups.contains(&group))?.1;
        let layer = layer.filter(|layer| *layer != group)?;
        let within = drawing.groups.get(layer)?.as_deref().and_then(size_in)?;
        let is_alike = place_of(&size).is_some() == place_of(&within).is_some();
        let inner = named_in(&|item| item.groups.contains(&group));
        let outer = named_in(&|item| item.groups.contains(&layer) && !item.groups.contains(&group));
        let shares = inner.iter().any(|name| outer.contains(name));
        (is_alike && shares && size != within).then_some(Nested { group, size, within })
    });
    found.collect()
}
