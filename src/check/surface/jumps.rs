//! `seam/jumps`: edges that a seam takes end to end, though what is sewn between them brings other
//! corners together; `seam/crossed`: edges in a row that go over into another layer, while the seam takes
//! what follows in the first on its other side.

use super::left_to_right;
use crate::check::seams::chain_order::out_of_order;
use crate::check::seams::crosswise;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, Part, SeamId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::seam_edges;
use crate::sewing::surface::{Gluing, JoinedBy, StretchId, Surface};

pub(in crate::check) static CHECK: Check = Check {
    kinds: &[&catalogue::SEAM_JUMPS, &catalogue::SEAM_CROSSED, &catalogue::SEAM_ENDS],
    run: Run::PerSize(run),
};

/// What follows an edge instead of the next one of its row.
enum Instead {
    /// The next piece's corner there is another one.
    Jump(Jump),
    /// The next edge lies in another layer; this one, of the same seam, is what runs on in the first.
    Twin(StretchId),
}

/// Where a chain goes on from one piece to another whose corner there is another one.
struct Jump {
    /// The seam that lies between the two pieces, and brings that corner to the end of the first.
    between: usize,
    /// The edge that runs on from there.
    runs_on: StretchId,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (jumps, crossed) = found(garment, size);
    findings.extend(crossed);
    if jumps.is_empty() {
        findings.extend(matched_out_of_order(garment, size));
    }
    if jumps.is_empty() || crosswise::has_any(garment, size) {
        return;
    }
    // A seam that is told to be wrong itself brings the wrong corners together.
    let told: Vec<SeamId> = left_to_right::all(garment, size).into_iter().map(|(seam, _)| seam).collect();
    findings
        .extend(jumps.into_iter().filter(|(between, _)| !told.contains(between)).map(|(_, finding)| finding));
}

/// Seams whose edges are named in another order than they lie in, though it is matched which corners meet: that says nothing of
/// the order.
fn matched_out_of_order(garment: &Garment, size: &WorkedSize) -> Vec<Finding> {
    let mut told: IdSet<SeamId> = IdSet::default();
    let matched = size.sewn.seams.iter().filter(|sewn| {
        !garment.seam(sewn.seam).matching.is_empty() && sewn.unmet.is_none() && sewn.unpaired.is_none()
    });
    let mut found = Vec::new();
    for sewn in matched {
        if !told.contains(&sewn.seam)
            && let Some(finding) = out_of_order(garment, size, sewn)
        {
            told.insert(sewn.seam);
            found.push(finding);
        }
    }
    found
}

/// Every seam that jumps: the seam that lies between, and what is said.
pub(super) fn all(garment: &Garment, size: &WorkedSize) -> Vec<(SeamId, Finding)> {
    found(garment, size).0
}

/// Seams that jump, each with the seam that lies between, and those whose rows change layer.
fn found(garment: &Garment, size: &WorkedSize) -> (Vec<(SeamId, Finding)>, Vec<Finding>) {
    let (mut findings, mut crossed) = (Vec::new(), Vec::new());
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return (findings, crossed);
    };
    let is_chain = |at: usize| {
        size.sewn.seams.get(at).is_some_and(|sewn| {
            sewn.first.plies.iter().chain(&sewn.second.plies).any(|ply| ply.runs.len() > 1)
        })
    };
    let mut found: IdSet<SeamId> = IdSet::default();
    for pair in surface.joins.windows(2) {
        let [before, after] = pair else { continue };
        let (JoinedBy::Seam { seam, sewn, sewing, .. }, JoinedBy::Seam { sewn: same, sewing: time, .. }) =
            (before.by, after.by)
        else {
            continue;
        };
        if (sewn, sewing) != (same, time) || !is_chain(sewn) || found.contains(&seam) {
            continue;
        }
        for ply in &before.plies {
            let Some(next) = after.plies.iter().find(|next| next.at == ply.at) else { continue };
            if surface.face_of(ply.stretch) == surface.face_of(next.stretch) {
                continue;
            }
            let (from, to) = ((ply.stretch, !ply.against), (next.stretch, next.against));
            match instead(surface, &size.sewn.gluing, sewn, from, to) {
                Some(Instead::Jump(jump)) => {
                    found.insert(seam);
                    let between = size.sewn.seams.get(jump.between).map(|sewn| sewn.seam);
                    findings.extend(between.zip(reported(
                        garment,
                        size,
                        surface,
                        seam,
                        [from.0, to.0],
                        &jump,
                    )));
                    break;
                }
                Some(Instead::Twin(twin)) => {
                    let told = changing_layer(garment, size, surface, seam, [from.0, to.0, twin]);
                    if let Some(told) = told {
                        found.insert(seam);
                        crossed.push(told);
                        break;
                    }
                }
                None => {}
            }
        }
    }
    (findings, crossed)
}

