//! Which size of which piece a shape belongs to, by what it and its groups are called.

use super::elements::{Elements, Item, Words};
use super::line_names::{is_line, size_behind};
use super::nested_layers;
use super::open_sew::is_called_sewn;
use crate::bring::read::SizesFrom;
use crate::bring::traced::TracedPath;
use crate::size_letters::place_of;
use indexmap::IndexMap;

/// What a shape belongs to.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Owner {
    /// The piece's name, where something says it.
    pub piece: Option<String>,
    /// The size's name, where something says it.
    pub size: Option<String>,
}

/// By shape, what it belongs to. Where nothing is said of how sizes are told apart, it is by layers if those are called
/// like sizes, else by names if these end with sizes, else there are none.
pub fn owners(drawing: &Elements, from: Option<SizesFrom>) -> Vec<Owner> {
    let mut layers = layers(drawing);
    nested_layers::put_apart(drawing, &mut layers);
    let marked = marked(drawing);
    let is_said = from.is_some();
    let from = from.or_else(|| {
        // Only where outlines may stand: notes have a layer of their own that is no size.
        let stands = outlines(drawing);
        let outlines = drawing.items.iter().zip(&layers).filter(|(item, _)| stands(item));
        let groups = outlines.filter_map(|(_, layer)| drawing.groups.get((*layer)?)?.as_deref());
        let names: Vec<&str> = groups.collect();
        let mut unlike: Vec<&str> = names.iter().copied().filter(|name| size_in(name).is_some()).collect();
        let like_sizes = unlike.len();
        unlike.sort_unstable();
        unlike.dedup();
        // A frame or a square may stand in a layer of its own; what most outlines stand in says what layers are.
        let is_only = || layers.iter().flatten().any(|layer| is_only_size(drawing, *layer));
        if (unlike.len() >= 2 || unlike.len() == 1 && is_only()) && 2 * like_sizes > names.len() {
            return Some(SizesFrom::Layers);
        }
        let closed = drawing.items.iter().filter(|item| item.paths.iter().any(|path| path.closed));
        let mut stems: IndexMap<String, usize> = IndexMap::new();
        let mut plain = false;
        // A piece's sew line is no second outline of it.
        for item in closed.filter(|item| !item.name.as_ref().is_some_and(|name| is_called_sewn(name))) {
            if let Some((stem, size)) = parted(&called(drawing, item)) {
                *stems.entry(stem).or_insert(0) += 1;
                // `pocket 1` and `pocket 2` may be two pockets.
                plain |= size.len() > 1 || size.bytes().all(|one| !one.is_ascii_digit());
            }
        }
        (plain && stems.values().any(|count| *count >= 2)).then_some(SizesFrom::Names)
    });
    let owner = |((item, layer), mark): ((&Item, &Option<usize>), &Option<String>)| match from {
        Some(SizesFrom::Layers) => {
            let name = layer.and_then(|group| drawing.groups.get(group)?.clone());
            // Where nobody said that layers are sizes, those of other names are none.
            let size = name.and_then(|name| size_in(&name).or(is_said.then_some(name)));
            let inner = item.groups.iter().skip_while(|group| Some(**group) != *layer).skip(1);
            let groups = inner.filter_map(|group| drawing.groups.get(*group)?.clone());
            let own = item.name.clone().into_iter().chain(groups.collect::<Vec<_>>().into_iter().rev());
            let piece = own
                .filter(|name| names_a_piece(name))
                .map(|name| without_size(&name, size.as_deref()))
                .next();
            Owner { piece, size }
        }
        Some(SizesFrom::Names) => match parted(&called(drawing, item)) {
            Some((piece, size)) => Owner { piece: Some(piece), size: Some(size) },
            None => Owner { piece: own_name(drawing, item), size: None },
        },
        None => Owner { piece: own_name(drawing, item), size: mark.clone() },
    };
    drawing.items.iter().zip(&layers).zip(&marked).map(owner).collect()
}

/// How a shape tells its size.
type SizeBy<'a> = &'a dyn Fn(&Item) -> Option<String>;

