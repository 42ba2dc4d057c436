//! The pieces, in one size or in several that lie in one another.

use super::edges::{EdgeView, edges};
use super::key::{KeyView, SAMPLE, key};
use super::mates::Mates;
use super::said::{MessageView, messages};
use super::shapes::{ShapeView, view};
use super::shown::Shown;
use crate::cutting::{CutPart, Cutting};
use crate::emit::Figure;
use crate::emit::drawing::{Arranged, DrawnGroup, Group, Hanging, Look, Shape, arrange, draw_group, pieces};
use crate::limits::OUTLINES_SHOWN;
use kurbo::Vec2;
use rayon::prelude::*;
use serde::Serialize;

/// What of the pieces is wanted.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Wanted {
    /// The size; none for all of them, in one another.
    pub size: Option<String>,
    /// How much wider than high there is room, in hundredths.
    pub room: u32,
    /// The first piece, counted from 0, where there are more than are shown at once.
    pub from: usize,
}

/// The pieces.
#[derive(Clone, Debug, Serialize)]
pub struct DrawnView {
    /// The text that they come from.
    pub shown: u64,
    /// The size; none where all are shown.
    pub size: Option<String>,
    /// How wide all of it is, in millimetres.
    pub width: Figure,
    /// How high.
    pub height: Figure,
    /// One after another.
    pub pieces: Vec<PieceView>,
    /// Where each layer begins.
    pub heads: Vec<HeadView>,
    /// What the lines mean.
    pub key: Vec<KeyView>,
    /// How wide a sample of the key is.
    pub sample: Figure,
    /// The first piece that is shown, from 0.
    pub from: usize,
    /// How many there are.
    pub count: usize,
    /// What is to be said of the cutting lines of these sizes.
    pub messages: Vec<MessageView>,
}

/// The head of a layer.
#[derive(Clone, Debug, Serialize)]
pub struct HeadView {
    /// Its left end.
    pub x: Figure,
    /// Its height.
    pub y: Figure,
    /// The layer.
    pub layer: String,
    /// What it is cut from.
    pub cloth: String,
}

/// A piece.
#[derive(Clone, Debug, Serialize)]
pub struct PieceView {
    /// `outer.front`.
    pub part: String,
    /// What people call it.
    pub title: String,
    /// The layer that it is cut for.
    pub layer: String,
    /// Which of how many it is.
    pub number: usize,
    /// Its left edge, its top, its width and its height.
    pub place: [Figure; 4],
    /// How it is drawn.
    pub shapes: Vec<ShapeView>,
    /// What can be pointed at.
    pub edges: Vec<EdgeView>,
}

/// Between two pieces, in millimetres.
const GAP: f64 = 30.0;
/// How much wider than high room is taken to be at the least and at the most.
const ASPECTS: (f64, f64) = (0.2, 5.0);
/// So many widths are tried between a column and a row.
const TRIED: u32 = 16;

/// The pieces that are wanted; none where there is no such size.
pub(super) fn drawn(shown: &Shown, wanted: &Wanted) -> Option<DrawnView> {
    let garment = shown.garment();
    let places: Vec<usize> = match &wanted.size {
        Some(name) => vec![shown.size_called(name)?],
        None => (0..shown.sizes().len()).collect(),
    };
    let cuts: Vec<Cutting> = places.iter().filter_map(|&at| shown.cut(at)).cloned().collect();
    let look = Look::drawing();
    let all = pieces(garment, &cuts, &look);
    let most = (OUTLINES_SHOWN / places.len().max(1)).max(1);
    let from = if wanted.from < all.len() { wanted.from } else { 0 };
    let shown_ones = all.get(from..).unwrap_or_default();
    let groups: Vec<(&Group, DrawnGroup)> = shown_ones
        .par_iter()
        .take(most)
        .filter_map(|group| Some((group, draw_group(garment, group, &look, true)?)))
        .collect();
    let size = places.first().and_then(|&at| Some((shown.sizes().get(at)?, shown.cut(at)?)));
    let mates = size.map(|(size, cut)| Mates::new(garment, size, cut));
    let sewn = size.map(|(size, _)| size).zip(mates.as_ref());
    let (drawn_ones, groups): (Vec<DrawnGroup>, Vec<&Group>) =
        groups.into_iter().map(|(group, drawn)| (drawn, group)).unzip();
    let arranged = hung(&drawn_ones, f64::from(wanted.room) / 100.0);
    let views = groups
        .par_iter()
        .zip(&drawn_ones)
        .zip(&arranged.moves)
        .map(|((group, drawn), by)| {
            let members: Vec<&CutPart> = group.members.iter().map(AsRef::as_ref).collect();
            let of_first = sewn.filter(|(size, _)| members.first().is_some_and(|own| own.size == size.id()));
            let edges = edges(garment, &members, of_first, *by);
            piece(garment, &members, drawn, edges, *by)
        })
        .collect();
    let all_shapes: Vec<Shape> = drawn_ones.iter().flat_map(|one| one.shapes.iter().cloned()).collect();
    let heads = arranged.rails.iter().filter_map(|&(at, _, layer)| {
        let layer = garment.layer(layer?);
        let cloth = layer.fabric.map_or("", |fabric| &garment.fabric(fabric).title).to_owned();
        Some(HeadView { x: Figure(at.x), y: Figure(-at.y), layer: layer.name.to_string(), cloth })
    });
    Some(DrawnView {
        shown: shown.serial,
        size: wanted.size.clone(),
        width: Figure(arranged.width),
        height: Figure(arranged.height),
        pieces: views,
        heads: heads.collect(),
        key: key(garment, &all_shapes),
        sample: Figure(SAMPLE),
        from,
        count: all.len(),
        messages: messages(&shown.compiled.map, &shown.unfit(&places)),
    })
}

/// The pieces on their rails, so that they are seen as large as may be.
fn hung(pieces: &[DrawnGroup], aspect: f64) -> Arranged {
    let aspect = aspect.clamp(ASPECTS.0, ASPECTS.1);
    let widest = pieces.iter().map(|one| one.bounds.width()).fold(100.0, f64::max);
    let row: f64 = pieces.iter().map(|one| one.bounds.width() + GAP).sum();
    let tried = (0..=TRIED).map(|step| {
        let share = f64::from(step) / f64::from(TRIED);
        // Near the column a little more width changes more than near the row.
        let width = widest + (row - widest).max(0.0) * share * share;
        arrange(pieces, Hanging { width, gap: GAP, headed: true })
    });
    let scale = |one: &Arranged| (aspect / one.width.max(1.0)).min(1.0 / one.height.max(1.0));
    // Of those that are as good the narrowest.
    let best = tried.reduce(|best, next| if scale(&next) > scale(&best) { next } else { best });
    best.unwrap_or_default()
}

fn piece(
    garment: &crate::garment::Garment,
    members: &[&CutPart],
    drawn: &DrawnGroup,
    edges: Vec<EdgeView>,
    by: Vec2,
) -> PieceView {
    let bounds = drawn.bounds + by;
    PieceView {
        part: members.first().map_or_else(String::new, |part| part.name(garment)),
        title: drawn.title.clone(),
        layer: garment.layer(drawn.layer).name.to_string(),
        number: drawn.number.map_or(0, |(at, _)| at),
        place: [bounds.x0, -bounds.y1, bounds.width(), bounds.height()].map(Figure),
        shapes: drawn.shapes.iter().map(|shape| view(garment, shape, by)).collect(),
        edges,
    }
}
