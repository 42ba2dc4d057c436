//! Runs of edges that are taken by themselves: edges of the finished papers are cut where they begin and end.
//!
//! Places are counted as sewn: from the start of an edge, without what take-ups take and folds halve.

use super::drawn_piece::{CornerName, DrawnEdge, DrawnPiece};
use super::measures::{finished, taken};
use super::model::DrawnEdgeId;
use super::outline::cutting;
use super::sketch::Sketch;
use super::stretches::{Lying, Stretch, called, report_over, stretches};
use super::work::{Drawn, Work};
use crate::garment::{
    Chain, CountedFrom, Dimension, EdgeId, Expression, LayerId, Made, PaperId, Portion, PortionEdges,
    PortionId, PortionPlace, SewnEdge, TakeUpSide,
};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};
use crate::source::Span;
use std::sync::Arc;

/// A run of an edge as it is said.
pub(super) struct SaidRun<'g> {
    pub(super) from: Option<&'g Expression>,
    pub(super) to: &'g Expression,
    pub(super) counted: CountedFrom,
    pub(super) span: Span,
}

impl<'g> SaidRun<'g> {
    fn of(portion: &'g Portion) -> Self {
        SaidRun { from: portion.from.as_ref(), to: &portion.to, counted: portion.counted, span: portion.span }
    }
}

/// Where a run lies on an edge, as sewn from the edge's start.
#[derive(Clone, Copy)]
pub(super) struct LaidRun {
    pub(super) from: f64,
    pub(super) to: f64,
    /// It is counted against the edge.
    pub(super) back: bool,
}

