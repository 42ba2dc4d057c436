//! Buttons, spaced evenly along their centre line and marked on the pieces.

use super::amounts::amount_of;
use super::model::{ButtonPlace, ButtonRow, PartId, SewnPart};
use super::stitching::Finder;
use crate::garment::{Anchor, Buttons, Chain, Closure, ClosureId, ClosureKind, Garment, LayerId, SewnEdge};
use crate::resolve::SizedGarment;
use crate::shape::Point;
use crate::shape::path::Path;

/// How thick a button is taken to be, in millimetres, since nobody says it: common practice for
/// flat buttons. A buttonhole is as long as a button is wide and thick (common practice; buttons
/// are sold by the line, 40 lines to the inch).
pub const BUTTON_THICKNESS: f64 = 3.0;
/// The most buttons that one row may have.
pub const MOST_BUTTONS: f64 = 500.0;
/// Past an end of the line by no more than this, in millimetres, is at it.
const AT_END: f64 = 0.01;

/// A row that cannot be laid.
#[derive(Clone, Debug, PartialEq)]
pub enum RowTrouble {
    /// This is no number of buttons.
    Count(f64),
    /// The first (true) or last button lies beyond the line's end by so much.
    Beyond(bool, f64),
    /// Something could not be worked out, and that was reported.
    Reported,
}

/// A row of buttons laid along its line.
#[derive(Clone, Debug, Default)]
pub struct Row {
    /// How many, how wide, how far apart; none of a row that could not be laid.
    pub row: Option<ButtonRow>,
    /// Each button on each part, and where.
    pub places: Vec<(PartId, Point)>,
    /// The length of the line on both sides.
    pub sides: [f64; 2],
}

/// Lays the buttons of a closure: the first side's and the second's. On a chain of edges the line
/// runs on from piece to piece.
///
/// # Errors
/// What is wrong with the row; of a zip `Reported`.
pub fn lay(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    id: ClosureId,
) -> Result<Row, RowTrouble> {
    let closure = garment.closure(id);
    let Some(ClosureKind::Buttons(buttons)) = &closure.kind else { return Err(RowTrouble::Reported) };
    let known = |expression| amount_of(garment, sized, expression).ok_or(RowTrouble::Reported);
    let (count, size) = (known(&buttons.count)?, known(&buttons.size)?);
    if !(1.0..=MOST_BUTTONS).contains(&count) || count.fract() != 0.0 {
        return Err(RowTrouble::Count(count));
    }
    let count = count as u32;
    let mut row = Row::default();
    let mut spacing = None;
    let same = same_edges(closure);
    for (side, chain) in [&closure.first, &closure.second].into_iter().enumerate() {
        if side == 1 && same {
            row.sides[1] = row.sides[0];
            continue;
        }
        let layers = layers_of(finder, chain);
        for layer in layers {
            let Some(line) = Line::of(garment, sized, finder, chain, layer, buttons) else {
                return Err(RowTrouble::Reported);
            };
            row.sides[side] = line.length();
            // The second side's buttons lie where the first side's do, where its points are not named.
            let Some((first, last)) = line.ends(garment, sized, buttons) else { continue };
            let length = line.length();
            for (is_first, at) in [(true, first), (false, last)] {
                let beyond = (-at).max(at - length);
                if beyond > AT_END {
                    return Err(RowTrouble::Beyond(is_first, beyond));
                }
            }
            let step = if count > 1 { (last - first) / f64::from(count - 1) } else { 0.0 };
            spacing = (count > 1).then_some(step.abs());
            for button in 0..count {
                row.places.extend(line.at(first + step * f64::from(button)));
            }
        }
    }
    let buttonhole = size + BUTTON_THICKNESS;
    row.row = Some(ButtonRow { closure: id, count, size, spacing, buttonhole });
    Ok(row)
}

/// Marks all rows that can be laid on the parts, and lists them.
pub fn mark_buttons(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    parts: &mut [SewnPart],
) -> Vec<ButtonRow> {
    let mut rows = Vec::new();
    for (id, closure) in ClosureId::enumerate(&garment.closures) {
        let Some(ClosureKind::Buttons(buttons)) = &closure.kind else { continue };
        let Ok(laid) = lay(garment, sized, finder, id) else { continue };
        let Some(row) = laid.row else { continue };
        for (part, at) in laid.places {
            if let Some(part) = parts.get_mut(part.index()) {
                part.buttons.push(ButtonPlace {
                    closure: id,
                    at,
                    size: row.size,
                    buttonhole_on: buttons.over,
                });
            }
        }
        rows.push(row);
    }
    rows
}

