//! `lining/short`: a lining that is shorter than the outer between two places where both are caught.

use super::sides::in_size;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, PieceId, SeamId};
use crate::id_hash::{IdMap, IdSet};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece, SizedGarment, finished};
use crate::sewing::{EdgeFate, PartId, Sewing, SewnPart, TakenBy};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::LINING_SHORT], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let mut of_piece: IdMap<PieceId, &SewnPart> = IdMap::default();
    let mut partners: Option<IdMap<SeamId, IdSet<PartId>>> = None;
    for part in sewing.parts.iter().filter(|part| !part.fused) {
        let Some(outer) = of_piece.get(&part.part.piece) else {
            of_piece.insert(part.part.piece, part);
            continue;
        };
        if outer.part.paper == part.part.paper {
            continue; // cut from one paper, they are alike
        }
        let partners = partners.get_or_insert_with(|| sewn_parts(sewing));
        let drawn = |part: &SewnPart| sized.paper(part.part.paper);
        if let (Some(shell), Some(lining)) = (drawn(outer), drawn(part)) {
            findings.extend(short(garment, sized, partners, (outer, shell), (part, lining)));
        }
    }
}

/// The parts that each seam takes.
pub(super) fn sewn_parts(sewing: &Sewing) -> IdMap<SeamId, IdSet<PartId>> {
    let mut parts: IdMap<SeamId, IdSet<PartId>> = IdMap::default();
    for seam in &sewing.seams {
        let plies = seam.first.plies.iter().chain(&seam.second.plies);
        parts.entry(seam.seam).or_default().extend(plies.flat_map(|ply| &ply.runs).map(|run| run.part));
    }
    parts
}

/// Whether two edges are sewn into the same seam across layers, or to the same third part.
pub(super) fn caught(partners: &IdMap<SeamId, IdSet<PartId>>, one: &EdgeFate, other: &EdgeFate) -> bool {
    let seams = |fate: &EdgeFate| -> Vec<SeamId> {
        let found = fate.takers.iter().filter_map(|taker| match taker.what {
            TakenBy::Seam(id, _) => Some(id),
            _ => None,
        });
        found.collect()
    };
    seams(one).iter().any(|a| {
        seams(other).iter().any(|b| match (partners.get(a), partners.get(b)) {
            // One seam that is sewn in each layer by itself does not hold the layers together.
            (Some(_), Some(_)) if a == b => false,
            (Some(one), Some(other)) => !one.is_disjoint(other),
            _ => false,
        })
    })
}

fn short(
    garment: &Garment,
    sized: &SizedGarment,
    partners: &IdMap<SeamId, IdSet<PartId>>,
    (outer, shell): (&SewnPart, &DrawnPiece),
    (part, lining): (&SewnPart, &DrawnPiece),
) -> Option<Finding> {
    let unit = garment.unit;
    let mut worst: Option<(f64, f64, DrawnEdgeId)> = None;
    for (at, edge) in DrawnEdgeId::enumerate(&lining.edges) {
        let mut shell_edges = DrawnEdgeId::enumerate(&shell.edges);
        let Some((same, _)) = shell_edges.find(|(_, other)| other.edge == edge.edge) else { continue };
        let sides = [(shell, outer, same), (lining, part, at)]
            .map(|(drawn, part, at)| [drawn.before(at), drawn.after(at)].map(|near| part.fate(near)));
        let [[Some(before), Some(after)], [Some(lining_before), Some(lining_after)]] = sides else {
            continue;
        };
        if !caught(partners, before, lining_before) || !caught(partners, after, lining_after) {
            continue;
        }
        let (Some(outside), Some(inside)) = (finished(garment, shell, same), finished(garment, lining, at))
        else {
            continue;
        };
        if outside - inside > garment.tolerance && worst.is_none_or(|(a, b, _)| outside - inside > a - b) {
            worst = Some((outside, inside, at));
        }
    }
    let (outside, inside, at) = worst?;
    let edge = lining.edge_at(at)?;
    let by = amount(outside - inside, unit);
    let layer = |part: &SewnPart| garment.layer(part.part.layer).name.clone();
    let (of_lining, of_shell) = (layer(part), layer(outer));
    let title = Title::new(format!(
        "{} in {of_lining} is {by} shorter than in {of_shell} along {}",
        words::piece(garment, part.part.piece),
        garment.edge(edge.edge).name
    ))
    .in_sizes()
    .then(", and both are caught at its ends");
    let size = in_size(garment, sized);
    let place = edge.touched.last().map_or(garment.edge(edge.edge).span, |&id| garment.alteration(id).span);
    let mistake = Diagnostic::new(&catalogue::LINING_SHORT, place, title)
        .label(format!("{of_lining}: {}{size}", amount(inside, unit)))
        .also(garment.layer(outer.part.layer).span, format!("{of_shell}: {}{size}", amount(outside, unit)))
        .help(format!("a lining is as long as the outer, or a little longer: give it {by} back"));
    let finding = Finding::new(sized.size, outside - inside, mistake)
        .about(format!("{} {of_lining}", garment.piece(part.part.piece).name))
        .figure(&of_shell, amount(outside, unit))
        .figure(&of_lining, amount(inside, unit));
    Some(finding)
}
