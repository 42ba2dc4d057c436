//! What is covered is done before it is covered.
//!
//! - A piece folded with both its edges in one seam is shut by that seam: its ends are sewn and hemmed, and
//!   what is fused on it is fused, before.
//! - What is placed on a lined piece is stitched on before that is closed in with its lining.
//! - What is fused on a piece all of whose copies lie inside a bag is fused before the bag is closed; and before the piece is
//!   sewn round to what lies on it, and turned.

use super::jobs::Job;
use super::reach::Reach;
use super::rule::Rule;
use super::schedule::{Schedule, When};
use super::why::Why;
use crate::garment::{FinishKind, PieceId, PlacementId};
use crate::id_hash::IdIndexMap;
use crate::sewing::surface::{FaceId, JoinedBy, PlyAt, Shut, StretchId};

/// What is sewn to another ply by more than this share of its outline is turned, and its wrong side lies inside.
const MOST_OPEN: f64 = 0.5;

impl Reach<'_> {
    /// The ends of a folded piece are sewn, and what stiffens it is fused on, before the seam that takes
    /// both its edges.
    pub(super) fn flaps(&self, rules: &mut Vec<Rule>) {
        for face in self.surface.face_ids().filter(|&face| self.surface.face(face).flap) {
            let Some(shut) = self.shutting(face) else { continue };
            let waits = Job::Seam(shut);
            let ends = self.surface.stretches_of(face).filter(|&stretch| !self.is_crossed(stretch, shut));
            let seams = ends.filter_map(|stretch| self.seam(stretch)).filter(|at| *at != shut);
            rules.extend(seams.map(|at| Rule::jobs(waits, Job::Seam(at), Why::ShutsEnds)));
            rules.extend(self.across_fold(face).map(|at| Rule::jobs(waits, Job::Seam(at), Why::ShutsEnds)));
            let hems = self.surface.stretches_of(face).filter(|&stretch| self.is_shut_by(stretch, shut));
            let hems = hems.filter_map(|stretch| self.finish(stretch));
            rules.extend(hems.map(|hem| Rule::jobs(waits, hem, Why::ShutsEnds)));
            let own = self.piece(face);
            let fused = self.work.jobs.iter().filter(|job| self.is_fused_on(**job, face, own));
            rules.extend(fused.map(|&job| Rule::jobs(waits, job, Why::Covers)));
        }
    }

    /// Whether that fuses something on a face of this piece.
    fn is_fused_on(&self, job: Job, face: FaceId, own: PieceId) -> bool {
        let Job::Fuse(layer, piece) = job else { return false };
        piece == own && self.work.garment.is_fused_onto(layer, self.surface.face(face).layer)
    }

    /// The seams that sew ends of a folded piece to themselves, across its fold.
    fn across_fold(&self, face: FaceId) -> impl Iterator<Item = usize> {
        let part = self.surface.face(face).part;
        let all = self.work.stitchings.iter().enumerate();
        let across = all.filter(|(_, stitching)| self.work.garment.seam(stitching.seam).across_fold);
        across
            .filter(move |(_, stitching)| stitching.places().any(|place| place.part == part))
            .map(|(at, _)| at)
    }

    /// Whether the end of a folded piece lies in a seam that goes on over the one that shuts it: the end is then
    /// sewn folded, as that of a strip along a slit is into a cuff.
    fn is_crossed(&self, stretch: StretchId, shut: usize) -> bool {
        [false, true].into_iter().any(|at_end| {
            let (beside, met_at_end) = self.beyond(stretch, at_end);
            let partner = self.gluing.partner(beside).filter(|_| self.seam(beside) == Some(shut));
            partner.is_some_and(|partner| {
                let (other, _) = self.beyond(partner.stretch, met_at_end == partner.same_way);
                self.seam(other) == self.seam(stretch)
            })
        })
    }

    /// The seam in which a flap lies with both its edges: the one opposite of its fold.
    pub(super) fn shutting(&self, face: FaceId) -> Option<usize> {
        let drawn = self.work.finder.drawn(self.surface.face(face).part)?;
        let folds = &self.work.garment.piece(drawn.piece).folds;
        let is_folded = |edge| {
            let same = |of| self.work.garment.is_run_of(edge, of);
            folds.iter().any(|over| same(over.edge) || same(over.onto))
        };
        let mut sides = self.surface.sides_of(face).filter(|&side| {
            let side = self.surface.side(side);
            !side.fold && drawn.edge_at(side.edge).is_some_and(|edge| is_folded(edge.edge))
        });
        let side = sides.next()?;
        self.surface.stretches_on(side).find_map(|stretch| self.seam(stretch))
    }

    /// Whether a hem of a folded piece ends in the seam that shuts it. A binding goes round both plies
    /// later too, and what runs on beyond the seam is hemmed together.
    fn is_shut_by(&self, stretch: StretchId, shut: usize) -> bool {
        let is_bound = matches!(self.kind(stretch), Some(FinishKind::Bound(_)));
        self.is_turned(stretch)
            && !is_bound
            && [false, true].into_iter().any(|at_end| {
                let (beside, _) = self.beyond(stretch, at_end);
                self.seam(beside) == Some(shut) && self.runs_on_into(stretch, at_end).is_none()
            })
    }

    /// What is fused only once all of its piece is closed in: which rule that breaks, of those given.
    pub fn fused_late(&self, schedule: &Schedule) -> Vec<(Job, When, Job, When)> {
        let fused: Vec<(Job, PieceId, When)> = self
            .work
            .jobs
            .iter()
            .filter_map(|&job| match job {
                Job::Fuse(_, piece) => Some((job, piece, schedule.when(job)?)),
                _ => None,
            })
            .collect();
        if fused.is_empty() {
            return Vec::new();
        }
        let closed = self.closed_in(schedule);
        let late = |(job, piece, second): (Job, PieceId, When)| {
            let faces = self.surface.face_ids().filter(|&face| self.is_fused_on(job, face, piece));
            let faces = faces.filter(|&face| self.piece(face) == piece);
            let covers: Option<Vec<(When, usize)>> =
                faces.map(|face| closed.get(face.index()).copied().flatten()).collect();
            let (first, at) = covers?.into_iter().max().filter(|(first, _)| *first < second)?;
            Some((Job::Seam(at), first, job, second))
        };
        fused.into_iter().filter_map(late).collect()
    }

    /// What is fused only once its piece is sewn round to a ply that lies on it, and turned, so that its wrong side lies inside: a
    /// collar, a flap, a bib. The last seam that joins both, and when; what is fused, and when.
    pub fn fused_turned(&self, schedule: &Schedule) -> Vec<(Job, When, Job, When)> {
        let fused = self.work.jobs.iter().filter_map(|&job| match job {
            Job::Fuse(..) => Some((job, schedule.when(job)?)),
            _ => None,
        });
        let late = |(job, second): (Job, When)| {
            // Through a gap it is turned only later.
            if schedule.turned.iter().any(|(turned, _)| *turned > second) {
                return None;
            }
            let faces = self.surface.face_ids().filter(|&face| self.is_fused_on(job, face, self.piece(face)));
            let shut: Option<Vec<(When, usize)>> = faces.map(|face| self.turned_by(face, schedule)).collect();
            let (first, at) = shut?.into_iter().max().filter(|(first, _)| *first < second)?;
            Some((Job::Seam(at), first, job, second))
        };
        fused.filter_map(late).collect()
    }

    /// The last seam that joins a face to one that lies on it along most of its outline, and when.
    fn turned_by(&self, face: FaceId, schedule: &Schedule) -> Option<(When, usize)> {
        let mut behind: IdIndexMap<FaceId, (f64, Option<(When, usize)>)> = IdIndexMap::default();
        let mut round = 0.0;
        for stretch in self.surface.stretches_of(face) {
            let length = self.surface.length(stretch);
            round += length;
            let (Some(at), Some(join)) = (self.seam(stretch), self.surface.stretch(stretch).join) else {
                continue;
            };
            let Some(when) = schedule.when(Job::Seam(at)) else { continue };
            // What lies with it on one side of a seam is sewn on with it.
            let plies = &self.surface.join(join).plies;
            let Some(own) = plies.iter().find(|ply| ply.stretch == stretch).map(|ply| ply.at) else {
                continue;
            };
            let is_first = |at: PlyAt| matches!(at, PlyAt::First(_));
            let others =
                plies.iter().filter(|ply| ply.at != PlyAt::Caught && is_first(ply.at) != is_first(own));
            let others = others.map(|ply| self.surface.face_of(ply.stretch));
            for other in others.filter(|&other| self.lie_on_one_another(face, other)) {
                let (sewn, last) = behind.entry(other).or_insert((0.0, None));
                *sewn += length;
                *last = (*last).max(Some((when, at)));
            }
        }
        behind.into_iter().find(|(_, (sewn, _))| *sewn > MOST_OPEN * round).and_then(|(_, (_, last))| last)
    }

    /// What is fused only once its own cloth is sewn to something, and not shut in by it yet: the first seam that sews it, and
    /// when; what is fused, and when.
    pub fn fused_sewn(&self, schedule: &Schedule) -> Vec<(Job, When, Job, When)> {
        let fused = self.work.jobs.iter().filter_map(|&job| match job {
            Job::Fuse(..) => Some((job, schedule.when(job)?)),
            _ => None,
        });
        let sewn = |(job, second): (Job, When)| {
            let faces = self.surface.face_ids().filter(|&face| self.is_fused_on(job, face, self.piece(face)));
            let seams = faces.flat_map(|face| self.surface.stretches_of(face)).filter_map(|at| self.seam(at));
            let first = seams.filter_map(|at| Some((schedule.when(Job::Seam(at))?, at))).min()?;
            (first.0 < second).then_some((Job::Seam(first.1), first.0, job, second))
        };
        fused.filter_map(sewn).collect()
    }

    /// What is placed only once what it lies on is closed in with what lies behind that, a lined bag: the placement,
    /// when it is placed, and the seam that closes, and when.
    pub fn placed_late(&self, schedule: &Schedule) -> Vec<(PlacementId, When, usize, When)> {
        let placed = self.work.jobs.iter().filter_map(|&job| match job {
            Job::Place(id, _) => Some((id, schedule.when(job)?)),
            _ => None,
        });
        let placed: Vec<(PlacementId, When)> = placed.collect();
        let hosts = |id: PlacementId| -> Vec<FaceId> {
            let placement = self.work.garment.placement(id);
            let is_host = |&face: &FaceId| {
                let layer = self.surface.face(face).layer;
                self.piece(face) == placement.on && placement.on_layer.is_none_or(|on| on == layer)
            };
            self.surface.face_ids().filter(is_host).collect()
        };
        // What is closed in has all its seams sewn; most pockets are placed on flat cloth.
        let is_sewn_by = |&(id, placed): &(PlacementId, When)| {
            let hosts = hosts(id);
            let mut seams = hosts.iter().flat_map(|&face| self.surface.stretches_of(face));
            seams.all(|stretch| {
                let sewn = self.seam(stretch).and_then(|at| schedule.when(Job::Seam(at)));
                sewn.is_some_and(|sewn| sewn < placed)
            })
        };
        let placed: Vec<(PlacementId, When)> = placed.into_iter().filter(is_sewn_by).collect();
        if placed.is_empty() {
            return Vec::new();
        }
        let closed = self.closed_in(schedule);
        let late = |(id, placed): (PlacementId, When)| {
            let hosts = hosts(id);
            let has_behind = |&face: &FaceId| {
                self.surface.face_ids().any(|behind| {
                    self.lie_on_one_another(face, behind)
                        && closed.get(behind.index()) == closed.get(face.index())
                })
            };
            if !hosts.iter().all(has_behind) {
                return None;
            }
            let closing: Option<Vec<(When, usize)>> =
                hosts.iter().map(|face| closed.get(face.index()).copied().flatten()).collect();
            let (when, at) = closing?.into_iter().max().filter(|(when, _)| *when < placed)?;
            Some((id, placed, at, when))
        };
        placed.into_iter().filter_map(late).collect()
    }

    fn piece(&self, face: FaceId) -> PieceId {
        self.work.sewing.part(self.surface.face(face).part).part.piece
    }

    /// Of each face when the first bag that it lies in is closed, and by which seam; none of one that lies
    /// in no bag.
    fn closed_in(&self, schedule: &Schedule) -> Vec<Option<(When, usize)>> {
        let sewn =
            |stretch: StretchId| self.seam(stretch).and_then(|at| Some((schedule.when(Job::Seam(at))?, at)));
        let when = |shut: Shut| match shut {
            Shut::Join(join) => {
                let join = self.surface.join(join);
                let by_seam = matches!(join.by, JoinedBy::Seam { .. });
                let ply = join.plies.first().filter(|_| by_seam);
                ply.and_then(|ply| sewn(ply.stretch)).map_or(usize::MAX, |(when, _)| when.at)
            }
            Shut::Closure(_) | Shut::Across(_) => 0,
        };
        let mut closed = vec![None; self.surface.faces.len()];
        for bag in self.surface.bags(&self.surface.shutting(), when).unwrap_or_default() {
            let mut stretches = bag.faces.iter().flat_map(|&face| self.surface.stretches_of(face));
            let closing =
                stretches.find_map(|stretch| sewn(stretch).filter(|(when, _)| when.at == bag.closed));
            for &face in bag.faces.iter().filter(|_| closing.is_some()) {
                let own = &mut closed[face.index()];
                if own.is_none() {
                    *own = closing;
                }
            }
        }
        closed
    }
}
