//! `step/early`, read off the sewn surface: what is finished, fused or threaded while it can still be
//! reached.
//!
//! - A finish runs on over a seam where, on both plies of the seam, the rim goes on into stretches that
//!   are finished in the same layer: then the seam comes first, also when it joins two copies of one edge.
//!   Where the edge leads back into the seam, as at a slit with a cuff of two plies, its end is shut in and the
//!   finish comes first.
//! - Buttonholes are worked through the front and the facing behind it, once that is sewn on, and through hems
//!   that are turned.
//! - What is turned through a gap is joined to what it will lie on before.
//! - The mouth of a channel stays open: the edge beside it is finished before the channel, not over it.
//!
//! The order of work is the same in every size, so that only the first one is looked at.

use super::super::words;
use super::jobs::{Job, When, Work};
use crate::cutting::WorkedSize;
use crate::garment::{ClosureKind, FinishKind, LayerId, Outline, PieceId, SeamId};
use crate::report::{Diagnostic, catalogue};
use crate::sewing::surface::{FaceId, Gluing, JoinedBy, StretchId, Surface, Union};
use crate::sewing::{Sewing, SewnSeam};
use crate::source::Span;
use indexmap::IndexMap;
use std::collections::{HashMap, HashSet};

/// Every slip of order that the surface shows.
pub(super) fn slips_of_reach(work: &Work, size: &WorkedSize, diagnostics: &mut Vec<Diagnostic>) {
    let sewing = &size.sewn;
    let Some(surface) = &sewing.surface else { return };
    let reach =
        Reach { work, sewing, surface, gluing: Gluing::seams(surface), seams: stitchings_of(work, sewing) };
    let mut early: Vec<Early> = Vec::new();
    reach.finishes(&mut early);
    reach.flaps(&mut early);
    reach.mouths(&mut early);
    reach.buttonholes(&mut early);
    reach.buttoned_edges(&mut early);
    reach.zips(&mut early);
    reach.turning(&mut early);
    reach.rings(&mut early);
    reach.middles(&mut early);
    reach.fusing(&mut early);
    // What the chains of a seam show is reported by itself.
    let known: HashSet<(Span, Span)> = diagnostics
        .iter()
        .filter(|one| one.slug() == catalogue::STEP_EARLY.slug)
        .filter_map(|one| Some((one.labels.first()?.span, one.labels.get(1)?.span)))
        .collect();
    let mut seen: HashSet<(String, String)> = HashSet::new();
    for one in early.into_iter().filter(|one| !known.contains(&(one.first.span, one.second.span))) {
        if seen.insert((one.sooner.clone(), one.later.clone())) {
            diagnostics.push(one.message());
        }
    }
}

/// `sooner` is done at `first`, but needs `later` done before it.
pub(super) struct Early {
    pub(super) sooner: String,
    pub(super) first: When,
    pub(super) later: String,
    pub(super) second: When,
    pub(super) why: &'static str,
}

impl Early {
    fn message(&self) -> Diagnostic {
        let title = format!("{} comes before {}, {}", self.sooner, self.later, self.why);
        Diagnostic::new(&catalogue::STEP_EARLY, self.first.span, title)
            .label("too early")
            .also(self.second.span, "only here")
            .help(format!("{} comes first: move it up, or {} down", self.later, self.sooner))
    }
}

pub(super) struct Reach<'a> {
    pub(super) work: &'a Work<'a>,
    pub(super) sewing: &'a Sewing,
    pub(super) surface: &'a Surface,
    pub(super) gluing: Gluing,
    /// The stitching of each sewn seam, by its place among them.
    pub(super) seams: Vec<Option<usize>>,
}

/// The stitching of each sewn seam: the one of that seam in those layers.
pub(super) fn stitchings_of(work: &Work, sewing: &Sewing) -> Vec<Option<usize>> {
    let mut by_seam: HashMap<SeamId, Vec<usize>> = HashMap::new();
    for (at, stitching) in work.stitchings.iter().enumerate() {
        by_seam.entry(stitching.seam).or_default().push(at);
    }
    let of = |sewn: &SewnSeam| {
        let mut all = by_seam.get(&sewn.seam)?.iter().copied();
        all.find(|&at| {
            let Some(stitching) = work.stitchings.get(at) else { return false };
            // A seam that names the layers of some edges may lie in more than the one it is meant in.
            let is_in = |layer: LayerId| stitching.places().any(|place| work.layer_of(place) == layer);
            sewn.layers.iter().all(|&layer| is_in(layer))
                && stitching.places().all(|place| sewn.layers.contains(&work.layer_of(place)))
        })
    };
    sewing.seams.iter().map(of).collect()
}

