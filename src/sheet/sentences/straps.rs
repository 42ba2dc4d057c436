//! Straps: sewn on by their ends, caught, or hanging free.

use super::teller::{Teller, Way, fit};
use super::{Step, StepText};
use crate::garment::{Part, PointId, StrapEnd, StrapId};
use crate::resolve::DrawnEdgeId;
use crate::sewing::{PartId, TakenBy, is_on_fold, straps};
use crate::sheet::{Figure, FigureKind, Text};

/// What lies no farther from an edge, in millimetres, lies at it.
const AT_EDGE: f64 = 0.5;

impl Teller<'_> {
    pub(super) fn say_strap(&self, step: &Step, id: StrapId, text: &mut StepText) {
        let forms = self.forms();
        let strap = self.garment.strap(id);
        let Some(part) = self.part_of(strap.layer, strap.piece) else { return };
        let piece = |way: Way| self.piece(part, None, way);
        let of = |value: &dyn Fn(&crate::sewing::SewnStrap) -> Option<f64>| -> Option<Figure> {
            self.figure(FigureKind::Length, |_, size| {
                let all = straps(self.garment, &size.drawn);
                all.iter().find(|one| one.strap == id).and_then(value)
            })
        };
        self.say_ends_in(id, part, text);
        if strap.in_four
            && let Some(width) = of(&|one| Some(one.width))
        {
            text.say(forms.fold_strap(piece(Way::default()), width));
        }
        let mut is_sewn_on = false;
        for (nth, run) in strap.runs.iter().enumerate() {
            let letter = || step.letter.clone();
            let say = |way: Way| match (&run.from, &run.to) {
                (from, Some(to)) if from.caught.is_none() && to.caught.is_none() => {
                    let [from, to] = [from, to].map(|end| self.strap_end(end, way));
                    Some(match from == to {
                        true => forms.strap_loop(piece(way), letter(), from),
                        false => forms.strap(piece(way), letter(), from, to),
                    })
                }
                (from, None) if from.caught.is_none() => {
                    Some(forms.strap_free(piece(way), letter(), self.strap_end(from, way)))
                }
                (from, Some(to)) => {
                    let sewn = [from, to].into_iter().find(|end| end.caught.is_none())?;
                    Some(forms.strap_one(piece(way), letter(), self.strap_end(sewn, way)))
                }
                (_, None) => None,
            };
            let full = say(Way::default()).filter(|full| fit(std::slice::from_ref(full)));
            let said = full.or_else(|| say(Way { short: true, layered: false }));
            is_sewn_on |= said.is_some();
            let is_all_caught = said.is_none();
            text.say_all(said);
            let is_loop = is_all_caught && run.to.as_ref().is_some_and(|to| is_same_place(&run.from, to));
            for (at, end) in run.ends().enumerate() {
                let Some(by) = end.caught else { continue };
                if is_loop && at > 0 {
                    continue;
                }
                let way = Way { short: true, layered: false };
                let place = self.strap_end(end, Way::default());
                let catcher = || self.catcher_in(by, end.layer);
                let caught = |place| match is_all_caught {
                    true if is_loop => forms.strap_laid_double(piece(way), letter(), place, catcher()),
                    true if at > 0 => forms.strap_laid_too(piece(way), letter(), place, catcher()),
                    true => forms.strap_laid(piece(way), letter(), place, catcher()),
                    false => forms.strap_caught(place, catcher()),
                };
                let full = caught(place);
                text.say(if fit(std::slice::from_ref(&full)) {
                    full
                } else {
                    caught(self.strap_end(end, way))
                });
            }
            if run.ends().any(|end| end.caught.is_some()) {
                text.say(forms.strap_inward());
            }
            let free = of(&|one| one.runs.get(nth).map(|run| run.free).filter(|free| *free > 0.0));
            if let Some(free) = free {
                text.note(forms.fact_free(free));
            }
        }
        let sewn = of(&|one| Some(one.sewn).filter(|sewn| *sewn > 0.0));
        if let Some(sewn) = sewn.filter(|_| is_sewn_on) {
            let is_sewn = |end: &&StrapEnd| end.caught.is_none();
            let by_one = strap.runs.iter().all(|run| run.ends().filter(is_sewn).count() == 1);
            text.say(match (strap.boxed, by_one) {
                (true, true) => forms.strap_boxed_there(sewn),
                (true, false) => forms.strap_boxed(sewn),
                (false, _) => forms.strap_sewn(sewn),
            });
        }
        let is_twice = strap.runs.iter().flat_map(|run| run.ends()).any(|end| {
            let piece = self.garment.point(end.point).piece;
            let host = self.part_of(end.layer, piece);
            end.hand.is_none()
                && host.is_some_and(|host| self.times(host) == 2 && !self.is_in_middle(host, end.point))
        });
        if is_twice {
            text.say(forms.each_side());
        }
        if let Some(length) = of(&|one| Some(one.length)) {
            text.note(forms.fact_length(length));
        }
    }

    /// Ends that show are turned in first: what hangs free, and what is stitched down on the cloth. What a seam catches, or lies at
    /// an edge that a seam takes afterwards, stays as it is cut.
    fn say_ends_in(&self, id: StrapId, part: Part, text: &mut StepText) {
        let forms = self.forms();
        let strap = self.garment.strap(id);
        let Some(amount) = self.end_allowance(part) else { return };
        let stays = |end: &StrapEnd| end.caught.is_some() || self.is_on_seam(end);
        let ends = || strap.runs.iter().flat_map(|run| run.ends());
        let hangs_free = strap.runs.iter().any(|run| run.to.is_none());
        let lies_on = ends().any(|end| !stays(end));
        let piece = self.piece(part, None, Way::default());
        match (hangs_free, lies_on) {
            (true, true) => text.say(forms.both_ends_in(piece, amount)),
            (true, false) => text.say(forms.free_end(piece, amount)),
            (false, true) if ends().any(stays) => text.say(forms.sewn_end_in(piece, amount)),
            (false, true) => text.say(forms.both_ends_in(piece, amount)),
            (false, false) => {}
        }
    }

    /// Whether an end lies at an edge that a seam takes.
    fn is_on_seam(&self, end: &StrapEnd) -> bool {
        let host = self.part_of(end.layer, self.garment.point(end.point).piece);
        let Some((work, host)) = self.work().zip(host) else { return false };
        PartId::enumerate(work.finder.parts).filter(|(_, own)| **own == host).any(|(id, _)| {
            let Some(drawn) = work.finder.drawn(id) else { return false };
            let Some(spot) = drawn.spots.iter().find(|spot| self.garment.is_point_of(spot.point, end.point))
            else {
                return false;
            };
            drawn.edges.iter().enumerate().any(|(nth, edge)| {
                let fate = work.sewing.part(id).fate(DrawnEdgeId::from_index(nth));
                let mut takers = fate.into_iter().flat_map(|fate| &fate.takers);
                takers.any(|taker| matches!(taker.what, TakenBy::Seam(..)))
                    && edge.path.nearest(spot.at).distance < AT_EDGE
            })
        })
    }

    /// What a strap has beyond its finished length at an end, the shortest of its edges.
    fn end_allowance(&self, part: Part) -> Option<Figure> {
        self.figure(FigureKind::Length, |at, _| {
            let work = self.works.get(at)?;
            let (id, _) = PartId::enumerate(work.finder.parts).find(|(_, own)| **own == part)?;
            let drawn = work.finder.drawn(id)?;
            let length =
                |at: &usize| drawn.outline().get(*at).map_or(f64::INFINITY, |edge| edge.path.length());
            let end =
                (0..drawn.outline().len()).min_by(|one, other| length(one).total_cmp(&length(other)))?;
            let fate = work.sewing.part(id).fate(DrawnEdgeId::from_index(end))?;
            fate.allowance.filter(|allowance| *allowance > 0.0)
        })
    }

    /// Whether a place lies on the fold that its piece is cut on, so that it is there once.
    fn is_in_middle(&self, part: Part, point: PointId) -> bool {
        let drawn = self.facts.sizes.first().and_then(|size| size.drawn.paper(part.paper));
        drawn.is_some_and(|drawn| {
            let spot = drawn.spots.iter().find(|spot| self.garment.is_point_of(spot.point, point));
            spot.is_some_and(|spot| is_on_fold(drawn, spot.at))
        })
    }

    /// Where an end is sewn on.
    fn strap_end(&self, end: &StrapEnd, way: Way) -> Text {
        let piece = self.garment.point(end.point).piece;
        match self.part_of(end.layer, piece) {
            Some(part) => self.point(end.point, part, end.side(), self.way_of_end(end, way)),
            None => self.name(&self.garment.point_words(end.point)),
        }
    }

    /// With its layer, where the maker says that of a piece which is there in several.
    pub(super) fn way_of_end(&self, end: &StrapEnd, way: Way) -> Way {
        let piece = self.garment.point(end.point).piece;
        let layers = self.work().map_or(0, |work| work.finder.layers.meant(None, piece).len());
        Way { layered: way.layered || end.layer.is_some() && layers > 1, ..way }
    }
}

/// Whether both ends of a strap are caught in one place: it is a loop.
pub(super) fn is_same_place(one: &StrapEnd, other: &StrapEnd) -> bool {
    (one.point, one.layer, one.hand, one.caught) == (other.point, other.layer, other.hand, other.caught)
}
