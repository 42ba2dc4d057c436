//! `bag/open`: the halves of a pocket bag, each sewn to its side of the mouth, and not to one another.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, FinishKind, Garment};
use crate::id_hash::IdIndexMap;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::surface::{FaceId, JoinId, JoinedBy, StretchId, Surface};
use crate::shape::outline::signed_area;

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::BAG_OPEN], run: Run::PerSize(run) };

/// At least so much of the way round a half of a bag is not in its mouth.
const FREE: f64 = 0.4;
/// A hand goes into a pocket, and no body: so long is the longest mouth, in millimetres.
const MOUTH: f64 = 350.0;
/// A bag is at least so deep, in millimetres; what faces a slit that a hand goes through is less.
const DEEP: f64 = 80.0;
/// Halves of one bag are alike, within this, in millimetres.
const ALIKE: f64 = 5.0;

/// A face of which one run of edges is sewn to nothing.
struct Half {
    face: FaceId,
    /// That run, in the order of its ring.
    free: Vec<StretchId>,
    long: f64,
    /// What its other edges are in.
    joins: Vec<JoinId>,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let is_plain = |kind: &FinishKind| matches!(kind, FinishKind::Overlocked | FinishKind::Raw);
    if !garment.finishes.iter().any(|finish| is_plain(&finish.kind)) || garment.seams.is_empty() {
        return;
    }
    let Some(surface) = size.sewn.surface.as_ref() else { return };
    let looking = Looking { garment, size, surface };
    let mut by_ends: IdIndexMap<(u32, u32), Vec<Half>> = IdIndexMap::default();
    for face in surface.face_ids() {
        if let Some((ends, half)) = looking.half(face) {
            by_ends.entry(ends).or_default().push(half);
        }
    }
    for halves in by_ends.values().filter(|halves| halves.len() > 1) {
        let pairs = halves
            .iter()
            .enumerate()
            .flat_map(|(at, one)| halves.iter().skip(at + 1).map(move |other| (one, other)));
        findings.extend(pairs.filter_map(|(one, other)| looking.open(one, other)).take(1));
    }
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    surface: &'a Surface,
}

impl Looking<'_> {
    /// A face whose edges are sewn, but for one run that is overlocked or raw, and where that ends.
    fn half(&self, face: FaceId) -> Option<((u32, u32), Half)> {
        let surface = self.surface;
        let first = surface.stretches_of(face).next()?;
        let is_free = |at: StretchId| surface.stretch(at).join.is_none();
        let is_plain = |at: StretchId| {
            let finish = surface.stretch(at).finish.map(|finish| &self.garment.finish(finish).kind);
            matches!(finish, Some(FinishKind::Overlocked | FinishKind::Raw))
        };
        // Most faces have an edge that is finished otherwise, or hang on nothing.
        if surface.face(face).flap || !surface.stretches_of(face).all(|at| !is_free(at) || is_plain(at)) {
            return None;
        }
        let all = surface.stretches_of(face).count();
        let mut ring = Vec::with_capacity(all);
        let mut at = first;
        for _ in 0..all {
            ring.push(at);
            at = surface.next(at);
        }
        let start = ring.iter().position(|&at| is_free(at) && !is_free(surface.before(at)))?;
        ring.rotate_left(start);
        let free: Vec<StretchId> = ring.iter().copied().take_while(|&at| is_free(at)).collect();
        let joins: Vec<JoinId> =
            ring.iter().skip(free.len()).map_while(|&at| surface.stretch(at).join).collect();
        if free.len() + joins.len() != all || joins.is_empty() {
            return None;
        }
        let is_seam = |&join: &JoinId| matches!(surface.join(join).by, JoinedBy::Seam { .. });
        let long: f64 = free.iter().map(|&at| surface.length(at)).sum();
        let mouth: f64 = ring.iter().skip(free.len()).map(|&at| surface.length(at)).sum();
        let is_bag = joins.iter().all(is_seam)
            && long >= FREE * (long + mouth)
            && mouth <= MOUTH
            && mouth > 0.0
            && self.area(face)? >= DEEP * mouth;
        let (start, end) = (surface.stretch(*free.first()?).start, surface.stretch(*free.last()?).end);
        is_bag.then_some(((start.min(end), start.max(end)), Half { face, free, long, joins }))
    }

    fn area(&self, face: FaceId) -> Option<f64> {
        let part = self.size.sewn.part(self.surface.face(face).part).part;
        let drawn = self.size.drawn.paper(part.paper)?;
        Some(signed_area(drawn.edges.iter().map(|edge| &edge.path)).abs())
    }

    /// Two that hang on the two sides of one mouth: what the one is sewn to, the other is not.
    fn open(&self, one: &Half, other: &Half) -> Option<Finding> {
        let is_other = |half: &Half, of: &Half| half.joins.iter().any(|join| !of.joins.contains(join));
        let (face, beside) = (self.surface.face(one.face), self.surface.face(other.face));
        let is_one_side = face.hand == beside.hand;
        // What is sewn to one another plainly, as front and back at the shoulders, is no bag.
        let is_apart = one
            .joins
            .iter()
            .all(|&join| !other.joins.contains(&join) || self.surface.join(join).plies.len() > 2);
        let is_bag = is_one_side
            && is_apart
            && is_other(one, other)
            && is_other(other, one)
            && (one.long - other.long).abs() <= ALIKE;
        is_bag.then(|| self.reported(one, other))?
    }

    /// The edges that a run of stretches lies on, in its order.
    fn edges(&self, half: &Half) -> Vec<EdgeId> {
        let mut edges = Vec::new();
        for &at in &half.free {
            let edge = self.size.sewn.edge_of(&self.size.drawn, self.surface, at).map(|(_, edge)| edge);
            edges.extend(edge.filter(|edge| edges.last() != Some(edge)));
        }
        edges
    }

    fn reported(&self, one: &Half, other: &Half) -> Option<Finding> {
        let garment = self.garment;
        let finish = |half: &Half| {
            let finish = garment.finish(self.surface.stretch(*half.free.first()?).finish?);
            let edges = self.edges(half);
            let sewn =
                finish.edges.iter().find(|sewn| edges.iter().any(|edge| garment.is_run_of(*edge, sewn.edge)));
            Some(sewn.map_or(finish.span, |sewn| sewn.span))
        };
        let [first, second] =
            [one, other].map(|half| self.size.sewn.part(self.surface.face(half.face).part).part.piece);
        let chain = |half: &Half| {
            let named = self.edges(half).into_iter().map(|edge| {
                let edge = garment.edge(edge);
                format!("{}.{}", garment.piece(edge.piece).name, edge.name)
            });
            let mut named: Vec<String> = named.collect();
            // The other way round on what is turned over.
            if half.face == other.face
                && self.surface.stretch(*half.free.first()?).start
                    != self.surface.stretch(*one.free.first()?).start
            {
                named.reverse();
            }
            Some(named.join(" + "))
        };
        let title = format!(
            "{} and {} hang at one mouth, and nothing sews them to each other: the bag is open",
            words::piece(garment, first),
            words::piece(garment, second)
        );
        let mistake = Diagnostic::new(&catalogue::BAG_OPEN, finish(one)?, title)
            .label("finished by itself")
            .also(finish(other)?, "so is this")
            .help(format!(
                "sew them together instead: seam {}_edge  {} to {} {{ stitch overlock }}",
                garment.piece(first).name,
                chain(one)?,
                chain(other)?
            ));
        let about = format!("{} {}", garment.piece(first).name, garment.piece(second).name);
        Some(Finding::new(self.size.id(), 0.0, mistake).about(about))
    }
}
