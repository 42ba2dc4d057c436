//! Which edges of a seam one sentence tells of: those of left and right, and of several layers, together where they are alike.

use super::Step;
use super::teller::{Named, Teller, once};
use crate::garment::{LayerId, SeamId};
use crate::sewing::order::{Job, Work};
use crate::sewing::{Reach, SewnSeam, SewnSide};
use crate::syntax::tree::Hand;

/// What one sentence tells of a seam: edges that are sewn alike.
pub(super) struct Sides {
    /// Before and after `to`, each edge once.
    pub sides: [Vec<Named>; 2],
    /// The same run by run, where an edge is sewn in parts.
    pub runs: Vec<Named>,
    /// Which of the sewn seams they are, by their places in the first size.
    pub sewn: Vec<usize>,
    /// The sides of the body that they are on, where left and right are told apart.
    pub hands: Vec<Hand>,
}

impl<'a> Teller<'a> {
    /// The stitchings that a step sews, by their places among all; of one that sews nothing for good those that it
    /// means.
    pub(super) fn stitchings(&self, step: &Step, id: SeamId) -> Vec<usize> {
        let of = |job: Job| match job {
            Job::Seam(at) => Some(at),
            _ => None,
        };
        let own: Vec<usize> = step.jobs().filter_map(of).collect();
        if !own.is_empty() {
            return own;
        }
        let meant = self.work().map(|work| work.seam_jobs(id, step.action.layer)).unwrap_or_default();
        meant.into_iter().filter_map(of).collect()
    }

    /// The places among the sewn seams of a size that these stitchings sew.
    pub(super) fn sewn_in(&self, size: usize, stitchings: &[usize]) -> Vec<usize> {
        let all = self.seams.get(size).into_iter().flatten().enumerate();
        all.filter(|(_, at)| at.is_some_and(|at| stitchings.contains(&at))).map(|(nth, _)| nth).collect()
    }

