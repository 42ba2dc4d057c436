//! Copies of pieces laid flat, right side up, halves on the fold opened out.

use super::shut::Shut;
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, EdgeId, Garment, LayerId};
use crate::resolve::{DrawnEdgeId, DrawnPiece, DrawnTakeUp, Mouth, taken};
use crate::sewing::PartId;
use crate::sewing::surface::{FaceId, StretchId, Surface};
use crate::shape::fold::mirror_across;
use crate::shape::path::Path;
use crate::shape::{Affine, Point};
use crate::syntax::tree::Hand;
use kurbo::BezPath;

/// How closely outlines are flattened for comparing, in millimetres.
const FLAT: f64 = 0.5;

/// A copy of a part, laid flat with its right side up.
#[derive(Clone, Debug)]
pub struct Flat<'a> {
    /// Its part.
    pub part: PartId,
    /// The part's layer.
    pub layer: LayerId,
    /// The side of the body that it is worn on.
    pub hand: Option<Hand>,
    /// It is folded with both edges in one seam.
    pub flap: bool,
    /// The paper.
    pub drawn: &'a DrawnPiece,
    /// From the paper to where it lies right side up: as it is drawn, or its mirror image.
    pub base: Affine,
    /// Of a half on the fold, from the drawn half to the other, on the paper.
    pub mirror: Option<Affine>,
    /// The outline, edge by edge, then the sides of slits inside.
    pub edges: Vec<FlatEdge>,
    /// How many of the edges are the outline.
    pub outline: usize,
    /// The outline from point to point.
    pub ring: Vec<Point>,
    /// Its take-ups that are sewn and drawn shut.
    shut: Option<Shut>,
}

/// An edge of a flat copy.
#[derive(Clone, Debug)]
pub struct FlatEdge {
    /// The edge.
    pub edge: DrawnEdgeId,
    /// It lies on the half that is not drawn.
    pub mirrored: bool,
    /// The way it goes, on round the outline.
    pub path: Path,
    /// Where take-ups are drawn shut: places along the edge of the paper, and along this one, the way that the paper's goes.
    knots: Vec<(f64, f64)>,
}

impl FlatEdge {
    /// How far along it, the way that the paper's edge goes, a place of that lies.
    fn along(&self, drawn: f64) -> f64 {
        let after = self.knots.iter().position(|(own, _)| *own >= drawn);
        let at = after.unwrap_or(self.knots.len().saturating_sub(1));
        let Some(&(to, there)) = self.knots.get(at) else { return drawn };
        match at.checked_sub(1).and_then(|before| self.knots.get(before)) {
            Some(&(from, here)) if to > from => here + (drawn.min(to) - from) / (to - from) * (there - here),
            _ => there,
        }
    }
}

