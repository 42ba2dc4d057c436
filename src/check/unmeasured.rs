//! `measure/tight` where no `measure` says it: lines and edges that bear the name of a girth of the body, and
//! together go round it.
//!
//! A line called `hip_line` on each piece that goes round the hip is a ring where each of its ends lies on a fold,
//! or on an edge that a seam or a closure joins to a piece that has such a line too.

use super::surface::TRUNK;
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, EdgeId, Garment, LayerId, Part, PieceId, Value, ValueId, ValueKind};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue, percent};
use crate::resolve::{DrawnEdgeId, DrawnPiece, SizedGarment, finished, finished_line};
use crate::sewing::{SewnPart, TakenBy, give_along};
use crate::shape::Point;
use crate::shape::path::Path;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::MEASURE_TIGHT], run: Run::PerSize(run) };

/// What comes to less than this share of the body's measure goes only part of the way round.
const ROUND: f64 = 2.0 / 3.0;
/// A line ends on an edge that it comes so near to, in millimetres.
const NEAR: f64 = 1.0;

/// A line across a piece, or an edge, that is named after a girth.
struct Across<'a> {
    part: Part,
    drawn: &'a DrawnPiece,
    edge: EdgeId,
    path: &'a Path,
    /// How long it is as it is sewn.
    long: f64,
    /// The edges that its ends lie on.
    ends: [Option<DrawnEdgeId>; 2],
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.incomplete.sewing {
        return;
    }
    for (id, value) in ValueId::enumerate(&garment.values) {
        if !matches!(value.kind, ValueKind::Body(_))
            || !TRUNK.contains(&&*value.name)
            || is_measured(garment, id)
        {
            continue;
        }
        if !garment.edges.iter().any(|edge| is_named_after(&edge.name, value)) {
            continue;
        }
        let Some(wearer) = size.drawn.scalar(id) else { continue };
        for layer in LayerId::enumerate(&garment.layers).filter(|(_, layer)| !layer.fused).map(|(id, _)| id) {
            // Lines say what an edge of the name only may.
            let found = [true, false].into_iter().find_map(|lines| {
                let all = across(garment, size, layer, value, lines);
                round(garment, size, &all, wearer).map(|(girth, share)| (all, girth, share))
            });
            if let Some((all, girth, share)) = found
                && wearer - girth > garment.tolerance
                && girth * (1.0 + share) < wearer - garment.tolerance
            {
                findings.push(reported(garment, &size.drawn, value, &all, (girth, wearer, share)));
                break;
            }
        }
    }
}

/// Whether the name of an edge or a line has the name of a girth among its words.
fn is_named_after(name: &str, girth: &Value) -> bool {
    name.split('_').any(|word| word == &*girth.name)
}

/// Whether a measure is compared with it; that is told by itself.
fn is_measured(garment: &Garment, body: ValueId) -> bool {
    let against =
        |value: &Value| matches!(&value.kind, ValueKind::Measure { against, .. } if *against == Some(body));
    garment.values.iter().any(against)
}

fn across<'a>(
    garment: &Garment,
    size: &'a WorkedSize,
    layer: LayerId,
    value: &Value,
    lines: bool,
) -> Vec<Across<'a>> {
    let is_named = |edge: EdgeId| is_named_after(&garment.edge(edge).name, value);
    let is_level = |path: &Path| {
        let way = path.end() - path.start();
        way.x.abs() > way.y.abs()
    };
    let mut found = Vec::new();
    for part in garment.parts().into_iter().filter(|part| part.layer == layer) {
        let Some(drawn) = size.drawn.paper(part.paper) else { continue };
        if lines {
            for line in drawn.lines.iter().filter(|line| is_named(line.edge) && is_level(&line.path)) {
                let on = |point: Point| {
                    let mut edges = DrawnEdgeId::enumerate(&drawn.edges);
                    edges.find(|(_, edge)| edge.path.is_near(point, NEAR)).map(|(id, _)| id)
                };
                let ends = [line.path.start(), line.path.end()].map(on);
                let long = finished_line(garment, drawn, line);
                found.push(Across { part, drawn, edge: line.edge, path: &line.path, long, ends });
            }
        } else {
            for (id, edge) in DrawnEdgeId::enumerate(&drawn.edges).filter(|(_, edge)| is_named(edge.edge)) {
                if let Some(long) = finished(garment, drawn, id).filter(|_| is_level(&edge.path)) {
                    let ends = [Some(drawn.before(id)), Some(drawn.after(id))];
                    found.push(Across { part, drawn, edge: edge.edge, path: &edge.path, long, ends });
                }
            }
        }
    }
    found
}

