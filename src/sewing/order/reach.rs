//! Rules that are read off the sewn surface: what is finished, fused or threaded while it can still be
//! reached.
//!
//! - A finish runs on over a seam where, on both plies of the seam, the rim goes on into stretches that
//!   are finished in the same layer: then the seam comes first, also when it joins two copies of one edge.
//!   Where the edge leads back into the seam, as at a slit with a cuff of two plies, or the seam goes straight on over
//!   its end, as a yoke over an opening in the middle, its end is shut in and the finish comes first.
//! - Buttonholes are worked through the front and the facing behind it, once that is sewn on, and through hems
//!   that are turned.
//! - What is turned through a gap is joined to what it will lie on before.
//! - The mouth of a channel stays open: the edge beside it is finished before the channel, not over it.
//!
//! The order of work is the same in every size, so that only the first one is looked at.

use super::doing::Doing;
use super::jobs::{Job, Work};
use super::rule::{Needs, Rule};
use super::why::Why;
use crate::garment::{ClosureKind, FinishId, FinishKind, LayerId, Outline, PieceId, SeamId};
use crate::id_hash::{IdIndexMap, IdMap, IdSet};
use crate::sewing::SewnSeam;
use crate::sewing::surface::{FaceId, Gluing, JoinedBy, StretchId, Surface, Union};
use crate::syntax::tree::Fastener;
use smallvec::SmallVec;

/// The sewn surface, and which work sews what of it.
pub struct Reach<'a> {
    /// The work.
    pub work: &'a Work<'a>,
    /// The surface.
    pub surface: &'a Surface,
    pub(super) gluing: &'a Gluing,
    /// The stitching of each sewn seam, by its place among them.
    pub seams: Vec<Option<usize>>,
}

/// The stitching of each sewn seam: the one of that seam in those layers.
pub fn stitchings_of(work: &Work) -> Vec<Option<usize>> {
    let of = |sewn: &SewnSeam| {
        let mut all = work.of_seam(sewn.seam).iter().copied();
        all.find(|&at| {
            let Some(stitching) = work.stitchings.get(at) else { return false };
            // A seam that names the layers of some edges may lie in more than the one it is meant in.
            let is_in = |layer: LayerId| stitching.places().any(|place| work.layer_of(place) == layer);
            sewn.layers.iter().all(|&layer| is_in(layer))
                && stitching.places().all(|place| sewn.layers.contains(&work.layer_of(place)))
        })
    };
    work.sewing.seams.iter().map(of).collect()
}

impl<'a> Reach<'a> {
    /// Of that work; none where the surface is not known.
    pub fn of(work: &'a Work<'a>) -> Option<Reach<'a>> {
        let surface = work.sewing.surface.as_ref()?;
        Some(Reach { work, surface, gluing: &work.sewing.gluing, seams: stitchings_of(work) })
    }

    /// All rules that the surface shows.
    pub(super) fn rules(&self, rules: &mut Vec<Rule>) {
        self.finishes(rules);
        self.flaps(rules);
        self.mouths(rules);
        self.buttonholes(rules);
        self.buttoned_edges(rules);
        self.zips(rules);
        self.set_within(rules);
        for (id, seam) in SeamId::enumerate(&self.work.garment.seams) {
            if !seam.gaps.is_empty() {
                rules.push(Rule::new(Doing::Job(Job::Turn(id)), Needs::LaidOn(id), Why::LiesOn));
            }
        }
        let plies = self.plies();
        self.under_whole(&plies, rules);
        self.rings(&plies, rules);
        self.middles(&plies, rules);
    }
}