/// Where a portion is counted from: how far along its edge, as sewn, and which way.
#[derive(Clone, Copy)]
pub(super) struct Station {
    at: f64,
    way: Way,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Way {
    Along,
    Back,
    /// From a place between the ends.
    Either,
}

/// Cuts the edges of the papers where portions begin and end. A paper of which that cannot be told is none:
/// then no name of its edges means what the maker thinks. Those come back.
pub(super) fn cut(work: &Work, papers: &mut [Drawn]) -> Vec<Made> {
    if work.garment.portions.is_empty() {
        return Vec::new();
    }
    let mut lying: Vec<(PaperId, usize, Lying)> = Vec::new();
    let mut unknown: Vec<PaperId> = Vec::new();
    for (id, portion) in PortionId::enumerate(&work.garment.portions) {
        let mut beside: Vec<(PaperId, usize)> = Vec::new();
        let mut found = false;
        for (at, drawn) in papers.iter().enumerate() {
            let (paper, Some(drawn)) = (PaperId::from_index(at), drawn) else { continue };
            for edge in 0..drawn.edges.len() {
                let Some(names) = names_on(portion, drawn, edge) else { continue };
                let Some(station) = station(work, drawn, edge, portion.counted) else {
                    beside.push((paper, edge));
                    continue;
                };
                found = true;
                match lies(work, drawn, edge, (id, portion), names, station) {
                    Some(own) => lying.push((paper, edge, own)),
                    None => unknown.push(paper),
                }
            }
        }
        if !found && !beside.is_empty() {
            report_nowhere(work, portion.edge, &SaidRun::of(portion));
            unknown.extend(beside.iter().map(|(paper, _)| *paper));
        }
    }
    lying.sort_by(|(paper, edge, one), (other_paper, other_edge, other)| {
        (paper, edge).cmp(&(other_paper, other_edge)).then(one.from.total_cmp(&other.from))
    });
    for on_edge in lying.chunk_by(|one, other| (one.0, one.1) == (other.0, other.1)) {
        let own: Vec<Lying> = on_edge.iter().map(|(.., lying)| *lying).collect();
        if let (Some((paper, ..)), true) = (on_edge.first(), report_over(work, &own)) {
            unknown.push(*paper);
        }
    }
    for (paper, drawn) in papers.iter_mut().enumerate() {
        let paper = PaperId::from_index(paper);
        let own = lying.iter().filter(|(of, ..)| *of == paper).collect::<Vec<_>>();
        if unknown.contains(&paper) {
            *drawn = None;
        } else if let Some(drawn) = drawn.as_mut().filter(|_| !own.is_empty()) {
            let mut cut = DrawnPiece::clone(drawn);
            // From the last edge on, so that the places of those before it stay.
            for edge in (0..drawn.edges.len()).rev() {
                let on = own.iter().filter(|(_, at, _)| *at == edge).map(|(.., lying)| *lying);
                cut_edge(work, &mut cut, edge, &on.collect::<Vec<Lying>>());
            }
            *drawn = Arc::new(cut);
        }
    }
    let last = |paper: PaperId| Made::Version(paper, work.garment.paper(paper).alterations.len());
    unknown.into_iter().map(last).collect()
}

/// What the portion is called on that edge, if it may lie there.
fn names_on(portion: &Portion, drawn: &DrawnPiece, edge: usize) -> Option<PortionEdges> {
    let edge = drawn.edges.get(edge)?.edge;
    portion.names.iter().find(|names| names.on == edge).copied()
}

/// Where a run is counted from, if that lies on the edge.
pub(super) fn station(work: &Work, drawn: &DrawnPiece, at: usize, counted: CountedFrom) -> Option<Station> {
    let garment = work.garment;
    let id = DrawnEdgeId::from_index(at);
    let edge = drawn.edge_at(id)?;
    let map = taken(garment, drawn, id)?;
    let (along, back) = (Station { at: 0.0, way: Way::Along }, Station { at: map.sewn(), way: Way::Back });
    let count = drawn.edges.len();
    match counted {
        CountedFrom::Point(point) => {
            let is = |corner: CornerName| matches!(corner, CornerName::Named(own) if garment.is_point_of(own, point));
            let (start, end) = (is(edge.corner), is(drawn.edges.get((at + 1) % count)?.corner));
            match (start, end) {
                (true, false) => return Some(along),
                (false, true) => return Some(back),
                _ => {}
            }
            let spot = drawn.spots.iter().find(|spot| garment.is_point_of(spot.point, point))?;
            let nearest = edge.path.nearest(spot.at);
            if nearest.distance > ON_OUTLINE {
                return None;
            }
            let sewn = map.as_sewn(nearest.at);
            Some(match (sewn <= SAME_POINT, sewn >= map.sewn() - SAME_POINT) {
                (true, _) => along,
                (_, true) => back,
                _ => Station { at: sewn, way: Way::Either },
            })
        }
        CountedFrom::Edge(other) => {
            let is = |place: usize| {
                let beside = drawn.edges.get(place % count);
                beside.is_some_and(|edge| garment.is_run_of(edge.edge, other))
            };
            match (is(at + count - 1), is(at + 1)) {
                (true, false) => Some(along),
                (false, true) => Some(back),
                _ => None,
            }
        }
        CountedFrom::Side(take_up, side) => {
            let on =
                drawn.take_ups_on(id).into_iter().map(|(placed, mouth)| (placed.name, placed.near, mouth));
            let slits = drawn.slits_on(edge).into_iter().map(|(slit, mouth)| (slit.name, slit.near, mouth));
            let (_, near, mouth) = on.chain(slits).find(|(name, ..)| garment.is_run_of(*name, take_up))?;
            let first = (side == TakeUpSide::Near) == (near == 0);
            let sewn = map.as_sewn(mouth.from);
            Some(Station { at: sewn, way: if first { Way::Back } else { Way::Along } })
        }
    }
}

/// Where the portion lies on the edge; reported if there is no room for it.
fn lies<'g>(
    work: &Work,
    drawn: &DrawnPiece,
    at: usize,
    (id, portion): (PortionId, &'g Portion),
    names: PortionEdges,
    station: Station,
) -> Option<Lying<'g>> {
    let laid = lay(work, drawn, at, (&SaidRun::of(portion), names.on), station, None)?;
    Some(Lying { id, portion, names, from: laid.from, to: laid.to, back: laid.back })
}

/// Where a run lies on the edge, which the maker calls so; reported if there is no room for it.
pub(super) fn lay(
    work: &Work,
    drawn: &DrawnPiece,
    at: usize,
    (said, edge): (&SaidRun, EdgeId),
    station: Station,
    sketch: Option<&Sketch>,
) -> Option<LaidRun> {
    let long = finished(work.garment, drawn, DrawnEdgeId::from_index(at))?;
    let [from, to] = amounts(work, said, sketch, long)?;
    let fits = |from: f64, to: f64| from >= -SAME_POINT && to <= long + SAME_POINT;
    let (along, back) = ((station.at + from, station.at + to), (station.at - to, station.at - from));
    let title = work.title(drawn.piece);
    let name = &work.garment.edge(edge).name;
    if to - from <= SAME_POINT {
        work.mistake(1.0, name, || {
            let title = Title::new(format!("a run of {name} of {title} has no length")).in_sizes();
            Diagnostic::new(&catalogue::RUN_NOTHING, said.span, title)
                .help("let it begin and end in two places: 3..19 from a corner, or 20 from a corner for the first 20")
        });
        return None;
    }
    let is_back = match station.way {
        Way::Along => false,
        Way::Back => true,
        Way::Either => match (fits(along.0, along.1), fits(back.0, back.1)) {
            (true, true) => {
                work.mistake(1.0, name, || {
                    let title = Title::new(format!("this may be counted either way along {name} of {title}"))
                        .in_sizes();
                    Diagnostic::new(&catalogue::EDGE_PLACE, said.span, title)
                        .help(format!("count from a corner of {name}"))
                });
                return None;
            }
            (false, true) => true,
            _ => false,
        },
    };
    let (from_start, to_start) = if is_back { back } else { along };
    if !fits(from_start, to_start) {
        let beyond = if from < -SAME_POINT { from } else { to };
        work.report(|size| {
            let (long_words, far) = (work.amount(long), work.amount(beyond));
            let place = if beyond == from { "begins" } else { "ends" };
            let title = Title::new(format!("{name} of {title} is {long_words} long as it is sewn"))
                .in_sizes()
                .then(format!(", and a run of it {place} at {far}"));
            let message = Diagnostic::new(&catalogue::RUN_TOO_LONG, said.span, title)
                .also(work.garment.edge(edge).span, format!("{long_words} long"))
                .help("make the run shorter, or the edge longer");
            Finding::new(size, (-from_start).max(to_start - long), message)
                .about(&**name)
                .figure("length", long_words)
                .figure(place, far)
        });
        return None;
    }
    Some(LaidRun { from: from_start.max(0.0), to: to_start.min(long), back: is_back })
}

