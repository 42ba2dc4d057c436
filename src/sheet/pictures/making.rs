//! What pictures are made from: the flat copies of all pieces, and when each of them is sewn to what.

use super::flat::Flat;
use super::ink::{Cloth, Texture};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, FabricId, Garment, LayerId, PlacementId};
use crate::id_hash::IdIndexMap;
use crate::sewing::order::{Job, Work, stitchings_of};
use crate::sewing::patches::Patch;
use crate::sewing::surface::{FaceId, JoinId, JoinedBy, StretchId, Surface};
use crate::sewing::{PartId, SewnSeam};
use crate::shape::path::Path;
use crate::sheet::facts::title;
use crate::sheet::{Differing, Facts};
use std::sync::Arc;

/// A step that is never reached: what no step does.
pub const NEVER: usize = usize::MAX;

/// The garment, ready to be drawn.
pub struct Making<'a> {
    /// What the sheet is of.
    pub facts: &'a Facts<'a>,
    /// The garment.
    pub garment: &'a Garment,
    /// The size that is drawn.
    pub size: &'a WorkedSize,
    /// Its sewn surface; an empty one where it is not known.
    pub surface: &'a Surface,
    /// What is to be done.
    pub work: Work<'a>,
    /// Of each face of the surface its flat copy, with what is taken up by the step that is reached.
    flats: Vec<Option<Flat<'a>>>,
    /// The same with nothing taken up, of those that have take-ups, and which are sewn.
    unsewn: Vec<(FaceId, Flat<'a>, Vec<EdgeId>)>,
    /// What is placed, where it lies on its host's paper.
    pub patches: Vec<Patch<'a>>,
    /// What differs from the base, where that is marked.
    pub differing: Option<&'a Differing>,
    /// The step that does each job, by its place among the sheet's.
    steps: IdIndexMap<Job, usize>,
    /// Which stitching each sewn seam is of.
    stitchings: Vec<Option<usize>>,
    /// The step that sews each join.
    joined: Vec<usize>,
    /// The fabrics that layers are cut from, in the order of their textures.
    textures: Vec<FabricId>,
}

impl<'a> Making<'a> {
    /// Of what a sheet is of.
    pub fn new(facts: &'a Facts<'a>, nothing: &'a Surface) -> Making<'a> {
        let (garment, size) = (facts.garment, facts.shown);
        let surface = size.sewn.surface.as_ref().unwrap_or(nothing);
        let work = Work::new(garment, &size.drawn, &size.sewn);
        let stitchings = stitchings_of(&work);
        let mut steps: IdIndexMap<Job, usize> = IdIndexMap::default();
        for (at, row) in facts.rows.iter().enumerate() {
            for job in row.targets(&facts.plan).iter().flat_map(|target| &target.jobs) {
                steps.entry(*job).or_insert(at);
            }
        }
        let joined = surface.joins.iter().map(|join| {
            let job = match join.by {
                JoinedBy::Seam { sewn, .. } => stitchings.get(sewn).copied().flatten().map(Job::Seam),
                JoinedBy::Placing(at) => surface
                    .placings
                    .get(at)
                    .map(|placing| Job::Place(placing.placement, surface.face(placing.placed).layer)),
            };
            job.and_then(|job| steps.get(&job).copied()).unwrap_or(NEVER)
        });
        let joined = joined.collect();
        let flats = Flat::all(garment, size, surface);
        let mut textures: Vec<FabricId> = Vec::new();
        for fabric in garment.layers.iter().filter_map(|layer| layer.fabric) {
            if !textures.contains(&fabric) {
                textures.push(fabric);
            }
        }
        let patches = Patch::all(garment, &size.drawn);
        let with_take_ups = surface.face_ids().zip(&flats).filter_map(|(face, flat)| {
            let flat = flat.as_ref().filter(|flat| !flat.drawn.take_ups.is_empty())?;
            Some((face, flat.clone(), Vec::new()))
        });
        let unsewn = with_take_ups.collect();
        Making {
            facts,
            garment,
            size,
            surface,
            work,
            flats,
            unsewn,
            patches,
            differing: None,
            steps,
            stitchings,
            joined,
            textures,
        }
    }

    /// Takes what is sewn before a step as done: take-ups are drawn shut from then on.
    pub fn reach(&mut self, step: usize) {
        let mut unsewn = std::mem::take(&mut self.unsewn);
        for (face, flat, before) in &mut unsewn {
            let named = flat.drawn.take_ups.iter().map(|take_up| take_up.name);
            let is_sewn = |name: &EdgeId| self.step_of(Job::TakeUp(flat.layer, *name)) < step;
            let sewn: Vec<EdgeId> = named.filter(is_sewn).collect();
            if sewn == *before {
                continue;
            }
            if let Some(own) = self.flats.get_mut(face.index()) {
                *own = Some(flat.shut(self.garment, &sewn));
            }
            *before = sewn;
        }
        self.unsewn = unsewn;
    }

    /// The step that does a job.
    pub fn step_of(&self, job: Job) -> usize {
        self.steps.get(&job).copied().unwrap_or(NEVER)
    }

    /// The step that sews a join.
    pub fn joined_at(&self, join: JoinId) -> usize {
        self.joined.get(join.index()).copied().unwrap_or(NEVER)
    }

    /// Whether a stretch is sewn before a step.
    pub fn is_sewn(&self, stretch: StretchId, step: usize) -> bool {
        self.surface.stretch(stretch).join.is_some_and(|join| self.joined_at(join) < step)
    }

    /// Whether a face is sewn to another before a step.
    pub fn is_joined(&self, face: FaceId, step: usize) -> bool {
        self.surface.stretches_of(face).any(|stretch| self.is_sewn(stretch, step))
    }

    /// The flat copy of a face.
    pub fn flat(&self, face: FaceId) -> Option<&Flat<'a>> {
        self.flats.get(face.index()).and_then(Option::as_ref)
    }

