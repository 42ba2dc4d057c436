//! `alter/adjust-alone`: a line at which makers are to lengthen or shorten, on one of two pieces that are sewn together there.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, PieceId};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece};
use crate::sewing::{PartId, SewnPly, SewnSeam};
use crate::shape::Point;
use crate::source::Span;
use indexmap::IndexMap;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::ALTER_ADJUST_ALONE], run: Run::PerSize(run) };

/// A line no further from an edge than this ends on it, in millimetres.
const ON_EDGE: f64 = 1.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if !garment.edges.iter().any(|edge| edge.adjust) {
        return;
    }
    // A lining has its line from where that is drawn: of one line one message.
    let mut found: IndexMap<Span, Vec<(PieceId, PieceId)>> = IndexMap::new();
    let known = |sewn: &&SewnSeam| sewn.known && sewn.unpaired.is_none() && sewn.unmet.is_none();
    for sewn in size.sewn.seams.iter().filter(known) {
        let ([first], [second]) = (sewn.first.plies.as_slice(), sewn.second.plies.as_slice()) else {
            continue;
        };
        if first.runs.len() != second.runs.len() || garment.seam(sewn.seam).fit.is_some() {
            continue;
        }
        for (own, other) in [(first, second), (second, first)] {
            for at in 0..own.runs.len() {
                let Some(pair) = alone(garment, size, own, other, at) else { continue };
                let Some(line) = line_of(garment, pair.0) else { continue };
                let pairs = found.entry(garment.edge(line).span).or_default();
                if !pairs.iter().any(|known| known.1 == pair.1) {
                    pairs.push(pair);
                }
            }
        }
    }
    findings.extend(found.values().filter_map(|pairs| reported(garment, size, pairs)));
}

/// The line of a piece at which it is adjusted.
fn line_of(garment: &Garment, piece: PieceId) -> Option<EdgeId> {
    garment.piece(piece).edges.iter().copied().find(|&edge| garment.is_to_adjust(edge))
}

/// The piece of a run on which a line to adjust at ends, and the piece that it is sewn to, where that has none there.
fn alone(
    garment: &Garment,
    size: &WorkedSize,
    own: &SewnPly,
    other: &SewnPly,
    at: usize,
) -> Option<(PieceId, PieceId)> {
    let (one, beside) = (own.runs.get(at)?, other.runs.get(at)?);
    let part = |id: PartId| size.sewn.part(id).part;
    let drawn = |id: PartId| size.drawn.paper(part(id).paper);
    let (mine, theirs) = (drawn(one.part)?, drawn(beside.part)?);
    // A run is a part of its edge: a pocket bag in a side seam grows with neither.
    let is_run =
        |drawn: &DrawnPiece, edge| drawn.edge_at(edge).is_some_and(|own| garment.is_portion(own.edge));
    let is_alone = part(one.part).piece != part(beside.part).piece
        && part(one.part).layer == part(beside.part).layer
        && !is_run(mine, one.edge)
        && !is_run(theirs, beside.edge)
        && ends_there(garment, mine, one.edge)
        && !ends_there(garment, theirs, beside.edge);
    is_alone.then_some((part(one.part).piece, part(beside.part).piece))
}

/// Whether a line to adjust at ends on an edge, inside it.
fn ends_there(garment: &Garment, drawn: &DrawnPiece, edge: DrawnEdgeId) -> bool {
    let Some(edge) = drawn.edge_at(edge) else { return false };
    let is_inside = |end: Point| {
        edge.path.nearest(end).distance <= ON_EDGE
            && end.distance(edge.path.start()) > ON_EDGE
            && end.distance(edge.path.end()) > ON_EDGE
    };
    let mut lines = drawn.lines.iter().filter(|line| garment.is_to_adjust(line.edge));
    lines.any(|line| is_inside(line.path.start()) || is_inside(line.path.end()))
}

fn reported(garment: &Garment, size: &WorkedSize, pairs: &[(PieceId, PieceId)]) -> Option<Finding> {
    let &(piece, first) = pairs.first()?;
    let line = garment.edge(line_of(garment, piece)?);
    let own = words::piece(garment, piece);
    let others: Vec<String> = pairs.iter().map(|&(_, beside)| words::piece(garment, beside)).collect();
    let title = format!(
        "{own} is lengthened or shortened at {}, and {}, sewn to it there, {} no such line",
        line.name,
        words::listed(&others),
        if others.len() == 1 { "has" } else { "have" }
    );
    let mut advice =
        Diagnostic::new(&catalogue::ALTER_ADJUST_ALONE, line.span, title).label(format!("on {own} alone"));
    for &(_, beside) in pairs {
        advice = advice.also(garment.piece(beside).span, "nothing to adjust at");
    }
    let advice = advice.help(format!(
        "draw one in {} too, as high on the seam: line {} across at … adjust",
        garment.piece(first).name,
        line.name
    ));
    Some(Finding::new(size.id(), 0.0, advice).about(format!("{} {}", garment.piece(piece).name, line.name)))
}