/// How far from where it is counted a run begins and ends, on an edge so long as sewn.
fn amounts(work: &Work, said: &SaidRun, sketch: Option<&Sketch>, long: f64) -> Option<[f64; 2]> {
    let amount = |expression: &Expression| {
        let value = work.scalar(expression, sketch)?;
        Some(if expression.dimension == Dimension::Number { value * long } else { value })
    };
    let from = said.from.map_or(Some(0.0), amount)?;
    let to = amount(said.to)?;
    Some([from.min(to), from.max(to)])
}

/// Cuts an edge into its portions and what is left between them.
fn cut_edge(work: &Work, drawn: &mut DrawnPiece, at: usize, on: &[Lying]) {
    let Some(map) = taken(work.garment, drawn, DrawnEdgeId::from_index(at)) else { return };
    let (Some(first), Some(whole)) = (on.first(), drawn.edges.get(at).cloned()) else { return };
    let (long, sewn) = (whole.path.length(), map.sewn());
    let stretches: Vec<Stretch> = stretches(on, sewn)
        .into_iter()
        .map(|one| Stretch {
            to: if sewn - one.to <= SAME_POINT { long } else { map.as_drawn(one.to) },
            ..one
        })
        .collect();
    let names = called(work.garment, &stretches, whole.edge, first.back);
    let mut cuts = Vec::new();
    let (mut rest, mut start) = (whole.path.clone(), 0.0);
    for (Stretch { to, .. }, &edge) in stretches.iter().zip(&names) {
        let is_last = cuts.len() + 1 == names.len();
        let (path, beyond) = if is_last { (rest.clone(), rest) } else { rest.split_at_length(to - start) };
        let corner = match cuts.last() {
            None => whole.corner,
            Some(DrawnEdge { edge: before, .. }) => CornerName::Between(*before, edge),
        };
        cuts.push(DrawnEdge { edge, path, corner, touched: whole.touched.clone() });
        (rest, start) = (beyond, *to);
    }
    drawn.counted_back.extend(on.iter().filter(|lying| lying.back).map(|lying| lying.names.taken));
    let starts: Vec<f64> = std::iter::once(0.0).chain(stretches.iter().map(|one| one.to)).collect();
    carry(drawn, &whole, &starts, &names);
    for place in 0..cuts.len().saturating_sub(1) {
        let (Some(before), Some(after)) = (cuts.get(place), cuts.get(place + 1)) else { continue };
        let beyond = cuts.iter().skip(place + 2).fold(after.path.clone(), |path, next| path.then(&next.path));
        cutting::divide(drawn, at + place, &before.path, &beyond);
        let whole = DrawnEdge { path: beyond, ..after.clone() };
        if let Some(slot) = drawn.edges.get_mut(at + place) {
            *slot = before.clone();
        }
        drawn.edges.insert(at + place + 1, whole);
    }
    if let (Some(slot), Some(last)) = (drawn.edges.get_mut(at + cuts.len().max(1) - 1), cuts.last()) {
        *slot = last.clone();
    }
}

