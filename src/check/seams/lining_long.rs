//! `lining/long`: a lining that hangs out below the outer, held at its upper edge and hemmed by itself.

use super::lining::{caught, sewn_parts};
use super::sides::in_size;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, PieceId, SeamId};
use crate::id_hash::{IdMap, IdSet};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece, finished};
use crate::sewing::{EdgeFate, PartId, SewnPart, TakenBy};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::LINING_LONG], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut of_piece: IdMap<PieceId, &SewnPart> = IdMap::default();
    let mut partners: Option<IdMap<SeamId, IdSet<PartId>>> = None;
    for part in size.sewn.parts.iter().filter(|part| !part.fused) {
        let Some(&outer) = of_piece.get(&part.part.piece) else {
            of_piece.insert(part.part.piece, part);
            continue;
        };
        // Cut from one paper, they are alike.
        if outer.part.paper == part.part.paper || outer.part.layer == part.part.layer {
            continue;
        }
        let partners = partners.get_or_insert_with(|| sewn_parts(&size.sewn));
        let drawn = |part: &SewnPart| size.drawn.paper(part.part.paper);
        if let (Some(shell), Some(lining)) = (drawn(outer), drawn(part)) {
            // One alteration of several pieces is told once, of the one that it makes longest.
            let found = long(garment, size, partners, (outer, shell), (part, lining));
            if let Some(found) = found {
                let same = findings.iter().position(|told| told.diagnostic.span() == found.diagnostic.span());
                match same.and_then(|at| findings.get_mut(at)) {
                    Some(told) if told.weight < found.weight => *told = found,
                    Some(_) => {}
                    None => findings.push(found),
                }
            }
        }
    }
}

/// Whether two edges are held together: in one seam across the layers, or each in one with the same third part.
fn held(
    size: &WorkedSize,
    partners: &IdMap<SeamId, IdSet<PartId>>,
    [one, other]: [(&SewnPart, DrawnEdgeId); 2],
) -> bool {
    let fates = one.0.fate(one.1).zip(other.0.fate(other.1));
    let is_in_one = || {
        size.sewn.seams.iter().any(|sewn| {
            let runs = || {
                let plies = sewn.first.plies.iter().chain(&sewn.second.plies);
                plies.flat_map(|ply| &ply.runs)
            };
            let has = |(part, edge): (&SewnPart, DrawnEdgeId)| {
                runs().any(|run| run.edge == edge && std::ptr::eq(size.sewn.part(run.part), part))
            };
            has(one) && has(other)
        })
    };
    fates.is_some_and(|(one, other)| caught(partners, one, other)) || is_in_one()
}

fn long(
    garment: &Garment,
    size: &WorkedSize,
    partners: &IdMap<SeamId, IdSet<PartId>>,
    (outer, shell): (&SewnPart, &DrawnPiece),
    (part, lining): (&SewnPart, &DrawnPiece),
) -> Option<Finding> {
    let unit = garment.unit;
    let is_free = |fate: Option<&EdgeFate>| {
        fate.is_some_and(|fate| {
            !fate.takers.is_empty()
                && fate.takers.iter().all(|taker| matches!(taker.what, TakenBy::Finish(_)))
        })
    };
    let mut worst: Option<(f64, f64, DrawnEdgeId, DrawnEdgeId)> = None;
    for (at, edge) in DrawnEdgeId::enumerate(&lining.edges) {
        let mut shell_edges = DrawnEdgeId::enumerate(&shell.edges);
        let Some((same, _)) = shell_edges.find(|(_, other)| other.edge == edge.edge) else { continue };
        let ends = [[shell.before(same), shell.after(same)], [lining.before(at), lining.after(at)]];
        let [[before, after], [lining_before, lining_after]] = ends;
        let is_hem = |one: DrawnEdgeId, other: DrawnEdgeId| {
            let named = |drawn: &DrawnPiece, at| drawn.edge_at(at).map(|edge| edge.edge);
            named(shell, one) == named(lining, other) && is_free(outer.fate(one)) && is_free(part.fate(other))
        };
        let is_held = |one, other| held(size, partners, [(outer, one), (part, other)]);
        let hem = if is_hem(before, lining_before) && is_held(after, lining_after) {
            lining_before
        } else if is_hem(after, lining_after) && is_held(before, lining_before) {
            lining_after
        } else {
            continue;
        };
        let lengths = finished(garment, shell, same).zip(finished(garment, lining, at));
        let Some((outside, inside)) = lengths else { continue };
        if inside - outside > garment.tolerance && worst.is_none_or(|(a, b, ..)| inside - outside > b - a) {
            worst = Some((outside, inside, at, hem));
        }
    }
    let (outside, inside, at, hem) = worst?;
    let edge = lining.edge_at(at)?;
    let by = amount(inside - outside, unit);
    let layer = |part: &SewnPart| garment.layer(part.part.layer).name.clone();
    let (of_lining, of_shell) = (layer(part), layer(outer));
    let title = Title::new(format!(
        "{} in {of_lining} hangs {by} out below that in {of_shell} at the {}",
        words::piece(garment, part.part.piece),
        garment.edge(lining.edge_at(hem)?.edge).name
    ))
    .in_sizes();
    let in_size = in_size(garment, &size.drawn);
    let place = edge.touched.last().map_or(garment.edge(edge.edge).span, |&id| garment.alteration(id).span);
    let warning = Diagnostic::new(&catalogue::LINING_LONG, place, title)
        .label(format!("{of_lining}: {}{in_size}", amount(inside, unit)))
        .also(garment.layer(outer.part.layer).span, format!("{of_shell}: {}{in_size}", amount(outside, unit)))
        .help(format!("shorten it by {by} and a little more; or, if it is to show, nothing needs to change"));
    let finding = Finding::new(size.id(), inside - outside, warning)
        .about(format!("{} {of_lining}", garment.piece(part.part.piece).name))
        .figure(&of_shell, amount(outside, unit))
        .figure(&of_lining, amount(inside, unit));
    Some(finding)
}
