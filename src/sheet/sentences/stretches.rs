//! Where on its edge a run lies that is sewn by itself, and how far it goes.

use super::StepText;
use super::edge_runs::AT_CORNER;
use super::teller::{Named, Teller, Way, fit, once};
use crate::garment::{EdgeId, Part};
use crate::resolve::{CornerName, DrawnEdgeId};
use crate::sheet::{Figure, FigureKind, Text};
use crate::syntax::tree::Hand;

/// Of an edge that is sewn in pieces no more than these are told.
const MOST_STRETCHES: usize = 3;

/// Which edges are sewn, by their parts.
type Sewn = Vec<(Part, DrawnEdgeId)>;

/// A run of an edge in one size, as sewn.
struct Stretch {
    /// How far its nearer end is from the corner that it is counted from.
    distance: f64,
    length: f64,
    from: CornerName,
}

/// The same over all sizes, of one edge or of several alike.
struct Told {
    words: String,
    length: Figure,
    distance: Option<Figure>,
    from: Text,
    on: Vec<Named>,
}

impl Teller<'_> {
    /// Says of every edge that several steps share where on it this one is. `seams` are the sewn seams that it is of, by their
    /// places in the first size: one run may be sewn in two stretches, of which only one is meant. Where only one side of the
    /// body is meant, that is `hand`.
    pub(super) fn say_stretches(
        &self,
        named: &[Named],
        (seams, hand): (&[usize], Option<Hand>),
        text: &mut StepText,
    ) {
        let forms = self.forms();
        let sewn: Vec<Sewn> = (0..self.facts.sizes.len()).map(|size| self.runs_in(size, seams)).collect();
        let stretches = |size: usize, part: Part, own: &[EdgeId]| -> Vec<Stretch> {
            let sewn = sewn.get(size).filter(|_| !seams.is_empty());
            self.stretches(size, part, own, sewn).unwrap_or_default()
        };
        let mut told: Vec<Told> = Vec::new();
        // The side is told of what has a number of its own there.
        let hand_of =
            |named: &Named| named.hand.filter(|_| !self.facts.numbers_by_hand(named.part).is_empty());
        let plain = once(named.iter().map(|named| Named { hand: hand_of(named), ..*named }).collect());
        let mut seen: Vec<(Part, EdgeId)> = Vec::new();
        for named in &plain {
            let whole = self.garment.whole_edge(named.edge);
            if seen.contains(&(named.part, whole)) {
                continue;
            }
            seen.push((named.part, whole));
            // What lies on the same places of another edge, once its piece is folded, is told with that.
            let folds = self.garment.piece(named.part.piece).folds.iter();
            let is_onto = |onto| {
                plain.iter().any(|own| own.part == named.part && self.garment.is_run_of(own.edge, onto))
            };
            if folds.clone().any(|over| self.garment.is_run_of(named.edge, over.edge) && is_onto(over.onto)) {
                continue;
            }
            let own = plain.iter().filter(|own| own.part == named.part).map(|own| own.edge);
            let own: Vec<EdgeId> = own.filter(|edge| self.garment.whole_edge(*edge) == whole).collect();
            for (nth, first) in stretches(0, named.part, &own).into_iter().enumerate().take(MOST_STRETCHES) {
                let of = |value: fn(&Stretch) -> f64| {
                    self.figure(FigureKind::Length, |at, _| {
                        stretches(at, named.part, &own).get(nth).map(value)
                    })
                };
                let Some((length, distance)) = of(|own| own.length).zip(of(|own| own.distance)) else {
                    continue;
                };
                let new = Told {
                    words: self.edge_words(named.edge),
                    length,
                    distance: Some(distance).filter(|_| first.distance > AT_CORNER),
                    from: match first.from {
                        CornerName::Named(point) => {
                            forms.corner_named(self.name(&self.garment.point_words(point)))
                        }
                        CornerName::Between(one, other) => {
                            let other = if self.garment.whole_edge(one) == whole { other } else { one };
                            forms.corner_beside(self.edge_name(&self.edge_words(other)))
                        }
                    },
                    on: vec![Named { edge: whole, ..*named }],
                };
                match told.iter_mut().find(|own| is_alike(own, &new)) {
                    Some(own) => own.on.extend(new.on),
                    None => told.push(new),
                }
            }
        }
        for one in &told {
            let on: Vec<Named> = match one.on.as_slice() {
                // Of a half that is opened out the edge is there twice, and here only one is meant.
                [own] if self.is_there_twice(own.part, own.edge) => vec![Named { hand, ..*own }],
                all => all.to_vec(),
            };
            let say = |way: Way| {
                let edges = self.words.list(self.edges(&on, way));
                let (amount, from) = (one.length.clone(), one.from.clone());
                match &one.distance {
                    Some(distance) => forms.stretch_beyond(edges, amount, distance.clone(), from),
                    None => forms.stretch_from(edges, amount, from),
                }
            };
            let way = self.way_of(&plain);
            let full = say(way);
            text.say(if fit(std::slice::from_ref(&full)) { full } else { say(Way { short: true, ..way }) });
        }
    }

    /// The runs of sewn seams in a size, which are told by their places in the first.
    fn runs_in(&self, size: usize, seams: &[usize]) -> Sewn {
        let (Some(of_first), Some(of_size)) = (self.seams.first(), self.seams.get(size)) else {
            return Sewn::new();
        };
        let (Some(worked), Some(work)) = (self.facts.sizes.get(size), self.works.get(size)) else {
            return Sewn::new();
        };
        let here = seams.iter().filter_map(|&nth| {
            let stitching = of_first.get(nth)?;
            let rank = of_first.iter().take(nth).filter(|one| *one == stitching).count();
            let at = (0..of_size.len()).filter(|at| of_size.get(*at) == Some(stitching)).nth(rank)?;
            worked.sewn.seams.get(at)
        });
        let plies = here.flat_map(|seam| seam.first.plies.iter().chain(&seam.second.plies));
        let runs = plies.flat_map(|ply| &ply.runs).filter(|run| !run.elsewhere);
        runs.map(|run| (work.finder.part(run.part), run.edge)).collect()
    }

    /// Where these runs of one edge lie, those next to one another as one; nothing where they are all of it.
    fn stretches(
        &self,
        size: usize,
        part: Part,
        own: &[EdgeId],
        sewn: Option<&Sewn>,
    ) -> Option<Vec<Stretch>> {
        let edge = self.edge_runs(size, part, *own.first()?)?;
        let drawn = self.facts.sizes.get(size)?.drawn.paper(part.paper)?;
        let is_own = |at: DrawnEdgeId| match sewn {
            Some(sewn) => sewn.contains(&(part, at)),
            None => drawn.edge_at(at).is_some_and(|edge| own.contains(&edge.edge)),
        };
        if edge.runs.iter().all(|&(at, _)| is_own(at)) {
            return None;
        }
        let lengths: Vec<(bool, f64)> = edge.runs.iter().map(|&(at, length)| (is_own(at), length)).collect();
        let all = edge.length();
        // What is left of an edge begins where the run that is sewn by itself ends; that is counted from its corner, if it is shorter.
        let is_left = !own.iter().any(|edge| self.is_run(*edge));
        let mut before = 0.0;
        let mut found = Vec::new();
        for alike in lengths.chunk_by(|one, other| one.0 == other.0) {
            let length: f64 = alike.iter().map(|(_, length)| length).sum();
            if alike.first().is_some_and(|(is_own, _)| *is_own) {
                let after = all - before - length;
                let (near, far) = (f64::min(before, after), f64::max(before, after));
                let is_at_corner = near <= AT_CORNER && far - near >= AT_CORNER;
                let is_first = match self.counted_from(own, &edge).filter(|_| !is_at_corner) {
                    // Counted from where its maker counts from it lies alike in every size, as that is said.
                    Some(at) => at == 0,
                    None => match is_left && near <= AT_CORNER && far > AT_CORNER && far < length {
                        true => before >= after,
                        false => before <= after,
                    },
                };
                let [start, end] = edge.corners;
                let (distance, from) = if is_first { (before, start) } else { (after, end) };
                found.push(Stretch { distance, length, from });
            }
            before += length;
        }
        Some(found)
    }
}

/// Whether one sentence tells both: of edges that are called alike, to the millimetre.
fn is_alike(one: &Told, other: &Told) -> bool {
    let values = |figure: &Figure| -> Vec<Option<i64>> {
        figure.values.iter().map(|value| value.map(|value| value.round() as i64)).collect()
    };
    one.words == other.words
        && one.from == other.from
        && values(&one.length) == values(&other.length)
        && one.distance.as_ref().map(values) == other.distance.as_ref().map(values)
}
