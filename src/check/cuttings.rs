//! `cutting/corner` and `cutting/allowance` of pieces drawn as they are cut: corners that the rules of cutting would
//! make otherwise, and layers with allowances of their own.

use super::{Check, Run, words};
use crate::cutting::{Redrawn, WorkedSize, redrawn_corners};
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnCut, DrawnPiece};
use crate::sewing::{EdgeFate, SewnPart, TakenBy};

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::CUTTING_CORNER, &catalogue::CUTTING_ALLOWANCE], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for sewn in size.sewn.parts.iter().filter(|sewn| !sewn.fused) {
        let Some(drawn) = size.drawn.paper(sewn.part.paper) else { continue };
        if garment.paper(sewn.part.paper).alterations.is_empty() {
            findings.extend(other_width(garment, size, sewn, drawn));
        }
        for corner in redrawn_corners(garment, drawn, sewn) {
            findings.extend(finding(garment, size, sewn, drawn, corner));
        }
    }
}

/// An edge whose allowance in this layer is not the one that it was drawn with.
fn other_width(garment: &Garment, size: &WorkedSize, sewn: &SewnPart, drawn: &DrawnPiece) -> Option<Finding> {
    let mut edges = drawn.drawn_cut()?.iter().zip(&drawn.edges).zip(&sewn.edges);
    let differs = |cut: &DrawnCut, fate: &EdgeFate| {
        fate.allowance.is_some_and(|allowance| (allowance - cut.width).abs() > SAME)
    };
    let ((cut, edge), fate) = edges.find(|((cut, _), fate)| differs(cut, fate))?;
    let (name, by) = (&garment.edge(edge.edge).name, (fate.allowance? - cut.width).abs());
    let (drawn_with, own) = (amount(cut.width, garment.unit), amount(fate.allowance?, garment.unit));
    let part = garment.part_name(Some(sewn.part.layer), sewn.part.piece);
    let title = Title::new(format!("{part}.{name} is drawn with its allowance on, and two are said"))
        .in_sizes()
        .then(format!(": {drawn_with} and {own}"));
    let mut mistake = Diagnostic::new(&catalogue::CUTTING_ALLOWANCE, garment.edge(edge.edge).span, title)
        .label(format!("sewn {drawn_with} inside this"));
    if let Some(said) = fate.allowance_span {
        mistake = mistake.also(said, own);
    }
    let mistake =
        mistake.help(format!("give {name} one allowance; or draw a piece of its own for this layer"));
    Some(Finding::new(size.drawn.size, by, mistake).about(format!("{part} {name}")))
}

/// Allowances that differ by no more than this, in millimetres, are one.
const SAME: f64 = 0.05;

fn finding(
    garment: &Garment,
    size: &WorkedSize,
    sewn: &SewnPart,
    drawn: &DrawnPiece,
    corner: Redrawn,
) -> Option<Finding> {
    let after = drawn.after(corner.before);
    let edge = |at| drawn.edge_at(at).map(|edge| edge.edge);
    let (one, other) = (edge(corner.before)?, edge(after)?);
    let piece = garment.piece(sewn.part.piece);
    let (own, next) = (&garment.edge(one).name, &garment.edge(other).name);
    let by = amount(corner.by, garment.unit);
    let title = format!(
        "the corner of {own} and {next} of {} cannot be undone: it would be cut {by} off what is drawn",
        words::piece(garment, sewn.part.piece)
    );
    let said = piece.corners.iter().find(|said| {
        let pair = (said.first, said.second);
        pair == (one, other) || pair == (other, one)
    });
    let mut turned = [corner.before, after].into_iter().filter_map(|at| sewn.fate(at));
    let turned = turned.find(|fate| fate.turned_up).into_iter().flat_map(|fate| &fate.takers);
    let mut finishes = turned.filter_map(|taker| match taker.what {
        TakenBy::Finish(id) => Some(garment.finish(id)),
        _ => None,
    });
    let mut mistake =
        Diagnostic::new(&catalogue::CUTTING_CORNER, garment.edge(one).span, Title::new(title).in_sizes())
            .label("from here")
            .also(garment.edge(other).span, "to here");
    mistake = match (said, finishes.next()) {
        (Some(said), _) => mistake.also(said.span, "cut like this"),
        (None, Some(finish)) => {
            mistake.also(finish.kind_span, "turned up, its end is cut as its mirror image")
        }
        (None, None) => mistake,
    };
    let mistake = match corner.mitred {
        true => mistake.help(format!(
            "write corner {own}/{next} mitred, if both edges are cut straight on until they meet; or draw the outline as it is sewn"
        )),
        false => mistake.help("it is too sharp to be cut to its point: draw the outline as it is sewn"),
    };
    let subject = garment.part_name(Some(sewn.part.layer), sewn.part.piece);
    Some(Finding::new(size.drawn.size, corner.by, mistake).about(format!("{subject} {own} {next}")))
}
