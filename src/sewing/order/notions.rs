//! Rules of gaps and cords.
//!
//! A gap is left as the seam is sewn, turned through, and closed; once layers are turned, what lies between them
//! cannot be reached. The channel of a cord is made before it is threaded.

use super::doing::Doing;
use super::jobs::{Job, Work};
use super::piping::laid_in;
use super::rule::{Needs, Rule};
use super::why::Why;
use crate::garment::{FinishKind, LayerId, Part, PieceId, SeamId, SewnEdge};
use crate::id_hash::IdMap;
use crate::resolve::sewn_layer;
use crate::sewing::PartId;
use crate::sewing::surface::Union;
use std::collections::HashSet;

/// All of them.
pub(super) fn rules(work: &Work, rules: &mut Vec<Rule>) {
    for (id, seam) in SeamId::enumerate(&work.garment.seams) {
        if !seam.gaps.is_empty() {
            let turn = Job::Turn(id);
            rules.push(Rule::new(Doing::Job(turn), Needs::Done(Doing::Whole(id)), Why::LeavesGap));
            rules.push(Rule::jobs(Job::Gap(id), turn, Why::ThroughGap));
        }
    }
    cords(work, rules);
    for (id, seam) in SeamId::enumerate(&work.garment.seams) {
        if !seam.gaps.is_empty() {
            closed_spaces(work, id, rules);
        }
    }
}

fn cords(work: &Work, rules: &mut Vec<Rule>) {
    let garment = work.garment;
    for &job in &work.jobs {
        let Job::Cord(id) = job else { continue };
        let cord = garment.cord(id);
        // Into piping it is laid before that is sewn, or drawn in after it.
        if !laid_in(work, id).is_empty() {
            continue;
        }
        // A folded band is a channel once both its edges are sewn.
        let folded = cord.through.iter().filter(|through| !garment.piece(through.piece).folds.is_empty());
        let bands: HashSet<_> = folded
            .filter_map(|through| {
                Some((through.layer.or_else(|| sewn_layer(garment, through.piece))?, through))
            })
            .flat_map(|(layer, through)| work.finder.in_layer(layer, through))
            .map(|place| (place.part, place.edge))
            .collect();
        for (at, stitching) in work.stitchings.iter().enumerate().filter(|_| !bands.is_empty()) {
            if stitching.places().any(|place| bands.contains(&(place.part, place.edge))) {
                rules.push(Rule::jobs(job, Job::Seam(at), Why::RunsThrough));
            }
        }
        for &other in &work.jobs {
            let Job::Finish(finish, nth, layer) = other else { continue };
            let Some(sewn) = garment.finish(finish).edges.get(nth) else { continue };
            // Only a channel is waited for, and only where the cord runs: not the lining's hem.
            let is_through = |through: &SewnEdge| {
                through.edge == sewn.edge && through.layer.is_none_or(|own| own == layer)
            };
            let is_first = |through: &SewnEdge| sewn_layer(garment, through.piece) == Some(layer);
            let is_channel = |through: &SewnEdge| match garment.finish(finish).kind {
                FinishKind::Casing(..) => true,
                FinishKind::Hem(_) => through.layer.is_some() || is_first(through),
                _ => false,
            };
            if cord.through.iter().any(|one| is_through(one) && is_channel(one)) {
                rules.push(Rule::jobs(job, other, Why::RunsThrough));
            }
        }
    }
}

/// What lies wholly within a layer of the gap is sewn before it is turned, where it hangs on what is turned: a belt that hangs on
/// nothing is turned at any time.
fn closed_spaces(work: &Work, gap: SeamId, rules: &mut Vec<Rule>) {
    let mut layers: Vec<LayerId> = Vec::new();
    let mut turned: Vec<usize> = Vec::new();
    for stitching in work.of_seam(gap).iter().filter_map(|&at| work.stitchings.get(at)) {
        layers.extend(stitching.places().map(|place| work.layer_of(place)));
        turned.extend(stitching.places().map(|place| place.part.index()));
    }
    let mut together = together(work);
    turned.iter_mut().for_each(|part| *part = together.root(*part));
    let mut hangs_on_it = |part: PartId| turned.contains(&together.root(part.index()));
    for &job in &work.jobs {
        let is_within = match job {
            Job::Seam(at) => work.stitchings.get(at).is_some_and(|stitching| {
                let mut own = stitching.places().map(|place| work.layer_of(place));
                let first = own.next();
                // What leaves the gap is reported as turned too early.
                first.is_some_and(|first| layers.contains(&first) && own.all(|own| own == first))
                    && work.garment.seam(stitching.seam).gaps.is_empty()
                    && stitching.places().any(|place| hangs_on_it(place.part))
            }),
            Job::Place(id, layer) => {
                let piece = work.garment.placement(id).piece;
                layers.contains(&layer) && parts_of(work, piece).any(|(part, _)| hangs_on_it(part))
            }
            _ => false,
        };
        if is_within {
            rules.push(Rule::jobs(Job::Turn(gap), job, Why::OutOfReach));
        }
    }
}

fn parts_of<'w>(work: &'w Work, piece: PieceId) -> impl Iterator<Item = (PartId, &'w Part)> {
    PartId::enumerate(work.finder.parts).filter(move |(_, part)| part.piece == piece)
}

/// Which parts hang together, all in all.
pub(super) fn together(work: &Work) -> Union {
    let mut together = Union::new(work.finder.parts.len());
    let mut join = |parts: &mut dyn Iterator<Item = PartId>| {
        if let Some(first) = parts.next() {
            parts.for_each(|other| {
                together.join(first.index(), other.index());
            });
        }
    };
    for stitching in work.stitchings {
        join(&mut stitching.places().map(|place| place.part));
    }
    let mut of_piece: IdMap<PieceId, Vec<PartId>> = IdMap::default();
    for (part, own) in PartId::enumerate(work.finder.parts) {
        of_piece.entry(own.piece).or_default().push(part);
    }
    for placement in &work.garment.placements {
        let own = [placement.piece, placement.on].into_iter().filter_map(|piece| of_piece.get(&piece));
        join(&mut own.flatten().copied());
    }
    together
}
