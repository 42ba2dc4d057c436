//! `seam/encloses`: what a seam encloses lies between its sides.

use crate::check::{Check, Run};
use crate::garment::{Garment, SewnEdge};
use crate::report::{Diagnostic, catalogue};

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
            if sides.any(|side| own.iter().any(|sewn| is_same(garment, sewn, side))) {
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

/// Whether two names may mean the same edge in the same layer.
fn is_same(garment: &Garment, one: &SewnEdge, other: &SewnEdge) -> bool {
    let layers = one.layer.zip(other.layer).is_none_or(|(one, other)| one == other);
    layers && (garment.is_run_of(one.edge, other.edge) || garment.is_run_of(other.edge, one.edge))
}
