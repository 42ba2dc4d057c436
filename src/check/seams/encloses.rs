//! `seam/encloses`: what a seam encloses lies between its sides.

use crate::check::{Check, Run, words};
use crate::garment::{Closure, ClosureKind, Garment, Seam, SewnEdge};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::Fastener;

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::SEAM_ENCLOSES], run: Run::Once(run) };

fn run(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    for seam in garment.seams.iter().filter(|seam| !seam.poisoned) {
        let own: Vec<&SewnEdge> =
            seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges).collect();
        for &(closure, span) in &seam.enclosing {
            let closure = garment.closure(closure);
            if closure.first.edges.is_empty() || closure.second.edges.is_empty() {
                continue; // They could not be found, which has been reported.
            }
            let mut sides = closure.first.edges.iter().chain(&closure.second.edges);
            if let Some(side) = sides.find(|side| own.iter().any(|sewn| is_same(garment, sewn, side))) {
                diagnostics.extend(without_stand(garment, seam, closure, side, span));
                continue;
            }
            let title = format!("{} encloses {}, and none of its edges is in it", seam.words(), closure.name);
            diagnostics.push(
                Diagnostic::new(&catalogue::SEAM_ENCLOSES, span, title)
                    .label("enclosed here")
                    .also(seam.name_span, "the edges of this seam")
                    .also(closure.first.span, "the edges of the closure")
                    .help(
                        "name an edge of the closure on one side of the seam, or take the closure out of it",
                    ),
            );
        }
    }
}

/// Buttons and snaps lie on their edge, with cloth beyond it; a seam there leaves them none.
fn without_stand(
    garment: &Garment,
    seam: &Seam,
    closure: &Closure,
    side: &SewnEdge,
    span: Span,
) -> Option<Diagnostic> {
    let Some(ClosureKind::Fasteners(said)) = &closure.kind else { return None };
    if !matches!(said.kind, Fastener::Button | Fastener::Snap) {
        return None;
    }
    let (many, edge) = (said.kind.many(), words::edge(garment, side.edge));
    let title = format!("{} sews {edge} along the middle of the {many} of {}", seam.words(), closure.name);
    let (piece, name) = (&garment.piece(side.piece).name, &garment.edge(side.edge).name);
    let mistake = Diagnostic::new(&catalogue::SEAM_ENCLOSES, span, title)
        .label(format!("no cloth is left for the {many} to lie on"))
        .also(side.span, "the edge is the line that they lie on")
        .help(format!(
            "draw {piece} wider by what lies beyond the {many}, and close it along a line inside: line button_line …, and name \
             {piece}.button_line in {} in place of {piece}.{name}; only what is sewn in, as a zip, hooks or loops, is enclosed",
            closure.name
        ));
    Some(mistake)
}

/// Whether two names may mean the same edge in the same layer.
fn is_same(garment: &Garment, one: &SewnEdge, other: &SewnEdge) -> bool {
    let layers = one.layer.zip(other.layer).is_none_or(|(one, other)| one == other);
    layers && (garment.is_run_of(one.edge, other.edge) || garment.is_run_of(other.edge, one.edge))
}
