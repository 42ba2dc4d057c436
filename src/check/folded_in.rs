//! `fold/inside`: what is to be sewn, closed or finished along an edge that lies inside a piece folded in four.

use super::{Check, Run, words};
use crate::garment::{EdgeId, FinishKind, FoldOver, Garment, SewnEdge};
use crate::report::{Diagnostic, catalogue};
use crate::sewing::seam_edges;
use crate::source::Span;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::FOLD_INSIDE], run: Run::Once(run) };

/// An edge where something is done along it.
type Use = (EdgeId, Span, &'static str);

fn run(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    if garment.pieces.iter().all(|piece| piece.folds.iter().all(|over| !over.in_four)) {
        return;
    }
    let mut told: Vec<EdgeId> = Vec::new();
    for (edge, span, what) in uses(garment) {
        let folds = garment.piece(garment.edge(edge).piece).folds.iter();
        let inside = |over: &&FoldOver| over.in_four && over.is_of(garment, edge);
        let Some(over) = folds.into_iter().find(inside) else { continue };
        if told.contains(&edge) {
            continue;
        }
        told.push(edge);
        let of = words::edge(garment, edge);
        let name = &garment.edge(edge).name;
        let title = format!("{of} lies inside the fold, and {what}");
        diagnostics.push(
            Diagnostic::new(&catalogue::FOLD_INSIDE, span, title)
                .label("not to be reached")
                .also(over.span, "both edges are brought to the middle here, and then shut in")
                .help(format!(
                    "say nothing more of {name}: it is neither sewn nor finished; or fold the piece once, without in four"
                )),
        );
    }
}

fn uses(garment: &Garment) -> Vec<Use> {
    let mut uses: Vec<Use> = Vec::new();
    let mut put = |sewn: &SewnEdge, what| uses.push((sewn.edge, sewn.span, what));
    for seam in &garment.seams {
        seam_edges(seam).for_each(|sewn| put(sewn, "is sewn into a seam"));
    }
    for finish in garment.finishes.iter().filter(|finish| !matches!(finish.kind, FinishKind::Raw)) {
        finish.edges.iter().for_each(|sewn| put(sewn, "is finished"));
    }
    for closure in &garment.closures {
        let both = closure.first.edges.iter().chain(&closure.second.edges);
        both.for_each(|sewn| put(sewn, "is to be closed"));
    }
    for cord in &garment.cords {
        cord.through.iter().for_each(|sewn| put(sewn, "a cord is to run through it"));
    }
    for placement in &garment.placements {
        let stitched = placement.topstitched.iter().map(|&(edge, span)| (edge, span, "is stitched down"));
        let caught = placement.caught.iter().map(|caught| (caught.edge, caught.span, "is caught in a seam"));
        uses.extend(stitched.chain(caught));
    }
    uses
}
