//! `edge/unjoined`: two edges that are overlocked beside one another and joined nowhere, so that a seam seems to be
//! forgotten: another layer has it; or what lies between them is a hole, closed at both of its ends.

use super::runs_on::angle_at;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, FinishId, FinishKind, Garment, Layer, LayerId, PieceId, Seam, SewnEdge};
use crate::report::{Diagnostic, Finding, amount, catalogue};
use crate::resolve::{DrawnEdge, DrawnPiece};
use crate::sewing::surface::{Rim, SideId, Surface};
use crate::sewing::{PartId, TakenBy};
use crate::source::Span;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::EDGE_UNJOINED], run: Run::PerSize(run) };

/// Round the end of a hole lies cloth with so much angle, in degrees: round it all are 360, and 180 where a hem runs on over
/// a seam.
const ALL_ROUND: f64 = 270.0;

/// An edge that is overlocked and nothing else.
struct Left {
    part: PartId,
    edge: EdgeId,
    finish: Span,
    long: f64,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.incomplete.sewing || !garment.finishes.iter().any(|one| leaves_it_open(&one.kind)) {
        return;
    }
    let mut told: Vec<[EdgeId; 2]> = Vec::new();
    for sewn in &size.sewn.seams {
        let seam = garment.seam(sewn.seam);
        let Some([one, other]) = single_edges(seam) else { continue };
        for (layer, _) in
            LayerId::enumerate(&garment.layers).filter(|(layer, _)| !sewn.layers.contains(layer))
        {
            let [Some(one), Some(other)] = [one, other].map(|edge| left_in(garment, size, layer, edge))
            else {
                continue;
            };
            let pair = [one.edge, other.edge];
            if !told.contains(&pair) {
                told.push(pair);
                findings.push(in_another_layer(garment, size, seam, &sewn.layers, layer, &one, &other));
            }
        }
    }
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    for rim in size.sewn.gluing.rims(surface) {
        let Some([one, other]) = both_sides(garment, size, surface, &rim) else { continue };
        let pair = [one.edge.min(other.edge), one.edge.max(other.edge)];
        let is_told = |known: &[EdgeId; 2]| known.iter().all(|edge| pair.contains(edge));
        if !told.iter().any(is_told) {
            told.push(pair);
            findings.push(hole(garment, size, &one, &other));
        }
    }
}

/// Whether an edge that has it and is sewn to nothing stays as it hangs.
fn leaves_it_open(kind: &FinishKind) -> bool {
    matches!(kind, FinishKind::Overlocked | FinishKind::Raw)
}

/// Of a seam of one edge to one.
fn single_edges(seam: &Seam) -> Option<[&SewnEdge; 2]> {
    let only = |chains: &'_ [crate::garment::Chain]| match chains {
        [chain] if chain.edges.len() == 1 => Some(0),
        _ => None,
    };
    only(&seam.first)?;
    only(&seam.second)?;
    let edge = |chains| -> Option<&SewnEdge> { <[crate::garment::Chain]>::first(chains)?.edges.first() };
    Some([edge(&seam.first)?, edge(&seam.second)?])
}

fn drawn_edges(size: &WorkedSize, part: PartId) -> Option<&DrawnPiece> {
    size.drawn.paper(size.sewn.part(part).part.paper)
}

/// Where an edge of the piece is only overlocked in that layer, all of it.
fn left_in(garment: &Garment, size: &WorkedSize, layer: LayerId, sewn: &SewnEdge) -> Option<Left> {
    let is_it = |piece: PieceId, in_layer: LayerId| piece == sewn.piece && in_layer == layer;
    let mut parts = PartId::enumerate(&size.sewn.parts);
    let (part, _) = parts.find(|(_, one)| !one.fused && is_it(one.part.piece, one.part.layer))?;
    let drawn = drawn_edges(size, part)?.edges.iter().find(|own| own.edge == sewn.edge)?;
    left(garment, size, part, drawn)
}

fn left(garment: &Garment, size: &WorkedSize, part: PartId, drawn: &DrawnEdge) -> Option<Left> {
    let at = drawn_edges(size, part)?.edges.iter().position(|own| own.edge == drawn.edge)?;
    let fate = size.sewn.part(part).edges.get(at)?;
    let [taker] = fate.takers.as_slice() else { return None };
    let TakenBy::Finish(id) = taker.what else { return None };
    let finish = garment.finish(id);
    leaves_it_open(&finish.kind).then(|| Left {
        part,
        edge: drawn.edge,
        finish: said_of(garment, id, drawn.edge),
        long: drawn.path.length(),
    })
}

