//! `strap/draws-together`: a strap across an opening, from one piece to the next, that is shorter than the opening is wide
//! there.
//!
//! Two places on a round rim of the length `round` that are `way` apart along it are `round / π × sin(π × way / round)` apart
//! straight across (the chord of an arc). Where the rim is sewn to something, and only as much of it is known as the two
//! edges are long, of which the way is at most half, it is no less than 2 × way / π, that of a half circle.
//!
//! And a strap between places that lie far from one another over the cloth, so that it crumples all that lies between.

use super::over_cloth::OverCloth;
use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, StrapEnd, StrapRun};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece, taken};
use crate::sewing::surface::{FaceId, Rim, StretchId, Surface};
use crate::sewing::{SewnStrap, SewnStrapRun, over_seam, strap_place, straps};
use crate::shape::Point;
use std::cell::OnceCell;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::STRAP_DRAWS_TOGETHER], run: Run::PerSize(run) };

/// A place no further from an edge than this lies on it, in millimetres; or no further than what is sewn on of the strap.
const AT_EDGE: f64 = 1.0;

/// What has less than this share of the way over the cloth between its ends crumples it …
const SHARE: f64 = 1.0 / 3.0;
/// … where that is at least so long, in millimetres: loops and tabs are sewn on close to one another.
const LONG: f64 = 200.0;

/// A place on an edge: how far along it as sewn, and how long it is.
struct OnEdge {
    face: FaceId,
    /// The first and the last of its stretches, as the edge is drawn.
    ends: [(StretchId, bool); 2],
    at: f64,
    length: f64,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.straps.iter().all(|strap| strap.runs.iter().all(|run| run.to.is_none())) {
        return;
    }
    let Some(surface) = size.sewn.surface.as_ref() else { return };
    let looking = Looking { garment, size, surface, rims: OnceCell::new(), over: OnceCell::new() };
    for sewn in straps(garment, &size.drawn) {
        let runs = garment.strap(sewn.strap).runs.iter().zip(&sewn.runs);
        findings.extend(runs.filter_map(|(run, own)| looking.strap(&sewn, run, own)).take(1));
    }
}

/// All straps of one size are held to the same rims.
struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    surface: &'a Surface,
    rims: OnceCell<Vec<Rim>>,
    over: OnceCell<OverCloth<'a>>,
}