/// By shape the size that its class or its colour stands for, if each outline has one and they are several: a class is
/// called after it, of a colour words in that colour say it. Else none of any.
fn marked(drawing: &Elements) -> Vec<Option<String>> {
    let mut colours: IndexMap<&str, String> = IndexMap::new();
    for words in &drawing.words {
        if let (Some(colour), Some(size)) = (&words.colour, size_in(words.text.trim())) {
            colours.entry(colour).or_insert(size);
        }
    }
    let by_class = |item: &Item| item.class_size.clone();
    let by_colour = |item: &Item| colours.get(item.paint.stroke.as_deref()?).cloned();
    let ways: [SizeBy; 2] = [&by_class, &by_colour];
    for way in ways {
        let stands = outlines(drawing);
        let outlines = drawing.items.iter().filter(|item| stands(item));
        let sizes: Option<Vec<String>> = outlines.map(way).collect();
        let several = sizes.is_some_and(|sizes| sizes.iter().skip(1).any(|size| Some(size) != sizes.first()));
        if several {
            return drawing.items.iter().map(way).collect();
        }
    }
    vec![None; drawing.items.len()]
}

/// Which items may be outlines: closed paths, and where there are none, open ones that may come to some together.
fn outlines(drawing: &Elements) -> impl Fn(&Item) -> bool {
    let is_closed = |item: &Item| item.paths.iter().any(is_outline) && !item.circle;
    let is_open = |item: &Item| item.paths.iter().any(|path| !path.closed && path.segments.len() > 1);
    let has_closed = drawing.items.iter().any(is_closed);
    move |item| if has_closed { is_closed(item) } else { is_open(item) }
}

pub fn is_outline(path: &TracedPath) -> bool {
    path.closed && path.segments.len() > 2
}

/// The size that a class of a style sheet is called after: `size-M`, `size_38`.
pub fn class_size(class: &str) -> Option<String> {
    class.to_lowercase().starts_with("size").then(|| size_in(class)).flatten()
}

/// The size that words belong to: that of the shapes in their innermost group.
pub fn owner_of_words(drawing: &Elements, words: &Words, owners: &[Owner]) -> Option<String> {
    let group = words.groups.last()?;
    let beside = drawing.items.iter().zip(owners).filter(|(item, _)| item.groups.contains(group));
    let mut sizes: Vec<&Option<String>> = beside.map(|(_, owner)| &owner.size).collect();
    sizes.dedup();
    match sizes.as_slice() {
        [only] => (*only).clone(),
        _ => None,
    }
}

/// By shape, the layer that it stands in: of the outermost groups on the first level on which there are several, or on which
/// all stand in one that is a size.
pub fn layers(drawing: &Elements) -> Vec<Option<usize>> {
    let mut level = 0;
    loop {
        let mut all: Vec<Option<usize>> =
            drawing.items.iter().map(|item| item.groups.get(level).copied()).collect();
        let first = all.first().copied().flatten();
        let is_size = first.is_some_and(|only| is_only_size(drawing, only));
        if first.is_none() || all.iter().any(|own| *own != first) || is_size || level > 200 {
            // One group a size, however the drawing splits it up: two of one name are one layer.
            for own in &mut all {
                let name = own.and_then(|group| drawing.groups.get(group)?.as_ref());
                let same = name
                    .and_then(|name| drawing.groups.iter().position(|other| other.as_ref() == Some(name)));
                *own = if name.is_some() { own.and(same.or(*own)) } else { None };
            }
            return drawing
                .items
                .iter()
                .zip(all)
                .map(|(item, own)| {
                    // The first of that name need not hold the shape itself.
                    own.map(|first| item.groups.get(level).copied().unwrap_or(first))
                })
                .collect();
        }
        level += 1;
    }
}

/// Whether a layer is a size though no other one is: drawings may be one a size. What is called by a number may be a piece's
/// number, but not where what stands in it has names of its own.
fn is_only_size(drawing: &Elements, layer: usize) -> bool {
    let Some(size) = drawing.groups.get(layer).and_then(|name| size_in(name.as_ref()?)) else { return false };
    let says = |name: &Option<String>| name.as_ref().is_some_and(|name| says_something(name));
    let is_called = |item: &Item| {
        let mut inner = item.groups.iter().skip_while(|group| **group != layer).skip(1);
        item.groups.contains(&layer)
            && item.paths.iter().any(is_outline)
            && (says(&item.name) || inner.any(|group| drawing.groups.get(*group).is_some_and(says)))
    };
    let is_number = size.len() > 1 && !size.starts_with('0');
    let is_letters = place_of(&size).is_some();
    (is_letters && size == size.to_uppercase())
        || ((is_letters || is_number) && drawing.items.iter().any(is_called))
}

