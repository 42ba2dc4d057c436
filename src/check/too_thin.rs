//! `hem/tiny`: straps, tapes, rows and elastic finer than any that are sewn, and facings cut as strips that turn out again.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Expression, Garment, Outline, PieceId};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::sewing::amount_of;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::HEM_TINY], run: Run::PerSize(run) };

/// A strap that is folded in four has four layers: narrower than this, in millimetres, it is no longer turned (common practice).
const FOLDED_IN_FOUR: f64 = 5.0;
/// The narrowest tape that keeps a seam from stretching, in millimetres (common practice: 5).
const TAPE: f64 = 3.0;
/// The foot of a machine follows an edge at 1 mm at the least, in millimetres.
const ROW: f64 = 0.9;
/// The finest elastic that is bought by the width, in millimetres.
const ELASTIC: f64 = 2.0;
/// Facings are 4 to 7 cm wide, narrow ones 2.5 (common practice): less than this, in millimetres, turns out again.
const FACING: f64 = 15.0;
/// What is less than this is nothing, in millimetres.
const NOTHING: f64 = 0.001;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut look = |what: String, said: &Expression, least: f64, why: &str| {
        let is_thin = |is: &f64| *is > NOTHING && *is < least - NOTHING;
        let Some(is) = amount_of(garment, &size.drawn, said).filter(is_thin) else { return };
        let shown = format!("{} mm", (is * 100.0).round() / 100.0);
        let title = Title::new(format!("{what} is {shown}, less than any that is sewn")).in_sizes();
        let warning = Diagnostic::new(&catalogue::HEM_TINY, said.span, title)
            .label(why.to_owned())
            .help("look at its figure and its unit: a bare number takes the units that the file says");
        findings.push(Finding::new(size.id(), least - is, warning).about(what).figure("is", shown));
    };
    for strap in garment.straps.iter().filter(|strap| strap.in_four && !strap.poisoned) {
        look(
            format!("the width of {}", strap.name),
            &strap.width,
            FOLDED_IN_FOUR,
            "too narrow to be folded in four",
        );
    }
    for seam in garment.seams.iter().filter(|seam| !seam.poisoned) {
        if let Some(width) = seam.tape.as_ref().and_then(|tape| tape.width.as_ref()) {
            look(format!("the tape in {}", seam.name), width, TAPE, "tapes are 5 to 20 mm wide");
        }
    }
    for row in &garment.rows {
        if let Some(distance) = &row.distance {
            look(
                format!("the distance of {}", row.name),
                distance,
                ROW,
                "nearer to the edge than a machine sews",
            );
        }
    }
    for finish in &garment.finishes {
        if let Some((width, _)) = finish.kind.elastic() {
            let edge = finish.edges.first().map_or(String::new(), |sewn| words::edge(garment, sewn.edge));
            look(format!("the elastic of {edge}"), width, ELASTIC, "elastic is 3 mm wide or more");
        }
    }
    // A strip that is cut of the cloth itself faces what it is cut of; one that is only fused stays what it is.
    let is_cut =
        |piece: PieceId| garment.layers.iter().any(|layer| !layer.fused && layer.pieces.contains(&piece));
    for (id, piece) in PieceId::enumerate(&garment.pieces).filter(|(id, _)| is_cut(*id)) {
        // A facing that is said in one line is told by its own depth.
        let is_said = |width: &Expression| garment.depths.iter().any(|depth| depth.amount.span == width.span);
        if let Outline::Strip { width, .. } = &piece.drawing.outline
            && !is_said(width)
        {
            look(
                format!("the width of {}", words::piece(garment, id)),
                width,
                FACING,
                "turns to the outside again",
            );
        }
    }
}