/// How long they are together, on all copies, and how far they stretch as a share of that, if they go round.
fn round(garment: &Garment, size: &WorkedSize, all: &[Across], wearer: f64) -> Option<(f64, f64)> {
    let pieces: Vec<PieceId> = all.iter().map(|one| one.part.piece).collect();
    let (mut girth, mut stretched) = (0.0, 0.0);
    for one in all {
        let on_fold = match one.drawn.cut {
            CutHow::OnFold(fold) => Some(fold),
            CutHow::Alike | CutHow::Mirrored => None,
        };
        let goes_on = |end: Option<DrawnEdgeId>| {
            let Some(edge) = end.and_then(|end| one.drawn.edge_at(end)) else { return false };
            Some(edge.edge) == on_fold || end.is_some_and(|end| is_joined(garment, size, one, end, &pieces))
        };
        if !one.ends.into_iter().all(goes_on) {
            return None;
        }
        let copies = f64::from(one.drawn.count) * if on_fold.is_some() { 2.0 } else { 1.0 };
        let share = give_along(garment, &size.drawn, &one.part, one.path).share()?;
        girth += one.long * copies;
        stretched += one.long * copies * share;
    }
    (girth >= wearer * ROUND).then(|| (girth, stretched / girth))
}

/// Whether a seam or a closure joins an edge to a piece that goes on round.
fn is_joined(
    garment: &Garment,
    size: &WorkedSize,
    one: &Across,
    edge: DrawnEdgeId,
    pieces: &[PieceId],
) -> bool {
    let mut parts = size.sewn.parts.iter().filter(|part: &&SewnPart| part.part == one.part);
    parts.any(|part| {
        part.fate(edge).is_some_and(|fate| {
            fate.takers.iter().any(|taker| match taker.what {
                TakenBy::Seam(seam, second) => {
                    let seam = garment.seam(seam);
                    let other = if second { &seam.first } else { &seam.second };
                    // What lies on it, cut in another layer, closes nothing round.
                    let is_there = |layer: Option<LayerId>| layer.is_none_or(|own| own == one.part.layer);
                    let mut edges = other.iter().flat_map(|chain| &chain.edges);
                    edges.any(|sewn| pieces.contains(&sewn.piece) && is_there(sewn.layer))
                }
                TakenBy::Closure(closure) => {
                    let closure = garment.closure(closure);
                    let both = closure.first.edges.iter().chain(&closure.second.edges);
                    both.map(|sewn| sewn.piece).any(|piece| pieces.contains(&piece))
                }
                _ => false,
            })
        })
    })
}

fn reported(
    garment: &Garment,
    sized: &SizedGarment,
    body: &Value,
    all: &[Across],
    (girth, wearer, share): (f64, f64, f64),
) -> Finding {
    let unit = garment.unit;
    let (is, needs) = (amount(girth, unit), amount(wearer, unit));
    let mut names: Vec<String> = Vec::new();
    for one in all {
        let name = format!("{}.{}", garment.piece(one.part.piece).name, garment.edge(one.edge).name);
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let name = body.name.replace('_', " ");
    let title = Title::new(format!(
        "{} come to {is} all round, less than the {name} of {needs}",
        words::listed(&names)
    ))
    .in_sizes();
    let span = all.first().map_or(garment.heading, |one| garment.edge(one.edge).span);
    let mut advice = Diagnostic::new(&catalogue::MEASURE_TIGHT, span, title)
        .label(match share > 0.005 {
            true => {
                format!("its cloth stretches by {}, to {}", percent(share), amount(girth * (1.0 + share), unit))
            }
            false => "its cloth does not stretch".to_owned(),
        })
        .help(format!(
            "make it at least {}, and more to breathe and move in; or take a cloth that stretches; say what it is to \
             be, so that it is compared in every size: measure {}_finished against {} = total({})",
            at_least(wearer - girth, unit) + " wider",
            body.name,
            body.name,
            names.join(" + ")
        ));
    advice.unshown.extend(all.iter().skip(1).map(|one| garment.edge(one.edge).span));
    Finding::new(sized.size, wearer - girth, advice)
        .about(name)
        .figure("finished", is)
        .figure(&body.name, needs)
}
