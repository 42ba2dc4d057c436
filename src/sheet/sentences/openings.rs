//! What is cut open or reached through while seams are sewn: slits inside a piece, and rings between two layers.

use super::sides::Sides;
use super::teller::{Teller, Way, spoken, without_last};
use super::turning::together;
use super::{Step, StepText};
use crate::garment::{EdgeId, LayerId, Part, PieceId};
use crate::sewing::Place;
use crate::sewing::order::{Job, PlannedTarget};
use crate::syntax::tree::Verb;

impl Teller<'_> {
    /// Of a slit inside a piece, that it is cut: by the step that sews the last of its sides, or the last of its long ones where only
    /// ends follow. What is sewn along these is pushed through it before it lies on the ends.
    pub(super) fn say_slits(&self, step: &Step, stitchings: &[usize], text: &mut StepText) {
        let mut told: Vec<EdgeId> = Vec::new();
        for SlitSide { slit, layer, piece, is_at_edge, .. } in self.slits_of(stitchings) {
            // Without a window both stitchings lie on the cut itself, which is there before.
            let is_window = self.is_window(slit);
            if told.contains(&slit) || (!is_window && !is_at_edge) {
                continue;
            }
            told.push(slit);
            // Every step that sews a side of it, in the order of work.
            let actions = self.facts.plan.groups.iter().flat_map(|group| &group.actions);
            let sides = |target: &PlannedTarget| -> Vec<bool> {
                let own: Vec<usize> = target.jobs.iter().filter_map(|job| seam_of(*job)).collect();
                let all = self.slits_of(&own).into_iter();
                all.filter(|one| (one.slit, one.layer) == (slit, layer)).map(|one| one.is_end).collect()
            };
            let all = || actions.clone().flat_map(|action| &action.targets);
            let long = all().rfind(|target| sides(target).contains(&false));
            let last = long.or_else(|| all().rfind(|target| !sides(target).is_empty()));
            let last = last.filter(|last| step.does(last));
            if last.is_none() {
                continue;
            }
            if let Some(part) = self.part(layer, piece) {
                let name = without_last(&spoken(&self.garment.edge(slit).name), self.words.slit);
                let name = self.name(&name);
                let piece = self.piece(part, None, Way::default());
                text.say(match is_window {
                    true => self.forms().cut_slit(name, piece),
                    false => self.forms().cut_slit_line(name, piece),
                });
            }
        }
    }

    /// Whether cloth is lost between the sides of a slit: what goes across its end is an edge of its own then.
    fn is_window(&self, slit: EdgeId) -> bool {
        self.garment.edges.iter().any(|edge| edge.side_of == Some(slit) && edge.name.ends_with(".end"))
    }

    /// Of a slit that begins at an edge, or has no window, that it is cut: before the first of its sides is bound, or sewn to a strip.
    /// A facing is sewn round it before it is cut.
    pub(super) fn say_slits_first(&self, step: &Step, text: &mut StepText) {
        let actions = self.facts.plan.groups.iter().flat_map(|group| &group.actions);
        let mut before: Vec<(EdgeId, LayerId)> = Vec::new();
        for target in actions.flat_map(|action| &action.targets).take_while(|target| !step.does(target)) {
            before.extend(target.jobs.iter().flat_map(|job| self.open_slits_of(*job)).map(|(key, _)| key));
        }
        let jobs = step.all.iter().flat_map(|target| target.jobs.iter().copied());
        for (key, piece) in jobs.flat_map(|job| self.open_slits_of(job)) {
            if before.contains(&key) {
                continue;
            }
            before.push(key);
            let (slit, layer) = key;
            let Some(part) = self.part(layer, piece) else { continue };
            let words = without_last(&spoken(&self.garment.edge(slit).name), self.words.slit);
            let (name, piece) = (self.name(&words), self.piece(part, None, Way::default()));
            text.say(match self.is_window(slit) {
                true => self.forms().cut_window_first(name, piece),
                false => self.forms().cut_slit_first(name, piece),
            });
        }
    }

    /// The slits from an edge, or without a window, of which a job finishes a side or sews one to something that is no slit.
    fn open_slits_of(&self, job: Job) -> Vec<((EdgeId, LayerId), PieceId)> {
        let Some(work) = self.work() else { return Vec::new() };
        let places: Vec<Place> = match job {
            Job::Seam(at) => {
                let stitching = work.stitchings.get(at);
                let mut all = stitching.into_iter().flat_map(|one| one.places());
                let is_faced = all.all(|place| self.side_of_slit(place).is_some_and(|(_, at_edge)| at_edge));
                let own = stitching.into_iter().filter(|_| !is_faced);
                own.flat_map(|one| one.places()).copied().collect()
            }
            Job::Finish(id, nth, layer) => {
                let edges = &self.garment.finish(id).edges;
                edges.get(nth).map_or_else(Vec::new, |sewn| work.finder.in_layer(layer, sewn))
            }
            _ => Vec::new(),
        };
        let slits = places.iter().filter_map(|place| {
            let is_first = |(slit, is_at_edge): &(EdgeId, bool)| *is_at_edge || !self.is_window(*slit);
            let (slit, _) = self.side_of_slit(place).filter(is_first)?;
            let part = work.finder.part(place.part);
            Some(((slit, part.layer), part.piece))
        });
        slits.collect()
    }

    /// The slits inside a piece of which these stitchings sew a side along the cut, each with its layer and piece.
    fn slits_of(&self, stitchings: &[usize]) -> Vec<SlitSide> {
        let Some(work) = self.work() else { return Vec::new() };
        let all = stitchings.iter().filter_map(|&at| work.stitchings.get(at));
        let slits = all.flat_map(|one| {
            // One that begins at an edge is cut before it is bound or gets a strip, but after it is faced: slit on slit.
            let is_faced =
                one.plies().flatten().all(|place| self.side_of_slit(place).is_some_and(|(_, edge)| edge));
            one.places().filter_map(move |place| {
                let (slit, is_at_edge) = self.side_of_slit(place)?;
                let part = work.finder.part(place.part);
                let edge = work.finder.drawn(place.part)?.edge_at(place.edge)?.edge;
                let name = &self.garment.edge(self.garment.whole_edge(edge)).name;
                let is_end = !is_at_edge && [".start", ".end"].iter().any(|end| name.ends_with(end));
                let own = SlitSide { slit, layer: part.layer, piece: part.piece, is_end, is_at_edge };
                (is_faced || !is_at_edge).then_some(own)
            })
        });
        slits.collect()
    }

    /// The slit that an edge is a side of, and whether that begins at an edge of its piece: sides of one inside stand behind the
    /// outline.
    fn side_of_slit(&self, place: &Place) -> Option<(EdgeId, bool)> {
        let drawn = self.work()?.finder.drawn(place.part)?;
        let edge = self.garment.whole_edge(drawn.edge_at(place.edge)?.edge);
        let slit = self.garment.edge(edge).side_of?;
        Some((slit, place.edge.index() < drawn.outline().len()))
    }

    /// Of a ring between two layers, how it is reached before the work is turned.
    pub(super) fn say_ring(&self, step: &Step, sides: &Sides, text: &mut StepText) {
        let is_ring = sides.sewn.iter().filter_map(|&nth| self.sewn(nth)).any(|sewn| sewn.ring)
            || self.goes_round(step, sides);
        let layers =
            |at: usize| -> Vec<LayerId> { sides.sides[at].iter().map(|named| named.part.layer).collect() };
        let (first, second) = (layers(0), layers(1));
        if !is_ring || first.iter().any(|layer| second.contains(layer)) {
            return;
        }
        // As long as nothing else joins both, the one is slipped over the other.
        let parts = |at: usize| -> Vec<Part> { sides.sides[at].iter().map(|named| named.part).collect() };
        let before = self.sewn_by(self.targets().take_while(|target| !step.does(target)));
        let joined = together(&parts(0), &before);
        if !parts(1).iter().any(|part| joined.contains(part)) {
            return;
        }
        let actions = self.facts.plan.groups.iter().flat_map(|group| &group.actions);
        let after = actions.skip_while(|action| *action != step.action).skip(1);
        let is_turned_later = after.into_iter().any(|action| action.verb == Verb::TurnThroughGap);
        if is_turned_later {
            text.say(self.forms().reach_through());
        }
    }
}

/// A side of a slit that is sewn.
struct SlitSide {
    slit: EdgeId,
    layer: LayerId,
    piece: PieceId,
    /// Of a window its short sides.
    is_end: bool,
    is_at_edge: bool,
}

pub(super) fn seam_of(job: Job) -> Option<usize> {
    match job {
        Job::Seam(at) => Some(at),
        _ => None,
    }
}