/// Goes round from the end of one edge, over what is sewn there, to the start of the next.
fn instead(
    surface: &Surface,
    gluing: &Gluing,
    own: usize,
    from: (StretchId, bool),
    to: (StretchId, bool),
) -> Option<Instead> {
    let beyond = |(stretch, at_end): (StretchId, bool)| match at_end {
        true => (surface.next(stretch), false),
        false => (surface.before(stretch), true),
    };
    let wanted = surface.face_of(to.0);
    let mut arrived: Option<Jump> = None;
    let mut crossed: Option<usize> = None;
    let mut at = beyond(from);
    // No vertex has more corners than there are.
    for _ in 0..=surface.stretches.len() {
        if at == to {
            return None;
        }
        let join = surface.stretch(at.0).join.map(|join| surface.join(join).by);
        let (Some(JoinedBy::Seam { sewn, .. }), Some(partner)) = (join, gluing.partner(at.0)) else { break };
        if sewn == own {
            // Two layers that lie in the same place of the seam, and the row goes on in the other one.
            let layer = |stretch: StretchId| surface.face(surface.face_of(stretch)).layer;
            let is_there = surface.stretch(at.0).join == surface.stretch(to.0).join;
            if arrived.is_none() && is_there && layer(at.0) == layer(from.0) && layer(to.0) != layer(from.0) {
                return Some(Instead::Twin(at.0));
            }
            // What follows is taken elsewhere in the row.
            let edge = |stretch: StretchId| (surface.side_of(stretch).part, surface.side_of(stretch).edge);
            let is_itself = edge(at.0) == edge(from.0);
            if let Some(between) = crossed.filter(|_| !is_there && !is_itself && arrived.is_none()) {
                arrived = Some(Jump { between, runs_on: at.0 });
            }
            break;
        }
        crossed = Some(sewn);
        at = beyond((partner.stretch, at.1 == partner.same_way));
        if surface.face_of(at.0) == wanted && at != to {
            // A short edge that the chain leaves out may lie between.
            let (next, _) = beyond((at.0, !at.1));
            if next == to.0 {
                return None;
            }
            arrived.get_or_insert(Jump { between: sewn, runs_on: at.0 });
        }
    }
    arrived.map(Instead::Jump)
}

/// A row that goes over into another layer, though its twin in the first follows there and lies on the
/// seam's other side; none where it is no twin.
fn changing_layer(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    seam: SeamId,
    [from, to, twin]: [StretchId; 3],
) -> Option<Finding> {
    let part = |stretch| size.sewn.part(surface.face(surface.face_of(stretch)).part).part;
    let (own, next, follows) = (part(from), part(to), part(twin));
    let origins = garment.origins(follows.piece);
    if !garment.origins(next.piece).iter().any(|origin| origins.contains(origin)) {
        return None;
    }
    let seam = garment.seam(seam);
    let word =
        |part: Part| format!("{} in {}", words::piece(garment, part.piece), garment.layer(part.layer).name);
    let span = |part: Part| {
        let mut named = seam_edges(seam)
            .filter(|sewn| sewn.piece == part.piece && sewn.layer.is_none_or(|layer| layer == part.layer));
        named.next().map_or(seam.name_span, |sewn| sewn.span)
    };
    let title = format!(
        "{} goes over from {} to {}, though {} follows there",
        seam.words(),
        word(own),
        word(next),
        word(follows)
    );
    let mistake = Diagnostic::new(&catalogue::SEAM_CROSSED, span(next), title)
        .label("in another layer")
        .also(span(own), "goes on here")
        .also(span(follows), "lies on the other side")
        .help(format!(
            "exchange them: {} on this side, {} on the other",
            garment.part_name(Some(follows.layer), follows.piece),
            garment.part_name(Some(next.layer), next.piece)
        ));
    Some(Finding::new(size.drawn.size, 0.0, mistake).about(seam.name.to_string()))
}

fn reported(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    seam: SeamId,
    [from, to]: [StretchId; 2],
    jump: &Jump,
) -> Option<Finding> {
    let edge = |stretch: StretchId| -> Option<EdgeId> {
        let side = surface.side_of(stretch);
        let part = size.sewn.part(side.part).part;
        Some(size.drawn.paper(part.paper)?.edge_at(side.edge)?.edge)
    };
    let (from, to, runs_on) = (edge(from)?, edge(to)?, edge(jump.runs_on)?);
    let seam = garment.seam(seam);
    let between = garment.seam(size.sewn.seams.get(jump.between)?.seam);
    let title = format!(
        "{} goes on from {} to {}, which do not meet there",
        seam.words(),
        words::edge(garment, from),
        words::edge(garment, to)
    );
    let span = |edge: EdgeId| {
        let mut named = seam_edges(seam).filter(|sewn| garment.is_run_of(edge, sewn.edge));
        named.next().map_or(seam.name_span, |sewn| sewn.span)
    };
    let mistake = Diagnostic::new(&catalogue::SEAM_JUMPS, span(to), title)
        .label("goes on here")
        .also(span(from), "ends here")
        .also(between.name_span, format!("brings {} to it", words::edge(garment, runs_on)))
        .help(format!(
            "as {} goes, {} runs on into {}: match its other ends, or name that edge in {}",
            between.name,
            words::edge(garment, from),
            words::edge(garment, runs_on),
            seam.words()
        ));
    Some(Finding::new(size.drawn.size, 0.0, mistake).about(seam.name.to_string()))
}
