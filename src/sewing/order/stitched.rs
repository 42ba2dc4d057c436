//! Rules of rows and tacks.
//!
//! A row is stitched beside a seam once that is sewn, beside a hem once that is turned, beside a zip once that is in its
//! place, on what is placed before it is unless it divides that, over the mouth of a pocket before that is placed, and on what is stiffened once that is fused. A facing is understitched before
//! it is caught with what it faces in another seam, or held by a tack. A tack joins what hangs together already. What is
//! set goes through what stiffens its piece, and a cord comes out of what is set before it.

use super::doing::Doing;
use super::jobs::{Job, Work};
use super::rows_over::{divides, rows_that_shut};
use super::rule::{Needs, Rule};
use super::why::Why;
use crate::garment::{ClosureId, ClosureKind, PieceId, PlacementId, RowId, TackId};
use crate::id_hash::IdIndexSet;
use crate::resolve::DrawnEdgeId;
use crate::sewing::{PartId, Place, TakenBy};
use crate::syntax::tree::RowKind;

/// All of them.
pub(super) fn rules(work: &Work, rules: &mut Vec<Rule>) {
    let shut = rows_that_shut(work);
    for &job in &work.jobs {
        match job {
            Job::Row(id) => row(work, id, &shut, rules),
            Job::Tack(id) if work.garment.tack(id).sets.is_some() => set(work, id, rules),
            Job::Tack(id) => tack(work, id, rules),
            _ => {}
        }
    }
}

fn row(work: &Work, id: RowId, shut: &[(RowId, PlacementId)], rules: &mut Vec<Rule>) {
    let (garment, job) = (work.garment, Job::Row(id));
    let parts = PartId::enumerate(&work.sewing.parts);
    let edges: IdIndexSet<(PartId, DrawnEdgeId)> = parts
        .flat_map(|(part, sewn)| sewn.rows.iter().map(move |row| (part, row)))
        .filter(|(_, row)| row.row == id)
        .map(|(part, row)| (part, row.edge))
        .collect();
    let lined = PartId::enumerate(&work.sewing.parts)
        .filter(|(_, sewn)| sewn.line_rows.iter().any(|row| row.row == id));
    let parts: IdIndexSet<PartId> =
        edges.iter().map(|(part, _)| *part).chain(lined.map(|(part, _)| part)).collect();
    let is_beside = |place: &Place| edges.contains(&(place.part, place.edge));
    let mut seams = Vec::new();
    for (at, stitching) in work.stitchings.iter().enumerate() {
        if stitching.places().any(is_beside) {
            rules.push(Rule::jobs(job, Job::Seam(at), Why::Beside));
            seams.push(at);
        }
    }
    for &other in &work.jobs {
        match other {
            Job::Finish(finish, nth, layer) => {
                let sewn = garment.finish(finish).edges.get(nth);
                if sewn.is_some_and(|sewn| work.finder.through(layer, sewn).iter().any(is_beside)) {
                    rules.push(Rule::jobs(job, other, Why::Beside));
                }
            }
            // Fused later, the stay would lie over the row, and the iron would go over what is sewn already.
            Job::Fuse(_, piece) if parts.iter().any(|part| work.finder.part(*part).piece == piece) => {
                rules.push(Rule::jobs(job, other, Why::Stiffens));
            }
            // Once it lies on what it is placed on, the row would go through that too, as one does that divides it.
            Job::Place(placement, layer) => {
                let placed = garment.placement(placement);
                let is_placed = |part: &PartId| {
                    let own = work.finder.part(*part);
                    own.piece == placed.piece && own.layer == layer
                };
                // What it sews shut, unless it waits for a seam itself, is placed after it.
                if seams.is_empty() && shut.contains(&(id, placement)) {
                    rules.push(Rule::jobs(other, job, Why::SewsShut));
                }
                if parts.iter().any(is_placed) && !divides(work, id, placed, layer) {
                    rules.push(Rule::jobs(other, job, Why::Finished));
                }
            }
            _ => {}
        }
    }
    let takers = edges.iter().filter_map(|(part, edge)| work.sewing.part(*part).fate(*edge));
    let zips: IdIndexSet<ClosureId> = takers
        .flat_map(|fate| fate.takers.iter())
        .filter_map(|taker| match taker.what {
            TakenBy::Closure(id) => Some(id),
            _ => None,
        })
        .filter(|id| matches!(garment.closure(*id).kind, Some(ClosureKind::Zipper { .. })))
        .collect();
    for zip in zips {
        rules.push(Rule::new(Doing::Job(job), Needs::Done(Doing::PutIn(zip)), Why::Beside));
    }
    if garment.row(id).kind == RowKind::Understitch {
        let facings: IdIndexSet<PartId> = edges.iter().map(|(part, _)| *part).collect();
        holds(work, job, &facings, &seams, rules);
    }
}

