//! What is cut open or reached through while seams are sewn: slits inside a piece, and rings between two layers.

use super::sides::Sides;
use super::teller::{Teller, Way};
use super::{Step, StepText};
use crate::garment::{EdgeId, LayerId, PieceId};
use crate::sewing::Place;
use crate::sewing::order::{Job, PlannedTarget};
use crate::sheet::sentences::teller::spoken;
use crate::syntax::tree::Verb;

impl Teller<'_> {
    /// Of a slit inside a piece, that it is cut: by the step that sews the last of its sides.
    pub(super) fn say_slits(&self, step: &Step, stitchings: &[usize], text: &mut StepText) {
        let mut told: Vec<EdgeId> = Vec::new();
        for (slit, layer, piece) in self.slits_of(stitchings) {
            if told.contains(&slit) {
                continue;
            }
            told.push(slit);
            // Every step that sews a side of it, in the order of work.
            let actions = self.facts.plan.groups.iter().flat_map(|group| &group.actions);
            let sews = |target: &&PlannedTarget| {
                let own: Vec<usize> = target.jobs.iter().filter_map(|job| seam_of(*job)).collect();
                self.slits_of(&own).iter().any(|(own, own_layer, _)| (*own, *own_layer) == (slit, layer))
            };
            let last = actions.flat_map(|action| &action.targets).rfind(sews);
            if !last.is_some_and(|last| step.does(last)) {
                continue;
            }
            if let Some(part) = self.part(layer, piece) {
                let name = self.name(&spoken(&self.garment.edge(slit).name));
                text.say(self.forms().cut_slit(name, self.piece(part, None, Way::default())));
            }
        }
    }

    /// The slits inside a piece of which these stitchings sew a side along the cut, each with its layer and piece.
    fn slits_of(&self, stitchings: &[usize]) -> Vec<(EdgeId, LayerId, PieceId)> {
        let Some(work) = self.work() else { return Vec::new() };
        let all = stitchings.iter().filter_map(|&at| work.stitchings.get(at));
        let slits = all.flat_map(|one| {
            // One that begins at an edge is cut before it is bound or gets a strip, but after it is faced: slit on slit.
            let is_faced =
                one.plies().flatten().all(|place| self.side_of_slit(place).is_some_and(|(_, edge)| edge));
            one.places().filter_map(move |place| {
                let (slit, is_at_edge) = self.side_of_slit(place)?;
                let part = work.finder.part(place.part);
                (is_faced || !is_at_edge).then_some((slit, part.layer, part.piece))
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
        let is_ring = sides.sewn.iter().filter_map(|&nth| self.sewn(nth)).any(|sewn| sewn.ring);
        let layers =
            |at: usize| -> Vec<LayerId> { sides.sides[at].iter().map(|named| named.part.layer).collect() };
        let (first, second) = (layers(0), layers(1));
        if !is_ring || first.iter().any(|layer| second.contains(layer)) {
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

fn seam_of(job: Job) -> Option<usize> {
    match job {
        Job::Seam(at) => Some(at),
        _ => None,
    }
}
