//! Where elastic and cords run, and how often there is a closure: counted on the sewn surface.

use super::model::PartId;
use super::stitching::Finder;
use super::surface::{StretchId, Surface, Union};
use crate::garment::{CordId, FinishId, FinishKind, Garment};
use crate::resolve::{DrawnEdgeId, sewn_layer};
use std::collections::HashMap;

/// What runs through a channel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RunsThrough {
    /// The elastic of a finish.
    Elastic(FinishId),
    /// A cord.
    Cord(CordId),
}

/// Edges end to end that one elastic or one cord runs through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Channel {
    /// What runs through it.
    pub of: RunsThrough,
    /// How long it is as sewn, its cloth spread out, in millimetres.
    pub length: f64,
    /// It runs back into itself: it has no ends.
    pub ring: bool,
}

/// Every channel of every elastic and cord, once for every copy.
pub(super) fn channels(garment: &Garment, finder: &Finder, surface: &Surface) -> Vec<Channel> {
    let mut of_finishes: Vec<Vec<StretchId>> = vec![Vec::new(); garment.finishes.len()];
    let mut of_edges: HashMap<(PartId, DrawnEdgeId), Vec<StretchId>> = HashMap::new();
    for id in surface.stretch_ids() {
        let stretch = surface.stretch(id);
        if let Some(of_finish) = stretch.finish.and_then(|finish| of_finishes.get_mut(finish.index())) {
            of_finish.push(id);
        }
        let side = surface.side(stretch.side);
        if !garment.cords.is_empty() && !side.fold {
            of_edges.entry((surface.face(side.face).part, side.edge)).or_default().push(id);
        }
    }
    let mut all = Vec::new();
    for (id, (finish, stretches)) in FinishId::enumerate(garment.finishes.iter().zip(&of_finishes)) {
        if matches!(finish.kind, FinishKind::Casing(_, Some(_))) {
            all.extend(runs(surface, stretches, RunsThrough::Elastic(id)));
        }
    }
    for (id, cord) in CordId::enumerate(&garment.cords) {
        let mut edges: Vec<(PartId, DrawnEdgeId)> = Vec::new();
        for sewn in &cord.through {
            let layer = sewn.layer.or_else(|| sewn_layer(garment, sewn.piece));
            let places = layer.map_or_else(Vec::new, |layer| finder.in_layer(layer, sewn));
            edges.extend(places.into_iter().map(|place| (place.part, place.edge)));
        }
        edges.sort_unstable();
        edges.dedup();
        let stretches: Vec<StretchId> =
            edges.iter().filter_map(|edge| of_edges.get(edge)).flatten().copied().collect();
        all.extend(runs(surface, &stretches, RunsThrough::Cord(id)));
    }
    all
}

/// Stretches that meet end to end, each such row once, in the order of the surface.
fn runs(surface: &Surface, stretches: &[StretchId], of: RunsThrough) -> Vec<Channel> {
    let mut vertices: HashMap<u32, usize> = HashMap::new();
    let mut ends: Vec<[usize; 2]> = Vec::with_capacity(stretches.len());
    for &id in stretches {
        let stretch = surface.stretch(id);
        ends.push([stretch.start, stretch.end].map(|vertex| {
            let next = vertices.len();
            *vertices.entry(vertex).or_insert(next)
        }));
    }
    let mut union = Union::new(vertices.len());
    for &[start, end] in &ends {
        union.join(start, end);
    }
    // A row has one vertex more than it has stretches; a ring has as many.
    let mut rows: Vec<(usize, Channel, usize)> = Vec::new();
    for (&id, &[start, _]) in stretches.iter().zip(&ends) {
        let root = union.root(start);
        let length = surface.length(id);
        match rows.iter_mut().find(|(of, ..)| *of == root) {
            Some((_, row, count)) => {
                row.length += length;
                *count += 1;
            }
            None => rows.push((root, Channel { of, length, ring: false }, 1)),
        }
    }
    let mut corners: HashMap<usize, usize> = HashMap::new();
    for vertex in 0..vertices.len() {
        *corners.entry(union.root(vertex)).or_default() += 1;
    }
    rows.into_iter()
        .map(|(root, row, count)| Channel {
            ring: corners.get(&root).is_some_and(|&many| many <= count),
            ..row
        })
        .collect()
}

/// How many there are of each closure. One that goes through several layers is one.
pub(super) fn closure_counts(garment: &Garment, surface: &Surface) -> Vec<u32> {
    let mut counts = vec![HashMap::new(); garment.closures.len()];
    for line in &surface.closures {
        let face = line.faces.iter().flatten().next().map(|&face| surface.face(face));
        if let Some(of_closure) = counts.get_mut(line.closure.index()) {
            *of_closure.entry(face.map(|face| face.layer)).or_insert(0) += 1;
        }
    }
    counts.into_iter().map(|of_closure| of_closure.into_values().max().unwrap_or(0)).collect()
}
