//! Pieces laid side by side. Each layer's pieces hang in rows from rails, as on a line to dry: the
//! tallest first, their upper edges at the rail.

use super::piece::DrawnGroup;
use crate::garment::LayerId;
use kurbo::{Point, Rect, Vec2};

/// How pieces hang.
#[derive(Clone, Copy, Debug)]
pub struct Hanging {
    /// A row is no wider than this (but for a piece that is wider by itself).
    pub width: f64,
    /// Between two pieces.
    pub gap: f64,
    /// Each layer begins a row of its own, under a rail with room above it for its name; else
    /// there are no rails.
    pub headed: bool,
}

/// Where everything hangs.
#[derive(Clone, Debug, Default)]
pub struct Arranged {
    /// By group: how far it is moved from its own paper onto the sheet.
    pub moves: Vec<Vec2>,
    /// Rails: left end, right end and the layer whose first one it is.
    pub rails: Vec<(Point, Point, Option<LayerId>)>,
    /// How wide all of it is.
    pub width: f64,
    /// How high all of it is.
    pub height: f64,
}

/// Hangs groups in rows, from the top left at (0, 0) down.
pub fn arrange(groups: &[DrawnGroup], hanging: Hanging) -> Arranged {
    let Hanging { width, gap, headed: headings } = hanging;
    let drop = if headings { RAIL } else { 0.0 };
    let mut arranged = Arranged { moves: vec![Vec2::ZERO; groups.len()], ..Arranged::default() };
    let mut layers: Vec<Vec<usize>> = Vec::new();
    for (at, group) in groups.iter().enumerate() {
        let known = layers.iter_mut().find(|layer| {
            !headings
                || layer
                    .first()
                    .and_then(|&first| groups.get(first))
                    .is_some_and(|first| first.layer == group.layer)
        });
        match known {
            Some(layer) => layer.push(at),
            None => layers.push(vec![at]),
        }
    }
    let bounds = |at: usize| groups.get(at).map_or(Rect::ZERO, |group| group.bounds);
    let mut top = 0.0;
    // The last row of the layer before: where it ends and how deep it hangs.
    let mut beside: Option<(f64, f64, f64)> = None;
    for mut layer in layers {
        let name = layer.first().and_then(|&first| groups.get(first)).map(|first| first.layer);
        layer.sort_by(|&one, &other| {
            bounds(other).height().total_cmp(&bounds(one).height()).then(one.cmp(&other))
        });
        let mut heading = name.filter(|_| headings);
        let whole: f64 = layer.iter().map(|&at| bounds(at).width() + gap).sum();
        let highest = layer.iter().map(|&at| bounds(at).height()).fold(0.0, f64::max);
        // A small layer hangs on beside the one before, under a rail of its own.
        if let Some((row_top, end, depth)) =
            beside.filter(|(_, end, depth)| end + APART + whole - gap <= width && highest <= *depth)
        {
            let from = end + APART;
            let mut left = from;
            for at in layer {
                let own = bounds(at);
                if let Some(place) = arranged.moves.get_mut(at) {
                    *place = Vec2::new(left - own.x0, row_top - drop - own.y1);
                }
                left += own.width() + gap;
            }
            arranged.width = arranged.width.max(left - gap);
            arranged.rails.push((Point::new(from, row_top), Point::new(left - gap, row_top), heading.take()));
            beside = Some((row_top, left - gap, depth));
            continue;
        }
        while !layer.is_empty() {
            top -= if heading.is_some() { HEADING } else { 0.0 };
            let (mut left, mut deepest) = (0.0, 0.0_f64);
            let mut rest = Vec::new();
            for at in layer {
                let own = bounds(at);
                if left > 0.0 && left + own.width() > width {
                    rest.push(at);
                    continue;
                }
                if let Some(place) = arranged.moves.get_mut(at) {
                    *place = Vec2::new(left - own.x0, top - drop - own.y1);
                }
                left += own.width() + gap;
                deepest = deepest.max(own.height());
            }
            arranged.width = arranged.width.max(left - gap);
            arranged.rails.push((
                Point::new(0.0, top),
                Point::new((left - gap).max(0.0), top),
                heading.take(),
            ));
            beside = Some((top, left - gap, deepest))
                .filter(|_| headings && rest.is_empty() && rail_is_first(&arranged));
            top -= drop + deepest + gap;
            layer = rest;
        }
    }
    arranged.height = (-top - gap).max(0.0);
    arranged
}

/// Whether the last rail has a heading, so that there is room for one beside it.
fn rail_is_first(arranged: &Arranged) -> bool {
    arranged.rails.last().is_some_and(|(.., heading)| heading.is_some())
}

/// Between two layers on one level.
const APART: f64 = 70.0;
/// Room above a layer's first rail.
const HEADING: f64 = 20.0;
/// From a rail down to the pieces.
const RAIL: f64 = 8.0;