/// Takes notches and take-ups along to the stretch of the edge that they lie on.
fn carry(drawn: &mut DrawnPiece, whole: &DrawnEdge, starts: &[f64], names: &[EdgeId]) {
    let stretch = |along: f64| -> Option<(EdgeId, f64)> {
        let at = starts.iter().rposition(|start| *start <= along).unwrap_or(0).min(names.len().max(1) - 1);
        Some((*names.get(at)?, *starts.get(at)?))
    };
    for notch in drawn.notches.iter_mut().filter(|notch| notch.edge == whole.edge) {
        if whole.path.nearest(notch.at).distance <= ON_OUTLINE
            && let Some((edge, start)) = stretch(notch.along)
        {
            (notch.edge, notch.along) = (edge, notch.along - start);
        }
    }
    for slit in &mut drawn.slits {
        let Some(mouth) = slit.mouth.as_mut().filter(|mouth| mouth.edge == whole.edge) else { continue };
        let side = whole.path.point_at_length(mouth.from);
        if side.distance(slit.sides[0]) <= ON_OUTLINE
            && let Some((edge, start)) = stretch((mouth.from + mouth.to) / 2.0)
        {
            (mouth.edge, mouth.from, mouth.to) = (edge, mouth.from - start, mouth.to - start);
        }
    }
    for take_up in &mut drawn.take_ups {
        let Some(mouth) = take_up.mouth.as_mut().filter(|mouth| mouth.edge == whole.edge) else { continue };
        let side = whole.path.point_at_length(mouth.from);
        if side.distance(take_up.wedge.sides[0]) <= ON_OUTLINE
            && let Some((edge, start)) = stretch((mouth.from + mouth.to) / 2.0)
        {
            (mouth.edge, mouth.from, mouth.to) = (edge, mouth.from - start, mouth.to - start);
        }
    }
}

/// Reports that what a run is counted from is not on its edge.
pub(super) fn report_nowhere(work: &Work, edge: EdgeId, said: &SaidRun) {
    let edge = work.garment.edge(edge);
    work.mistake(1.0, &edge.name, || {
        let from = match said.counted {
            CountedFrom::Point(point) => work.garment.point(point).name.to_string(),
            CountedFrom::Edge(other) => work.garment.edge(other).name.to_string(),
            CountedFrom::Side(take_up, _) => format!("a side of {}", work.garment.edge(take_up).name),
        };
        let title = Title::new(format!("{from} is not on {} of {}", edge.name, work.title(edge.piece))).in_sizes();
        Diagnostic::new(&catalogue::EDGE_PLACE, said.span, title)
            .label("counted from there")
            .also(edge.span, "the edge")
            .help(format!(
                "count from a corner of {0}, a mark on it, an edge beside it at one end, or a side of its darts",
                edge.name
            ))
    });
}

impl Work<'_> {
    /// How much of an edge a closure's words mean, as sewn: a portion of it, or what portions leave of it. None
    /// inside where a portion does not lie on that edge.
    pub(super) fn named_length(
        &self,
        sewn: &SewnEdge,
        layer: Option<LayerId>,
        drawn: &DrawnPiece,
        id: DrawnEdgeId,
    ) -> Option<Option<f64>> {
        let garment = self.garment;
        let long = finished(garment, drawn, id)?;
        if garment.portions.is_empty() {
            return Some(Some(long));
        }
        let length = |portion: &Portion| -> Option<Option<f64>> {
            let on_it = names_on(portion, drawn, id.index()).is_some();
            if !on_it || station(self, drawn, id.index(), portion.counted).is_none() {
                return Some(None);
            }
            let [from, to] = amounts(self, &SaidRun::of(portion), None, long)?;
            // What has no length, or no room, is reported where the edge is cut.
            let is_sound = to - from > SAME_POINT && to - from <= long + SAME_POINT;
            self.inherit(is_sound.then_some(Some(to - from)))
        };
        if let Some(own) = garment.edge(sewn.edge).portion {
            return length(garment.portion(own.portion));
        }
        let mut left = long;
        let place = PortionPlace { layer: sewn.layer.or(layer), hand: sewn.on };
        for portion in &garment.portions {
            if portion.is_in(place) && self.is_taken(portion, layer) {
                left -= length(portion)?.unwrap_or(0.0);
            }
        }
        Some(Some(left))
    }

    /// Whether a seam, closure or finish takes the portion, in that layer or in any.
    fn is_taken(&self, portion: &Portion, layer: Option<LayerId>) -> bool {
        let garment = self.garment;
        let names = |sewn: &SewnEdge| {
            let own = portion.names.iter().any(|names| names.taken == sewn.edge);
            own && sewn.layer.zip(layer).is_none_or(|(one, other)| one == other)
        };
        let in_chain = |chain: &Chain| chain.edges.iter().any(names);
        garment.seams.iter().any(|seam| seam.first.iter().chain(&seam.second).any(in_chain))
            || garment.closures.iter().any(|closure| in_chain(&closure.first) || in_chain(&closure.second))
            || garment.finishes.iter().any(|finish| finish.edges.iter().any(names))
    }
}