    /// The sewn seams of a stitching, by their places.
    pub fn seams_of(&self, stitching: usize) -> impl Iterator<Item = (usize, &'a SewnSeam)> {
        let of = move |at: &usize| self.stitchings.get(*at) == Some(&Some(stitching));
        self.size.sewn.seams.iter().enumerate().filter(move |(at, _)| of(at))
    }

    /// What the cloth of a layer looks like.
    pub fn cloth(&self, layer: LayerId, right: bool, joined: bool) -> Cloth {
        let fabric = self.garment.layer(layer).fabric;
        let texture = match self.textures.iter().position(|own| Some(*own) == fabric) {
            Some(nth) => Texture::Of(nth),
            None => Texture::Bought,
        };
        Cloth { texture, right, joined }
    }

    /// The number that a part's piece has on the sheet, and its title.
    pub fn called(&self, part: PartId) -> (Option<usize>, Arc<str>) {
        let Some(sewn) = self.size.sewn.parts.get(part.index()) else { return (None, "".into()) };
        let number = self.facts.number_of(sewn.part, sewn.hand);
        (number, title(self.garment, sewn.part.piece).into())
    }

    /// Edges of the outline of a flat copy that differ from those of the base.
    pub fn differing_edges(&self, flat: &Flat) -> Vec<Path> {
        let part = self.size.sewn.parts.get(flat.part.index()).map(|sewn| sewn.part);
        let Some((differing, part)) = self.differing.zip(part) else { return Vec::new() };
        let outline = flat.edges.iter().take(flat.outline);
        let differs = outline.filter(|edge| {
            let named = flat.drawn.edge_at(edge.edge).map(|edge| self.garment.edge(edge.edge));
            named.is_some_and(|named| differing.has_edge(self.garment, part, &named.name))
        });
        differs.map(|edge| edge.path.clone()).collect()
    }

    /// Whether the base has no such piece.
    pub fn is_added(&self, flat: &Flat) -> bool {
        let part = self.size.sewn.parts.get(flat.part.index()).map(|sewn| sewn.part);
        self.differing.zip(part).is_some_and(|(differing, part)| differing.is_added(self.garment, part))
    }

    /// The letter of what is done.
    pub fn letter(&self, job: Job) -> Option<String> {
        self.facts.letters.of_job(job)
    }

    /// Whether what is placed lies there before a step.
    pub fn is_placed(&self, placement: PlacementId, layer: LayerId, step: usize) -> bool {
        self.step_of(Job::Place(placement, layer)) < step
    }

    /// The faces of a layer that are cut from a piece with that edge, or a run of it.
    pub fn faces_with(&self, layer: Option<LayerId>, edge: EdgeId) -> Vec<FaceId> {
        let has = |id: &FaceId| {
            let own = layer.is_none_or(|layer| layer == self.surface.face(*id).layer);
            let is = |of: EdgeId| self.garment.is_run_of(of, edge) || self.garment.is_run_of(edge, of);
            own && self.flat(*id).is_some_and(|flat| flat.drawn.edges.iter().any(|own| is(own.edge)))
        };
        self.surface.face_ids().filter(has).collect()
    }
}