impl<'a> Flat<'a> {
    /// The flat copies of all faces, in their order.
    pub fn all(garment: &'a Garment, size: &'a WorkedSize, surface: &Surface) -> Vec<Option<Flat<'a>>> {
        let reversed = reversed(garment, size, surface);
        let each = surface.face_ids().zip(reversed).map(|(id, reversed)| {
            let face = surface.face(id);
            let flat = Flat::of(garment, size, face.part, reversed)?;
            Some(Flat { hand: face.hand, flap: face.flap, ..flat })
        });
        each.collect()
    }

    /// A copy of a part; as it is drawn, or `reversed`, its mirror image. None of a part that could not be drawn.
    pub fn of(garment: &'a Garment, size: &'a WorkedSize, part: PartId, reversed: bool) -> Option<Flat<'a>> {
        let sewn = size.sewn.parts.get(part.index())?;
        let drawn = size.drawn.paper(sewn.part.paper)?;
        let base = if reversed { Affine::FLIP_X } else { Affine::IDENTITY };
        let count = drawn.outline().len();
        let is_fold = |at: usize| match drawn.cut {
            CutHow::OnFold(fold) => {
                drawn.edges.get(at).is_some_and(|edge| garment.is_run_of(edge.edge, fold))
            }
            CutHow::Alike | CutHow::Mirrored => false,
        };
        let path = |at: usize, mirror: Option<Affine>| {
            let path = &drawn.edges.get(at)?.path;
            let path = match mirror {
                Some(mirror) => path.transform(base * mirror).reversed(),
                None => path.transform(base),
            };
            let edge = DrawnEdgeId::from_index(at);
            Some(FlatEdge { edge, mirrored: mirror.is_some(), path, knots: Vec::new() })
        };
        let last = (0..count).find(|&at| is_fold(at) && !is_fold((at + 1) % count));
        let mirror = last.and_then(|last| mirror_across(&drawn.edges.get(last)?.path).ok());
        let mut edges: Vec<FlatEdge> = match (last, mirror) {
            (Some(last), Some(mirror)) => {
                let open: Vec<usize> =
                    (1..=count).map(|step| (last + step) % count).filter(|&at| !is_fold(at)).collect();
                let own = open.iter().filter_map(|&at| path(at, None));
                let other = open.iter().rev().filter_map(|&at| path(at, Some(mirror)));
                own.chain(other).collect()
            }
            _ => (0..count).filter_map(|at| path(at, None)).collect(),
        };
        let outline = edges.len();
        for at in count..drawn.edges.len() {
            edges.extend(path(at, None));
            edges.extend(mirror.and_then(|mirror| path(at, Some(mirror))));
        }
        let ring = ring_of(&edges, outline);
        let is_sound = ring.len() > 2 && ring.iter().all(|point| point.is_finite());
        let (layer, hand) = (sewn.part.layer, sewn.hand);
        let (flap, shut) = (false, None);
        is_sound.then_some(Flat { part, layer, hand, flap, drawn, base, mirror, edges, outline, ring, shut })
    }

    /// The same, of which nothing is shut, with these take-ups shut.
    pub fn shut(&self, garment: &Garment, sewn: &[EdgeId]) -> Flat<'a> {
        let mut flat = self.clone();
        let is_sewn = |take_up: &&DrawnTakeUp| sewn.contains(&take_up.name);
        let taken: Vec<&DrawnTakeUp> = self.drawn.take_ups.iter().filter(is_sewn).collect();
        let fold = match self.drawn.cut {
            CutHow::OnFold(fold) => self.drawn.edges.iter().find(|edge| garment.is_run_of(edge.edge, fold)),
            CutHow::Alike | CutHow::Mirrored => None,
        };
        let Some(shut) = Shut::of(self.drawn, fold.map(|edge| &edge.path), &taken) else { return flat };
        for own in &mut flat.edges {
            let Some(edge) = self.drawn.edge_at(own.edge) else { continue };
            let mouths = self.drawn.take_ups_on(own.edge).into_iter();
            let mouths: Vec<Mouth> =
                mouths.filter(|(own, _)| shut.has(own.name)).map(|(_, mouth)| mouth).collect();
            let Some(anew) = shut.anew(&edge.path, &mouths) else { continue };
            own.path = match self.mirror.filter(|_| own.mirrored) {
                Some(mirror) => anew.path.transform(self.base * mirror).reversed(),
                None => anew.path.transform(self.base),
            };
            own.knots = anew.knots;
        }
        flat.ring = ring_of(&flat.edges, flat.outline);
        if flat.ring.len() > 2 && flat.ring.iter().all(|point| point.is_finite()) {
            flat.shut = Some(shut);
            return flat;
        }
        self.clone()
    }

    /// Where a place of the paper lies on it, once its take-ups are shut; still on the paper.
    pub fn settled(&self, at: Point) -> Point {
        self.shut.as_ref().map_or(at, |shut| shut.moved(at))
    }

    /// The same of a line.
    pub fn settled_path(&self, path: &Path) -> Path {
        self.shut.as_ref().map_or_else(|| path.clone(), |shut| shut.path(path))
    }

    /// The same of a take-up.
    pub fn settled_take_up(&self, take_up: &DrawnTakeUp) -> DrawnTakeUp {
        self.shut.as_ref().map_or(*take_up, |shut| shut.take_up(take_up))
    }

    /// The same of something small that keeps its shape.
    pub fn carried(&self, places: &[Point]) -> Affine {
        self.shut.as_ref().map_or(Affine::IDENTITY, |shut| shut.carried(places))
    }

    /// Whether a take-up is drawn shut.
    pub fn is_shut(&self, take_up: &DrawnTakeUp) -> bool {
        self.shut.as_ref().is_some_and(|shut| shut.has(take_up.name))
    }

    /// The outline.
    pub fn path(&self) -> BezPath {
        closed(self.edges.iter().take(self.outline).map(|edge| &edge.path))
    }

    /// Slits inside, each a line.
    pub fn inner(&self) -> impl Iterator<Item = &FlatEdge> {
        self.edges.iter().skip(self.outline)
    }

    /// What lies on the paper, on both halves of one on the fold.
    pub fn on_both(&self, hand: Option<Hand>) -> Vec<Affine> {
        let own = [Some(self.base), self.mirror.map(|mirror| self.base * mirror)];
        let of_hand = own
            .into_iter()
            .zip(Hand::BOTH)
            .filter(|(_, own)| self.mirror.is_none() || hand.is_none_or(|hand| hand == *own));
        of_hand.filter_map(|(affine, _)| affine).collect()
    }

    /// A stretch of the surface, the way it goes round its face. None of the fold of what is folded.
    pub fn stretch(&self, garment: &Garment, surface: &Surface, id: StretchId) -> Option<Path> {
        let (stretch, side) = (surface.stretch(id), surface.side_of(id));
        if side.fold {
            return None;
        }
        let own = self.edges.iter().find(|own| own.edge == side.edge && own.mirrored == side.mirrored)?;
        let path = &own.path;
        let length = path.length();
        if self.drawn.take_ups.is_empty() && self.drawn.opened.is_none() {
            let share = if side.length > 0.0 { length / side.length } else { 0.0 };
            let (from, to) = (stretch.from * share, stretch.to * share);
            return Some(part(path, from, to));
        }
        let taken = taken(garment, self.drawn, side.edge)?;
        let at = |along: f64| match side.mirrored {
            true => length - own.along(taken.as_drawn(side.length - along)),
            false => own.along(taken.as_drawn(along)),
        };
        Some(part(path, at(stretch.from), at(stretch.to)))
    }

    /// Its area, in square millimetres.
    pub fn area(&self) -> f64 {
        super::fit::area(&self.ring).abs()
    }
}

