//! Where elastic and cords run, and how often there is a closure: counted on the sewn surface.

use super::amounts::amount_of;
use super::model::PartId;
use super::stitching::Finder;
use super::surface::{FaceId, StretchId, Surface, Union};
use crate::garment::{CordId, Finish, FinishId, FinishKind, Garment};
use crate::id_hash::{IdIndexMap, IdMap};
use crate::resolve::{DrawnEdgeId, SizedGarment, sewn_layer};

/// What runs through a channel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RunsThrough {
    /// The elastic of a finish.
    Elastic(FinishId),
    /// A cord.
    Cord(CordId),
    /// A binding that runs on beyond its edges.
    Binding(FinishId),
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
    let has_elastic = |finish: &Finish| finish.kind.elastic().is_some();
    let runs_on = |finish: &Finish| matches!(&finish.kind, FinishKind::Bound(binding) if !binding.running_on.is_empty());
    if garment.cords.is_empty()
        && !garment.finishes.iter().any(|finish| has_elastic(finish) || runs_on(finish))
    {
        return Vec::new();
    }
    let mut of_finishes: Vec<Vec<StretchId>> = vec![Vec::new(); garment.finishes.len()];
    let mut of_edges: IdMap<(PartId, DrawnEdgeId), Vec<StretchId>> = IdMap::default();
    for id in surface.stretch_ids() {
        let stretch = surface.stretch(id);
        if let Some(of_finish) = stretch.finish.and_then(|finish| of_finishes.get_mut(finish.index())) {
            of_finish.push(id);
        }
        let side = surface.side(stretch.side);
        if !garment.cords.is_empty() && !side.fold {
            of_edges.entry((side.part, side.edge)).or_default().push(id);
        }
    }
    let mut all = Vec::new();
    for (id, (finish, stretches)) in FinishId::enumerate(garment.finishes.iter().zip(&of_finishes)) {
        if has_elastic(finish) {
            let rows = rows(surface, stretches, RunsThrough::Elastic(id));
            all.extend(rows.into_iter().map(|(_, row)| row));
        } else if runs_on(finish) {
            let rows = rows(surface, stretches, RunsThrough::Binding(id));
            all.extend(rows.into_iter().map(|(_, row)| row));
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
        all.extend(threaded(surface, &stretches, RunsThrough::Cord(id)));
    }
    all
}

/// What one cord runs through: a ring, or a row; where several rows with ends lie on one copy of a
/// piece, the cord goes on from one to the next (an apron's tie through both its armholes).
fn threaded(surface: &Surface, stretches: &[StretchId], of: RunsThrough) -> Vec<Channel> {
    let mut all: Vec<(Option<FaceId>, Channel)> = Vec::new();
    for (faces, row) in rows(surface, stretches, of) {
        let [face] = faces.as_slice() else {
            all.push((None, row));
            continue;
        };
        match all.iter_mut().find(|(on, before)| *on == Some(*face) && !before.ring && !row.ring) {
            Some((_, before)) => before.length += row.length,
            None => all.push((Some(*face), row)),
        }
    }
    all.into_iter().map(|(_, channel)| channel).collect()
}

/// Stretches that meet end to end, each such row once, in the order of the surface.
fn rows(surface: &Surface, stretches: &[StretchId], of: RunsThrough) -> Vec<(Vec<FaceId>, Channel)> {
    let mut vertices: IdMap<u32, usize> = IdMap::default();
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
    let mut corners: IdMap<usize, usize> = IdMap::default();
    for vertex in 0..vertices.len() {
        *corners.entry(union.root(vertex)).or_default() += 1;
    }
    let mut at_root: IdMap<usize, usize> = IdMap::default();
    let mut found: Vec<(Vec<FaceId>, Channel)> = Vec::new();
    for (&id, &[start, _]) in stretches.iter().zip(&ends) {
        let root = union.root(start);
        let at = *at_root.entry(root).or_insert(found.len());
        if at == found.len() {
            found.push((Vec::new(), Channel { of, length: 0.0, ring: false }));
        }
        let open = corners.entry(root).or_default();
        *open = open.saturating_sub(1);
        if let Some((faces, row)) = found.get_mut(at) {
            row.length += surface.length(id);
            row.ring = *open == 0;
            let face = surface.face_of(id);
            if !faces.contains(&face) {
                faces.push(face);
            }
        }
    }
    found
}

/// How many times its length elastic stretches to at the most: soft elastic some 2½ times, most of it
/// twice (common practice).
pub const ELASTIC_STRETCH: f64 = 2.5;

/// Of each finish, how many times the length of its channel the elastic in it stretches to; none
/// without elastic, or where a length is not known.
pub(super) fn elastic_stretches(
    garment: &Garment,
    sized: &SizedGarment,
    channels: &[Channel],
) -> Vec<Option<f64>> {
    let share = |(id, finish): (FinishId, &Finish)| {
        let (_, long) = finish.kind.elastic()?;
        let long = amount_of(garment, sized, long).filter(|long| *long > 0.0)?;
        let own = channels.iter().filter(|channel| channel.of == RunsThrough::Elastic(id));
        let most = own.map(|channel| channel.length).max_by(f64::total_cmp)?;
        (most > 0.0).then(|| ELASTIC_STRETCH * long / most)
    };
    FinishId::enumerate(&garment.finishes).map(share).collect()
}

/// How many there are of each closure. One that goes through several layers is one.
pub(super) fn closure_counts(garment: &Garment, surface: &Surface) -> Vec<u32> {
    let mut counts = vec![IdIndexMap::default(); garment.closures.len()];
    for line in &surface.closures {
        let face = line.faces.iter().flatten().next().map(|&face| surface.face(face));
        if let Some(of_closure) = counts.get_mut(line.closure.index()) {
            *of_closure.entry(face.map(|face| face.layer)).or_insert(0) += 1;
        }
    }
    counts.into_iter().map(|of_closure| of_closure.into_values().max().unwrap_or(0)).collect()
}
