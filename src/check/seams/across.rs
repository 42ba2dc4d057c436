//! `seam/across`: ends that are sewn to themselves across a fold, and run across none.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_ACROSS], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let across = size.sewn.stitchings.iter().filter(|stitching| garment.seam(stitching.seam).across_fold);
    for stitching in across {
        let seam = garment.seam(stitching.seam);
        for place in stitching.places() {
            let part = size.sewn.part(place.part).part;
            let Some(drawn) = size.drawn.paper(part.paper) else { continue };
            let Some(edge) = drawn.edge_at(place.edge).filter(|_| !is_across(garment, drawn, place.edge))
            else {
                continue;
            };
            let (title, piece) = (words::piece(garment, part.piece), garment.piece(part.piece));
            let name = &garment.edge(edge.edge).name;
            let (what, help) = match piece.folds.first() {
                Some(fold) => {
                    let (one, other) = (&garment.edge(fold.edge).name, &garment.edge(fold.onto).name);
                    (
                        format!(
                            "{name} of {title} does not run from {one} to {other}, which is folded onto it"
                        ),
                        format!("name an end of it, from {one} to {other}"),
                    )
                }
                None => (
                    format!("{name} of {title} has no fold to be sewn across"),
                    format!(
                        "say in piece {} which edge is folded onto which: folded top to bottom",
                        piece.name
                    ),
                ),
            };
            let mistake = Diagnostic::new(&catalogue::SEAM_ACROSS, place.span, Title::new(what).in_sizes())
                .also(seam.name_span, "across the fold")
                .help(help);
            findings.push(Finding::new(size.drawn.size, 1.0, mistake).about(&*seam.name));
        }
    }
}

/// Whether an edge runs from the one edge of a fold to the other.
fn is_across(garment: &Garment, drawn: &DrawnPiece, edge: DrawnEdgeId) -> bool {
    let beside = [drawn.before(edge), drawn.after(edge)].map(|at| drawn.edge_at(at).map(|edge| edge.edge));
    let [Some(before), Some(after)] = beside else { return false };
    garment.piece(drawn.piece).folds.iter().any(|fold| {
        let is = |one, other| garment.is_run_of(before, one) && garment.is_run_of(after, other);
        is(fold.edge, fold.onto) || is(fold.onto, fold.edge)
    })
}
