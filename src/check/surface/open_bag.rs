//! `bag/open`: the halves of a pocket bag, each sewn to its side of the mouth, and not to one another, or not all round.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, FinishKind, Garment};
use crate::id_hash::{IdIndexMap, IdSet};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::surface::{FaceId, JoinId, JoinedBy, StretchId, Surface};
use crate::shape::outline::signed_area;

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::BAG_OPEN], run: Run::PerSize(run) };

/// At least so much of the way round a half of a bag is not in its mouth.
const FREE: f64 = 0.4;
/// So much of the way round two that are sewn to one another is a side that was forgotten.
const FORGOTTEN: f64 = 0.1;
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
    let halves: Vec<((u32, u32), Half)> = surface.face_ids().filter_map(|face| looking.half(face)).collect();
    let mut by_ends: IdIndexMap<(u32, Option<u32>), Vec<&Half>> = IdIndexMap::default();
    for ((start, end), half) in &halves {
        by_ends.entry((*start, Some(*end))).or_default().push(half);
    }
    // Between the two sides of a slit lies its window, so that what is left open there ends in two places.
    for ((start, end), half) in halves.iter().filter(|(_, half)| looking.is_at_slit(&half.joins)) {
        by_ends.entry((*start, None)).or_default().push(half);
        by_ends.entry((*end, None)).or_default().push(half);
    }
    let mut told: IdSet<FaceId> = IdSet::default();
    for halves in by_ends.values().filter(|halves| halves.len() > 1) {
        let pairs = halves
            .iter()
            .enumerate()
            .flat_map(|(at, one)| halves.iter().skip(at + 1).map(move |other| (one, other)));
        let mut open = pairs.filter(|(one, _)| !told.contains(&one.face));
        let found = open.find_map(|(one, other)| Some((one.face, looking.open(one, other)?)));
        if let Some((face, finding)) = found {
            told.insert(face);
            findings.push(finding);
        }
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
        let round = long + mouth;
        let is_bag = match self.is_at_slit(&joins) {
            true => long >= FORGOTTEN * round,
            false => long >= FREE * round && mouth <= MOUTH && self.area(face)? >= DEEP * mouth,
        };
        let is_bag = is_bag && mouth > 0.0 && joins.iter().all(is_seam);
        let (start, end) = (surface.stretch(*free.first()?).start, surface.stretch(*free.last()?).end);
        is_bag.then_some(((start.min(end), start.max(end)), Half { face, free, long, joins }))
    }

    /// Whether some of that is sewn to a side of a slit: as a pocket bag is, and no front or back.
    fn is_at_slit(&self, joins: &[JoinId]) -> bool {
        let mut plies = joins.iter().flat_map(|&join| &self.surface.join(join).plies);
        plies.any(|ply| self.surface.side_of(ply.stretch).hole > 0)
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
        let is_joined =
            |join: &JoinId| other.joins.contains(join) && self.surface.join(*join).plies.len() == 2;
        let is_partly = one.joins.iter().any(is_joined);
        let is_apart = !is_partly || [one, other].iter().all(|half| self.is_at_slit(&half.joins));
        let is_bag = is_one_side
            && is_apart
            && is_other(one, other)
            && is_other(other, one)
            && (one.long - other.long).abs() <= ALIKE;
        is_bag.then(|| self.reported(one, other, is_partly))?
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

    fn reported(&self, one: &Half, other: &Half, is_partly: bool) -> Option<Finding> {
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
            "{} and {} hang at one mouth, and {}",
            words::piece(garment, first),
            words::piece(garment, second),
            match is_partly {
                true => "are not sewn to each other all round: the bag is open on one side",
                false => "nothing sews them to each other: the bag is open",
            }
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
