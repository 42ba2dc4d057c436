//! Pieces that are laid on others: where, which of their edges are stitched, which stay open.

use super::teller::{Named, Teller, Way, fit, once};
use super::{Step, StepText};
use crate::garment::{Catcher, ClosureId, CutHow, EdgeId, LayerId, Part, Placement, PlacementId, PointId};
use crate::once_each::once_each;
use crate::resolve::{DrawnEdge, DrawnEdgeId};
use crate::sewing::order::Job;
use crate::sewing::{TakenBy, Taker};
use crate::sheet::{Figure, FigureKind, Text};

/// What is no wider than this, in millimetres, is no allowance to fold.
const NO_ALLOWANCE: f64 = 0.05;
/// An edge that ends no farther from a corner than this ends there, in millimetres.
const ENDS_THERE: f64 = 0.01;

impl Teller<'_> {
    pub(super) fn place(&self, step: &Step, text: &mut StepText) {
        for job in step.jobs() {
            match job {
                Job::Place(id, layer) => self.say_placed(step, id, layer, text),
                Job::Strap(id) => self.say_strap(step, id, text),
                _ => {}
            }
        }
    }

    fn say_placed(&self, step: &Step, id: PlacementId, layer: LayerId, text: &mut StepText) {
        let forms = self.forms();
        let placement = self.garment.placement(id);
        let part = self.part(layer, placement.piece);
        // What it lies on may have been joined into another piece since.
        let lies_on = self.facts.sizes.first().and_then(|size| size.drawn.placed.get(id.index())?.as_ref());
        let on = lies_on.map_or(placement.on, |placed| self.garment.paper(placed.on).piece);
        let Some((part, host)) = part.zip(self.part_of(placement.on_layer, on)) else { return };
        let copies = self.copies(id, layer);
        let most = copies.iter().flat_map(|copies| &copies.values).flatten().copied().fold(0.0, f64::max);
        let say = |way: Way| {
            let corners = placement.corners.iter().map(|corner| {
                let words = |point| self.name(&self.garment.point_words(point));
                match self.across_fold(part, corner.corner) {
                    Some(edge) => forms.middle_at(self.edge_name(&self.edge_words(edge)), words(corner.at)),
                    None => forms.corner_at(words(corner.corner), words(corner.at)),
                }
            });
            let corners = self.words.list(corners);
            let (piece, host) = (self.piece(part, None, way), self.piece(host, placement.hand, way));
            let letter = step.letter.clone();
            match most > 1.0 {
                true => forms.place_each(piece, letter, host, corners),
                false => forms.place(piece, letter, host, corners),
            }
        };
        let to_press = self.to_press_under(part);
        // What is sewn to its own lining is laid on as one: the allowances of both are folded in.
        let plies: Vec<Part> = step
            .jobs()
            .filter_map(|job| match job {
                Job::Place(own, layer) if own == id => self.part(layer, placement.piece),
                _ => None,
            })
            .collect();
        if plies.len() > 1 && self.are_sewn_together(step, &plies) {
            if plies.first() != Some(&part) {
                return;
            }
            let all: Vec<Named> = plies.iter().flat_map(|&ply| self.to_press_under(ply)).collect();
            text.say_all(self.listed(&all, |edges| forms.press_between(edges)));
        } else if to_press.len() > 1 && to_press.iter().all(|named| self.lies_on_another(part, named.edge)) {
            text.say_all(self.listed(&to_press, |edges| forms.press_between(edges)));
        } else {
            text.say_all(self.listed(&to_press, |edges| forms.press_under(edges)));
        }
        let full = say(Way::default());
        text.say(match fit(std::slice::from_ref(&full)) {
            true => full,
            false => say(Way { short: true, layered: false }),
        });
        self.say_held(step, placement, part, text);
        if let Some(copies) = copies {
            text.note(match most > 1.0 {
                true => forms.fact_times(copies),
                false => forms.fact_once(),
            });
        }
    }

    /// Whether seams before a step join these plies to one another.
    fn are_sewn_together(&self, step: &Step, plies: &[Part]) -> bool {
        let Some(work) = self.work() else { return false };
        let before = self.sewn_until(step);
        let mut sewn = before.iter().filter_map(|&at| work.stitchings.get(at));
        sewn.any(|own| {
            let of = |ply: &Part| own.places().any(|place| work.finder.part(place.part) == *ply);
            plies.iter().all(of)
        })
    }

    /// Of a corner on the fold that its piece is cut on the edge that runs on there: what is cut has no corner in its middle.
    fn across_fold(&self, part: Part, corner: PointId) -> Option<EdgeId> {
        let drawn = self.facts.sizes.first()?.drawn.paper(part.paper)?;
        let CutHow::OnFold(fold) = drawn.cut else { return None };
        let at = drawn.spots.iter().find(|spot| self.garment.is_point_of(spot.point, corner))?.at;
        let is_fold = |edge: EdgeId| self.garment.is_run_of(edge, fold);
        let ends = |own: &&DrawnEdge| {
            [own.path.start(), own.path.end()].iter().any(|end| end.distance(at) < ENDS_THERE)
        };
        let mut beside = drawn.outline().iter().filter(ends);
        let (one, other) = (beside.next()?, beside.next()?);
        match (is_fold(one.edge), is_fold(other.edge)) {
            (true, false) => Some(other.edge),
            (false, true) => Some(one.edge),
            _ => None,
        }
    }

    /// How many copies are laid on; none where none are.
    fn copies(&self, id: PlacementId, layer: LayerId) -> Option<Figure> {
        let found = self.figure(FigureKind::Count, |_, size| {
            let surface = size.sewn.surface.as_ref()?;
            let own = surface.placings.iter().filter(|placing| placing.placement == id);
            let count = own.filter(|placing| surface.face(placing.placed).layer == layer).count();
            Some(count as f64)
        });
        found.filter(|found| found.values.iter().flatten().any(|count| *count > 0.0))
    }

    /// Its edges that are stitched with an allowance that nothing else takes: it would lie raw on what it is laid on.
    fn to_press_under(&self, part: Part) -> Vec<Named> {
        let Some(work) = self.work() else { return Vec::new() };
        let parts = crate::sewing::PartId::enumerate(work.finder.parts);
        let Some((at, _)) = parts.into_iter().find(|(_, own)| **own == part) else { return Vec::new() };
        let edges = work.finder.drawn(at).map_or(&[][..], |drawn| &drawn.edges);
        let is_raw = |nth: usize| {
            let fate = work.sewing.part(at).fate(DrawnEdgeId::from_index(nth));
            fate.is_some_and(|fate| {
                let is_stitched = |taker: &Taker| matches!(taker.what, TakenBy::Topstitched(_));
                fate.allowance.is_some_and(|wide| wide > NO_ALLOWANCE)
                    && fate.takers.iter().all(is_stitched)
                    && !fate.takers.is_empty()
            })
        };
        let raw = edges.iter().enumerate().filter(|(nth, _)| is_raw(*nth));
        once(raw.map(|(_, edge)| Named { part, edge: edge.edge, hand: None }).collect())
    }

    /// Whether an edge comes to lie on another one of its piece, which is folded in half.
    fn lies_on_another(&self, part: Part, edge: EdgeId) -> bool {
        let [over] = self.garment.piece(part.piece).folds.as_slice() else { return false };
        !over.in_four && over.is_of(self.garment, edge)
    }

    /// Whether what takes an edge closes it together with what is laid on beside it: a zip, or a seam with another piece that
    /// lies on the same one.
    fn is_closed_by(&self, what: TakenBy, placement: &Placement) -> bool {
        let TakenBy::Seam(id, second) = what else { return matches!(what, TakenBy::Closure(_)) };
        let seam = self.garment.seam(id);
        let others = if second { &seam.first } else { &seam.second };
        let mut pieces = others.iter().flat_map(|chain| &chain.edges).map(|sewn| sewn.piece);
        pieces.any(|piece| {
            let mut laid = self.garment.placements.iter().filter(|own| !own.poisoned);
            piece != placement.piece && laid.any(|own| own.piece == piece && own.on == placement.on)
        })
    }

    /// Its edges that are stitched, those that stay open, those that something catches.
    fn say_held(&self, step: &Step, placement: &Placement, part: Part, text: &mut StepText) {
        let forms = self.forms();
        let Some(work) = self.work() else { return };
        let parts = crate::sewing::PartId::enumerate(work.finder.parts);
        let Some((at, _)) = parts.into_iter().find(|(_, own)| **own == part) else { return };
        let Some(drawn) = work.finder.drawn(at) else { return };
        let is_fold =
            |edge: EdgeId| matches!(drawn.cut, CutHow::OnFold(fold) if self.garment.is_run_of(edge, fold));
        let before = self.sewn_until(step);
        let is_sewn = |what: TakenBy| match what {
            TakenBy::Seam(id, _) => work.of_seam(id).iter().any(|at| before.contains(at)),
            _ => false,
        };
        let [mut stitched, mut open, mut free]: [Vec<EdgeId>; 3] = Default::default();
        for (nth, edge) in drawn.edges.iter().enumerate() {
            let fate = work.sewing.part(at).fate(DrawnEdgeId::from_index(nth));
            let takers = || fate.into_iter().flat_map(|fate| &fate.takers);
            let is_caught = takers().any(|taker| matches!(taker.what, TakenBy::Caught(..)));
            let is_closed = takers().any(|taker| self.is_closed_by(taker.what, placement));
            let is_stitched = takers().any(|taker| matches!(taker.what, TakenBy::Topstitched(_)));
            if is_caught || is_closed || is_fold(edge.edge) {
                continue;
            }
            // What is sewn to another ply already opens nothing.
            let is_shut = takers().any(|taker| is_sewn(taker.what));
            let of_its_kind = match (is_stitched, is_shut) {
                (true, _) => &mut stitched,
                (false, true) => &mut free,
                (false, false) => &mut open,
            };
            of_its_kind.push(edge.edge);
        }
        let names = |edges: &[EdgeId]| -> (Text, usize) {
            let mut named: Vec<(String, bool)> = Vec::new();
            for &edge in edges {
                let words = self.whole_words(part, edge);
                let is_twice = words.len() == 1 && self.is_there_twice(part, edge);
                named.extend(words.into_iter().map(|words| (words, is_twice)));
            }
            once_each(&mut named);
            if let [(one, false)] = named.as_slice() {
                return (self.edge_name(one), 1);
            }
            let count = named.iter().map(|(_, is_twice)| 1 + usize::from(*is_twice)).sum();
            let words = named.iter().map(|(words, is_twice)| match is_twice {
                true => forms.two_edges(self.name(words)),
                false => self.name(words),
            });
            (self.words.list(words), count)
        };
        if placement.all_round.is_some() && open.is_empty() && free.is_empty() && placement.caught.is_empty()
        {
            text.say(forms.topstitch_all_round());
        } else if !stitched.is_empty() {
            let (folded, others): (Vec<EdgeId>, Vec<EdgeId>) =
                stitched.iter().partition(|&&edge| self.lies_on_another(part, edge));
            // Both edges that a fold brings onto one another are stitched at once, and the fold is none of them.
            let stitched = if folded.len() > 1 {
                text.say(forms.topstitch_folded(names(&folded).0));
                others
            } else {
                stitched
            };
            if !stitched.is_empty() {
                let (edges, count) = names(&stitched);
                text.say(if count > 1 { forms.topstitch_edges(edges) } else { forms.topstitch_edge(edges) });
            }
        }
        if !open.is_empty() {
            let (edges, count) = names(&open);
            text.say(if count > 1 { forms.stay_open(edges) } else { forms.stays_open(edges) });
        }
        if !free.is_empty() {
            let (edges, count) = names(&free);
            text.say(if count > 1 { forms.hang_free(edges) } else { forms.hangs_free(edges) });
        }
        for caught in &placement.caught {
            let (edge, _) = names(&[caught.edge]);
            text.say(forms.caught_later(edge, self.catcher(caught.by)));
        }
    }

    /// The letter of a closure: of its first step.
    pub(super) fn letter_of_closure(&self, id: ClosureId) -> Text {
        let jobs = [Job::PutIn(id), Job::Closure(id)];
        let letter = jobs.into_iter().map(|job| self.letter_of(job)).find(|letter| !letter.is_empty());
        letter.unwrap_or_default()
    }

    /// What catches something, by name and letter.
    pub(super) fn catcher(&self, by: Catcher) -> Text {
        self.catcher_in(by, None)
    }

    /// The same, as it is sewn in that layer.
    pub(super) fn catcher_in(&self, by: Catcher, layer: Option<LayerId>) -> Text {
        let (name, letter) = match by {
            Catcher::Seam(id) => {
                let own = self.letter_of_seam(id, layer);
                let letter = if own.is_empty() { self.letter_of_seam(id, None) } else { own };
                return self.forms().seam_called(self.seam_name(id), letter);
            }
            Catcher::Closure(id) => (self.name(&self.garment.closure(id).name), self.letter_of_closure(id)),
        };
        match letter.is_empty() {
            true => name,
            false => name.then(Text::words(" ").0).then(letter.0),
        }
    }
}
