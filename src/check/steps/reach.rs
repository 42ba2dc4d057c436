//! `step/early`, read off the sewn surface: what is finished, fused or threaded while it can still be
//! reached.
//!
//! - A finish runs on over a seam where, on both plies of the seam, the rim goes on into stretches that
//!   are finished in the same layer: then the seam comes first, also when it joins two copies of one edge.
//! - A piece folded with both its edges in one seam is shut by that seam: its ends are sewn, and what is
//!   fused on it is fused, before.
//! - Buttonholes are worked through the front and the facing behind it, once that is sewn on.
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
    reach.turning(&mut early);
    let mut seen: HashSet<(String, String)> = HashSet::new();
    for one in early {
        if seen.insert((one.sooner.clone(), one.later.clone())) {
            diagnostics.push(one.message());
        }
    }
}

/// `sooner` is done at `first`, but needs `later` done before it.
struct Early {
    sooner: String,
    first: When,
    later: String,
    second: When,
    why: &'static str,
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

struct Reach<'a> {
    work: &'a Work<'a>,
    sewing: &'a Sewing,
    surface: &'a Surface,
    gluing: Gluing,
    /// The stitching of each sewn seam, by its place among them.
    seams: Vec<Option<usize>>,
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
    fn seam(&self, stretch: StretchId) -> Option<usize> {
        let join = self.surface.join(self.surface.stretch(stretch).join?);
        let JoinedBy::Seam { sewn, .. } = join.by else { return None };
        self.seams.get(sewn).copied().flatten()
    }

    /// The job of the finish of a stretch, and what it is called.
    fn finish(&self, stretch: StretchId) -> Option<(Job, String)> {
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

    fn kind(&self, stretch: StretchId) -> Option<&FinishKind> {
        self.surface.stretch(stretch).finish.map(|id| &self.work.garment.finish(id).kind)
    }

    fn is_channel(&self, stretch: StretchId) -> bool {
        matches!(self.kind(stretch), Some(FinishKind::Casing(..)))
    }

    /// Whether the finish is turned or laid over the edge, and so over the allowances of seams that end
    /// there. Edges are overlocked or left raw before they are sewn as well as after.
    fn is_turned(&self, stretch: StretchId) -> bool {
        !matches!(self.kind(stretch), None | Some(FinishKind::Overlocked | FinishKind::Raw))
    }

    /// The stretch beyond one, round its face, and whether it is met at its own end.
    fn beyond(&self, stretch: StretchId, at_end: bool) -> (StretchId, bool) {
        match at_end {
            true => (self.surface.next(stretch), false),
            false => (self.surface.before(stretch), true),
        }
    }

    /// What runs on over a seam comes after it.
    fn finishes(&self, early: &mut Vec<Early>) {
        // One hem over one seam is reported once, not from both sides of the seam.
        let mut seen = HashSet::new();
        for stretch in self.surface.stretch_ids().filter(|&stretch| self.is_turned(stretch)) {
            let Some((job, sooner)) = self.finish(stretch) else { continue };
            let Some(first) = self.work.when(job) else { continue };
            for at_end in [false, true] {
                let (beside, met_at_end) = self.beyond(stretch, at_end);
                let (Some(at), Some(partner)) = (self.seam(beside), self.gluing.partner(beside)) else {
                    continue;
                };
                let partner_end = met_at_end == partner.same_way;
                let (other, _) = self.beyond(partner.stretch, partner_end);
                if self.layer(other) != self.layer(stretch) || !self.is_turned(other) {
                    continue;
                }
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

    fn sewing_of(&self, stitching: usize) -> String {
        let seam = self.work.stitchings.get(stitching).map(|stitching| stitching.seam);
        seam.map_or_else(String::new, |seam| format!("sewing {}", self.work.garment.seam(seam).name))
    }

    /// The ends of a folded piece are sewn, and what stiffens it is fused on, before the seam that takes
    /// both its edges.
    fn flaps(&self, early: &mut Vec<Early>) {
        for face in self.surface.face_ids().filter(|&face| self.surface.face(face).flap) {
            let seams: Vec<usize> =
                self.surface.stretches_of(face).filter_map(|stretch| self.seam(stretch)).collect();
            let Some(shut) = self.shutting(face) else { continue };
            let Some(first) = self.work.when(Job::Seam(shut)) else { continue };
            let sooner = self.sewing_of(shut);
            for at in seams.into_iter().filter(|at| *at != shut) {
                if let Some(second) = self.work.when(Job::Seam(at)).filter(|second| *second > first) {
                    let (later, why) = (self.sewing_of(at), "whose ends it shuts");
                    early.push(Early { sooner: sooner.clone(), first, later, second, why });
                }
            }
            let part = self.sewing.part(self.surface.face(face).part);
            for (job, when) in &self.work.jobs {
                let (&Job::Fuse(_, piece), &Some(second)) = (job, when) else { continue };
                if piece == part.part.piece && second > first {
                    let later = format!("fusing {}", words::piece(self.work.garment, piece));
                    let why = "which it covers";
                    early.push(Early { sooner: sooner.clone(), first, later, second, why });
                }
            }
        }
    }

    /// The seam in which a flap lies with both its edges: the one opposite of its fold.
    fn shutting(&self, face: FaceId) -> Option<usize> {
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

    /// A facing is sewn on before buttonholes are worked through it.
    fn buttonholes(&self, early: &mut Vec<Early>) {
        let garment = self.work.garment;
        for line in &self.surface.closures {
            let closure = garment.closure(line.closure);
            let Some(ClosureKind::Buttons(_)) = &closure.kind else { continue };
            let Some(first) = self.work.when(Job::Closure(line.closure)) else { continue };
            let sooner = format!("sewing {}", closure.name);
            for &front in line.faces.iter().flatten() {
                for stretch in self.surface.stretches_of(front) {
                    let (Some(at), Some(partner)) = (self.seam(stretch), self.gluing.partner(stretch)) else {
                        continue;
                    };
                    if !self.lie_on_one_another(front, self.surface.face_of(partner.stretch)) {
                        continue;
                    }
                    if let Some(second) = self.work.when(Job::Seam(at)).filter(|second| *second > first) {
                        let (later, why) =
                            (self.sewing_of(at), "which puts the facing behind the buttonholes");
                        early.push(Early { sooner: sooner.clone(), first, later, second, why });
                    }
                }
            }
        }
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
            let mut later: Vec<(When, usize, FaceId, FaceId)> = Vec::new();
            let mut turned: Vec<FaceId> = Vec::new();
            for join in &self.surface.joins {
                let JoinedBy::Seam { seam, .. } = join.by else { continue };
                let Some(at) = join.plies.first().and_then(|ply| self.seam(ply.stretch)) else { continue };
                let Some(when) = self.work.when(Job::Seam(at)) else { return };
                let mut own = join.plies.iter().map(|ply| self.surface.face_of(ply.stretch));
                let Some(one) = own.next() else { continue };
                if join.gap && through.is_none_or(|through| through == seam) {
                    turned.push(one);
                }
                for other in own {
                    match when < first {
                        true => drop(together.join(one.index(), other.index())),
                        false => later.push((when, at, one, other)),
                    }
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
            later.sort_by_key(|&(when, at, ..)| (when, at));
            let joins = later.iter().find(|&&(_, _, one, other)| {
                (root(one) == own && outside.contains(&root(other)))
                    || (root(other) == own && outside.contains(&root(one)))
            });
            if let Some(&(second, at, ..)) = joins {
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