impl Looking<'_> {
    fn strap(&self, sewn: &SewnStrap, run: &StrapRun, own: &SewnStrapRun) -> Option<Finding> {
        let Looking { garment, size, .. } = *self;
        let to = run.to.as_ref()?;
        // Straight over one piece, or over the seam between two, is told by itself; so is one of which nothing is left.
        let is_told = own.across.is_some() || own.free <= 0.0;
        if is_told || over_seam(garment, &size.drawn, &size.sewn, &run.from, to).is_some() {
            return None;
        }
        match self.across_opening(sewn, &run.from, to) {
            Some((way, least)) => self.short(sewn, run, own, (way, least)),
            None => self.far(sewn, run, own, to),
        }
    }

    /// Of two places on edges that run on into one another: how far they are apart along these, and straight across.
    fn across_opening(&self, sewn: &SewnStrap, from: &StrapEnd, to: &StrapEnd) -> Option<(f64, f64)> {
        let Looking { garment, size, surface, .. } = *self;
        let near = f64::max(AT_EDGE, sewn.sewn);
        let (from, to) =
            (on_edge(garment, size, surface, from, near), on_edge(garment, size, surface, to, near));
        let pairs = || from.iter().flat_map(|one| to.iter().map(move |other| (one, other)));
        let rims = || self.rims.get_or_init(|| size.sewn.gluing.rims(surface));
        let round = pairs().filter_map(|(one, other)| round_a_rim(surface, rims(), one, other));
        let beside = pairs().filter_map(|(one, other)| way(surface, one, other));
        let beside = beside.map(|way| (way, 2.0 * way / std::f64::consts::PI));
        round.chain(beside).min_by(|one, other| one.1.total_cmp(&other.1))
    }

    /// Two places that lie far apart over the cloth. What is opposite across an opening comes together as it is laid flat.
    fn far(&self, sewn: &SewnStrap, run: &StrapRun, own: &SewnStrapRun, to: &StrapEnd) -> Option<Finding> {
        let Looking { garment, size, surface, .. } = *self;
        let over = self.over.get_or_init(|| OverCloth::new(garment, size, surface));
        let way = over.way(&run.from, to)?;
        let layer = |ends: &[(FaceId, Point)]| ends.first().map(|(face, _)| surface.face(*face).layer);
        let is_far = way.length >= LONG && own.free < SHARE * way.length;
        if !is_far || layer(&way.ends[0]) != layer(&way.ends[1]) {
            return None;
        }
        let from_rim = |rim: &Rim, ends: &[(FaceId, Point)]| -> f64 {
            let all = ends.iter().flat_map(|(face, at)| {
                let sides = rim.parts.iter().map(|part| surface.stretch(part.stretch).side);
                let own = sides.filter(|&side| surface.side(side).face == *face);
                own.map(|side| over.away_from(side, *at))
            });
            all.fold(f64::INFINITY, f64::min)
        };
        let rims = self.rims.get_or_init(|| size.sewn.gluing.rims(surface));
        let mut over_rims = rims.iter().map(|rim| from_rim(rim, &way.ends[0]) + from_rim(rim, &way.ends[1]));
        if !way.is_flat && over_rims.any(|over| over <= own.free + garment.tolerance) {
            return None;
        }
        let (strap, unit) = (garment.strap(sewn.strap), garment.unit);
        let (free, apart) = (amount(own.free, unit), amount(way.length, unit));
        let title = Title::new(format!(
            "{} has {free} between its ends, which lie {apart} apart over the cloth: it draws together all that lies between",
            strap.name
        ))
        .in_sizes();
        let advice = Diagnostic::new(&catalogue::STRAP_DRAWS_TOGETHER, strap.length.span, title)
            .label(format!("{free} are free"))
            .also(run.span, format!("{apart} apart"))
            .help("look at its length and its unit, and at the places that it names; if it is to gather the cloth up, nothing needs \
                 to change");
        let finding = Finding::new(size.id(), way.length - own.free, advice).about(&*strap.name);
        Some(finding.figure("between its ends", free).figure("apart", apart))
    }

    fn short(
        &self,
        sewn: &SewnStrap,
        run: &StrapRun,
        own: &SewnStrapRun,
        (way, least): (f64, f64),
    ) -> Option<Finding> {
        let Looking { garment, size, .. } = *self;
        if own.free >= least - garment.tolerance {
            return None;
        }
        let (strap, unit) = (garment.strap(sewn.strap), garment.unit);
        let (free, apart) = (amount(own.free, unit), amount(way, unit));
        let title = Title::new(format!(
            "{} has {free} between its ends, which lie {apart} apart along the edge: it draws the opening together",
            strap.name
        ))
        .in_sizes();
        let advice = Diagnostic::new(&catalogue::STRAP_DRAWS_TOGETHER, strap.length.span, title)
            .label(format!("{free} are free"))
            .also(run.span, format!("{apart} apart along the edge"))
            .help(format!(
                "straight across, the opening is some {} wide there, or more: make it longer; or, if it is to hold the opening \
                 together, nothing needs to change",
                amount(least, unit)
            ));
        let finding = Finding::new(size.id(), least - own.free, advice).about(&*strap.name);
        Some(finding.figure("between its ends", free).figure("apart", apart))
    }
}

/// Whether a place of a piece lies on its edge, or no further from it than what is sewn on of a strap.
pub(super) fn lies_on_edge(drawn: &DrawnPiece, place: Point, sewn: f64) -> bool {
    let mut edges = drawn.edges.iter();
    edges.any(|edge| edge.path.nearest(place).distance <= f64::max(AT_EDGE, sewn))
}