/// Where the edge is named in its finish.
fn said_of(garment: &Garment, id: FinishId, edge: EdgeId) -> Span {
    let finish = garment.finish(id);
    let mut named = finish.edges.iter().filter(|sewn| garment.is_run_of(edge, sewn.edge));
    named.next().map_or(finish.span, |sewn| sewn.span)
}

/// The two edges that a rim consists of, where both are left open and cloth lies round both of its ends.
fn both_sides(garment: &Garment, size: &WorkedSize, surface: &Surface, rim: &Rim) -> Option<[Left; 2]> {
    let mut sides: Vec<SideId> = rim.parts.iter().map(|part| surface.stretch(part.stretch).side).collect();
    sides.sort_unstable();
    sides.dedup();
    let [one, other] = sides.as_slice() else { return None };
    // Of a corner at a fold it is not known; at the other end it is.
    let round = |at_end: bool| {
        let (part, sewn) = (rim.parts.first()?, &size.sewn);
        angle_at(&size.drawn, sewn, surface, &sewn.gluing, part.stretch, at_end)
    };
    let ends = [round(false), round(true)];
    let is_hole = ends.iter().flatten().all(|angle| *angle > ALL_ROUND) && ends.iter().any(Option::is_some);
    let known = |id: SideId| {
        let side = surface.side(id);
        let piece = drawn_edges(size, side.part)?;
        let drawn = piece.edge_at(side.edge)?;
        let is_whole = garment.whole_edge(drawn.edge) == drawn.edge;
        left(garment, size, side.part, drawn).filter(|_| is_whole)
    };
    let (one, other) = (known(*one)?, known(*other)?);
    let are_alike = (one.long - other.long).abs() <= garment.tolerance;
    (is_hole && are_alike && rim.is_free(surface)).then_some([one, other])
}

/// How an edge is called, with its layer where several have its piece.
fn called(garment: &Garment, size: &WorkedSize, left: &Left) -> String {
    let own = size.sewn.part(left.part).part;
    let has = |layer: &&Layer| !layer.fused && layer.pieces.contains(&own.piece);
    let piece = match garment.layers.iter().filter(has).count() {
        0 | 1 => garment.piece(own.piece).name.to_string(),
        _ => garment.part_name(Some(own.layer), own.piece),
    };
    format!("{piece}.{}", garment.edge(left.edge).name)
}

fn in_another_layer(
    garment: &Garment,
    size: &WorkedSize,
    seam: &Seam,
    sewn_in: &[LayerId],
    layer: LayerId,
    one: &Left,
    other: &Left,
) -> Finding {
    let [first, second] = [one, other].map(|left| called(garment, size, left));
    let layers: Vec<String> = sewn_in.iter().map(|id| garment.layer(*id).name.to_string()).collect();
    let (layers, own) = (words::listed(&layers), &garment.layer(layer).name);
    let title = match first == second {
        true => {
            format!(
                "{first} is overlocked and joined to nothing, though {} joins it in {layers}",
                seam.words()
            )
        }
        false => format!(
            "{first} and {second} are overlocked and joined to nothing, though {} joins them in {layers}",
            seam.words()
        ),
    };
    let advice = Diagnostic::new(&catalogue::EDGE_UNJOINED, one.finish, title)
        .label("stays open")
        .also(seam.name_span, format!("sewn in {layers} alone"))
        .help(format!(
            "name the edges of {} without their layers, so that it is sewn in {own} too, and take the finish out; if it is to \
             stay open there, nothing needs to change",
            seam.words()
        ));
    Finding::new(size.id(), one.long, advice).about(first)
}

fn hole(garment: &Garment, size: &WorkedSize, one: &Left, other: &Left) -> Finding {
    let [first, second] = [one, other].map(|left| called(garment, size, left));
    let what = match first == second {
        true => format!("the left and the right {first}"),
        false => format!("{first} and {second}"),
    };
    let title = format!("{what} are overlocked and joined to nothing: between them stays a hole");
    let long = amount(one.long, garment.unit);
    let advice = Diagnostic::new(&catalogue::EDGE_UNJOINED, one.finish, title)
        .label(format!("{long} long, and closed at both ends"))
        .help(format!(
            "sew them together, seam a_name {first} to {second}, and take the finish out; if the hole is meant, as for a hand, \
             nothing needs to change"
        ));
    Finding::new(size.id(), one.long, advice).about(first).figure("long", long)
}