/// The name of a shape, or of the innermost group that has one.
pub fn own_name(drawing: &Elements, item: &Item) -> Option<String> {
    let groups = item.groups.iter().rev().filter_map(|group| drawing.groups.get(*group)?.clone());
    item.name.clone().into_iter().chain(groups).find(|name| names_a_piece(name))
}

/// Whether a name may be a piece's: it says something, and more than which line of a piece it is.
fn names_a_piece(name: &str) -> bool {
    says_something(name) && !is_line(name)
}

/// All that a shape is called: its own name, with its group's before it where its own is a size alone.
fn called(drawing: &Elements, item: &Item) -> String {
    let own = item.name.clone().filter(|name| says_something(name));
    let mut groups = item.groups.iter().rev().filter_map(|group| drawing.groups.get(*group)?.clone());
    match own {
        Some(own) if is_line(&own) => {
            let group = groups.find(|name| names_a_piece(name)).unwrap_or_default();
            match size_behind(&own).filter(|_| !group.is_empty() && parted(&group).is_none()) {
                Some(size) => format!("{group} {size}"),
                None => group,
            }
        }
        Some(own) if parted(&own).is_some() => own,
        Some(own) if is_size(&own) => groups.next().map_or(own.clone(), |group| format!("{group} {own}")),
        Some(own) => own,
        // A layer a piece, and in it a group a size.
        None => match groups.next() {
            Some(size) if is_size(&size) => {
                groups.next().map_or(size.clone(), |piece| format!("{piece} {size}"))
            }
            other => other.unwrap_or_default(),
        },
    }
}

/// A name as a piece and a size: `front-M`, `front 38`, `front_2XL`.
fn parted(name: &str) -> Option<(String, String)> {
    let at = name.rfind([' ', '-', '_', '.'])?;
    let (piece, size) = (name.get(..at)?.trim_end_matches([' ', '-', '_', '.']), name.get(at + 1..)?);
    let piece = piece.strip_suffix(" size").unwrap_or(piece);
    (is_size(size) && !piece.is_empty() && says_something(piece)).then(|| (piece.to_owned(), size.to_owned()))
}

/// The size that a layer is called after: `M`, `size M`, `Size 38`.
pub fn size_in(layer: &str) -> Option<String> {
    let word = layer.rsplit([' ', '-', '_', ':']).next().unwrap_or(layer);
    let before = layer.strip_suffix(word).unwrap_or_default().to_lowercase();
    let only = before.trim_matches([' ', '-', '_', ':']);
    (is_size(word) && (only.is_empty() || only == "size")).then(|| word.to_owned())
}

fn without_size(name: &str, size: Option<&str>) -> String {
    match (parted(name), size) {
        (Some((piece, own)), Some(size)) if own.eq_ignore_ascii_case(size) => piece,
        _ => name.to_owned(),
    }
}

/// Whether a word is what sizes are usually called: letters, or a number of up to 3 digits: here a layer says it.
fn is_size(word: &str) -> bool {
    let number = !word.is_empty() && word.len() <= 3 && word.bytes().all(|one| one.is_ascii_digit());
    number || place_of(word).is_some()
}

/// Whether a name is more than what a program gives by itself: `path12`, `g3`, `Layer 1`.
pub fn says_something(name: &str) -> bool {
    const KINDS: [&str; 15] = [
        "path", "rect", "polygon", "polyline", "g", "group", "layer", "svg", "use", "circle", "ellipse",
        "line", "shape", "text", "size",
    ];
    let word =
        name.trim_end_matches(|one: char| one.is_ascii_digit() || matches!(one, ' ' | '-' | '_' | '.'));
    !word.is_empty() && !KINDS.contains(&&*word.to_lowercase()) || is_size(name)
}