    pub(super) fn sewn(&self, nth: usize) -> Option<&'a SewnSeam> {
        self.facts.sizes.first()?.sewn.seams.get(nth)
    }

    /// How often these are sewn.
    pub(super) fn sewings(&self, sides: &Sides) -> u32 {
        sides.sewn.iter().filter_map(|&nth| self.sewn(nth)).map(|sewn| sewn.sewings).sum()
    }

    /// What stitchings sew, those of left and right together where they are alike.
    pub(super) fn sides(&self, stitchings: &[usize]) -> Vec<Sides> {
        let mut groups: Vec<Sides> = Vec::new();
        for nth in self.sewn_in(0, stitchings) {
            let Some(sewn) = self.sewn(nth) else { continue };
            let across = self.work().is_some_and(|work| is_across(work, sewn));
            let runs = [self.side(&sewn.first, across), self.side(&sewn.second, across)];
            let sides = [self.whole(&runs[0]), self.whole(&runs[1])];
            let hand = match sewn.reach {
                Reach::On { hand, .. } => Some(hand),
                Reach::Both | Reach::Across | Reach::Round => None,
            };
            let runs = runs.concat();
            // What is sewn whole on the left and in stretches on the right is told of each.
            let is_alike = |own: &&mut Sides| {
                own.sides == sides && self.cover(&own.sides, &own.runs) == self.cover(&sides, &runs)
            };
            match groups.iter_mut().find(is_alike) {
                Some(own) => {
                    own.sewn.push(nth);
                    own.hands.extend(hand);
                }
                None => {
                    groups.push(Sides { sides, runs, sewn: vec![nth], hands: hand.into_iter().collect() })
                }
            }
        }
        for group in &mut groups {
            self.tell_apart(group);
        }
        groups
    }

    /// Of what is sewn on one side of the body alone, and is cut differently there, the side is told.
    fn tell_apart(&self, group: &mut Sides) {
        let Some((&hand, others)) = group.hands.split_first() else { return };
        if others.iter().any(|own| *own != hand) {
            return;
        }
        for named in group.sides.iter_mut().flatten().chain(&mut group.runs) {
            if named.hand.is_none() && !self.facts.numbers_by_hand(named.part).is_empty() {
                named.hand = Some(hand);
            }
        }
    }

    /// Of each edge whether all runs that its paper parts it into are among these.
    fn cover(&self, sides: &[Vec<Named>; 2], runs: &[Named]) -> Vec<bool> {
        let all = sides.iter().flatten();
        all.map(|own| {
            let whole = self.garment.whole_edge(own.edge);
            let paper = self.facts.sizes.first().and_then(|size| size.drawn.paper(own.part.paper));
            let edges = paper.map_or(&[][..], |drawn| drawn.outline());
            let mut parted = edges.iter().filter(|edge| self.garment.whole_edge(edge.edge) == whole);
            parted.all(|run| runs.contains(&Named { edge: run.edge, ..*own }))
        })
        .collect()
    }

    /// The numbers of their pieces: what is cut otherwise in another layer has one of its own.
    pub(super) fn numbers(&self, sides: &Sides) -> Vec<Option<usize>> {
        sides.sides.iter().flatten().map(|named| self.facts.number_of(named.part, named.hand)).collect()
    }

    /// The edges of a side, each once; with the copies' sides of the body where it tells them apart.
    fn side(&self, side: &SewnSide, across: bool) -> Vec<Named> {
        let Some(work) = self.work() else { return Vec::new() };
        let runs = side.plies.iter().flat_map(|ply| &ply.runs).filter(|run| !run.elsewhere);
        let named = runs.filter_map(|run| {
            let edge = work.finder.drawn(run.part)?.edge_at(run.edge)?.edge;
            Some(Named {
                part: work.finder.part(run.part),
                edge,
                hand: run.hand.or(work.finder.hand(run.part)).filter(|_| across),
            })
        });
        once(named.collect())
    }

    /// Edges of which every run is there are the whole edges.
    fn whole(&self, named: &[Named]) -> Vec<Named> {
        let is_whole = |own: &Named| {
            let whole = self.garment.whole_edge(own.edge);
            let paper = self.facts.sizes.first().and_then(|size| size.drawn.paper(own.part.paper));
            let edges = paper.map_or(&[][..], |drawn| drawn.outline());
            let mut runs = edges.iter().filter(|edge| self.garment.whole_edge(edge.edge) == whole);
            runs.clone().count() > 1 && runs.all(|run| named.contains(&Named { edge: run.edge, ..*own }))
        };
        let of = |own: &Named| match is_whole(own) {
            true => Named { edge: self.garment.whole_edge(own.edge), ..*own },
            false => *own,
        };
        once(named.iter().map(of).collect())
    }
}

/// Whether it joins a left and a right one of the same piece, so that each has to be named.
fn is_across(work: &Work, sewn: &SewnSeam) -> bool {
    let runs = |side: &SewnSide| -> Vec<_> {
        let all = side.plies.iter().flat_map(|ply| &ply.runs);
        all.map(|run| (work.finder.part(run.part), run.edge, run.hand.or(work.finder.hand(run.part))))
            .collect()
    };
    let (first, second) = (runs(&sewn.first), runs(&sewn.second));
    let is_other = |&(part, edge, hand): &(_, _, Option<Hand>)| {
        hand.is_some() && second.iter().any(|own| (own.0, own.1) == (part, edge) && own.2 != hand)
    };
    first.iter().any(is_other) && !first.iter().any(|run| second.contains(run))
}

/// The layer that all edges of a seam lie in.
pub(super) fn one_layer(sides: &Sides) -> Option<LayerId> {
    let mut layers = sides.sides.iter().flatten().map(|named| named.part.layer);
    let first = layers.next()?;
    layers.all(|layer| layer == first).then_some(first)
}

/// Whether what is sewn is the same in another layer.
pub(super) fn is_alike_but_for_layers(one: &Sides, other: &Sides) -> bool {
    let plain = |sides: &Sides| -> Vec<Vec<_>> {
        let side =
            |side: &Vec<Named>| side.iter().map(|named| (named.part.piece, named.edge, named.hand)).collect();
        sides.sides.iter().map(side).collect()
    };
    let layers = one_layer(one).zip(one_layer(other));
    layers.is_some_and(|(one, other)| one != other) && plain(one) == plain(other)
}