impl Reach<'_> {
    fn layer(&self, stretch: StretchId) -> LayerId {
        self.surface.face(self.surface.face_of(stretch)).layer
    }

    /// The job of the seam that a stretch lies in.
    pub fn seam(&self, stretch: StretchId) -> Option<usize> {
        let join = self.surface.join(self.surface.stretch(stretch).join?);
        let JoinedBy::Seam { sewn, .. } = join.by else { return None };
        self.seams.get(sewn).copied().flatten()
    }

    /// The job of the finish of a stretch.
    pub(super) fn finish(&self, stretch: StretchId) -> Option<Job> {
        let garment = self.work.garment;
        let at = self.surface.stretch(stretch).finish?;
        let side = self.surface.side_of(stretch);
        let face = self.surface.face(side.face);
        let drawn = self.work.finder.drawn(face.part)?.edge_at(side.edge)?;
        let finish = garment.finish(at);
        let nth = finish.edges.iter().position(|sewn| {
            sewn.layer.is_none_or(|layer| layer == face.layer) && garment.is_run_of(drawn.edge, sewn.edge)
        })?;
        Some(Job::Finish(at, nth, face.layer))
    }

    pub(super) fn kind(&self, stretch: StretchId) -> Option<&FinishKind> {
        self.surface.stretch(stretch).finish.map(|id| &self.work.garment.finish(id).kind)
    }

    fn is_channel(&self, stretch: StretchId) -> bool {
        matches!(self.kind(stretch), Some(FinishKind::Casing(..)))
    }

    /// Whether the finish is turned or laid over the edge, and so over the allowances of seams that end
    /// there. Edges are overlocked or left raw before they are sewn as well as after.
    pub(super) fn is_turned(&self, stretch: StretchId) -> bool {
        !matches!(self.kind(stretch), None | Some(FinishKind::Overlocked | FinishKind::Raw))
    }

    /// What a stretch is sewn to, and whether one end of it lies at the end of that.
    pub fn partner(&self, stretch: StretchId, at_end: bool) -> Option<(StretchId, bool)> {
        self.gluing.partner(stretch).map(|partner| (partner.stretch, at_end == partner.same_way))
    }

    /// The stretch beyond one, round its face, and whether it is met at its own end.
    pub fn beyond(&self, stretch: StretchId, at_end: bool) -> (StretchId, bool) {
        match at_end {
            true => (self.surface.next(stretch), false),
            false => (self.surface.before(stretch), true),
        }
    }

    /// What runs on over a seam comes after it; what ends in a seam that takes in all that its edge leads
    /// to comes before, for its end is shut in.
    fn finishes(&self, rules: &mut Vec<Rule>) {
        // One hem over one seam is told once, not from both sides of the seam.
        let mut groups: IdMap<(Option<FinishId>, usize), usize> = IdMap::default();
        for stretch in self.surface.stretch_ids().filter(|&stretch| self.is_turned(stretch)) {
            let Some(finish) = self.finish(stretch) else { continue };
            for at_end in [false, true] {
                // What is bound on over a seam, like a neck over the strips of its placket, is bound once that is sewn.
                let bound_on = self.bound_on(stretch, at_end);
                let is_open = |at: &usize| Some(*at) != bound_on;
                let shut = self.shut_in(stretch, at_end).or_else(|| self.sewn_across(stretch, at_end));
                if let Some(at) = shut.filter(is_open) {
                    rules.push(Rule::jobs(Job::Seam(at), finish, Why::ShutsEnd));
                }
                let covered = self.covered(stretch, at_end).filter(is_open);
                if let Some(at) = covered {
                    rules.push(Rule::jobs(Job::Seam(at), finish, Why::LiesOver));
                }
                // What ends below a band that is folded over it does not run on over its end, and no more does that band's.
                let ends_below =
                    |at: &usize| covered == Some(*at) || bound_on.is_none() && self.covers(stretch, at_end);
                if let Some(at) = self.runs_on_into(stretch, at_end).filter(|at| !ends_below(at)) {
                    let next = rules.len();
                    let group = *groups.entry((self.surface.stretch(stretch).finish, at)).or_insert(next);
                    let rule = Rule::jobs(finish, Job::Seam(at), Why::RunsOn);
                    rules.push(Rule { one_of: Some(group), ..rule });
                }
            }
        }
    }

    /// The seam over which a stretch runs on into another that is turned in the same layer.
    pub(super) fn runs_on_into(&self, stretch: StretchId, at_end: bool) -> Option<usize> {
        let (beside, met_at_end) = self.beyond(stretch, at_end);
        let (at, partner) = self.seam(beside).zip(self.gluing.partner(beside))?;
        let (other, _) = self.beyond(partner.stretch, met_at_end == partner.same_way);
        (self.layer(other) == self.layer(stretch) && self.is_turned(other)).then_some(at)
    }

    /// Whether what lies beyond the seam beside the end of a stretch ends below it.
    fn covers(&self, stretch: StretchId, at_end: bool) -> bool {
        let (beside, met_at_end) = self.beyond(stretch, at_end);
        self.gluing.partner(beside).is_some_and(|partner| {
            let (other, at_its_end) = self.beyond(partner.stretch, met_at_end == partner.same_way);
            self.is_turned(other)
                && self.covered(other, at_its_end).is_some_and(|at| self.seam(beside) == Some(at))
        })
    }

    /// The seam over which one binding runs on from a stretch into another of its edges.
    fn bound_on(&self, stretch: StretchId, at_end: bool) -> Option<usize> {
        let is_bound = matches!(self.kind(stretch), Some(FinishKind::Bound(_)));
        let at = self.runs_on_into(stretch, at_end).filter(|_| is_bound)?;
        let (beside, met_at_end) = self.beyond(stretch, at_end);
        let partner = self.gluing.partner(beside)?;
        let (other, _) = self.beyond(partner.stretch, met_at_end == partner.same_way);
        (self.surface.stretch(other).finish == self.surface.stretch(stretch).finish).then_some(at)
    }

    /// The seam beside the end of a stretch, if it shuts that end in: round the corner there the edge of the
    /// cloth leads back into the seam, and not out again.
    fn shut_in(&self, stretch: StretchId, at_end: bool) -> Option<usize> {
        let (beside, _) = self.beyond(stretch, at_end);
        let at = self.seam(beside)?;
        let (round, _) = self.gluing.turn(self.surface, stretch, at_end);
        let join = |stretch: StretchId| self.surface.stretch(stretch).join;
        (round != beside && join(round) == join(beside)).then_some(at)
    }

    /// The seam beside the end of a stretch, if what it sews on goes on beyond that end, sewn by the same seam to
    /// what lies there: a yoke over an opening in the middle.
    fn sewn_across(&self, stretch: StretchId, at_end: bool) -> Option<usize> {
        let (beside, met_at_end) = self.beyond(stretch, at_end);
        let (at, partner) = self.seam(beside).zip(self.gluing.partner(beside))?;
        let (other, _) = self.beyond(partner.stretch, met_at_end == partner.same_way);
        let (own, on) = (self.surface.face_of(stretch), self.surface.face_of(partner.stretch));
        (own != on
            && other != partner.stretch
            && self.surface.face_of(other) == on
            && self.seam(other) == Some(at))
        .then_some(at)
    }

    /// The seam beside the end of a stretch, if what is sewn on there goes round the end: its own edge runs on
    /// into a seam with the ply that lies behind it, as of a cuff or a collar, or it is a band folded over the end.
    fn covered(&self, stretch: StretchId, at_end: bool) -> Option<usize> {
        let over = self.folded_over(stretch, at_end).or_else(|| self.hangs_from_band(stretch, at_end));
        if over.is_some() {
            return over;
        }
        let (beside, met_at_end) = self.beyond(stretch, at_end);
        let (at, partner) = self.seam(beside).zip(self.gluing.partner(beside))?;
        let (other, at_its_end) = self.beyond(partner.stretch, met_at_end == partner.same_way);
        // What is sewn by the same seam as the end itself, like all of a casing's ring to its lining, does not go round it.
        self.seam(other).filter(|round| *round != at && self.seam(stretch) != Some(*round))?;
        let behind = self.gluing.partner(other)?;
        // Where the ply behind stays free, the end can still be reached from there.
        let (down, _) = self.beyond(behind.stretch, at_its_end == behind.same_way);
        self.surface.stretch(down).join?;
        let face = |stretch: StretchId| self.surface.stretch(stretch).face;
        let origins = |stretch: StretchId| self.origins(face(stretch));
        let is_new = origins(other).iter().all(|piece| !origins(stretch).contains(piece));
        let is_behind = self.lie_on_one_another(face(other), face(behind.stretch));
        (is_new && is_behind).then_some(at)
    }

    /// The seam beside the end of a stretch, if it sews on a band that is folded over that end.
    pub(super) fn folded_over(&self, stretch: StretchId, at_end: bool) -> Option<usize> {
        let (beside, _) = self.beyond(stretch, at_end);
        let (at, partner) = self.seam(beside).zip(self.gluing.partner(beside))?;
        let over = self.surface.face_of(partner.stretch);
        (self.is_sewn_band(over, at) && over != self.surface.face_of(stretch)).then_some(at)
    }

    /// Whether a face is a folded band that a seam sews on.
    fn is_sewn_band(&self, face: FaceId, at: usize) -> bool {
        self.surface.face(face).flap && self.shutting(face) == Some(at)
    }

    /// The same of what hangs from a band as one ply more, as a slip does behind its skirt.
    fn hangs_from_band(&self, stretch: StretchId, at_end: bool) -> Option<usize> {
        let (beside, _) = self.beyond(stretch, at_end);
        let (at, join) = self.seam(beside).zip(self.surface.stretch(beside).join)?;
        let mut plies = self.surface.join(join).plies.iter().map(|ply| self.surface.face_of(ply.stretch));
        let is_free = self.gluing.partner(beside).is_none();
        (is_free && plies.any(|face| self.is_sewn_band(face, at))).then_some(at)
    }

    /// A hem that is turned over the mouth of a channel shuts it.
    fn mouths(&self, rules: &mut Vec<Rule>) {
        for channel in self.surface.stretch_ids().filter(|&stretch| self.is_channel(stretch)) {
            let Some(finish) = self.finish(channel) else { continue };
            for at_end in [false, true] {
                let (beside, _) = self.beyond(channel, at_end);
                let turned = self.is_turned(beside) && !self.is_channel(beside);
                if let Some(hem) = self.finish(beside).filter(|_| turned) {
                    rules.push(Rule::jobs(finish, hem, Why::Mouth));
                }
            }
        }
    }

    /// A facing is sewn on before buttonholes are worked through it: along the edge that the row is nearest
    /// to, and then wherever else its layers are joined.
    fn buttonholes(&self, rules: &mut Vec<Rule>) {
        let garment = self.work.garment;
        for line in &self.surface.closures {
            let closure = garment.closure(line.closure);
            let Some(ClosureKind::Fasteners(row)) = &closure.kind else { continue };
            let facing = if row.kind == Fastener::Button { Why::Facing } else { Why::FacingBehind };
            for &front in line.faces.iter().flatten() {
                // What joins the front to what lies behind it: how much of it, and whether that is a strip.
                let mut behind: IdIndexMap<usize, (bool, f64)> = IdIndexMap::default();
                for stretch in self.surface.stretches_of(front) {
                    let (Some(at), Some(partner)) = (self.seam(stretch), self.gluing.partner(stretch)) else {
                        continue;
                    };
                    let other = self.surface.face_of(partner.stretch);
                    if self.lie_on_one_another(front, other) || self.is_faced_by(front, other) {
                        let (strip, length) = behind.entry(at).or_insert((false, 0.0));
                        let own = self.surface.stretch(stretch);
                        *strip |= self.is_strip(other);
                        *length += own.to - own.from;
                    }
                }
                let nearest = behind
                    .iter()
                    .max_by(|(_, one), (_, other)| one.0.cmp(&other.0).then(one.1.total_cmp(&other.1)));
                let Some(nearest) = nearest.map(|(at, _)| *at) else { continue };
                let others = behind.keys().copied().filter(|at| *at != nearest);
                let all = std::iter::once((nearest, facing)).chain(others.map(|at| (at, Why::AsWorn)));
                let group = Some(rules.len());
                for (at, why) in all {
                    let rule = Rule::jobs(Job::Closure(line.closure), Job::Seam(at), why);
                    rules.push(Rule { one_of: group, ..rule });
                }
            }
        }
    }

    /// Whether a strip of a piece faces it, in its own layer.
    fn is_faced_by(&self, face: FaceId, strip: FaceId) -> bool {
        let layer = |face: FaceId| self.surface.face(face).layer;
        let is_strip_alone = || self.is_strip(strip) && !self.is_strip(face);
        layer(face) == layer(strip)
            && is_strip_alone()
            && self.origins(face).iter().any(|origin| self.origins(strip).contains(origin))
    }

    fn is_strip(&self, face: FaceId) -> bool {
        let piece = self.work.sewing.part(self.surface.face(face).part).part.piece;
        matches!(self.work.garment.piece(piece).drawing.outline, Outline::Strip { .. })
    }

    pub(super) fn origins(&self, face: FaceId) -> SmallVec<[PieceId; 4]> {
        let part = self.surface.face(face).part;
        self.work.garment.origins(self.work.sewing.part(part).part.piece)
    }

    /// Whether two faces lie on one another when the garment is worn: of different layers, and made of
    /// one piece.
    pub(super) fn lie_on_one_another(&self, one: FaceId, other: FaceId) -> bool {
        let garment = self.work.garment;
        let [one, other] = [one, other].map(|face| self.surface.face(face));
        let piece = |part| self.work.sewing.part(part).part.piece;
        let (piece, other_piece) = (piece(one.part), piece(other.part));
        // A strip and the rest lie beside one another.
        let is_rest = |piece, of| matches!(&garment.piece(piece).drawing.outline, Outline::Rest { without, .. } if *without == of);
        let beside = is_rest(piece, other_piece) || is_rest(other_piece, piece);
        let is_twin = || {
            let others = garment.origins(other_piece);
            garment.origins(piece).iter().any(|one| others.contains(one))
        };
        one.layer != other.layer && !beside && is_twin()
    }

    /// Through a gap a layer is turned that hangs on the one that it will lie on. Turned by itself it is
    /// only inside out. The seams, sewn later than `before` says, that join it to what it will lie on; none
    /// where it hangs there already, or nothing does.
    pub(super) fn laid_late(&self, gap: SeamId, before: &dyn Fn(usize) -> bool) -> Option<Vec<usize>> {
        let faces = self.surface.faces.len();
        let mut together = Union::new(faces);
        let mut later: Vec<(usize, Vec<FaceId>)> = Vec::new();
        let mut turned: Option<FaceId> = None;
        for join in &self.surface.joins {
            let JoinedBy::Seam { seam, .. } = join.by else { continue };
            let Some(at) = join.plies.first().and_then(|ply| self.seam(ply.stretch)) else { continue };
            let own: Vec<FaceId> = join.plies.iter().map(|ply| self.surface.face_of(ply.stretch)).collect();
            let Some((&one, others)) = own.split_first() else { continue };
            if join.gap && seam == gap && turned.is_none() {
                turned = Some(one);
            }
            if before(at) {
                for other in others {
                    together.join(one.index(), other.index());
                }
            } else {
                later.push((at, own));
            }
        }
        let turned = turned?;
        let roots: Vec<usize> = self.surface.face_ids().map(|face| together.root(face.index())).collect();
        let own = roots.get(turned.index()).copied();
        let root = |face: FaceId| roots.get(face.index()).copied();
        // What lies on the turned layer, with all that hangs on it.
        let mut inside: IdMap<PieceId, Vec<FaceId>> = IdMap::default();
        for face in self.surface.face_ids().filter(|&face| root(face) == own) {
            for origin in self.origins(face) {
                inside.entry(origin).or_default().push(face);
            }
        }
        let lies = |one: FaceId| {
            let mut twins = self.origins(one).into_iter().filter_map(|origin| inside.get(&origin)).flatten();
            twins.any(|&other| self.lie_on_one_another(one, other))
        };
        let outside: IdSet<Option<usize>> =
            self.surface.face_ids().filter(|&face| lies(face)).map(root).collect();
        if outside.contains(&own) {
            return None;
        }
        let joins = |plies: &[FaceId]| {
            plies.iter().any(|&one| root(one) == own) && plies.iter().any(|&one| outside.contains(&root(one)))
        };
        let late: Vec<usize> = later.iter().filter(|(_, plies)| joins(plies)).map(|(at, _)| *at).collect();
        (!late.is_empty()).then_some(late)
    }
}
