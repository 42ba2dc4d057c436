//! Rows of topstitching and understitching, and tacks: where they lie on each part.

use super::amounts::amount_of;
use super::model::{PartId, PartLineRow, PartRow, PartTack, SewnPart};
use super::stitching::Finder;
use crate::garment::{
    Expression, Garment, LayerId, RowId, SewnEdge, StitchedEdge, StitchedRow, TackEnd, TackId, TackSpot,
};
use crate::resolve::{Along, CornerName, DrawnEdgeId, PlaceLost, SizedGarment, finished_line, sewn_layer};
use crate::shape::Point;
use crate::syntax::tree::Hand;

/// As many rows lie beside an edge at most; more are one slip.
const MOST_ROWS: f64 = 100.0;

/// Marks rows and tacks on the parts.
pub(super) fn mark_stitched(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    parts: &mut [SewnPart],
) {
    for (id, row) in RowId::enumerate(&garment.rows) {
        for own in row.edges.iter().flat_map(|edge| beside(garment, sized, finder, (id, row), edge)) {
            let (part, found) = own;
            if let (Some(part), Ok(rows)) = (parts.get_mut(part.index()), found) {
                part.rows.extend(rows);
            }
        }
    }
    for (id, row) in RowId::enumerate(&garment.rows).filter(|(_, row)| row.distance.is_none()) {
        for edge in &row.edges {
            for (part, lines) in along_lines(garment, finder, id, edge) {
                if let Some(part) = parts.get_mut(part.index()) {
                    part.line_rows.extend(lines);
                }
            }
        }
    }
    for (id, tack) in TackId::enumerate(&garment.tacks) {
        for (part, at) in tack.ends.iter().flat_map(|end| tacked(garment, sized, finder, end)) {
            if let (Some(part), Ok(at)) = (parts.get_mut(part.index()), at) {
                part.tacks.push(PartTack { tack: id, at });
            }
        }
    }
}

/// Of a row of which no layer is named, the first that has the piece is meant: it goes through all that lies
/// there.
fn meant(garment: &Garment, sewn: &SewnEdge) -> Option<LayerId> {
    sewn.layer.or_else(|| sewn_layer(garment, sewn.piece))
}

/// A stretch of an edge that a row lies beside.
struct Stretch {
    edge: DrawnEdgeId,
    along: Option<(f64, f64)>,
    length: f64,
}

/// The rows of an edge on each part that has it.
///
/// # Errors
/// Of each part, when the run of the edge is not known.
pub fn beside(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    (id, row): (RowId, &StitchedRow),
    edge: &StitchedEdge,
) -> Vec<(PartId, Result<Vec<PartRow>, PlaceLost>)> {
    let Some(layer) = meant(garment, &edge.sewn) else { return Vec::new() };
    let Some(distances) = distances(garment, sized, row) else { return Vec::new() };
    let amount = |said: &Expression| amount_of(garment, sized, said);
    let each = |(part, runs): (PartId, Vec<DrawnEdgeId>)| {
        let drawn = finder.drawn(part)?;
        let along = Along::of(garment, drawn, runs, &amount);
        let stretches: Result<Vec<Stretch>, PlaceLost> = match &edge.run {
            None => {
                let all = along.between(0.0, f64::INFINITY).into_iter();
                Ok(all.map(|(edge, _, length)| Stretch { edge, along: None, length }).collect())
            }
            Some([from, to]) => along.at(from).and_then(|from| {
                let to = along.at(to)?;
                let all = along.between(from.min(to), from.max(to)).into_iter();
                let all = all.map(|(edge, own, length)| Stretch { edge, along: Some(own), length });
                let all: Vec<Stretch> = all.collect();
                if all.is_empty() { Err(PlaceLost::Nothing) } else { Ok(all) }
            }),
        };
        let span = edge.sewn.span;
        let rows = stretches.map(|stretches| {
            let on = |&distance: &f64| {
                let row = move |one: &Stretch| {
                    let Stretch { edge, along, length } = *one;
                    PartRow { row: id, edge, distance, along, length, span }
                };
                stretches.iter().map(row).collect::<Vec<PartRow>>()
            };
            distances.iter().flat_map(on).collect()
        });
        Some((part, rows))
    };
    runs_by_part(finder, layer, &edge.sewn).into_iter().filter_map(each).collect()
}

