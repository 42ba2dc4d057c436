//! `alter/adjust-alone` and `alter/adjust-uneven`: of two pieces that are sewn together the one alone has a line at which
//! makers are to lengthen or shorten, or the lines of both meet their seam at different heights.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, PieceId};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::DrawnPiece;
use crate::sewing::{SewnRun, SewnSeam};
use crate::shape::Point;
use crate::source::Span;
use indexmap::IndexMap;
use std::collections::HashSet;

pub(super) static CHECK: Check = Check {
    kinds: &[&catalogue::ALTER_ADJUST_ALONE, &catalogue::ALTER_ADJUST_UNEVEN],
    run: Run::PerSize(run),
};

/// A line no further from an edge than this ends on it, in millimetres.
const ON_EDGE: f64 = 1.0;
/// Lines that meet a seam no further apart than this, in millimetres, meet: what is drawn at a round figure on a slant.
const APART: f64 = 5.0;

/// A line of a piece, and the pieces sewn to it there that have none.
type Alone = (EdgeId, Vec<PieceId>);

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if !garment.edges.iter().any(|edge| edge.adjust) {
        return;
    }
    // A lining has its line from where that is drawn: of one line one message.
    let mut alone: IndexMap<Span, Alone> = IndexMap::new();
    let mut uneven: HashSet<[PieceId; 2]> = HashSet::new();
    let known = |sewn: &&SewnSeam| sewn.known && sewn.unpaired.is_none() && sewn.unmet.is_none();
    for sewn in size.sewn.seams.iter().filter(known) {
        let ([first], [second]) = (sewn.first.plies.as_slice(), sewn.second.plies.as_slice()) else {
            continue;
        };
        // What is eased in, or made of other runs, has no height in common.
        if first.runs.len() != second.runs.len() || garment.seam(sewn.seam).fit.is_some() {
            continue;
        }
        for (one, other) in first.runs.iter().zip(&second.runs) {
            let part = |run: &SewnRun| size.sewn.part(run.part).part;
            if part(one).piece == part(other).piece || part(one).layer != part(other).layer {
                continue;
            }
            let lines = [one, other].map(|run| heights(garment, size, run));
            // A run is a part of its edge: a pocket bag in a side seam grows with neither.
            let is_whole = [one, other].into_iter().all(|run| !is_portion(garment, size, run));
            for (own, beside, without) in [(&lines[0], &lines[1], other), (&lines[1], &lines[0], one)] {
                if let (Some(&(line, _)), true) = (own.first(), beside.is_empty() && is_whole) {
                    let (_, pieces) =
                        alone.entry(garment.edge(line).span).or_insert_with(|| (line, Vec::new()));
                    if !pieces.contains(&part(without).piece) {
                        pieces.push(part(without).piece);
                    }
                }
            }
            let pair = [part(one).piece, part(other).piece];
            if let Some((lines, apart)) = first_apart(&lines[0], &lines[1])
                && uneven.insert(pair)
                && uneven.insert([pair[1], pair[0]])
            {
                findings.push(uneven_lines(garment, size, sewn, lines, apart));
            }
        }
    }
    findings.extend(alone.values().map(|(line, others)| lone_line(garment, size, *line, others)));
}

fn drawn<'a>(size: &'a WorkedSize, run: &SewnRun) -> Option<&'a DrawnPiece> {
    size.drawn.paper(size.sewn.part(run.part).part.paper)
}

fn is_portion(garment: &Garment, size: &WorkedSize, run: &SewnRun) -> bool {
    let edge = drawn(size, run).and_then(|drawn| drawn.edge_at(run.edge));
    edge.is_some_and(|edge| garment.is_portion(edge.edge))
}

/// Of as many lines on either side the first that meets no line of the other, with the nearest of them and how far off
/// that is.
fn first_apart(own: &[(EdgeId, f64)], beside: &[(EdgeId, f64)]) -> Option<([EdgeId; 2], f64)> {
    if own.len() != beside.len() {
        return None;
    }
    own.iter().find_map(|&(line, height)| {
        let off = |at: f64| (at - height).abs();
        let &(near, at) = beside.iter().min_by(|one, other| off(one.1).total_cmp(&off(other.1)))?;
        (off(at) > APART).then_some(([line, near], off(at)))
    })
}

/// The lines to adjust at that end inside a run, and how far from where it is sewn from.
fn heights(garment: &Garment, size: &WorkedSize, run: &SewnRun) -> Vec<(EdgeId, f64)> {
    let Some(drawn) = drawn(size, run) else { return Vec::new() };
    let Some(path) = drawn.edge_at(run.edge).map(|edge| &edge.path) else { return Vec::new() };
    let long = path.length();
    let height = |end: Point| {
        let near = path.nearest(end);
        let is_inside = near.distance <= ON_EDGE && near.at > ON_EDGE && near.at < long - ON_EDGE;
        is_inside.then_some(if run.reversed { long - near.at } else { near.at })
    };
    let lines = drawn.lines.iter().filter(|line| garment.is_to_adjust(line.edge));
    lines
        .filter_map(|line| {
            Some((line.edge, [line.path.start(), line.path.end()].into_iter().find_map(height)?))
        })
        .collect()
}

fn uneven_lines(
    garment: &Garment,
    size: &WorkedSize,
    sewn: &SewnSeam,
    lines: [EdgeId; 2],
    apart: f64,
) -> Finding {
    let seam = garment.seam(sewn.seam);
    let [one, other] = lines.map(|line| garment.edge(line));
    let [own, beside] = [one, other].map(|line| words::piece(garment, line.piece));
    let by = amount(apart, garment.unit);
    let title = Title::new(format!(
        "the lines to lengthen or shorten at of {own} and {beside} meet {} {by} apart",
        seam.words()
    ))
    .in_sizes();
    let advice = Diagnostic::new(&catalogue::ALTER_ADJUST_UNEVEN, one.span, title)
        .label(format!("on {own}"))
        .also(other.span, format!("on {beside}"))
        .also(seam.name_span, "sewn together here")
        .help("draw both as high on the seam: what is taken out of the one is then taken out of the other at the same place");
    let about = format!("{} {}", garment.piece(one.piece).name, garment.piece(other.piece).name);
    Finding::new(size.id(), apart, advice).about(about).figure("apart", by)
}

fn lone_line(garment: &Garment, size: &WorkedSize, line: EdgeId, others: &[PieceId]) -> Finding {
    let line = garment.edge(line);
    let own = words::piece(garment, line.piece);
    let names: Vec<String> = others.iter().map(|&beside| words::piece(garment, beside)).collect();
    let title = format!(
        "{own} is lengthened or shortened at {}, and {}, sewn to it there, {} no such line",
        line.name,
        words::listed(&names),
        if names.len() == 1 { "has" } else { "have" }
    );
    let mut advice =
        Diagnostic::new(&catalogue::ALTER_ADJUST_ALONE, line.span, title).label(format!("on {own} alone"));
    for &beside in others {
        advice = advice.also(garment.piece(beside).span, "nothing to adjust at");
    }
    let first = others.first().map_or("the other", |&beside| &*garment.piece(beside).name);
    let advice = advice
        .help(format!("draw one in {first} too, as high on the seam: line {} across at … adjust", line.name));
    let about = format!("{} {}", garment.piece(line.piece).name, line.name);
    Finding::new(size.id(), 0.0, advice).about(about)
}