/// The first so many edges from point to point.
fn ring_of(edges: &[FlatEdge], outline: usize) -> Vec<Point> {
    edges.iter().take(outline).flat_map(|edge| edge.path.flatten(FLAT).into_iter().skip(1)).collect()
}

/// A part of a path; all of it where hardly anything is left out.
fn part(path: &Path, from: f64, to: f64) -> Path {
    let length = path.length();
    let (from, to) = (from.clamp(0.0, length), to.clamp(0.0, length));
    if from <= 0.01 && to >= length - 0.01 || to - from < 1e-6 {
        return path.clone();
    }
    path.part(from, to)
}

/// Paths end to end as one closed outline.
pub fn closed<'p>(paths: impl Iterator<Item = &'p Path>) -> BezPath {
    let mut outline = BezPath::new();
    for (nth, path) in paths.enumerate() {
        let own = path.to_bez();
        for element in own.elements().iter().skip(usize::from(nth > 0)) {
            outline.push(*element);
        }
    }
    if !outline.elements().is_empty() {
        outline.close_path();
    }
    outline
}

/// Which faces lie right side up as the mirror image of how they are drawn.
///
/// The surface says which faces of what hangs together lie to one another as they are drawn, and which turned over. Which
/// of the two is right side up is known where a maker says `drawn left` or `right`; else the first of them is taken as it is drawn.
fn reversed(garment: &Garment, size: &WorkedSize, surface: &Surface) -> Vec<bool> {
    let count = surface.faces.len();
    let mut group: Vec<usize> = (0..count).collect();
    fn root(group: &mut [usize], mut at: usize) -> usize {
        while let Some(&next) = group.get(at).filter(|next| **next != at) {
            at = next;
        }
        at
    }
    let mut join = |one: FaceId, other: FaceId| {
        let (one, other) = (root(&mut group, one.index()), root(&mut group, other.index()));
        let (low, high) = (one.min(other), one.max(other));
        if let Some(slot) = group.get_mut(high) {
            *slot = low;
        }
    };
    for own in &surface.joins {
        let mut faces = own.plies.iter().map(|ply| surface.face_of(ply.stretch));
        if let Some(first) = faces.next() {
            faces.for_each(|other| join(first, other));
        }
    }
    let mut base: Vec<Option<bool>> = vec![None; count];
    for id in surface.face_ids() {
        let face = surface.face(id);
        let Some(sewn) = size.sewn.parts.get(face.part.index()) else { continue };
        let Some((drawn, _)) = garment.piece(sewn.part.piece).drawn else { continue };
        let is_reversed = face.hand.is_some_and(|hand| hand != drawn);
        let at = root(&mut group, id.index());
        if let Some(slot) = base.get_mut(at) {
            slot.get_or_insert(is_reversed != face.turned);
        }
    }
    surface
        .face_ids()
        .map(|id| {
            let at = root(&mut group, id.index());
            surface.face(id).turned != base.get(at).copied().flatten().unwrap_or(false)
        })
        .collect()
}