/// What catches an understitched facing together with what it faces comes after, and so does what tacks it.
fn holds(work: &Work, job: Job, facings: &IdIndexSet<PartId>, seams: &[usize], rules: &mut Vec<Rule>) {
    let faced: IdIndexSet<PartId> = seams
        .iter()
        .filter_map(|&at| work.stitchings.get(at))
        .flat_map(|stitching| stitching.places())
        .map(|place| place.part)
        .filter(|part| !facings.contains(part))
        .collect();
    for (at, stitching) in work.stitchings.iter().enumerate().filter(|(at, _)| !seams.contains(at)) {
        // A seam that joins both and nothing else is the facing's own, at its other edge.
        let has = |parts: &IdIndexSet<PartId>| stitching.places().any(|place| parts.contains(&place.part));
        let plies = stitching.sides.iter().map(|side| side.len()).sum::<usize>();
        if plies > 2 && has(facings) && has(&faced) {
            rules.push(Rule::jobs(Job::Seam(at), job, Why::HoldsFacing));
        }
    }
    for (id, _) in TackId::enumerate(&work.garment.tacks) {
        let is_tacked = |part: &PartId| work.sewing.part(*part).tacks.iter().any(|tack| tack.tack == id);
        if facings.iter().any(is_tacked) {
            rules.push(Rule::jobs(Job::Tack(id), job, Why::HoldsFacing));
        }
    }
}

fn set(work: &Work, id: TackId, rules: &mut Vec<Rule>) {
    let (garment, job) = (work.garment, Job::Tack(id));
    let is_on = |piece: PieceId| garment.tack(id).ends.iter().any(|end| end.piece == piece);
    for &other in &work.jobs {
        match other {
            Job::Fuse(_, piece) if is_on(piece) => rules.push(Rule::jobs(job, other, Why::Stiffens)),
            Job::Cord(cord) if garment.cord(cord).through.iter().any(|edge| is_on(edge.piece)) => {
                rules.push(Rule::jobs(other, job, Why::RunsThrough));
            }
            _ => {}
        }
    }
}

fn tack(work: &Work, id: TackId, rules: &mut Vec<Rule>) {
    let parts: IdIndexSet<PartId> = PartId::enumerate(&work.sewing.parts)
        .filter(|(_, part)| part.tacks.iter().any(|tack| tack.tack == id))
        .map(|(part, _)| part)
        .collect();
    for (at, stitching) in work.stitchings.iter().enumerate() {
        let joined: IdIndexSet<PartId> =
            stitching.places().map(|place| place.part).filter(|part| parts.contains(part)).collect();
        let twins =
            joined.iter().filter_map(|part| work.finder.twin(*part)).filter(|twin| joined.contains(twin));
        if joined.len() > 1 + twins.count() / 2 {
            rules.push(Rule::jobs(Job::Tack(id), Job::Seam(at), Why::JoinsPlaces));
        }
    }
}
