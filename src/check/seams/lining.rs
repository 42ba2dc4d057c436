//! `lining/short` and `lining/sags`: a lining that is shorter than the outer between two places where both are held, or far longer.

use super::lining_long::{held, told_once};
use super::sides::in_size;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Catcher, FinishKind, Garment, PieceId, SeamId};
use crate::id_hash::{IdMap, IdSet};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece, finished};
use crate::sewing::{EdgeFate, PartId, Sewing, SewnPart, TakenBy};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::LINING_SHORT, &catalogue::LINING_SAGS], run: Run::PerSize(run) };

/// A lining may be longer than the outer between two places by so much, in millimetres, …
const EASE: f64 = 10.0;
/// … and by this share of it besides: the fold that a coat's lining has above its hem is some 2 cm (common practice).
const SHARE: f64 = 0.05;

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
        if let (Some(shell), Some(lining)) = (drawn(outer), drawn(part))
            && let Some(found) = held_at_both_ends(garment, size, partners, (outer, shell), (part, lining))
        {
            told_once(findings, found);
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

/// Whether two edges are sewn into the same seam across layers, or to the same third part; or one is turned under onto a seam
/// or a zip of the other.
pub(super) fn caught(
    garment: &Garment,
    partners: &IdMap<SeamId, IdSet<PartId>>,
    one: &EdgeFate,
    other: &EdgeFate,
) -> bool {
    let seams = |fate: &EdgeFate| -> Vec<SeamId> {
        let found = fate.takers.iter().filter_map(|taker| match taker.what {
            TakenBy::Seam(id, _) => Some(id),
            _ => None,
        });
        found.collect()
    };
    let is_onto = |own: &EdgeFate, other: &EdgeFate| {
        own.takers.iter().any(|taker| match taker.what {
            TakenBy::Finish(id) => match garment.finish(id).kind {
                FinishKind::TurnedUnderOnto(Catcher::Seam(seam)) => seams(other).contains(&seam),
                FinishKind::TurnedUnderOnto(Catcher::Closure(zip)) => {
                    other.takers.iter().any(|taker| taker.what == TakenBy::Closure(zip))
                }
                _ => false,
            },
            _ => false,
        })
    };
    if is_onto(one, other) || is_onto(other, one) {
        return true;
    }
    seams(one).iter().any(|a| {
        seams(other).iter().any(|b| match (partners.get(a), partners.get(b)) {
            // One seam that is sewn in each layer by itself does not hold the layers together.
            (Some(_), Some(_)) if a == b => false,
            (Some(one), Some(other)) => !one.is_disjoint(other),
            _ => false,
        })
    })
}

fn held_at_both_ends(
    garment: &Garment,
    size: &WorkedSize,
    partners: &IdMap<SeamId, IdSet<PartId>>,
    (outer, shell): (&SewnPart, &DrawnPiece),
    (part, lining): (&SewnPart, &DrawnPiece),
) -> Option<Finding> {
    let unit = garment.unit;
    let mut worst: Option<(f64, f64, DrawnEdgeId)> = None;
    for (at, edge) in DrawnEdgeId::enumerate(&lining.edges) {
        let mut shell_edges = DrawnEdgeId::enumerate(&shell.edges);
        let Some((same, _)) = shell_edges.find(|(_, other)| other.edge == edge.edge) else { continue };
        let is_held = |one: DrawnEdgeId, other: DrawnEdgeId| {
            held(garment, size, partners, [(outer, one), (part, other)])
        };
        if !is_held(shell.before(same), lining.before(at)) || !is_held(shell.after(same), lining.after(at)) {
            continue;
        }
        let (Some(outside), Some(inside)) = (finished(garment, shell, same), finished(garment, lining, at))
        else {
            continue;
        };
        let (off, may) = match outside - inside {
            less if less > 0.0 => (less, garment.tolerance),
            more => (-more, EASE + SHARE * outside),
        };
        if off > may && worst.is_none_or(|(a, b, _)| off > (a - b).abs()) {
            worst = Some((outside, inside, at));
        }
    }
    let (outside, inside, at) = worst?;
    let edge = lining.edge_at(at)?;
    let by = amount((outside - inside).abs(), unit);
    let is_short = outside > inside;
    let layer = |part: &SewnPart| garment.layer(part.part.layer).name.clone();
    let (of_lining, of_shell) = (layer(part), layer(outer));
    let title = Title::new(format!(
        "{} in {of_lining} is {by} {} than in {of_shell} along {}",
        words::piece(garment, part.part.piece),
        if is_short { "shorter" } else { "longer" },
        garment.edge(edge.edge).name
    ))
    .in_sizes()
    .then(", and both are held at its ends");
    let in_size = in_size(garment, &size.drawn);
    let place = edge.touched.last().map_or(garment.edge(edge.edge).span, |&id| garment.alteration(id).span);
    let kind = if is_short { &catalogue::LINING_SHORT } else { &catalogue::LINING_SAGS };
    let found = Diagnostic::new(kind, place, title)
        .label(format!("{of_lining}: {}{in_size}", amount(inside, unit)))
        .also(garment.layer(outer.part.layer).span, format!("{of_shell}: {}{in_size}", amount(outside, unit)))
        .help(match is_short {
            true => format!("a lining is as long as the outer, or a little longer: give it {by} back"),
            false => format!("a lining is as long as the outer, or a little longer: shorten it by {by}, or by a little less"),
        });
    let finding = Finding::new(size.id(), (outside - inside).abs(), found)
        .about(format!("{} {of_lining}", garment.piece(part.part.piece).name))
        .figure(&of_shell, amount(outside, unit))
        .figure(&of_lining, amount(inside, unit));
    Some(finding)
}
