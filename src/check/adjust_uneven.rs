//! `alter/adjust-uneven`: lines to lengthen or shorten at, of two pieces that are sewn together, that meet their seam at
//! different heights.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, PieceId};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::{SewnRun, SewnSeam};
use crate::shape::Point;
use std::collections::HashSet;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::ALTER_ADJUST_UNEVEN], run: Run::PerSize(run) };

/// A line no further from an edge than this ends on it, in millimetres.
const ON_EDGE: f64 = 1.0;
/// Lines that meet a seam no further apart than this, in millimetres, meet: what is drawn at a round figure on a slant.
const APART: f64 = 5.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if !garment.edges.iter().any(|edge| edge.adjust) {
        return;
    }
    let mut told: HashSet<(PieceId, PieceId)> = HashSet::new();
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
            let (own, beside) = (heights(garment, size, one), heights(garment, size, other));
            for &(line, height) in &own {
                let nearest =
                    beside.iter().min_by(|a, b| (a.1 - height).abs().total_cmp(&(b.1 - height).abs()));
                let Some(&(near, at)) = nearest.filter(|_| own.len() == beside.len()) else { continue };
                let pair = (part(one).piece, part(other).piece);
                if (at - height).abs() > APART && told.insert(pair) && told.insert((pair.1, pair.0)) {
                    findings.push(reported(garment, size, sewn, [line, near], (at - height).abs()));
                }
            }
        }
    }
}

/// The lines to adjust at that end inside a run, and how far from where it is sewn from.
fn heights(garment: &Garment, size: &WorkedSize, run: &SewnRun) -> Vec<(EdgeId, f64)> {
    let paper = size.sewn.part(run.part).part.paper;
    let Some(drawn) = size.drawn.paper(paper) else { return Vec::new() };
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

fn reported(
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