/// Whether both sides name the same edges: the left and the right copy of one piece.
fn same_edges(closure: &Closure) -> bool {
    let names = |chain: &Chain| chain.edges.iter().map(|sewn| (sewn.layer, sewn.edge)).collect::<Vec<_>>();
    names(&closure.first) == names(&closure.second)
}

/// The layers in which the whole chain is there.
fn layers_of(finder: &Finder, chain: &Chain) -> Vec<Option<LayerId>> {
    let open: Vec<&SewnEdge> = chain.edges.iter().filter(|sewn| sewn.layer.is_none()).collect();
    if open.is_empty() {
        return vec![None];
    }
    let layers = finder.layers.layers.iter().copied();
    let has_all = |layer: &LayerId| open.iter().all(|sewn| finder.layers.has(*layer, sewn.piece));
    layers.filter(has_all).map(Some).collect()
}

/// A centre line, from the end at which the first button is to the other.
struct Line {
    /// Part and path, each walked the same way up or down.
    stretches: Vec<(PartId, Path)>,
    /// It runs down the pieces.
    down: bool,
}

impl Line {
    fn of(
        garment: &Garment,
        sized: &SizedGarment,
        finder: &Finder,
        chain: &Chain,
        layer: Option<LayerId>,
        buttons: &Buttons,
    ) -> Option<Line> {
        let mut stretches = Vec::new();
        for sewn in &chain.edges {
            let layer = sewn.layer.or(layer)?;
            let found = paths(garment, sized, finder, layer, sewn);
            if found.is_empty() {
                return None;
            }
            stretches.extend(found);
        }
        let down = buttons.from.below;
        for (_, path) in &mut stretches {
            if (path.end().y < path.start().y) != down {
                *path = path.reversed();
            }
        }
        let piece_at = |anchor: &Anchor| {
            let piece = garment.point(anchor.point).piece;
            stretches.iter().position(|(part, _)| finder.part(*part).piece == piece)
        };
        if let (Some(from), Some(to)) = (piece_at(&buttons.from), piece_at(&buttons.to))
            && from > to
        {
            stretches.reverse();
        }
        Some(Line { stretches, down })
    }

    fn length(&self) -> f64 {
        self.stretches.iter().map(|(_, path)| path.length()).sum()
    }

    /// Where the first and the last button are along the line; none where it lacks their points.
    fn ends(&self, garment: &Garment, sized: &SizedGarment, buttons: &Buttons) -> Option<(f64, f64)> {
        Some((self.anchor(garment, sized, &buttons.from)?, self.anchor(garment, sized, &buttons.to)?))
    }

    fn anchor(&self, garment: &Garment, sized: &SizedGarment, anchor: &Anchor) -> Option<f64> {
        let distance = amount_of(garment, sized, &anchor.distance)?;
        let drawn = sized.papers.iter().flatten();
        let point = drawn
            .flat_map(|drawn| &drawn.spots)
            .find(|spot| garment.is_point_of(spot.point, anchor.point))?
            .at;
        let (mut before, mut best) = (0.0, None);
        for (_, path) in &self.stretches {
            let nearest = path.nearest(point);
            if best.is_none_or(|(least, _)| nearest.distance < least) {
                best = Some((nearest.distance, before + nearest.at));
            }
            before += path.length();
        }
        let (_, at) = best?;
        let with_line = anchor.below == self.down;
        Some(if with_line { at + distance } else { at - distance })
    }

    /// The part and the place so far along the line.
    fn at(&self, along: f64) -> Option<(PartId, Point)> {
        let mut left = along;
        for (at, (part, path)) in self.stretches.iter().enumerate() {
            let length = path.length();
            if left <= length || at + 1 == self.stretches.len() {
                return Some((*part, path.point_at_length(left)));
            }
            left -= length;
        }
        None
    }
}

/// The ways that an edge or a line of a piece goes, in one layer.
fn paths(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    layer: LayerId,
    sewn: &SewnEdge,
) -> Vec<(PartId, Path)> {
    let edges = finder.in_layer(layer, sewn).into_iter();
    let mut found: Vec<(PartId, Path)> = edges
        .filter_map(|place| Some((place.part, finder.drawn(place.part)?.edge_at(place.edge)?.path.clone())))
        .collect();
    if found.is_empty() {
        for (id, part) in PartId::enumerate(finder.parts).filter(|(_, part)| part.layer == layer) {
            let Some(drawn) = sized.paper(part.paper) else { continue };
            let lines = drawn.lines.iter().filter(|line| garment.is_run_of(line.edge, sewn.edge));
            found.extend(lines.map(|line| (id, line.path.clone())));
        }
    }
    found
}