impl Reach<'_> {
    fn layer(&self, stretch: StretchId) -> LayerId {
        self.surface.face(self.surface.face_of(stretch)).layer
    }

    /// The job of the seam that a stretch lies in.
    pub(super) fn seam(&self, stretch: StretchId) -> Option<usize> {
        let join = self.surface.join(self.surface.stretch(stretch).join?);
        let JoinedBy::Seam { sewn, .. } = join.by else { return None };
        self.seams.get(sewn).copied().flatten()
    }

    /// The job of the finish of a stretch, and what it is called.
    pub(super) fn finish(&self, stretch: StretchId) -> Option<(Job, String)> {
        let garment = self.work.garment;
        let at = self.surface.stretch(stretch).finish?;
        let side = self.surface.side_of(stretch);
        let face = self.surface.face(side.face);
        let drawn = self.work.finder.drawn(face.part)?.edge_at(side.edge)?;
        let finish = garment.finish(at);
        let nth = finish.edges.iter().position(|sewn| {
            sewn.layer.is_none_or(|layer| layer == face.layer) && garment.is_run_of(drawn.edge, sewn.edge)
        })?;
        let sewn = finish.edges.get(nth)?;
        Some((Job::Finish(at, nth, face.layer), format!("finishing {}", words::edge(garment, sewn.edge))))
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

    /// The stretch beyond one, round its face, and whether it is met at its own end.
    pub(super) fn beyond(&self, stretch: StretchId, at_end: bool) -> (StretchId, bool) {
        match at_end {
            true => (self.surface.next(stretch), false),
            false => (self.surface.before(stretch), true),
        }
    }

    /// What runs on over a seam comes after it; what ends in a seam that takes in all that its edge leads
    /// to comes before, for its end is shut in.
    fn finishes(&self, early: &mut Vec<Early>) {
        // One hem over one seam is reported once, not from both sides of the seam.
        let mut seen = HashSet::new();
        for stretch in self.surface.stretch_ids().filter(|&stretch| self.is_turned(stretch)) {
            let Some((job, sooner)) = self.finish(stretch) else { continue };
            let Some(first) = self.work.when(job) else { continue };
            for at_end in [false, true] {
                if let Some((at, second)) = self.shut_in(stretch, at_end).filter(|(_, when)| *when < first) {
                    let (early_one, later) = (self.sewing_of(at), sooner.clone());
                    let why = "whose end it shuts in";
                    early.push(Early { sooner: early_one, first: second, later, second: first, why });
                    continue;
                }
                if let Some((at, second)) = self.covered(stretch, at_end).filter(|(_, when)| *when < first) {
                    let why = "which lies over its end on both sides";
                    early.push(Early {
                        sooner: self.sewing_of(at),
                        first: second,
                        later: sooner.clone(),
                        second: first,
                        why,
                    });
                    continue;
                }
                let Some(at) = self.runs_on_into(stretch, at_end) else { continue };
                let Some(second) = self.work.when(Job::Seam(at)).filter(|second| *second > first) else {
                    continue;
                };
                if !seen.insert((self.surface.stretch(stretch).finish, at)) {
                    continue;
                }
                let later = self.sewing_of(at);
                let why = "over which it runs on";
                early.push(Early { sooner: sooner.clone(), first, later, second, why });
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

    /// The seam beside the end of a stretch, if it shuts that end in: round the corner there the edge of the
    /// cloth leads back into the seam, and not out again.
    fn shut_in(&self, stretch: StretchId, at_end: bool) -> Option<(usize, When)> {
        let (beside, _) = self.beyond(stretch, at_end);
        let at = self.seam(beside)?;
        let (round, _) = self.gluing.turn(self.surface, stretch, at_end);
        let join = |stretch: StretchId| self.surface.stretch(stretch).join;
        (round != beside && join(round) == join(beside)).then_some(())?;
        Some((at, self.work.when(Job::Seam(at))?))
    }

    /// The seam beside the end of a stretch, if what is sewn on there goes round the end: its own edge runs on
    /// into a seam with the ply that lies behind it, as of a cuff or a collar, or it is a band folded over the end.
    fn covered(&self, stretch: StretchId, at_end: bool) -> Option<(usize, When)> {
        let (beside, met_at_end) = self.beyond(stretch, at_end);
        let (at, partner) = self.seam(beside).zip(self.gluing.partner(beside))?;
        if self.folded_over(stretch, at_end) == Some(at) {
            return Some((at, self.work.when(Job::Seam(at))?));
        }
        let (other, at_its_end) = self.beyond(partner.stretch, met_at_end == partner.same_way);
        let round = self.seam(other).filter(|round| *round != at)?;
        let behind = self.gluing.partner(other)?;
        // Where the ply behind stays free, the end can still be reached from there.
        let (down, _) = self.beyond(behind.stretch, at_its_end == behind.same_way);
        self.surface.stretch(down).join?;
        let face = |stretch: StretchId| self.surface.stretch(stretch).face;
        let origins = |stretch: StretchId| self.origins(face(stretch));
        let is_new = origins(other).iter().all(|piece| !origins(stretch).contains(piece));
        let is_behind = self.lie_on_one_another(face(other), face(behind.stretch));
        (is_new && is_behind && self.work.when(Job::Seam(round)).is_some()).then_some(())?;
        Some((at, self.work.when(Job::Seam(at))?))
    }

    /// The seam beside the end of a stretch, if it sews on a band that is folded over that end.
    pub(super) fn folded_over(&self, stretch: StretchId, at_end: bool) -> Option<usize> {
        let (beside, _) = self.beyond(stretch, at_end);
        let (at, partner) = self.seam(beside).zip(self.gluing.partner(beside))?;
        let over = self.surface.face_of(partner.stretch);
        let is_folded_over = self.surface.face(over).flap && self.shutting(over) == Some(at);
        (is_folded_over && over != self.surface.face_of(stretch)).then_some(at)
    }

    pub(super) fn sewing_of(&self, stitching: usize) -> String {
        let seam = self.work.stitchings.get(stitching).map(|stitching| stitching.seam);
        seam.map_or_else(String::new, |seam| format!("sewing {}", self.work.garment.seam(seam).name))
    }

    /// A hem that is turned over the mouth of a channel shuts it.
    fn mouths(&self, early: &mut Vec<Early>) {
        for channel in self.surface.stretch_ids().filter(|&stretch| self.is_channel(stretch)) {
            let Some((job, sooner)) = self.finish(channel) else { continue };
            let Some(first) = self.work.when(job) else { continue };
            for at_end in [false, true] {
                let (beside, _) = self.beyond(channel, at_end);
                let turned = self.is_turned(beside) && !self.is_channel(beside);
                let Some((hem, later)) = self.finish(beside).filter(|_| turned) else {
                    continue;
                };
                if let Some(second) = self.work.when(hem).filter(|second| *second > first) {
                    let why = "which would be turned over its mouth";
                    early.push(Early { sooner: sooner.clone(), first, later, second, why });
                }
            }
        }
    }

    /// A facing is sewn on before buttonholes are worked through it: along the edge that the row is nearest
    /// to, and then wherever else its layers are joined.
    fn buttonholes(&self, early: &mut Vec<Early>) {
        let garment = self.work.garment;
        for line in &self.surface.closures {
            let closure = garment.closure(line.closure);
            let Some(ClosureKind::Fasteners(_)) = &closure.kind else { continue };
            let Some(first) = self.work.when(Job::Closure(line.closure)) else { continue };
            for &front in line.faces.iter().flatten() {
                // What joins the front to what lies behind it: how much of it, and whether that is a strip.
                let mut behind: IndexMap<usize, (bool, f64)> = IndexMap::new();
                for stretch in self.surface.stretches_of(front) {
                    let (Some(at), Some(partner)) = (self.seam(stretch), self.gluing.partner(stretch)) else {
                        continue;
                    };
                    let other = self.surface.face_of(partner.stretch);
                    if self.lie_on_one_another(front, other) {
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
                let late = |at: usize| self.work.when(Job::Seam(at)).filter(|second| *second > first);
                let others = behind.keys().copied().filter(|at| *at != nearest);
                let mut all = std::iter::once((nearest, "which puts the facing behind the buttonholes"))
                    .chain(others.map(|at| (at, "until which the layers do not lie as they are worn")));
                let found = all.find_map(|(at, why)| Some((at, why, late(at)?)));
                let Some((at, why, second)) = found else { continue };
                let (sooner, later) = (format!("sewing {}", closure.name), self.sewing_of(at));
                early.push(Early { sooner, first, later, second, why });
            }
        }
    }

    fn is_strip(&self, face: FaceId) -> bool {
        let piece = self.sewing.part(self.surface.face(face).part).part.piece;
        matches!(self.work.garment.piece(piece).drawing.outline, Outline::Strip { .. })
    }

    fn origins(&self, face: FaceId) -> Vec<PieceId> {
        let part = self.surface.face(face).part;
        self.work.garment.origins(self.sewing.part(part).part.piece)
    }

    /// Whether two faces lie on one another when the garment is worn: of different layers, and made of
    /// one piece.
    fn lie_on_one_another(&self, one: FaceId, other: FaceId) -> bool {
        let garment = self.work.garment;
        let [one, other] = [one, other].map(|face| self.surface.face(face));
        let piece = |part| self.sewing.part(part).part.piece;
        let (piece, other_piece) = (piece(one.part), piece(other.part));
        // A strip and the rest lie beside one another.
        let is_rest = |piece, of| matches!(&garment.piece(piece).drawing.outline, Outline::Rest { without, .. } if *without == of);
        let beside = is_rest(piece, other_piece) || is_rest(other_piece, piece);
        let others = garment.origins(other_piece);
        one.layer != other.layer && !beside && garment.origins(piece).iter().any(|one| others.contains(one))
    }

    /// Through a gap a layer is turned that hangs on the one that it will lie on. Turned by itself it is
    /// only inside out.
    fn turning(&self, early: &mut Vec<Early>) {
        let faces = self.surface.faces.len();
        for &(first, through) in &self.work.turned {
            let mut together = Union::new(faces);
            let mut later: Vec<(When, usize, Vec<FaceId>)> = Vec::new();
            let mut turned: Vec<FaceId> = Vec::new();
            for join in &self.surface.joins {
                let JoinedBy::Seam { seam, .. } = join.by else { continue };
                let Some(at) = join.plies.first().and_then(|ply| self.seam(ply.stretch)) else { continue };
                let Some(when) = self.work.when(Job::Seam(at)) else { return };
                let own: Vec<FaceId> =
                    join.plies.iter().map(|ply| self.surface.face_of(ply.stretch)).collect();
                let Some((&one, others)) = own.split_first() else { continue };
                if join.gap && through.is_none_or(|through| through == seam) {
                    turned.push(one);
                }
                if when < first {
                    for other in others {
                        together.join(one.index(), other.index());
                    }
                } else {
                    later.push((when, at, own));
                }
            }
            let Some(gap) = turned.first().copied() else { continue };
            let roots: Vec<usize> = self.surface.face_ids().map(|face| together.root(face.index())).collect();
            let own = roots.get(gap.index()).copied();
            let root = |face: FaceId| roots.get(face.index()).copied();
            // What lies on the turned layer, with all that hangs on it.
            let mut inside: HashMap<PieceId, Vec<FaceId>> = HashMap::new();
            for face in self.surface.face_ids().filter(|&face| root(face) == own) {
                for origin in self.origins(face) {
                    inside.entry(origin).or_default().push(face);
                }
            }
            let lies = |one: FaceId| {
                let mut twins =
                    self.origins(one).into_iter().filter_map(|origin| inside.get(&origin)).flatten();
                twins.any(|&other| self.lie_on_one_another(one, other))
            };
            let outside: HashSet<Option<usize>> =
                self.surface.face_ids().filter(|&face| lies(face)).map(root).collect();
            if outside.contains(&own) {
                continue;
            }
            later.sort_by_key(|&(when, at, _)| (when, at));
            let joins = later.iter().find(|(_, _, plies)| {
                plies.iter().any(|&one| root(one) == own)
                    && plies.iter().any(|&one| outside.contains(&root(one)))
            });
            if let Some(&(second, at, _)) = joins {
                let (sooner, later) = ("turning".to_owned(), self.sewing_of(at));
                early.push(Early {
                    sooner,
                    first,
                    later,
                    second,
                    why: "which joins it to what it will lie on",
                });
            }
        }
    }
}