/// The place on every copy of its piece.
fn on_edge(garment: &Garment, size: &WorkedSize, surface: &Surface, end: &StrapEnd, far: f64) -> Vec<OnEdge> {
    let Some((host, place)) = strap_place(garment, &size.drawn, end.point) else { return Vec::new() };
    let edges = DrawnEdgeId::enumerate(&host.edges).map(|(at, edge)| (at, edge.path.nearest(place)));
    let near = edges.min_by(|one, other| one.1.distance.total_cmp(&other.1.distance));
    let Some((edge, near)) = near.filter(|(_, near)| near.distance <= far) else { return Vec::new() };
    let Some(at) = taken(garment, host, edge).map(|taken| taken.as_sewn(near.at)) else { return Vec::new() };
    let mut found = Vec::new();
    for face in surface.face_ids() {
        let own = surface.face(face);
        let part = size.sewn.part(own.part);
        let is_host = size.drawn.paper(part.part.paper).is_some_and(|paper| std::ptr::eq(paper, host));
        let is_there = end.hand.is_none_or(|hand| own.hand.is_none_or(|own| own == hand))
            && end.layer.is_none_or(|layer| layer == own.layer);
        if !is_host || !is_there {
            continue;
        }
        for side in surface.sides_of(face).filter(|&side| surface.side(side).edge == edge) {
            let mut all = surface.stretches_on(side);
            let Some(first) = all.next() else { continue };
            let last = all.last().unwrap_or(first);
            let side = surface.side(side);
            let ends = match side.mirrored {
                true => [(last, true), (first, false)],
                false => [(first, false), (last, true)],
            };
            found.push(OnEdge { face, ends, at, length: side.length });
        }
    }
    found
}

/// How far two places on one rim are apart along it, and straight across.
fn round_a_rim(surface: &Surface, rims: &[Rim], one: &OnEdge, other: &OnEdge) -> Option<(f64, f64)> {
    if one.face == other.face {
        return None;
    }
    let along = |rim: &Rim, place: &OnEdge| {
        let (mut before, mut found) = (0.0, None);
        for part in &rim.parts {
            let (own, side) = (surface.stretch(part.stretch), surface.side_of(part.stretch));
            let at = if side.mirrored { place.length - place.at } else { place.at };
            if own.side == surface.stretch(place.ends[0].0).side && own.from <= at && at <= own.to {
                found = Some(before + if part.against { own.to - at } else { at - own.from });
            }
            before += surface.length(part.stretch);
        }
        found
    };
    rims.iter().find_map(|rim| {
        let (start, end) = (along(rim, one)?, along(rim, other)?);
        let round = rim.length(surface);
        let way = (start - end).abs().min(round - (start - end).abs());
        let turn = std::f64::consts::PI;
        (way > 0.0 && round > 0.0).then(|| (way, round / turn * libm::sin(turn * way / round)))
    })
}

/// How far two places on two pieces are apart along their edges, which run on into one another; none where the way round
/// the other side may be shorter.
fn way(surface: &Surface, one: &OnEdge, other: &OnEdge) -> Option<f64> {
    if one.face == other.face {
        return None;
    }
    let vertex = |(stretch, at_end): (StretchId, bool)| {
        let own = surface.stretch(stretch);
        if at_end { own.end } else { own.start }
    };
    let to = |place: &OnEdge, at_end: usize| if at_end == 0 { place.at } else { place.length - place.at };
    let pairs = [(0, 0), (0, 1), (1, 0), (1, 1)];
    let meet = pairs.into_iter().filter(|&(own, there)| vertex(one.ends[own]) == vertex(other.ends[there]));
    let way = meet.map(|(own, there)| to(one, own) + to(other, there)).min_by(f64::total_cmp)?;
    (way > 0.0 && way <= 0.5 * (one.length + other.length)).then_some(way)
}