/// The rows along a line on each part that has it.
pub fn along_lines(
    garment: &Garment,
    finder: &Finder,
    row: RowId,
    line: &StitchedEdge,
) -> Vec<(PartId, Vec<PartLineRow>)> {
    let Some(layer) = meant(garment, &line.sewn) else { return Vec::new() };
    let each = |id: PartId| {
        let on = line.sewn.on.zip(finder.hand(id));
        if finder.part(id).layer != layer || on.is_some_and(|(wanted, own)| wanted != own) {
            return None;
        }
        let drawn = finder.drawn(id)?;
        let own = drawn.lines.iter().filter(|own| garment.is_run_of(own.edge, line.sewn.edge));
        let rows = own.map(|own| PartLineRow {
            row,
            line: own.edge,
            length: finished_line(garment, drawn, own),
            span: line.sewn.span,
        });
        let rows: Vec<PartLineRow> = rows.collect();
        (!rows.is_empty()).then_some((id, rows))
    };
    PartId::enumerate(finder.parts).filter_map(|(id, _)| each(id)).collect()
}

/// How far from the edge each row is; none where that is not known.
fn distances(garment: &Garment, sized: &SizedGarment, row: &StitchedRow) -> Option<Vec<f64>> {
    let first = amount_of(garment, sized, row.distance.as_ref()?)?;
    let Some((count, apart)) = &row.rows else { return Some(vec![first]) };
    let (count, apart) = (amount_of(garment, sized, count)?, amount_of(garment, sized, apart)?);
    let count = count.clamp(0.0, MOST_ROWS) as u32;
    Some((0..count).map(|at| first + f64::from(at) * apart).collect())
}

/// The runs that an edge's name means on each part of a layer.
fn runs_by_part(finder: &Finder, layer: LayerId, sewn: &SewnEdge) -> Vec<(PartId, Vec<DrawnEdgeId>)> {
    let mut parts: Vec<(PartId, Vec<DrawnEdgeId>)> = Vec::new();
    for place in finder.through(layer, sewn) {
        match parts.iter_mut().find(|(part, _)| *part == place.part) {
            Some((_, runs)) => runs.push(place.edge),
            None => parts.push((place.part, vec![place.edge])),
        }
    }
    parts
}

/// Where an end of a tack lies, on each part that has it.
///
/// # Errors
/// Of each part, when the place is not known.
pub fn tacked(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    end: &TackEnd,
) -> Vec<(PartId, Result<Point, PlaceLost>)> {
    let Some(layer) = end.layer.or_else(|| sewn_layer(garment, end.piece)) else { return Vec::new() };
    match &end.spot {
        TackSpot::Edge(edge, place) => {
            let (edge, piece, on, span) = (*edge, end.piece, end.hand, end.span);
            let sewn = SewnEdge { layer: Some(layer), piece, edge, on, user: None, span };
            let amount = |said: &Expression| amount_of(garment, sized, said);
            let each = |(part, runs): (PartId, Vec<DrawnEdgeId>)| {
                let along = Along::of(garment, finder.drawn(part)?, runs, &amount);
                let at = along.at(place).and_then(|at| along.on_paper(at).ok_or(PlaceLost::Unknown));
                Some((part, at))
            };
            runs_by_part(finder, layer, &sewn).into_iter().filter_map(each).collect()
        }
        TackSpot::Point(point) => {
            let is_meant = |id: PartId, hand: Option<Hand>| {
                finder.part(id).layer == layer && end.hand.zip(hand).is_none_or(|(one, other)| one == other)
            };
            let parts = PartId::enumerate(finder.parts).map(|(id, _)| id);
            let each = |id: PartId| {
                let drawn = finder.drawn(id).filter(|_| is_meant(id, finder.hand(id)))?;
                let spot = drawn.spots.iter().find(|spot| garment.is_point_of(spot.point, *point));
                let is_corner =
                    |corner| matches!(corner, CornerName::Named(own) if garment.is_point_of(own, *point));
                let corner = || drawn.edges.iter().find(|edge| is_corner(edge.corner));
                let at = spot.map(|spot| spot.at).or_else(|| corner().map(|edge| edge.path.start()));
                Some((id, Ok(at?)))
            };
            parts.filter_map(each).collect()
        }
    }
}
