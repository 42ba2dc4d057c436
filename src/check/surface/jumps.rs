//! `seam/jumps`: edges that a seam takes end to end, though what is sewn between them brings other
//! corners together.

use super::left_to_right;
use crate::check::seams::upside_down;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, SeamId};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::seam_edges;
use crate::sewing::surface::{Gluing, JoinedBy, StretchId, Surface};
use std::collections::HashSet;

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::SEAM_JUMPS], run: Run::PerSize(run) };

/// Where a chain goes on from one piece to another whose corner there is another one.
struct Jump {
    /// The seam that lies between the two pieces, and brings that corner to the end of the first.
    between: usize,
    /// The edge that runs on from there.
    runs_on: StretchId,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let jumps = all(garment, size);
    if jumps.is_empty() || upside_down::has_any(garment, size) {
        return;
    }
    // A seam that is told to be wrong itself brings the wrong corners together.
    let told: Vec<SeamId> = left_to_right::all(garment, size).into_iter().map(|(seam, _)| seam).collect();
    findings
        .extend(jumps.into_iter().filter(|(between, _)| !told.contains(between)).map(|(_, finding)| finding));
}

/// Every such seam: the seam that lies between, and what is said.
pub(super) fn all(garment: &Garment, size: &WorkedSize) -> Vec<(SeamId, Finding)> {
    let mut findings = Vec::new();
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return findings;
    };
    let is_chain = |at: usize| {
        size.sewn.seams.get(at).is_some_and(|sewn| {
            sewn.first.plies.iter().chain(&sewn.second.plies).any(|ply| ply.runs.len() > 1)
        })
    };
    let mut gluing = None;
    let mut found: HashSet<SeamId> = HashSet::new();
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
        let gluing = gluing.get_or_insert_with(|| Gluing::seams(surface));
        for ply in &before.plies {
            let Some(next) = after.plies.iter().find(|next| next.at == ply.at) else { continue };
            if surface.face_of(ply.stretch) == surface.face_of(next.stretch) {
                continue;
            }
            let (from, to) = ((ply.stretch, !ply.against), (next.stretch, next.against));
            if let Some(jump) = jump(surface, gluing, sewn, from, to) {
                found.insert(seam);
                let between = size.sewn.seams.get(jump.between).map(|sewn| sewn.seam);
                findings.extend(between.zip(reported(garment, size, surface, seam, [from.0, to.0], &jump)));
                break;
            }
        }
    }
    findings
}

/// Goes round from the end of one edge, over what is sewn there, to the start of the next.
fn jump(
    surface: &Surface,
    gluing: &Gluing,
    own: usize,
    from: (StretchId, bool),
    to: (StretchId, bool),
) -> Option<Jump> {
    let beyond = |(stretch, at_end): (StretchId, bool)| match at_end {
        true => (surface.next(stretch), false),
        false => (surface.before(stretch), true),
    };
    let wanted = surface.face_of(to.0);
    let mut arrived: Option<Jump> = None;
    let mut at = beyond(from);
    // No vertex has more corners than there are.
    for _ in 0..=surface.stretches.len() {
        if at == to {
            return None;
        }
        let join = surface.stretch(at.0).join.map(|join| surface.join(join).by);
        let (Some(JoinedBy::Seam { sewn, .. }), Some(partner)) = (join, gluing.partner(at.0)) else { break };
        if sewn == own {
            break;
        }
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
    arrived
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
        let part = size.sewn.part(surface.face(side.face).part).part;
        Some(size.drawn.paper(part.paper)?.edge_at(side.edge)?.edge)
    };
    let (from, to, runs_on) = (edge(from)?, edge(to)?, edge(jump.runs_on)?);
    let seam = garment.seam(seam);
    let between = garment.seam(size.sewn.seams.get(jump.between)?.seam);
    let title = format!(
        "the {} seam goes on from {} to {}, which do not meet there",
        seam.name,
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
            "as {} goes, {} runs on into {}: match its other ends, or name that edge in the {} seam",
            between.name,
            words::edge(garment, from),
            words::edge(garment, runs_on),
            seam.name
        ));
    Some(Finding::new(size.drawn.size, 0.0, mistake).about(seam.name.to_string()))
}
